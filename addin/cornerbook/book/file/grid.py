"""The rows and cells of a worksheet's XML."""

from lxml import etree
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from .address import COLUMNS, ROWS, plain_address
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
            column = 0
            for cell in row.iterchildren(MAIN + "c"):
                address = cell.get("r")
                if address is None:
                    address = get_column_letter(column + 1) + str(number)
                    cell.set("r", address)
                elif plain_address(address) != address:
                    raise Damage(f"{address} is not how a file names a cell")
                column = coordinate_to_tuple(address)[1]
                self._cells[address] = cell
                yield address, cell

    def _data(self):
        data = self._parts.tree(self._part).find(MAIN + "sheetData")
        if data is None:
            raise Damage("it has no sheetData")
        return data

    def within(self, ref):
        """The addresses of the existing cells in a range."""
        left, top, right, bottom = range_boundaries(ref)
        if (right - left + 1) * (bottom - top + 1) <= len(self._cells):
            letters = [get_column_letter(column) for column in range(left, right + 1)]
            wanted = (x + str(row) for row in range(top, bottom + 1) for x in letters)
            return [address for address in wanted if address in self._cells]
        found = []
        for address in self._cells:
            row, column = coordinate_to_tuple(address)
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
        number, column = coordinate_to_tuple(address)
        row = self._rows.get(number)
        if row is None:
            row = etree.Element(MAIN + "row", r=str(number))
            _put(self._data(), row, lambda other: int(other.get("r")) < number)
            self._rows[number] = row
        cell = etree.Element(MAIN + "c", r=address)
        style = _style_where_empty(root, row, column)
        if style:
            cell.set("s", style)
        _put(row, cell, lambda other: coordinate_to_tuple(other.get("r"))[1] < column)
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
    left, top, right, bottom = range_boundaries(ref)
    left, right = min(left, column), max(right, column)
    top, bottom = min(top, row), max(bottom, row)
    return f"{get_column_letter(left)}{top}:{get_column_letter(right)}{bottom}"
