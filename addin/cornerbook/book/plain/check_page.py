"""The page of a copy that says what was edited in it since, and what of its results moved."""

from collections import Counter

from ... import __version__
from ..file.address import cell_name
from ..file.cell_error import CellError
from ..file.new_sheet import free_name
from ..file.trouble import Trouble
from ..formula.rewrite import quoted
from .added_sheet import AddedSheet
from .as_shared import NOW, THEN, WHAT, WHERE
from .held import alike

STATE = "CopyState"
"""The name of the cell that says whether the workbook is a copy."""

LIVE = "a copy without the formulas"
"""What it says first of a copy that is live."""

FROZEN = "a copy of values: it stays as it was when it was shared"
"""What it says of one that is not."""

OF_EACH = 2
"""How many results of each sheet the page compares, besides all that have a name."""

LISTED = 12
"""How many edits the page lists."""

_TITLE = "Shared copy"
_NOTE = (
    f"Made by cornerbook {__version__}. Live in any spreadsheet program, with no add-in. Below: "
    "what was edited since, of all yellow cells, and some results now, beside what they were when "
    "the copy was made. Whoever has the workbook takes the edits into it with: cornerbook take."
)

_GREY = "They keep their numbers while their inputs are as shared, and say so once one is edited."

_AS_SHARED, _MOVED = "as shared", "moved"

_STATE_ROW, _FIRST_ROW = 2, 4


def add_check_page(package, held, results, kept=()):
    """Add the page to a copy, and the sheet of what its yellow cells held.

    held: the `AsShared`. results: (sheet, address, value when the copy was made) of cells that
    show one result. kept: (sheet, formulas in words) of sheets with grey cells, which keep their
    numbers.
    """
    title = free_name(_TITLE, package.sheets)
    sheet = AddedSheet(_TITLE, _NOTE, "E", [30, 40, 18, 18, 14])
    sheet.merges.append(f"B{_STATE_ROW + 1}:E{_STATE_ROW + 1}")
    sheet.heights[_STATE_ROW] = 32
    row = _list_edits(sheet, held, _FIRST_ROW)
    results = _looked_at(package, results)
    first = row + 1
    row = _list_results(sheet, results, row)
    formula, as_shared = _state(held, f"E{first + 1}:E{first + len(results)}", len(results))
    sheet.cells += [
        (_STATE_ROW, 0, None, "This copy is", "heading"),
        (_STATE_ROW, 1, formula, as_shared, "said"),
    ]
    if kept:
        sheet.cells.append((row, 0, None, "Grey cells", "heading"))
        sheet.cells.append((row, 1, None, _GREY, "said"))
    for at, (name, formulas) in enumerate(kept, row + 1):
        sheet.cells += [(at, 0, None, name, "plain"), (at, 1, None, formulas, "plain")]
    sheet.add_to(package, title)
    held.add_sheet()
    said = f"{LIVE}; "
    say_state(package, f'="{said}"&{quoted(title)}!B{_STATE_ROW + 1}', said + as_shared)


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


def _state(held, verdicts, count):
    """The formula for what the copy is, and what it gives as long as nothing was edited.

    held: the `AsShared`. verdicts: the range of the verdicts on results; count: how many.
    """
    as_shared = (
        f"as shared: no yellow cell was edited, and the {count} results looked at are as they were"
    )
    moved = f'{count}-COUNTIF({verdicts},"{_AS_SHARED}")'
    otherwise = (
        f'"look here: no yellow cell was edited, yet "&({moved})&" of {count} results are not as '
        'they were: this program computes them otherwise, or another cell was edited"'
    )
    edited = (
        f'"edited since: "&{held.edits}&IF({held.edits}=1," place, "," places, the first ")'
        f"&A{_FIRST_ROW + 2}"
    )
    return f'=IF({held.edits}=0,IF({moved}=0,"{as_shared}",{otherwise}),{edited})', as_shared


def _list_edits(sheet, held, row):
    """List the first edits from a row on; the next row that is free for a table."""
    sheet.head(row, ("edited since", "what it is", "when shared", "now"))
    for number in range(1, LISTED + 1):
        for column, of_it in enumerate((WHERE, WHAT, THEN, NOW)):
            formula = f'=IF({held.edits}<{number},"",{held.edited(number, of_it)})'
            sheet.cells.append((row + number, column, formula, "", "plain"))
    return row + LISTED + 2


def _looked_at(package, results):
    """(name, result) of the results that are compared: all that have a name, some of each sheet."""
    named = _named_cells(package)
    found, of_sheet = [], Counter()
    for result in results:
        sheet, address, value = result
        name = named.get((sheet, address), "")
        if isinstance(value, CellError) or not (name or of_sheet[sheet] < OF_EACH):
            continue
        of_sheet[sheet] += not name
        found.append((name, result))
    return found


def _list_results(sheet, results, row):
    """List results from a row on, each with a verdict; the next row that is free for a table."""
    sheet.head(row, ("result", "cell", "when shared", "now", "verdict"))
    for at, (label, (where, address, value)) in enumerate(results, row + 1):
        then, now = cell_name(at, 2), cell_name(at, 3)
        same = alike(now, then, 1e-9)
        place = f"{quoted(where)}!{address}"
        sheet.cells += [
            (at, 0, None, label, "plain"),
            (at, 1, None, place, "plain"),
            (at, 2, None, value, "number"),
            (at, 3, "=" + place, value, "number"),
            (at, 4, f'=IF({same},"{_AS_SHARED}","{_MOVED}")', _AS_SHARED, "said"),
        ]
    return row + len(results) + 2


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
