"""What a solve came to, as lines of text."""

import math

from ...file.trouble import some_of
from .inputs import FARTHEST
from .words import aligned, number_text

NAMED = 5
"""How many cells that cannot be worked out are named."""

_PROPORTION = (
    f"Limits that nobody gave are in proportion to the corner: a coordinate may move {FARTHEST:g} "
    "tyre radii either way. Others by --within CELL=LOW..HIGH."
)


def report(solution):
    """The table, and what is worth saying besides."""
    lines = [table(solution)]
    if any(one.source == "in proportion" for one in solution.inputs):
        lines += ["", _PROPORTION]
    if solution.fights:
        lines += ["", *solution.fights]
    for message in solution.messages:
        lines += ["", message]
    if solution.lost:
        lines += [
            "",
            "Not worked out here, for the spreadsheet program to do when it opens "
            f"the file: {some_of(solution.lost, NAMED)}.",
        ]
    return "\n".join(lines)


def table(solution):
    """The results before and after, and the movement of each input, as lines of text."""
    rows = [("", "before", "wanted", "after" if solution.met else "nearest")]
    for target, was, now in zip(solution.targets, solution.before, solution.after, strict=True):
        rows.append((target.words, *map(number_text, (was, target.number, now))))
    lines = aligned(rows)
    rows = [("", "before", "after", "moved by", "limits")]
    for one, new in zip(solution.inputs, solution.moved, strict=True):
        end = one.end_at(new)
        rows.append((one.words, *map(number_text, (one.value, new, new - one.value)),
                     _limits_text(one) + (f" (at the {end} one)" if end else "")))  # fmt: skip
    return "\n".join([*lines, "", *aligned(rows)])


def _limits_text(one):
    if math.isinf(one.low) and math.isinf(one.high):
        return "none"
    ends = ["" if math.isinf(end) else number_text(end) for end in (one.low, one.high)]
    return "..".join(ends)
