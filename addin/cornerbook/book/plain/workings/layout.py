"""Where the cells of a table of workings stand, once that is decided."""

from ...file.address import cell_name
from ...formula.rewrite import quoted

ABOVE = 3
"""Rows of a table above its first call: its title, the groups of columns, their headings."""


class Layout:
    """The addresses of a table's cells: its columns, and the sheet and row where it begins.

    columns: the keys of given columns, then steps. given: {step: key} of the given columns,
    which are known by either. rows: the table's rows. `sheet` and `top` (from zero) are set
    when the sheets are laid out; only then are there addresses.
    """

    def __init__(self, columns, given, rows):
        self.columns = columns
        self.sheet = None
        self.top = None
        self._rows = rows
        self._places = {what: place for place, what in enumerate(columns)}
        for step, key in given.items():
            if key in self._places:
                self._places[step] = self._places[key]

    def __contains__(self, what):
        """Whether a step or a given column's key has a column."""
        return what in self._places

    @property
    def height(self):
        """How many rows it takes, headings and the free row below it included."""
        return ABOVE + len(self._rows) + 1

    @property
    def first_row(self):
        """The row of its first call, from zero."""
        return self.top + ABOVE

    def address(self, what, row=0, fixed=False):
        """The address of a column's cell in a row, on its own sheet."""
        return cell_name(self.first_row + row, self._places[what], fixed)

    def reference(self, what, row=0):
        """The same for formulas on other sheets."""
        return f"{quoted(self.sheet)}!{self.address(what, row, True)}"

    def range_reference(self):
        """All its rows and columns, for formulas on other sheets."""
        end = self.address(self.columns[-1], len(self._rows) - 1, True)
        return f"{self.reference(self.columns[0])}:{end}"
