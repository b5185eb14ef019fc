"""The ranges of a worksheet that one formula fills: array formulas and tables of what-ifs."""

from .address import boundaries, row_and_column
from .markup import Damage


class Arrays:
    """The range that each of these fills from its first cell, and the other cells inside it.

    elements: [(address, `f` element)] in the order of the file. grid: the sheet's `Grid`.
    """

    def __init__(self, elements, grid):
        self._grid = grid
        self._ranges = {
            address: element.get("ref")
            for address, element in elements
            if element.get("t") in ("array", "dataTable") and element.get("ref")
        }
        for first, ref in self._ranges.items():
            left, top = boundaries(ref)[:2]
            if row_and_column(first) != (top, left):
                raise Damage(f"the formula of {first} fills {ref}, which does not begin there")
        self._firsts = {}
        self._find_cells()

    def _find_cells(self):
        self._firsts = {
            address: first
            for first, ref in self._ranges.items()
            for address in self._grid.within(ref)
            if address != first
        }

    def range_from(self, address):
        """The range that is filled from a cell, or None."""
        return self._ranges.get(address)

    def first_of(self, address):
        """The first cell of the range that another cell of it is inside, or None."""
        return self._firsts.get(address)

    def put(self, address, ref):
        """Note the range that is filled from a cell now, None for none; whether that is new."""
        if ref == self._ranges.pop(address, None):
            if ref is not None:
                self._ranges[address] = ref
            return False
        if ref is not None:
            self._ranges[address] = ref
        self._find_cells()
        return True
