"""Ordinary formulas of all kinds, and the cells that they work on: what our evaluator is held
to, in real Calc and from car to car.

`CELLS` stand on the sheet Data; the formulas of `ordinary.txt` on the sheet Out, one a row of
column A, and each array formula over the range that is given with it.
"""

from pathlib import Path

import openpyxl
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.formula import ArrayFormula

COLUMNS = {
    "A": [3.0, -2.5, 7.0, 0.0, 12.25, 4.0, 7.0, 1.0],
    "B": [2.0, 5.0, 1.5, -1.0, 0.5, 8.0, 3.0, 6.0],
    "C": ["apple", "Pear", "plum", "fig", "Apple pie", "10", '=""', None],
    "D": [True, False, 1.0, "word", None, "5", 2.5, " 7 "],
    "E": ["=1/0", "=NA()", '=VALUE("x")', "=SQRT(-1)", None, None, None, None],
    "F": [1.0, 3.0, 5.0, 7.0, 9.0, 11.0, None, None],
    "G": ["one", "three", "five", "seven", "nine", "eleven", None, None],
    "H": [11.0, 9.0, 7.0, 5.0, 3.0, 1.0, None, None],
    "I": [10.0, 1.0, 4.0, None, None, None, None, None],
    "J": [20.0, 2.5, 5.0, None, None, None, None, None],
    "K": [30.0, 3.0, 7.0, None, None, None, None, None],
    "L": [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0],
    "M": [1.1, 2.3, 2.9, 4.2, 5.1, 5.8, 7.3, 7.9],
    "N": ["north", "south", "north", "east", "South", "north", "n*", "west"],
    "O": [10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0],
    "P": [45000.0, 45031.0, 44621.5, 36526.0, 40237.75, None, None, None],
    "Q": [1e-5, 123456789.0, 0.1, 1e15, 2 / 3, 1e21, -0.0, 1e-10],
    "R": ["=C8", "=R1", "=A1*2", "=IF(A1>5,1,C7)", None, None, None, None],
}
"""By column, from row 1. A text that begins with '=' is a formula."""

CELLS = {
    f"{column}{row}": value
    for column, values in COLUMNS.items()
    for row, value in enumerate(values, 1)
    if value is not None
}

NAMES = {"Rate": "Data!$B$2", "Span": "Data!$A$1:$A$8", "Chained": "Rate", "Twice": "Data!$B$1*2",
         "Again": "Twice+1", "Plain": "0.25", "Words": '"some words"'}  # fmt: skip

_NEWER = {
    "IFS", "SWITCH", "CONCAT", "TEXTJOIN", "MAXIFS", "MINIFS", "STDEV.S", "STDEV.P", "VAR.S",
    "VAR.P", "RANK.EQ", "RANK.AVG", "PERCENTILE.INC", "PERCENTILE.EXC", "QUARTILE.INC",
    "QUARTILE.EXC", "MODE.SNGL", "COVARIANCE.S", "COVARIANCE.P", "FORECAST.LINEAR", "IFNA", "XOR",
    "CEILING.MATH", "FLOOR.MATH", "DAYS", "ISOWEEKNUM", "UNICHAR", "UNICODE", "BASE", "DECIMAL",
    "NUMBERVALUE", "COT", "SEC", "CSC", "ACOT", "ISFORMULA", "XLOOKUP", "MUNIT",
}  # fmt: skip


def sections():
    """{heading: its lines} of the list of formulas."""
    found, lines = {}, []
    for line in Path(__file__).with_suffix(".txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("# "):
            lines = found[line[2:]] = []
        elif line.strip():
            lines.append(line)
    return found


def _all():
    found = sections()
    arrays = found.pop("Array formulas, each with the range that it fills")
    refused = {h: found.pop(h) for h in list(found) if h.startswith("Refused")}
    return found, refused, dict(line.split(" ", 1) for line in arrays)


_SHOWN, _REFUSED, ARRAYS = _all()

FORMULAS = [formula for lines in _SHOWN.values() for formula in lines]
"""Those that have a value here."""

REFUSED = [formula for lines in _REFUSED.values() for formula in lines]
"""Those that are refused by name."""

SHOWN_AS_LOGICALS = _SHOWN["A number that Calc shows as a logical"]


def in_a_file(formula):
    """A formula as programs store it: newer functions have a mark before their names."""
    for name in _NEWER:
        for before in "=(,+-*/&<>":
            formula = formula.replace(f"{before}{name}(", f"{before}_xlfn.{name}(")
    return formula


def written(path, cells=CELLS):
    """A workbook with all of it; formulas have no stored values, as openpyxl writes them."""
    book = openpyxl.Workbook()
    data, out = book.active, book.create_sheet("Out")
    data.title = "Data"
    for address, value in cells.items():
        data[address] = value
    for name, text in NAMES.items():
        book.defined_names[name] = DefinedName(name, attr_text=text)
    for row, formula in enumerate(FORMULAS + REFUSED, 1):
        out[f"A{row}"] = in_a_file(formula)
    for place, formula in ARRAYS.items():
        out[place.split(":")[0]] = ArrayFormula(place, in_a_file(formula))
    book.save(path)
    return path
