"""The sheets of a survey in the copy: the corners as built, results of both, the measurements."""

import re
from collections import Counter

import numpy as np

from ....catalogue import FORMULAS
from ....cells.block import POINT_KEYS, key_of
from ...file.address import cell_name
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ...formula.ranges import single
from ...formula.rewrite import quoted
from ...formula.values import Unknown, Values
from ...make.formulas.bare import before_asking
from ...make.sheet.names import is_name
from ..tolerance.results import Results
from .both_wheels import add_axle_rows, look_of
from .table import NOT_MEASURED, SIDES

BUILT, READINGS = "As built", "Survey residuals"
_POINT = "0.00"
_NOTE = (
    "Made by cornerbook survey. Points that were measured stand where the measurements put them; "
    "all others, camber, toe and radius are as drawn. Both corners are given as left-hand ones. "
    "The results are worked out from these cells."
)
_TWO_WHEELS = {"STEERING_RATIO", "RACK_FORCE", "TRACK_CHANGE"}
"""Formulas that take the other wheel for this one's mirror, besides those of an axle."""


def add_sheets(package, survey):
    """Add both to a `Package`; the names that they got, and those of the corners' blocks."""
    found = list(_found(package, survey.corner))
    results = _results(found)
    rows, heights = [], {}
    rows.append((1, [(1, None, "As built: the corners as they were measured", "title")]))
    rows.append((2, [(1, None, _NOTE, "note")]))
    heights[2] = 32
    top, blocks = 4, []
    for side in range(2):
        top = _block(rows, survey, side, top, blocks)
    states = [survey.state(side) for side in range(2)]
    first = top + 2
    top = _result_rows(rows, results, blocks, states, top)
    add_axle_rows(rows, package, survey, found, blocks, top)
    name = package.add_sheet(
        BUILT, rows, [48, 12, 12, 12, 12, 12, 12, 12, 12, 14, 14], None, ["A2:K2"], heights
    )
    _fill(package, name, rows, first)
    readings = package.add_sheet(READINGS, *_readings(survey))
    return name, readings, list(_named(package, survey.corner.name, name, blocks))


def _named(package, corner, sheet, blocks):
    """Give the blocks of the two corners names, so that any formula can ask of them."""
    for side, block in zip(SIDES, blocks, strict=True):
        name, number = corner + side.capitalize(), 1
        if not is_name(name):
            return
        taken = {known.lower() for known, _, _ in package.names}
        while name.lower() in taken:
            number += 1
            name = f"{corner}{side.capitalize()}{number}"
        package.add_name(name, f"{quoted(sheet)}!{block}")
        yield name


def _block(rows, survey, side, top, blocks):
    """The rows of one corner from a row on (counted from 1); the next free row."""
    rows.append((top, [(1, None, f"{SIDES[side].capitalize()} corner", "group")]))
    heads = ["Row", "x", "y", "z", "sd x", "sd y", "sd z", "moved by"]
    rows.append((top + 1, _heads(heads)))
    start = top + 2
    for number, (label, cells) in enumerate(survey.corner.rows):
        shown = [(1, None, label, "label")]
        found = survey.found(label, side) if key_of(str(label)) in POINT_KEYS else None
        places = cells if found is None else found.place
        for column, value in enumerate(places, 2):
            if value is not None and value != "":
                shown.append((column, None, _plain(value), ("number", _POINT)))
        if found is not None:
            for column, sd in enumerate(found.sds, 5):
                said = "not fixed" if np.isnan(sd) else _plain(sd)
                shown.append((column, None, said, ("number", _POINT)))
            shown.append((8, None, _plain(found.moved), ("number", _POINT)))
        elif all(isinstance(cell, (int, float)) for cell in cells):
            shown.append((8, None, "as drawn", "said"))
        rows.append((start + number, shown))
    last = start + len(survey.corner.rows) - 1
    blocks.append(f"$A${start}:$D${last}")
    return last + 2


def _plain(value):
    return float(f"{value:.10g}") if isinstance(value, (int, float)) else value


def _heads(titles):
    return [
        (column, None, title, "heading" if column > 1 else "first heading")
        for column, title in enumerate(titles, 1)
    ]


def _found(package, corner):
    """Results of the workbook that are one call of ours with the corner as its block."""
    values = Values(package)
    called = re.compile(rf"^CORNER\.[A-Z_]+\({re.escape(corner.name)}[,)]")
    for result in Results(package, values).find():
        sheet, address = result.cell
        content = package.cells(sheet)[address]
        formula = before_asking(content.formula).lstrip("=") if content.formula else ""
        if called.match(formula):
            yield result, formula


def _results(found):
    """Those of one wheel that is as drawn but for its travel, each formula once."""
    kept = {}
    for result, formula in found:
        name, rest = re.match(r"CORNER\.([A-Z_]+)\(\w+(.*)$", formula).groups()
        # With the rack moved, a formula is of the drawn car's left or its right wheel.
        if not re.search(r"\(|rack|lock", rest, re.IGNORECASE) and not _of_two_wheels(name):
            kept.setdefault(formula, result)
    return [(result, formula) for formula, result in kept.items()]


def _of_two_wheels(name):
    entry = FORMULAS.get(name)
    arguments = [] if entry is None else [argument.name for argument in entry.arguments]
    return name in _TWO_WHEELS or "roll" in arguments or arguments[1:3] == ["wheelbase", "rack"]


def _result_rows(rows, results, blocks, states, top):
    heads = ["Result", "drawn", "left", "right", "left - drawn", "right - drawn", "left - right",
             "from", "to", "left", "right"]  # fmt: skip
    rows.append((top, [(1, None, "Results: drawn against built, left against right", "group")]))
    rows.append((top + 1, _heads(heads)))
    labels = Counter((result.cell[0], result.label) for result, _ in results)
    for number, (result, formula) in enumerate(results, top + 2):
        name = f"{result.label or result.name} ({result.cell[0]})"
        if result.label and result.name and labels[result.cell[0], result.label] > 1:
            # Several in one row of a sheet: told apart by their own names.
            name = f"{result.label}: {result.name} ({result.cell[0]})"
        unit, look = f", {result.unit}" if result.unit else "", look_of(result.unit)
        cells = [(1, None, name + unit, "label")]
        drawn = f"={quoted(result.cell[0])}!{result.cell[1]}"
        built = [
            "=" + re.sub(r"\([^,)]+", lambda _, block=block: "(" + block, formula, count=1)
            for block in blocks
        ]
        cells.append((2, drawn, None, look))
        for column, (text, state) in enumerate(zip(built, states, strict=True), 3):
            if state == NOT_MEASURED:
                cells.append((column, None, state, "said"))
            else:
                cells.append((column, text, None, look))
        for column, (one, other) in enumerate((("C", "B"), ("D", "B"), ("C", "D")), 5):
            one, other = f"{one}{number}", f"{other}{number}"
            text = f'=IF(ISNUMBER({one}),IF(ISNUMBER({other}),{one}-{other},""),"")'
            cells.append((column, text, None, look))
        if result.is_banded:
            for column, end in ((8, result.low), (9, result.high)):
                if np.isfinite(end):
                    cells.append((column, None, _plain(float(end)), look))
            low, high = f"$H{number}", f"$I{number}"
            sides = ((10, f"C{number}", states[0]), (11, f"D{number}", states[1]))
            for column, cell, state in sides:
                if state:
                    cells.append((column, None, state, "said"))
                    continue
                inside = f'AND(OR({low}="",{cell}>={low}),OR({high}="",{cell}<={high}))'
                text = f'=IF(ISNUMBER({cell}),IF({inside},"pass","look here"),"not known")'
                cells.append((column, text, None, "said"))
        rows.append((number, cells))
    return top + 3 + len(results)


def _fill(package, name, rows, first):
    """Give the formulas of the sheet their values."""
    values = Values(package)
    for number, cells in rows:
        for column, formula, _, _ in cells if number >= first else ():
            if formula is not None:
                address = cell_name(number - 1, column - 1)
                try:
                    value = single(values.seen((name, address)))
                except Trouble:
                    value = None
                if isinstance(value, Unknown):
                    value = None
                if value is None:
                    value = CellError("#N/A")
                package.set_formula(name, address, formula, value)


def _readings(survey):
    heads = ["Measurement", "measured", "adjusted", "residual", "how sure", "redundancy",
             "normalised"]  # fmt: skip
    rows = [(1, [(1, None, "Survey: each measurement against all", "title")])]
    said = ". ".join(text[:1].upper() + text[1:] for text in survey.sentences) + "."
    rows.append((2, [(1, None, said, "note")]))
    rows.append((4, _heads(heads)))
    adjusted = survey.adjusted
    lines = list(
        zip(adjusted.measurements, adjusted.residuals, adjusted.redundancy, adjusted.normalised,
            strict=True)
    )  # fmt: skip
    if survey.left_out is not None:
        one = survey.left_out
        off = one.value - one.of(survey.places_of_used)
        rows.append((5, _reading(one, off, None, None, "look")))
    for number, line in enumerate(lines, 6):
        rows.append((number, _reading(*line, "label")))
    return rows, [64, 12, 12, 12, 12, 12, 12], "A5", ["A2:G2"], {2: 15 + 15 * (len(said) // 120)}


def _reading(one, off, redundancy, normalised, look):
    cells = [(1, None, one.words + (", left out" if redundancy is None else ""), look)]
    numbers = (one.value, one.value - off, off, one.sure, redundancy, normalised)
    for column, value in enumerate(numbers, 2):
        if value is not None:
            cells.append((column, None, _plain(float(value)), ("number", _POINT)))
    return cells
