"""Several inputs of a workbook changed so that several results come to their targets.

`solve` reads what is asked, finds the least movement (`least_movement.py`) and puts it into
the workbook; formulas that follow get their new values, so that every program shows them.
"""

import math

import numpy as np
from openpyxl.utils.cell import coordinate_to_tuple, get_column_letter

from ..file.cell_error import CellError
from ..file.trouble import Trouble
from .least_movement import Problem, can_be_met
from .least_movement import solve as least_movement
from .recalculate import Recalculation, Unknown

TRIED = (1e-4, 1e-2, 0.2)
"""Steps, in scales of an input, in which it must move some result."""

NAMED = 5
"""How many cells that cannot be worked out are named."""


class Input:
    """An input cell that may move: its number now, its limits and its scale.

    low, high: may be infinite. is_given: whether the limits were asked for.
    """

    def __init__(self, cell, words, value, limits, is_given, kind):
        self.cell = cell
        self.words = words
        self.value = value
        self.low, self.high = limits
        self.is_given = is_given
        self.kind = kind
        self.scale = 1.0


class Solution:
    """What was found.

    inputs: `Input`s; targets: [(cell, words, number)]; before, after: results; moved: the
    inputs' new numbers; met: whether every result is at its target; fights: sentences on why
    not; lost: cells that could not be worked out; content: the new file as bytes, or None.
    """

    def __init__(self, inputs, targets, before, outcome):
        self.inputs = inputs
        self.targets = targets
        self.before = before
        self.after = list(outcome.result)
        self.moved = [float(x) for x in outcome.x]
        self.met = outcome.met
        self.fights = []
        self.lost = []
        self.messages = []
        self.content = None


def solve(path, change, make, within=()):
    """Find the least movement of input cells that brings results to their targets.

    path: a workbook, which is only read. change: input cells, each a name or "Sheet!B7".
    make: "cell=value" texts. within: "cell=low..high" texts; either end may be left out.
    Returns a `Solution`; raises `Trouble` for what cannot be asked.
    """
    book = Recalculation.read(path)
    targets = _targets(book, make)
    inputs = _inputs(book, change, _limits_asked(book, within))
    both = {i.cell for i in inputs} & {cell for cell, *_ in targets}
    if both:
        raise Trouble(f"{book.said(both.pop())} is both an input and a target")
    _scale(inputs)
    function = book.function([i.cell for i in inputs], [cell for cell, *_ in targets])
    before = _before(book, function, inputs, targets)

    def results(x):
        return np.array([_number(v) for v in function([float(v) for v in x])])

    problem = Problem(
        results,
        [i.value for i in inputs], [i.low for i in inputs], [i.high for i in inputs],
        [i.scale for i in inputs], [number for *_, number in targets],
    )  # fmt: skip
    _hold_moving(book, function, inputs, targets, before, results, problem)
    solution = Solution(inputs, targets, before, least_movement(problem))
    if not solution.met:
        solution.fights = _fights(problem, targets, solution)
        return solution
    changes = {i.cell: new for i, new in zip(inputs, solution.moved, strict=True)}
    solution.lost = [book.said(cell) for cell in book.write(changes)]
    solution.messages = book.package.warnings()
    solution.content = book.package.to_bytes()
    return solution


# What is asked


def _parted(text, what):
    cell, mark, value = text.rpartition("=")
    if not mark or not cell.strip() or not value.strip():
        raise Trouble(f"{text}: {what} was expected")
    return cell.strip(), value.strip()


def _as_number(text, whole):
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        raise Trouble(f"{whole}: {text} is no number; write it as in Trail=22.5")
    return number


def _targets(book, make):
    found = {}
    for text in make:
        name, value = _parted(text, "a cell and a number, as in Trail=22.5,")
        number = _as_number(value, text)
        cell = book.find(name)
        content = book.content(cell)
        if content is None or (content.formula is None and content.in_array is None):
            raise Trouble(
                f"{book.said(cell)} holds no formula, so no input moves it; give a result"
            )
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given two targets")
        found[cell] = (cell, book.said(cell), number)
    if not found:
        raise Trouble("no target is given; say what is wanted, as in --make Trail=22.5")
    return list(found.values())


def _limits_asked(book, within):
    found = {}
    for text in within:
        name, limits = _parted(text, "a cell and its limits, as in B7=140..160,")
        low, mark, high = limits.partition("..")
        if not mark or not (low.strip() or high.strip()):
            raise Trouble(f"{text}: limits were expected as LOW..HIGH, as in B7=140..160")
        low = _as_number(low, text) if low.strip() else -math.inf
        high = _as_number(high, text) if high.strip() else math.inf
        if not low < high:
            raise Trouble(f"{text}: the lower limit must be less than the upper one")
        cell = book.find(name)
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given limits twice")
        found[cell] = (low, high)
    return found


def _inputs(book, change, asked):
    found = {}
    for text in change:
        cell = book.find(text)
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given twice as an input")
        found[cell] = _input(book, cell, asked.get(cell))
    if not found:
        raise Trouble("no input is given; say which cells may move, as in --change Front!B7")
    for cell in asked:
        if cell not in found:
            raise Trouble(f"{book.said(cell)} is given limits, and is not among the inputs")
    return list(found.values())


def _input(book, cell, asked):
    words = described(book, cell)
    content = book.content(cell)
    if content is None:
        raise Trouble(f"{words} is empty; an input that holds a number was expected")
    if content.formula is not None or content.in_array is not None:
        raise Trouble(
            f"{words} is a formula "
            f"({content.formula or f'of the array at {content.in_array}'}); give the input "
            "cells that it is made from"
        )
    value = content.value
    if not _is_number(value):
        shown = value.code if isinstance(value, CellError) else value
        raise Trouble(f"{words} holds {shown}; an input that holds a number was expected")
    limits = book.package.limits(*cell)
    if limits is not None and limits[2]:
        raise Trouble(f"{words} takes whole numbers only, so it cannot be moved by little")
    own = (-math.inf, math.inf) if limits is None else limits[:2]
    if not own[0] < own[1]:
        own = (-math.inf, math.inf)
    unit = _unit(book, cell)
    # Inputs of one sheet with the same limits and unit, or of one row, are of one kind.
    kind = (cell[0], own, unit) if unit else (cell[0], own, coordinate_to_tuple(cell[1])[0])
    return Input(cell, words, float(value), asked or own, asked is not None, kind)


def described(book, cell):
    """A cell in words: its row's text and its column's, if it has no name of its own."""
    said = book.said(cell)
    row, column = coordinate_to_tuple(cell[1])
    label = _first_text(book, cell[0], ((row, c) for c in range(column - 1, 0, -1)))
    if said.endswith(")") or label is None:
        return said
    heading = _first_text(book, cell[0], ((r, column) for r in range(row - 1, 0, -1)))
    if heading is not None and len(heading) <= 2:
        label += " " + heading
    return f"{label} ({said})"


def _first_text(book, sheet, places):
    for row, column in places:
        content = book.cells[sheet].get(get_column_letter(column) + str(row))
        if content is not None and isinstance(content.value, str) and content.value.strip():
            return content.value.strip()
    return None


def _unit(book, cell):
    """The first text to the right, if it is short enough for a unit."""
    row, column = coordinate_to_tuple(cell[1])
    text = _first_text(book, cell[0], ((row, c) for c in range(column + 1, column + 6)))
    return text if text is not None and len(text) <= 10 else None


def _scale(inputs):
    """How far each input counts as having moved by one.

    Limits that were asked for: the range between them. Else the size of the largest number
    among inputs of the same kind, so that a millimetre is a millimetre for x, y and z; at
    most the range of the cell's own limits.
    """
    sizes = {}
    for one in inputs:
        sizes[one.kind] = max(sizes.get(one.kind, 0.0), abs(one.value))
    for one in inputs:
        width = one.high - one.low
        if one.is_given and math.isfinite(width):
            one.scale = width
        else:
            size = sizes[one.kind] or 1.0
            one.scale = min(size, width) if math.isfinite(width) else size


# What the workbook says


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _number(value):
    return float(value) if _is_number(value) else math.nan


def _before(book, function, inputs, targets):
    """The results as they are; raises `Trouble` for one that is no number."""
    values = function([i.value for i in inputs])
    for value, (_, words, _) in zip(values, targets, strict=True):
        if isinstance(value, Unknown):
            raise Trouble(f"{words} cannot be worked out here: {value.why}")
        if isinstance(value, CellError):
            raise Trouble(f"{words} is no number now; it shows {value.code}")
        if not _is_number(value):
            shown = "nothing" if value is None else f'"{value}"'
            raise Trouble(f"{words} is no number now; it shows {shown}")
    return [float(v) for v in values]


def _hold_moving(book, function, inputs, targets, before, results, problem):
    """Raise `Trouble` for an input that moves no result, or a result that none moves."""
    moving = np.zeros((len(targets), len(inputs)), bool)
    for number, one in enumerate(inputs):
        # Nothing reads what does not change a formula on the way to a result.
        if not book.between([one.cell], [cell for cell, *_ in targets]):
            continue
        for step in TRIED:
            for sign in (1.0, -1.0):
                x = np.array([i.value for i in inputs])
                x[number] += sign * step * one.scale
                if one.low <= x[number] <= one.high:
                    there = results(x)
                    # A result that is no number there is moved, too.
                    near = np.abs(there - before) <= 1e-11 * (1.0 + np.abs(before))
                    moving[:, number] |= ~near
        if not moving[:, number].any() and not one.low <= one.value <= one.high:
            moving[:, number] = True  # Its own number is outside its limits: not tried.
    for number, one in enumerate(inputs):
        if not moving[:, number].any():
            raise Trouble(
                f"{one.words} moves none of the results; leave it out, or give another input"
            )
    for number, (_, words, target) in enumerate(targets):
        if not moving[number].any() and abs(before[number] - target) > problem.allowed[number]:
            raise Trouble(f"{words} is moved by none of the inputs; give one that moves it")


def _fights(problem, targets, solution):
    """Sentences on what keeps the targets from being met."""
    said = []
    missed = np.abs(np.array(solution.after) - problem.targets) > problem.allowed
    if len(targets) > 1:
        relieving = []
        for number in range(len(targets)):
            if can_be_met(problem.without(number)):
                relieving.append(number)
        alone = []
        if not relieving or len(targets) == 2:
            numbers = np.arange(len(targets))
            alone = [n for n in numbers if not can_be_met(problem.only(numbers == n))]
        for number in alone:
            said.append(
                f"{targets[number][1]} cannot come to {number_text(targets[number][2])} even alone."
            )
        for number in relieving:
            rest = [words for n, (_, words, _) in enumerate(targets) if n != number]
            if not alone:
                said.append(
                    f"{targets[number][1]} fights the rest: without it, {_listed(rest)} can be met."
                )
        if not relieving and not alone:
            said.append("Each can be met alone; leaving out any one is not enough for the rest.")
    else:
        said.append(
            f"{targets[0][1]} was not seen to reach {number_text(targets[0][2])} within the limits."
        )
    for one, new in zip(solution.inputs, solution.moved, strict=True):
        end = _at_limit(one, new)
        if end and missed.any():
            said.append(f"{one.words} is at its {end} limit.")
    return said


def _at_limit(one, new):
    near = 1e-6 * one.scale
    if new - one.low <= near:
        return "lower"
    return "upper" if one.high - new <= near else None


# What is shown


def _listed(words):
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def number_text(number):
    """A number as a table shows it."""
    text = f"{number:.9g}"
    return "0" if text == "-0" or abs(number) < 5e-10 else text


def table(solution):
    """The results before and after, and the movement of each input, as lines of text."""
    rows = [("", "before", "wanted", "after" if solution.met else "nearest")]
    for (_, words, wanted), was, now in zip(
        solution.targets, solution.before, solution.after, strict=True
    ):
        rows.append((words, *map(number_text, (was, wanted, now))))
    lines = _aligned(rows)
    rows = [("", "before", "after", "moved by", "limits")]
    for one, new in zip(solution.inputs, solution.moved, strict=True):
        end = _at_limit(one, new)
        rows.append((one.words, *map(number_text, (one.value, new, new - one.value)),
                     _limits_text(one) + (f" (at the {end} one)" if end else "")))  # fmt: skip
    return "\n".join([*lines, "", *_aligned(rows)])


def _limits_text(one):
    if math.isinf(one.low) and math.isinf(one.high):
        return "none"
    ends = ["" if math.isinf(end) else number_text(end) for end in (one.low, one.high)]
    return "..".join(ends)


def _aligned(rows):
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = []
    for row in rows:
        first = row[0].ljust(widths[0])
        rest = (text.rjust(width) for text, width in zip(row[1:], widths[1:], strict=True))
        lines.append("  ".join([first, *rest]).rstrip())
    return lines


def report(solution):
    """The table, and what is worth saying besides."""
    lines = [table(solution)]
    if solution.fights:
        lines += ["", *solution.fights]
    for message in solution.messages:
        lines += ["", message]
    if solution.lost:
        more = len(solution.lost) - NAMED
        named = ", ".join(solution.lost[:NAMED]) + (f" and {more} more" if more > 0 else "")
        lines += [
            "",
            "Not worked out here, for the spreadsheet program to do when it opens "
            f"the file: {named}.",
        ]
    return "\n".join(lines)
