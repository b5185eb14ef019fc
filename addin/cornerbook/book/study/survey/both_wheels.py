"""Results of both wheels at once, of the two corners as built: drawn against built."""

import re

import numpy as np

from ....catalogue import FORMULAS
from ....cells.quantity import name_of, of_axle, quantities
from ...file.trouble import Trouble
from ...formula.rewrite import quoted

_ALWAYS = (("toe sum", "deg"), ("track", None), ("roll centre", None), ("rack pull", "share"))
"""What is shown straight ahead in any case, and its unit; None for that of lengths."""

_HEADS = ["Both wheels at once", "drawn", "built", "", "built - drawn", "", "", "from", "to",
          "verdict"]  # fmt: skip
_DIGITS = {"mm": "0.00", "in": "0.000", "deg": "0.00", "%": "0.0"}


def look_of(unit):
    """The look of a number of a unit: no more digits than a survey tells."""
    return "number", _DIGITS.get(unit, "0.0000")


def add_axle_rows(rows, package, survey, results, blocks, top):
    """Add them below row `top` (counted from 1); the next free row.

    results: each `Result` of the workbook that is one call of ours on the corner, with its
    formula. blocks: where both corners as built stand, the left one first.
    """
    states = [survey.state(side) for side in range(2)]
    state = next(filter(None, states), "")
    wanted = list(_asked(package, survey.corner.name, results))
    if not wanted:
        return top
    rows.append((top, [(1, None, "Both wheels: drawn against built", "group")]))
    rows.append((top + 1, _headed()))
    pair = ",".join(blocks)
    for number, (label, result, call) in enumerate(wanted, top + 2):
        cells = [(1, None, label, "label")]
        look = look_of(label.rpartition(", ")[2])
        if result is None or call[2]:
            drawn = _formula(f"{survey.corner.name},{survey.corner.name}", call)
        else:
            drawn = f"={quoted(result.cell[0])}!{result.cell[1]}"
        cells.append((2, drawn, None, look))
        if state:
            cells.append((3, None, state, "said"))
        else:
            cells.append((3, _formula(pair, call), None, look))
        now, before = f"C{number}", f"B{number}"
        difference = f'=IF(AND(ISNUMBER({now}),ISNUMBER({before})),{now}-{before},"")'
        cells.append((5, difference, None, look))
        if result is not None and result.is_banded:
            cells += _judged(number, result, state)
        rows.append((number, cells))
    return top + 3 + len(wanted)


def _headed():
    return [
        (column, None, title, "heading" if column > 1 else "first heading")
        for column, title in enumerate(_HEADS, 1)
    ]


def _judged(number, result, state):
    for column, end in ((8, result.low), (9, result.high)):
        if np.isfinite(end):
            yield column, None, float(f"{end:.10g}"), look_of(result.unit)
    if state:
        yield 10, None, state, "said"
        return
    now, low, high = f"C{number}", f"$H{number}", f"$I{number}"
    inside = f'AND(OR({low}="",{now}>={low}),OR({high}="",{now}<={high}))'
    yield (
        10, f'=IF(ISNUMBER({now}),IF({inside},"pass","look here"),"not known")', None, "said"
    )  # fmt: skip


def _formula(pair, call):
    quantity, arguments, _ = call
    return f'=CORNER.AXLE_AS_BUILT({pair},"{quantity}",{arguments})'


def _asked(package, corner, results):
    """(label, its `Result` or None, (quantity, other arguments, whether of the other lock))."""
    measures = FORMULAS["AXLE_AS_BUILT"].arguments[2].choices
    known = {
        entry.name: name_of(entry)
        for entry in quantities().values()
        if of_axle(entry) and name_of(entry) in measures
    }
    called = re.compile(rf"^CORNER\.([A-Z_]+)\({re.escape(corner)},([^()]+)\)$")
    seen = set()
    for result, formula in results:
        match = called.match(formula)
        if match is None or match[1] not in known or match.groups() in seen:
            continue
        seen.add(match.groups())
        parts = match[2].split(",")
        unit = f", {result.unit}" if result.unit else ""
        label = f"{result.label or result.name} ({result.cell[0]}), rack "
        yield label + parts[1] + unit, result, (known[match[1]], match[2], False)
        if len(parts) == 2 and "lock" in parts[1].lower():
            # A car whose sides differ turns otherwise to the other side.
            other = f"{parts[0]},-{parts[1]}"
            yield f"{label}-{parts[1]}{unit}", result, (known[match[1]], other, True)
    try:
        package.resolve("Wheelbase", package.sheets[0])
    except Trouble:
        return
    for quantity, unit in _ALWAYS:
        label = f"{quantity[:1].upper()}{quantity[1:]}, straight ahead"
        said = {"deg": ", deg", "share": ", for each unit of load on either wheel"}.get(unit, "")
        yield label + said, None, (quantity, "Wheelbase,0", False)
