"""One worksheet of a spreadsheet file: its cells read, and some of them changed."""

import re

from lxml import etree
from openpyxl.formula.translate import Translator, TranslatorError
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from .parts import MAIN
from .trouble import Trouble
from .values import CellContent, bare, fill, fitting, value_of

_ADDRESS = re.compile(r"\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})$")
ROWS, COLUMNS = 1048576, 16384


class Sheet:
    """A worksheet.

    name: its name. tree: a function that returns its root element, told whether it will be
    changed. strings: a function that returns the file's shared strings as texts.
    """

    def __init__(self, name, tree, strings, since_1904=False):
        self.name = name
        self._tree = tree
        self._strings = strings
        self._since_1904 = since_1904
        self._cells = None
        self._contents = {}

    def cells(self):
        """{address: `CellContent`} of every cell that is not empty."""
        self._index()
        return dict(self._contents)

    def used(self):
        """The last row and the last column that hold anything, from 1; (1, 1) if none do."""
        self._index()
        places = [coordinate_to_tuple(address) for address in self._contents]
        return max((p[0] for p in places), default=1), max((p[1] for p in places), default=1)

    # Reading

    def _index(self):
        if self._cells is not None:
            return
        try:
            self._read_all()
        except (ValueError, TypeError, AttributeError) as error:
            # A row that is no number, a cell with no such address, a sheet with no cells.
            raise Trouble(
                f"the file is damaged: the cells of its sheet {self.name} cannot be read"
            ) from error

    def _read_all(self):
        self._cells, self._rows = {}, {}
        self._masters = {}  # the first cell of a shared formula: the others, in order
        self._shared = {}  # each of those others: the first cell
        self._arrays = {}  # the first cell of an array formula: its range
        self._texts = {}  # each cell with a formula: the formula
        current, late = {}, []
        for address, cell in self._walk():
            self._cells[address] = cell
            element = cell.find(MAIN + "f")
            if element is None:
                continue
            kind, text = element.get("t"), _equals(element.text)
            if kind == "shared":
                number = element.get("si")
                if element.get("ref") is not None or (text and number not in current):
                    current[number] = address
                    self._masters[address] = []
                elif number in current:
                    self._join(address, current[number])
                    continue
                else:
                    late.append((address, number))
                    continue
            elif kind in ("array", "dataTable") and element.get("ref"):
                self._arrays[address] = element.get("ref")
                if kind == "dataTable":
                    text = _data_table(element)
            if text:
                self._texts[address] = text
        for address, number in late:
            if number in current:
                self._join(address, current[number])
        self._read_contents()

    def _join(self, address, first):
        self._masters[first].append(address)
        self._shared[address] = first
        if first in self._texts:
            self._texts[address] = _moved(self._texts[first], first, address)

    def _walk(self):
        """(address, element) of each cell. Rows and cells may leave their place unsaid."""
        number = 0
        for row in self._data().iterchildren(MAIN + "row"):
            number = int(row.get("r", number + 1))
            if row.get("r") is None:
                row.set("r", str(number))
            self._rows[number] = row
            column = 0
            for cell in row.iterchildren(MAIN + "c"):
                address = cell.get("r")
                if address is None:
                    address = get_column_letter(column + 1) + str(number)
                    cell.set("r", address)
                column = coordinate_to_tuple(address)[1]
                yield address, cell

    def _data(self, change=False):
        return self._tree(change).find(MAIN + "sheetData")

    def _read_contents(self):
        self._contents = {}
        self._inside = {}
        for first, ref in self._arrays.items():
            for address in self._within(ref):
                if address != first:
                    self._inside[address] = first
        for address in self._cells:
            self._read(address)

    def _read(self, address):
        cell = self._cells[address]
        content = CellContent(
            self._texts.get(address),
            self._arrays.get(address),
            self._inside.get(address),
            value_of(cell, self._strings(), self._since_1904),
            int(cell.get("s", 0)),
        )
        if content.formula is None and content.value is None and content.in_array is None:
            self._contents.pop(address, None)
        else:
            self._contents[address] = content

    def _within(self, ref):
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

    # Changing

    def set_formula(self, address, formula, value, array=None):
        """Replace a cell's formula and its stored value; see `Package.set_formula`."""
        address = self._plain(address)
        where = f"{self.name}!{address}"
        text = bare(formula, where)
        fitting(value, where)
        self._index()
        if address in self._inside:
            raise ValueError(f"{where} is inside the array of {self._inside[address]}")
        if array is not None:
            array = array.replace("$", "").upper()
            left, top = range_boundaries(array)[:2]
            others = [a for a in self._within(array) if a in self._texts and a != address]
            if get_column_letter(left) + str(top) != address or others:
                raise ValueError(f"{where} cannot hold an array over {array}")
        cell = self._cell(address)
        self._release(address)
        fill(cell, text, value, array)
        self._texts[address] = "=" + text
        self._settle(address, array)

    def set_value(self, address, value):
        """Make a cell a plain value, or empty for None; a formula in it is dropped.

        Returns whether there was a formula.
        """
        address = self._plain(address)
        fitting(value, f"{self.name}!{address}")
        self._index()
        had = address in self._texts
        cell = self._cell(address)
        self._release(address)
        fill(cell, None, value, inline=address not in self._inside)
        self._settle(address, None)
        return had

    def freeze(self, address):
        """Make a formula cell its stored value, to the last digit of the file.

        Returns False if the file holds no value for it: then the cell is empty.
        """
        address = self._plain(address)
        self._index()
        if address not in self._texts:
            raise ValueError(f"{self.name}!{address} holds no formula")
        cell = self._cell(address)
        self._release(address)
        cell.remove(cell.find(MAIN + "f"))
        stored = cell.find(MAIN + "v")
        if stored is not None and not stored.text and cell.get("t", "n") == "n":
            cell.remove(stored)
        for attribute in ("cm", "vm"):
            cell.attrib.pop(attribute, None)
        self._settle(address, None)
        return address in self._contents

    def _settle(self, address, array):
        """Keep what is known of the cells in step with a change to one of them."""
        old = self._arrays.pop(address, None)
        if array is not None:
            self._arrays[address] = array
        if old != array:
            self._read_contents()
        else:
            self._read(address)

    def _release(self, address):
        """Take a cell out of the shared formula that it belongs to; the others keep theirs."""
        for other in self._masters.pop(address, ()):
            # The formula was written in this cell only, so the others need their own now.
            element = self._cells[other].find(MAIN + "f")
            for attribute in ("t", "ref", "si"):
                element.attrib.pop(attribute, None)
            element.text = self._texts[other][1:] if other in self._texts else None
            self._shared.pop(other, None)
        first = self._shared.pop(address, None)
        if first is not None:
            self._masters[first].remove(address)
        self._texts.pop(address, None)

    def _plain(self, address):
        match = _ADDRESS.match(address)
        if match is None:
            raise ValueError(f"{address!r} is no cell")
        address = match[1].upper() + match[2]
        row, column = coordinate_to_tuple(address)
        if row > ROWS or column > COLUMNS:
            raise ValueError(f"{address} is beyond the sheet")
        return address

    def _cell(self, address):
        """The element of a cell, to be changed; a new one if there is none."""
        root = self._tree(True)
        if address in self._cells:
            return self._cells[address]
        number, column = coordinate_to_tuple(address)
        row = self._rows.get(number)
        if row is None:
            row = etree.Element(MAIN + "row", r=str(number))
            _put(self._data(True), row, lambda other: int(other.get("r")) < number)
            self._rows[number] = row
        cell = etree.Element(MAIN + "c", r=address)
        style = self._style_where_empty(row, column)
        if style:
            cell.set("s", style)
        _put(row, cell, lambda other: coordinate_to_tuple(other.get("r"))[1] < column)
        row.attrib.pop("spans", None)  # only a hint, and no longer true
        self._cells[address] = cell
        extent = root.find(MAIN + "dimension")
        if extent is not None and extent.get("ref"):
            extent.set("ref", _widened(extent.get("ref"), number, column))
        return cell

    def _style_where_empty(self, row, column):
        if row.get("customFormat") in ("1", "true"):
            return row.get("s")
        for entry in self._tree(False).iterfind(MAIN + "cols/" + MAIN + "col"):
            if int(entry.get("min")) <= column <= int(entry.get("max")):
                return entry.get("style")
        return None


def _equals(text):
    return "=" + text.lstrip("=") if text else None


def _data_table(element):
    """The formula that programs show for a table of what-ifs, which has none in the file."""
    one, two = element.get("r1", ""), element.get("r2", "")
    if element.get("dt2D") in ("1", "true"):
        return f"=TABLE({one},{two})"
    by_row = element.get("dtr") in ("1", "true")
    return f"=TABLE({one},)" if by_row else f"=TABLE(,{one})"


def _moved(formula, origin, address):
    try:
        return Translator(formula, origin).translate_formula(address)
    except TranslatorError:
        return "=#REF!"  # it would refer to a row or column before the first


def _put(parent, element, comes_before):
    """Insert a child after the last one that comes before it."""
    for place in range(len(parent), 0, -1):
        other = parent[place - 1]
        if other.tag == element.tag and comes_before(other):
            parent.insert(place, element)
            return
    parent.insert(0, element)


def _widened(ref, row, column):
    left, top, right, bottom = range_boundaries(ref)
    left, right = min(left, column), max(right, column)
    top, bottom = min(top, row), max(bottom, row)
    return f"{get_column_letter(left)}{top}:{get_column_letter(right)}{bottom}"
