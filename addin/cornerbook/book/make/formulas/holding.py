"""Whether the formulas on a book's sheets can be worked out at all: names, functions, cells."""

from ....catalogue import FORMULAS
from ...file.address import COLUMNS, ROWS
from ...file.trouble import Trouble
from ...formula.evaluate import NAMESPACE
from ...formula.functions import every_function, function_named
from ...formula.parse import nodes, parse
from ..sheet.model import CellTrouble
from ..texts.text_files import near

LONGEST_FORMULA = 8192
"""Letters of a formula, and of a cell's text, that Excel takes."""

LONGEST_CELL = 32767

MOST_CELLS = 100_000
"""How many cells a formula's range may have; a sheet of ours has some thousands."""


def wrong_formulas(book, references, lost):
    """A `CellTrouble` for each formula of a `Book` with what is not there, at its first mistake.

    references: the book's `References`. lost: a function of a reference or a formula's text that
    says whether it speaks of what stands in a block that was left out for a mistake of its own.
    """
    fine = set()  # references and calls, by how much they are given, that are well everywhere
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
                    kind = node[0]
                    if kind not in ("reference", "call"):
                        continue
                    key = node[1] if kind == "reference" else (node[1], len(node[2]))
                    if key not in fine:
                        _hold(node, sheet, references, lost)
                        fine.add(key)
            except Trouble as trouble:
                yield CellTrouble(sheet.name, row, column, str(trouble))


def hold_formula(formula, sheet, references):
    """Raise `Trouble` for a formula on a sheet that speaks of what is not there, or is none."""
    for node in nodes(parse(formula)):
        if node[0] in ("reference", "call"):
            _hold(node, sheet, references, lambda _: False)


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


def _hold(node, sheet, references, lost):
    if node[0] == "reference":
        if not lost(node[1]):
            _hold_cells(node[1], *references.block(node[1], sheet)[1:])
    elif node[1].startswith(NAMESPACE):
        _hold_ours(node[1][len(NAMESPACE) :], len(node[2]))
    else:
        _hold_ordinary(node[1], len(node[2]))


def _hold_ordinary(name, count):
    function = function_named(name)
    if function is None:
        meant = near(name, sorted(every_function()))
        said = f'; did you mean "{meant}"?' if meant else ""
        raise Trouble(f"the function {name} is not known to the generator{said}")
    function.kinds_of(count)


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


def _hold_cells(reference, top, left, bottom, right):
    """`Trouble` unless cells, counted from 0, are on a sheet and not too many."""
    if max(top, bottom) >= ROWS or max(left, right) >= COLUMNS:
        raise Trouble(f"{reference} is beyond the sheet")
    if top > bottom or left > right:
        raise Trouble(f"{reference} has its ends the wrong way round")
    if (bottom - top + 1) * (right - left + 1) > MOST_CELLS:
        raise Trouble(f"{reference} has more than {MOST_CELLS} cells")
