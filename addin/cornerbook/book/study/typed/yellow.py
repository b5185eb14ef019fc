"""The yellow cells of a workbook, each with the words beside and above it."""

from ...file.address import row_and_column
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
        self.unit = words.unit_beside(self.row, self.column)

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


class Words:
    """The texts of a sheet that name its cells. texts: {(row, column): text}, from 0."""

    def __init__(self, texts):
        self._rows = {}
        self._columns = {}
        for (row, column), text in sorted(texts.items()):
            text = " ".join(text.split())
            if text:
                self._rows.setdefault(row, []).append((column, text))
                self._columns.setdefault(column, []).append((row, text))

    def left_of(self, row, column):
        """The nearest text left of a cell that is no unit, '' if none."""
        texts = self._rows.get(row, ())
        return _last_before(texts, column)[1]

    def above(self, row, column):
        """The nearest text above a cell that is no unit, '' if none."""
        return _last_before(self._columns.get(column, ()), row)[1]

    def row_above(self, row, column):
        """The row of that text, -1 if none."""
        return _last_before(self._columns.get(column, ()), row)[0]

    def unit_beside(self, row, column):
        """The unit of length right of a cell, '' if none."""
        right = (text for at, text in self._rows.get(row, ()) if at > column)
        return next((text for text in right if text in SYSTEMS), "")


def _last_before(texts, place):
    """The last (place, text) before a place that is no unit, (-1, "") if none."""
    found = (-1, "")
    for at, text in texts:
        if at >= place:
            break
        if text not in SYMBOLS:
            found = (at, text)
    return found


def words_of(package, sheet):
    """The `Words` of a sheet of a `Package`."""
    return _words_of(package.cells(sheet), package.inputs(sheet))


def _words_of(cells, inputs):
    """Those of a sheet's cells, of which some are for typing."""
    open_ = set(inputs)
    texts = {}
    for address, content in cells.items():
        worked_out = content.formula is not None or content.in_array
        if isinstance(content.value, str) and not worked_out and address not in open_:
            row, column = row_and_column(address)
            texts[row - 1, column - 1] = content.value
    return Words(texts)


def yellow_cells(package):
    """Every `Yellow` of a `Package`, sheet by sheet from the top."""
    found = []
    for sheet in package.sheets:
        inputs = package.inputs(sheet)
        if not inputs:
            continue
        cells = package.cells(sheet)
        words = _words_of(cells, inputs)
        there = [Yellow(sheet, address, cells.get(address), words) for address in inputs]
        found += sorted(there, key=lambda yellow: (yellow.row, yellow.column))
    return found
