"""The rows and cells of a worksheet's XML."""

from lxml import etree

from .address import COLUMNS, ROWS, boundaries, column_letters, plain_address, row_and_column
from .markup import MAIN, Damage, whole


class Grid:
    """The `c` element of each cell by its address, and a new one put where it belongs.

    parts: the file's `Parts`. part: the name of the worksheet's own.
    """

    def __init__(self, parts, part):
        self._parts = parts
        self._part = part
        self._rows = {}
        self._cells = {}

    def __contains__(self, address):
        return address in self._cells

    def __iter__(self):
        return iter(self._cells)

    def __getitem__(self, address):
        """The element of a cell, to be read and not changed."""
        return self._cells[address]

    def read(self):
        """(address, element) of each cell; nothing is known before all have been taken.

        Rows and cells may leave their place unsaid.
        """
        self._rows, self._cells = {}, {}
        number = 0
        for row in self._data().iterchildren(MAIN + "row"):
            number = number + 1 if row.get("r") is None else whole(row.get("r"), ROWS)
            if row.get("r") is None:
                row.set("r", str(number))
            self._rows[number] = row
            last = None
            for cell in row.iterchildren(MAIN + "c"):
                address = cell.get("r")
                if address is None:
                    column = 0 if last is None else row_and_column(last)[1]
                    address = column_letters(column) + str(number)
                    cell.set("r", address)
                elif plain_address(address) != address:
                    raise Damage(f"{address} is not how a file names a cell")
                last = address
                self._cells[address] = cell
                yield address, cell

    def _data(self):
        data = self._parts.tree(self._part).find(MAIN + "sheetData")
        if data is None:
            raise Damage("it has no sheetData")
        return data

    def within(self, ref):
        """The addresses of the existing cells in a range."""
        left, top, right, bottom = boundaries(ref)
        if (right - left + 1) * (bottom - top + 1) <= len(self._cells):
            letters = [column_letters(column - 1) for column in range(left, right + 1)]
            wanted = (x + str(row) for row in range(top, bottom + 1) for x in letters)
            return [address for address in wanted if address in self._cells]
        found = []
        for address in self._cells:
            row, column = row_and_column(address)
            if top <= row <= bottom and left <= column <= right:
                found.append(address)
        return found

    def change(self, address):
        """The element of a cell, to be changed; a new one if there is none."""
        root = self._parts.change(self._part)
        if address not in self._cells:
            self._cells[address] = self._new_cell(root, address)
        return self._cells[address]

    def _new_cell(self, root, address):
        number, column = row_and_column(address)
        row = self._rows.get(number)
        if row is None:
            row = etree.Element(MAIN + "row", r=str(number))
            _put(self._data(), row, lambda other: int(other.get("r")) < number)
            self._rows[number] = row
        cell = etree.Element(MAIN + "c", r=address)
        style = _style_where_empty(root, row, column)
        if style:
            cell.set("s", style)
        _put(row, cell, lambda other: row_and_column(other.get("r"))[1] < column)
        row.attrib.pop("spans", None)  # only a hint, and no longer true
        extent = root.find(MAIN + "dimension")
        if extent is not None and extent.get("ref"):
            extent.set("ref", _widened(extent.get("ref"), number, column))
        return cell


def _put(parent, element, comes_before):
    """Insert a child after the last one that comes before it."""
    for place in range(len(parent), 0, -1):
        other = parent[place - 1]
        if other.tag == element.tag and comes_before(other):
            parent.insert(place, element)
            return
    parent.insert(0, element)


def _style_where_empty(root, row, column):
    """The style of a cell that the file has not got: its row's, or its column's."""
    if row.get("customFormat") in ("1", "true"):
        return row.get("s")
    for entry in root.iterfind(MAIN + "cols/" + MAIN + "col"):
        try:
            first, last = (whole(entry.get(end), COLUMNS) for end in ("min", "max"))
        except ValueError:
            continue
        if first <= column <= last:
            return entry.get("style")
    return None


def _widened(ref, row, column):
    left, top, right, bottom = boundaries(ref)
    left, right = min(left, column), max(right, column)
    top, bottom = min(top, row), max(bottom, row)
    return f"{column_letters(left - 1)}{top}:{column_letters(right - 1)}{bottom}"
