"""What the steps of a table come to in each of its rows, as the workbook stands."""

from ...file.cell_error import CellError
from ..recorded.steps import evaluated


class RowValues:
    """The value of each step in each row of a table.

    table: the `Table`. Tables that it reads must be computed before it.
    """

    def __init__(self, table):
        self._table = table
        self._known = []

    def compute(self):
        """Work out what is shown in every row."""
        self._known = []
        for row in self._table.rows:
            known = {}

            def read(what, row=row):
                return self._read(what, row)

            for step in self._table.shown:
                evaluated(step, read, known)
            self._known.append(known)

    def of(self, row, step):
        """What a row's step comes to, as a cell stores it."""
        known = self._known[row]
        value = known[step] if step in known else self._read(step.what, self._table.rows[row])
        return _stored(value)

    def given(self, row, key):
        """What a given column holds in a row, as a cell stores it."""
        return _stored(self._read((self._table, key), self._table.rows[row]))

    def _read(self, what, row):
        table, key = what
        if table is not self._table:
            return table.values.alone(key)
        value = table.direct[key][1] if key in table.direct else row[key][1]
        # A value that another table computes is asked for only now.
        return value() if callable(value) else value

    def alone(self, step):
        """What a step comes to in a table of one row, for tables that read it."""
        return self._known[0][step]


def _stored(value):
    return CellError("#N/A") if isinstance(value, float) and value != value else value
