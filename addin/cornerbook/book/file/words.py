"""The texts of a sheet that name its cells: those beside and above them."""

from .address import row_and_column


class Words:
    """The texts of a sheet that name its cells.

    texts: {(row, column): text}, from 0. units: texts that name nothing.
    """

    def __init__(self, texts, units=()):
        self._units = frozenset(units)
        self._rows = {}
        self._columns = {}
        for (row, column), text in sorted(texts.items()):
            text = " ".join(text.split())
            if text:
                self._rows.setdefault(row, []).append((column, text))
                self._columns.setdefault(column, []).append((row, text))

    def left_of(self, row, column):
        """The nearest text left of a cell that is no unit, '' if none."""
        return self._last_before(self._rows.get(row, ()), column)[1]

    def first_left_of(self, row, column):
        """The first text of its row, '' if none stands left of a cell."""
        at, text = next(iter(self._rows.get(row, ())), (column, ""))
        return text if at < column else ""

    def above(self, row, column):
        """The nearest text above a cell that is no unit, '' if none."""
        return self._last_before(self._columns.get(column, ()), row)[1]

    def row_above(self, row, column):
        """The row of that text, -1 if none."""
        return self._last_before(self._columns.get(column, ()), row)[0]

    def of(self, row, column):
        """What a cell is, in words: the first text of its row, and the nearest one above it."""
        return ", ".join(filter(None, (self.first_left_of(row, column), self.above(row, column))))

    def right_of(self, row, column, wanted):
        """The first of some texts that stands right of a cell, '' if none."""
        right = (text for at, text in self._rows.get(row, ()) if at > column)
        return next((text for text in right if text in wanted), "")

    def _last_before(self, texts, place):
        """The last (place, text) before a place that is no unit, (-1, "") if none."""
        found = (-1, "")
        for at, text in texts:
            if at >= place:
                break
            if text not in self._units:
                found = (at, text)
        return found


def words_of(cells, inputs, units=()):
    """The `Words` of a sheet: of its texts that stand there for reading.

    cells: {address: `CellContent`}. inputs: the addresses of cells for typing. units: texts that
    name nothing.
    """
    open_ = set(inputs)
    texts = {}
    for address, content in cells.items():
        worked_out = content.formula is not None or content.in_array
        if isinstance(content.value, str) and not worked_out and address not in open_:
            row, column = row_and_column(address)
            texts[row - 1, column - 1] = content.value
    return Words(texts, units)
