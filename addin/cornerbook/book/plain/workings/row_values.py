"""What the steps of a table come to in each of its rows, as the workbook stands."""

from ....geometry.numbers import NAN
from ...file.cell_error import CellError
from ..recorded.work import worker


class RowValues:
    """The value of each step in each row of a table.

    table: the `Table`. Tables that it reads must be computed before it.
    """

    def __init__(self, table):
        self._table = table
        self._places = {}
        self._known = []

    def compute(self):
        """Work out every step in every row; what rows have in common only in the first."""
        table, self._known = self._table, []
        places = self._places = {step: place for place, step in enumerate(table.order)}
        work = []
        for step in table.order:
            shared = table.sharing.firsts(step) if step in table.alone else None
            parts = [places[part] for part in step.parts]
            # Most work is on two parts, which are then taken without a list of them.
            two = parts if len(parts) == 2 else (None, None)
            work.append((step, worker(step), parts, *two, shared))
        for row in range(len(table.rows)):
            values = []
            for step, worked, parts, one, two, shared in work:
                if shared is not None and shared[row] != row:
                    values.append(self._known[shared[row]][len(values)])
                elif one is not None:
                    values.append(worked(values[one], values[two]))
                elif worked is not None:
                    values.append(worked(*[values[part] for part in parts]))
                elif step.kind == "constant":
                    values.append(step.what)
                else:
                    value = self._read(step.what, row)
                    values.append(NAN if isinstance(value, CellError) else value)
            self._known.append(values)

    def of(self, row, step):
        """What a row's step comes to, as a cell stores it."""
        return _stored(self.plain(row, step))

    def plain(self, row, step):
        """What a row's step comes to; NaN for an error."""
        return self._known[row][self._places[step]]

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
