"""What the steps of a table come to in each of its rows, as the workbook stands."""

from ...file.cell_error import CellError
from ..recorded.work import worker


class RowValues:
    """The value of each step in the rows of a table in which it is wanted.

    table: the `Table`, laid out. Tables that it reads must be computed before it.
    """

    def __init__(self, table):
        self._table = table
        self._known = {}

    def compute(self):
        """Work out every step in the rows in which it is wanted, which are the first that share it."""
        table = self._table
        count, wanted, blank = len(table.rows), table.wanted, table.unsaid.blank
        known = self._known = {}
        for step in table.order:
            rows = wanted.get(step)
            if not rows:
                continue
            if step.kind == "constant":
                known[step] = [step.what] * count
                continue
            column = known[step] = [None] * count
            work, columns = worker(step), [known.get(part) for part in step.parts]
            if step in blank:
                for row in blank[step]:
                    column[row] = ""
                rows = rows - blank[step]
            if work is None:
                for row in rows:
                    column[row] = self._read(step.what, row)
            elif len(columns) == 2:
                # Most work is on two parts, which are then taken without a list of them.
                one, two = columns
                for row in rows:
                    column[row] = work(one[row], two[row])
            else:
                for row in rows:
                    column[row] = work(*[each[row] for each in columns])
            if count > 1 and step in table.alone:
                known[step] = [column[first] for first in table.sharing.firsts(step)]

    def of(self, row, step):
        """What a row's step comes to, as a cell stores it."""
        return _stored(self.plain(row, step))

    def plain(self, row, step):
        """What a row's step comes to; NaN for an error."""
        return self._known[step][row]

    def given(self, row, key):
        """What a given column holds in a row, as a cell stores it."""
        return _stored(self._read((self._table, key), row))

    def _read(self, what, row):
        table, key = what
        if table is not self._table:
            return table.values.plain(0, key)
        value = table.direct[key][1] if key in table.direct else table.given_value(row, key)
        # A value that another table computes is asked for only now.
        return value() if callable(value) else value


def _stored(value):
    return CellError("#N/A") if isinstance(value, float) and value != value else value
