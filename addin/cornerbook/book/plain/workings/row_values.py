"""What the steps of a table come to in each of its rows, as the workbook stands."""

from array import array

from ....geometry.numbers import NAN
from ...file.cell_error import CellError
from ..recorded.work import of_numbers, worker

_LONG = 100
"""Rows of a table up to which it is not worth while to take less room."""


class RowValues:
    """The value of each step in the rows of a table in which it is wanted.

    table: the `Table`, laid out. Tables that it reads must be computed before it.
    """

    def __init__(self, table):
        self._table = table
        self._known = {}

    def compute(self):
        """Work out every step where it is wanted: in the first of the rows that share it."""
        self._known = {}
        if len(self._table.rows) == 1:
            self._compute_row()
        else:
            self._compute_rows()

    def _compute_row(self):
        known, blank = self._known, self._table.unsaid.blank
        for step in self._steps():
            work, parts = worker(step), step.parts
            if step in blank:
                known[step] = ""
            elif work is None:
                known[step] = self._read(step.what, 0)
            elif len(parts) == 2:
                # Most work is on two parts, which are then taken without a list of them.
                known[step] = work(known[parts[0]], known[parts[1]])
            else:
                known[step] = work(*[known[part] for part in parts])

    def _compute_rows(self):
        table, known, blank = self._table, self._known, self._table.unsaid.blank
        is_long = len(table.rows) > _LONG
        done = self._done_after() if is_long else {}
        for step in self._steps():
            columns = [known.get(part) for part in step.parts]
            column = None if step in blank else of_numbers(step.kind, columns)
            if column is None:
                column = self._column(step, columns)
            if step in table.alone:
                column = [column[first] for first in table.sharing.firsts(step)]
            known[step] = _packed(column) if is_long else column
            for part in done.get(step, ()):
                known.pop(part, None)

    def _column(self, step, columns):
        """The values of a step row by row, where it is wanted. columns: those of its parts."""
        table = self._table
        rows, blank = table.wanted[step], table.unsaid.blank
        work, column = worker(step), [None] * len(table.rows)
        if step in blank:
            for row in blank[step]:
                column[row] = ""
            rows = rows - blank[step]
        if work is None:
            for row in rows:
                column[row] = self._read(step.what, row)
        elif len(columns) == 2:
            one, two = columns
            for row in rows:
                column[row] = work(one[row], two[row])
        else:
            for row in rows:
                column[row] = work(*[each[row] for each in columns])
        return column

    def _done_after(self):
        """{step: those of its parts that no later step reads, nor a cell or another table}."""
        table = self._table
        read, done = table.alone.union(table.shown), {}
        for step in reversed(table.order):
            if table.wanted.get(step):
                done[step] = [part for part in dict.fromkeys(step.parts) if part not in read]
                read.update(done[step])
        return done

    def _steps(self):
        """The steps that are wanted, but for constants, which are known."""
        table, known = self._table, self._known
        count = len(table.rows)
        for step in table.order:
            if not table.wanted.get(step):
                continue
            if step.kind == "constant":
                known[step] = step.what if count == 1 else _packed([step.what]) * count
            else:
                yield step

    def of(self, row, step):
        """What a row's step comes to, as a cell stores it."""
        return _stored(self.plain(row, step))

    def plain(self, row, step):
        """What a row's step comes to; NaN for an error."""
        known = self._known[step]
        return known[row] if len(self._table.rows) > 1 else known

    def given(self, row, key):
        """What a given column holds in a row, as a cell stores it."""
        return _stored(self._read((self._table, key), row))

    def _read(self, what, row):
        table, key = what
        if table is not self._table:
            return table.values.plain(key.row, key.step)
        value = table.direct[key][1] if key in table.direct else table.given_value(row, key)
        # A value that another table computes is asked for only now.
        value = value() if callable(value) else value
        return NAN if isinstance(value, CellError) else value


def _packed(column):
    """A column of numbers as an array, which takes a quarter of the room; others as they are."""
    if isinstance(column, array):
        return column
    kinds = set(map(type, column))
    if float not in kinds or kinds - {float, type(None)}:
        return column
    # Rows without a value are not asked for.
    return array("d", column if len(kinds) == 1 else [NAN if v is None else v for v in column])


def _stored(value):
    return CellError("#N/A") if isinstance(value, float) and value != value else value
