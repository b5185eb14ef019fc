"""Where the cells of a table of workings stand, once that is decided."""

from ...file.address import cell_name, column_letters
from ...formula.rewrite import quoted

ABOVE = 3
"""Rows of a table above its first call: its title, the groups of columns, their headings."""


class Layout:
    """The addresses of a table's cells: its columns, and the sheet and row where it begins.

    table: the `Table`. columns: the keys of given columns, then steps. `sheet` and `top` (from
    zero) are set when the sheets are laid out; only then are there addresses. A step that
    several rows have in common has its cell in the first of them; a row without a cell of its
    own takes no line.
    """

    def __init__(self, table, columns):
        self.columns = columns
        self.sheet = None
        self.top = None
        self._table = table
        self._places = {what: place for place, what in enumerate(columns)}
        self._keys = {
            step: step.what[1]
            for step in table.order
            if step.kind == "input" and step.what[0] is table and step.what[1] in self._places
        }
        rows = sorted(set().union(*(table.wanted[what] for what in columns)))
        self._lines = {row: line for line, row in enumerate(rows)}
        self._own = {}

    @property
    def rows(self):
        """The rows of the table that have a line, in order."""
        return list(self._lines)

    @property
    def height(self):
        """How many rows it takes, headings and the free row below it included."""
        return ABOVE + len(self._lines) + 1

    def line(self, row):
        """The row of the sheet, from zero, of a row of the table."""
        return self.top + ABOVE + self._lines[row]

    def address(self, what, row=0, fixed=False):
        """The address of the cell of a step or a given column for a row, on its own sheet."""
        what = self._keys.get(what, what)
        line = self.line(self._table.sharing.firsts(what)[row])
        return cell_name(line, self._places[what], fixed)

    def addresses(self, what):
        """The same for each of the table's rows; of what is not wanted there, none.

        None for a step or a given column's key that has no column.
        """
        what = self._keys.get(what, what)
        if what not in self._own:
            self._own[what] = self._addresses(what) if what in self._places else None
        return self._own[what]

    def _addresses(self, what):
        wanted, letters = self._table.wanted[what], column_letters(self._places[what])
        return [
            f"{letters}{self.line(first) + 1}" if first in wanted else None
            for first in self._table.sharing.firsts(what)
        ]

    def reference(self, what, row=0):
        """The address for formulas on other sheets."""
        return f"{quoted(self.sheet)}!{self.address(what, row, True)}"

    def range_reference(self):
        """All its rows and columns, for formulas on other sheets."""
        end = self.address(self.columns[-1], max(self._lines), True)
        return f"{self.reference(self.columns[0])}:{end}"
