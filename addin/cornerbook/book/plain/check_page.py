"""The page of a copy that compares some results with what they were when it was made."""

from ... import __version__
from ..file.address import cell_name
from ..file.new_sheet import free_name
from ..file.trouble import Trouble
from ..formula.rewrite import quoted
from .added_sheet import AddedSheet

STATE = "CopyState"
"""The name of the cell that says whether the workbook is a copy."""

CHECKED = 12
"""How many results the page compares."""

_TITLE = "Shared copy"
_NOTE = (
    f"Made by cornerbook {__version__}. Live in any spreadsheet program, with no add-in. Some "
    "results now, beside what they were when the copy was made."
)

_GREY = "They keep their numbers while their inputs are as shared, and say so once one is edited."

_AS_SHARED, _EDITED = "as shared", "edited since"

_HEADINGS_ROW = 4


def add_check_page(package, results, kept=()):
    """Add the page to a copy.

    results: (sheet, address, value when the copy was made) of cells that show one result.
    kept: (sheet, formulas in words) of sheets with grey cells, which keep their numbers.
    """
    named = _named_cells(package)
    # Results that have a name say the most; then those that stand first.
    results = sorted(results, key=lambda result: result[:2] not in named)[:CHECKED]
    first = _HEADINGS_ROW + 1
    verdicts = f"E{first + 1}:E{first + len(results)}"
    all_same = f'COUNTIF({verdicts},"{_AS_SHARED}")={len(results)}'
    sheet = AddedSheet(_TITLE, _NOTE, "E", [24, 28, 16, 16, 16])
    sheet.cells += [
        (2, 0, None, "All of them", "heading"),
        (2, 1, _verdict(all_same), _AS_SHARED, "said"),
    ]
    for column, title in enumerate(("result", "cell", "now", "when shared", "verdict")):
        sheet.cells.append((_HEADINGS_ROW, column, None, title, "heading"))
    for row, (name, address, value) in enumerate(results, first):
        sheet.cells += _row(row, named.get((name, address), ""), name, address, value)
    row = first + len(results) + 1
    if kept:
        sheet.cells.append((row, 0, None, "Grey cells", "heading"))
        sheet.cells.append((row, 1, None, _GREY, "said"))
    for at, (name, formulas) in enumerate(kept, row + 1):
        sheet.cells += [(at, 0, None, name, "plain"), (at, 1, None, formulas, "plain")]
    title = free_name(_TITLE, package.sheets)
    sheet.add_to(package, title)
    say_state(package, f'="a copy without the formulas; results are "&{quoted(title)}!B3',
              "a copy without the formulas; results are " + _AS_SHARED)  # fmt: skip


def say_state(package, formula, value):
    """Say on the first page what kind of copy this is, where the workbook has the cell for it.

    formula: None for a copy that is not live.
    """
    for name, scope, text in package.names:
        if name == STATE:
            sheet, top, left, *_ = package.resolve(text, scope or package.sheets[0])
            address = cell_name(top, left)
            if formula is None:
                package.set_value(sheet, address, value)
            else:
                package.set_formula(sheet, address, formula, value)


def _row(row, label, sheet, address, value):
    """The cells of one result, in a row from zero."""
    now, then = f"C{row + 1}", f"D{row + 1}"
    near = f"ABS({now}-{then})<=0.000000001*MAX(1,ABS({then}))"
    same = f"IF(ISNUMBER({now}),IF(ISNUMBER({then}),{near},FALSE),{now}={then})"
    where = f"{quoted(sheet)}!{address}"
    return [
        (row, 0, None, label, "plain"),
        (row, 1, None, where, "plain"),
        (row, 2, "=" + where, value, "number"),
        (row, 3, None, value, "number"),
        (row, 4, _verdict(same), _AS_SHARED, "said"),
    ]


def _verdict(condition):
    return f'=IF({condition},"{_AS_SHARED}","{_EDITED}")'


def _named_cells(package):
    """{(sheet, address): name} of the cells that a defined name means."""
    named = {}
    for name, scope, text in package.names:
        try:
            where, *place = package.resolve(text, scope or package.sheets[0])
        except Trouble:
            continue
        if place[:2] == place[2:]:
            named[where, cell_name(*place[:2])] = name
    return named
