"""One worksheet of a spreadsheet file: its cells read, and some of them changed."""

from .address import boundaries, column_letters, plain_address, row_and_column
from .arrays import Arrays
from .formulas import Formulas
from .grid import Grid
from .markup import MAIN, Damage, child_of, whole
from .trouble import Trouble
from .values import CellContent, bare, fill, fitting, value_of

MOST_STYLES = 100_000
"""Styles of cells that a file may number; Excel takes 65,490."""


class Sheet:
    """What the cells of a worksheet hold, kept in step with its XML when one is changed.

    name: the sheet's. part: the name of its part among `parts`. strings: a function that
    returns the file's shared strings as texts. Its cells are read when first asked for.
    """

    def __init__(self, name, parts, part, strings, since_1904=False):
        self.name = name
        self.part = part
        self._strings = strings
        self._since_1904 = since_1904
        self._grid = Grid(parts, part)
        self._formulas = None
        self._arrays = None
        self._contents = None
        self._used = None

    def cells(self):
        """{address: `CellContent`} of every cell that is not empty."""
        self._read_once()
        return dict(self._contents)

    def used(self):
        """The last row and the last column that hold anything, from 1; (1, 1) if none do."""
        self._read_once()
        if self._used is None:
            places = [row_and_column(address) for address in self._contents]
            self._used = (
                max((p[0] for p in places), default=1), max((p[1] for p in places), default=1)
            )  # fmt: skip
        return self._used

    def styles(self):
        """(address, number of its style) of every cell of the file, empty ones too."""
        self._read_once()
        return [(address, int(self._grid[address].get("s", 0))) for address in self._grid]

    # Reading

    def _read_once(self):
        if self._contents is not None:
            return
        try:
            formula = MAIN + "f"
            found = [(address, child_of(cell, formula)) for address, cell in self._grid.read()]
            elements = [(address, element) for address, element in found if element is not None]
            self._formulas = Formulas(elements)
            self._arrays = Arrays(elements, self._grid)
            self._read_all()
        except (ValueError, TypeError, AttributeError) as error:
            self._contents = None
            # A row that is no number, a cell with no such address, a sheet with no cells.
            why = f": {error}" if isinstance(error, Damage) else ""
            raise Trouble(
                f"the file is damaged: the cells of its sheet {self.name} cannot be read{why}"
            ) from error

    def _read_all(self):
        self._contents = {}
        for address in self._grid:
            self._read(address)

    def _read(self, address):
        self._used = None
        cell = self._grid[address]
        first, style = self._arrays.first_of(address), whole(cell.get("s", "0"), MOST_STYLES)
        formula = value = None
        if len(cell):
            formula = self._formulas.get(address)
            value = value_of(cell, self._strings(), self._since_1904)
        if formula is None and value is None and first is None:
            self._contents.pop(address, None)
        else:
            array = self._arrays.range_from(address)
            self._contents[address] = CellContent(formula, array, first, value, style)

    # Changing

    def set_formula(self, address, formula, value, array=None):
        """Replace a cell's formula and its stored value; see `Package.set_formula`."""
        address = plain_address(address)
        where = f"{self.name}!{address}"
        text = bare(formula, where)
        fitting(value, where)
        self._read_once()
        first = self._arrays.first_of(address)
        if first is not None:
            raise ValueError(f"{where} is inside the array of {first}")
        if array is not None:
            array = array.replace("$", "").upper()
            left, top = boundaries(array)[:2]
            others = [a for a in self._grid.within(array) if a in self._formulas and a != address]
            if column_letters(left - 1) + str(top) != address or others:
                raise ValueError(f"{where} cannot hold an array over {array}")
        cell = self._released(address)
        fill(cell, text, value, array)
        self._formulas.put(address, "=" + text)
        self._settle(address, array)

    def set_value(self, address, value):
        """Make a cell a plain value, or empty for None; a formula in it is dropped.

        Returns whether there was a formula.
        """
        address = plain_address(address)
        fitting(value, f"{self.name}!{address}")
        self._read_once()
        had = address in self._formulas
        cell = self._released(address)
        fill(cell, None, value, inline=self._arrays.first_of(address) is None)
        self._settle(address, None)
        return had

    def set_style(self, address, number):
        """Give a cell a style of the file by its number."""
        address = plain_address(address)
        self._read_once()
        self._grid.change(address).set("s", str(number))
        self._read(address)

    def freeze(self, address):
        """Make a formula cell its stored value, to the last digit of the file.

        Returns False if the file holds no value for it: then the cell is empty.
        """
        address = plain_address(address)
        self._read_once()
        if address not in self._formulas:
            raise ValueError(f"{self.name}!{address} holds no formula")
        cell = self._released(address)
        cell.remove(cell.find(MAIN + "f"))
        stored = cell.find(MAIN + "v")
        if stored is not None and not stored.text and cell.get("t", "n") == "n":
            cell.remove(stored)
        for attribute in ("cm", "vm"):
            cell.attrib.pop(attribute, None)
        self._settle(address, None)
        return address in self._contents

    def _released(self, address):
        """The element of a cell, to be changed, whose formula no other cell depends on."""
        cell = self._grid.change(address)
        self._formulas.release(address)
        return cell

    def _settle(self, address, array):
        """Keep what is known of the cells in step with a change to one of them."""
        if self._arrays.put(address, array):
            self._read_all()
        else:
            self._read(address)
