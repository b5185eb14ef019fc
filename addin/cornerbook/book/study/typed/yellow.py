"""The yellow cells of a workbook, each with the words beside and above it."""

from ...file.address import row_and_column
from ...file.trouble import Trouble
from ...file.words import words_of
from ...make.texts.units import SYMBOLS, SYSTEMS


class Yellow:
    """A cell for typing. row, column count from 0; content: its `CellContent`, None if empty.

    label: the nearest text left of it in its row that is no unit; heading: the nearest one above it
    in its column that is no unit; both '' if none, and never those of another yellow cell or of a
    formula. heading_row: that of the heading, -1 if none. unit: "mm" or "in" where a cell right of
    it says so, else ''.
    """

    def __init__(self, sheet, address, content, words):
        self.sheet = sheet
        self.address = address
        self.content = content
        row, column = row_and_column(address)
        self.row, self.column = row - 1, column - 1
        self.label = words.left_of(self.row, self.column)
        self.heading = words.above(self.row, self.column)
        self.heading_row = words.row_above(self.row, self.column)
        self.unit = words.right_of(self.row, self.column, SYSTEMS)

    @property
    def cell(self):
        """(sheet, address)."""
        return self.sheet, self.address

    @property
    def is_blank(self):
        """Whether nothing is typed there."""
        return self.content is None or (self.content.formula is None and self.content.value == "")

    @property
    def shown(self):
        """What is typed there, in short."""
        typed = self.content.formula or self.content.value
        if isinstance(typed, float):
            return f"{typed:.10g}"
        text = str(typed)
        return text if len(text) < 60 else text[:57] + "..."

    @property
    def said(self):
        """Where it is, in words."""
        words = ", ".join(filter(None, (self.label, self.heading)))
        return f"{self.sheet}!{self.address}" + (f" ({words})" if words else "")


def yellow_cells(package):
    """Every `Yellow` of a `Package`, sheet by sheet from the top."""
    found = []
    for sheet in package.sheets:
        inputs = package.inputs(sheet)
        if not inputs:
            continue
        cells = package.cells(sheet)
        words = words_of(cells, inputs, SYMBOLS)
        there = [Yellow(sheet, address, cells.get(address), words) for address in inputs]
        found += sorted(there, key=lambda yellow: (yellow.row, yellow.column))
    return found


def unit_of(path, cells):
    """The unit of length of a workbook, as it stands right of its yellow cells; mm if it does not.

    path: what messages call the workbook. cells: its `Yellow`s. Raises `Trouble` for two units.
    """
    said = {cell.unit for cell in cells if cell.unit}
    if len(said) > 1:
        odd = {unit: next(c for c in cells if c.unit == unit).said for unit in sorted(said)}
        named = " and ".join(f"{unit} beside {cell}" for unit, cell in odd.items())
        raise Trouble(f"{path} says two units of length: {named}; make them one")
    return said.pop() if said else SYSTEMS[0]
