"""Whether the formulas on a book's sheets can be worked out at all: names, functions, cells."""

import re

from ....catalogue import FORMULAS
from ...file.address import COLUMNS, ROWS, column_number
from ...file.trouble import Trouble
from ...formula.evaluate import NAMESPACE
from ...formula.functions import every_function, function_named
from ...formula.parse import nodes, parse
from ..model import CellTrouble
from ..text_files import near

LONGEST_FORMULA = 8192
"""Letters of a formula, and of a cell's text, that Excel takes."""

LONGEST_CELL = 32767

MOST_CELLS = 100_000
"""How many cells a formula's range may have; a sheet of ours has some thousands."""

_CELL = re.compile(r"^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$", re.IGNORECASE)

_CHOICES = {"IF", "IFERROR"}


def wrong_formulas(book, lost):
    """A `CellTrouble` for each formula of a `Book` with what is not there, at its first mistake.

    lost: a function of a reference or a formula's text that says whether it speaks of what
    stands in a block that was left out for a mistake of its own.
    """
    names = {name.lower(): name for name in book.names}
    fine = set()  # references that are well, wherever they stand
    for sheet in book.sheets:
        seen = set()
        for (row, column), cell in sheet.cells.items():
            formula = cell.formula
            if cell.array is not None and id(cell.array) not in seen:
                seen.add(id(cell.array))
                formula = cell.array.formula
            if formula is None or lost(formula):
                continue
            try:
                for node in nodes(parse(formula)):
                    if node[0] == "call" or (node[0] == "reference" and node[1] not in fine):
                        _hold(node, book, names, lost)
                        if node[0] == "reference":
                            fine.add(node[1])
            except Trouble as trouble:
                yield CellTrouble(sheet.name, row, column, str(trouble))


def hold_formula(formula, book):
    """Raise `Trouble` for a formula that speaks of what is not there in a `Book`, or is none."""
    names = {name.lower(): name for name in book.names}
    for node in nodes(parse(formula)):
        if node[0] in ("reference", "call"):
            _hold(node, book, names, lambda _: False)


def too_long(book):
    """A `CellTrouble` for each cell whose formula or text no spreadsheet program would take."""
    for sheet in book.sheets:
        for (row, column), cell in sheet.cells.items():
            formula = cell.formula if cell.array is None else cell.array.formula
            for text, most, what in (
                (formula, LONGEST_FORMULA, "the formula"),
                (cell.value if isinstance(cell.value, str) else None, LONGEST_CELL, "the text"),
            ):
                if text is not None and len(text) > most:
                    said = f"{what} has {len(text)} letters; {most} at most go into a cell"
                    yield CellTrouble(sheet.name, row, column, said)


def _hold(node, book, names, lost):
    if node[0] == "reference":
        if node[1].lower() not in names and not lost(node[1]):
            _hold_cells(node[1], book, names.values())
    elif node[1].startswith(NAMESPACE):
        _hold_ours(node[1][len(NAMESPACE) :], len(node[2]))
    elif function_named(node[1]) is None and node[1] not in _CHOICES:
        meant = near(node[1], sorted({*every_function(), *_CHOICES}))
        said = f'; did you mean "{meant}"?' if meant else ""
        raise Trouble(f"the function {node[1]} is not known to the generator{said}")


def _hold_ours(name, count):
    if name not in FORMULAS:
        meant = near(name, FORMULAS)
        said = f'; did you mean "{NAMESPACE}{meant}"?' if meant else ""
        raise Trouble(f"there is no formula {NAMESPACE}{name}{said}")
    arguments = FORMULAS[name].arguments
    least = sum(argument.required for argument in arguments)
    if not least <= count <= len(arguments):
        raise Trouble(
            f"{NAMESPACE}{name} is given {count} argument{'s' * (count != 1)}; it takes "
            f"{FORMULAS[name].signature}"
        )


def _hold_cells(reference, book, names):
    """`Trouble` unless the reference is to cells, of a sheet that is there."""
    cells = reference
    if "!" in reference:
        sheet, cells = reference.rsplit("!", 1)
        book.sheet(sheet.strip("'").replace("''", "'"))
    corners = [_CELL.match(part) for part in cells.split(":")]
    places = [(int(m.group(2)), column_number(m.group(1)) + 1) for m in corners if m]
    if len(corners) > 2 or len(places) != len(corners):
        meant = near(reference, names)
        said = f'; did you mean "{meant}"?' if meant else ""
        raise Trouble(f"{reference} is neither a name nor cells{said}")
    if any(row > ROWS or column > COLUMNS for row, column in places):
        raise Trouble(f"{reference} is beyond the sheet")
    (top, left), (bottom, right) = places[0], places[-1]
    if top > bottom or left > right:
        raise Trouble(f"{reference} has its ends the wrong way round")
    if (bottom - top + 1) * (right - left + 1) > MOST_CELLS:
        raise Trouble(f"{reference} has more than {MOST_CELLS} cells")
