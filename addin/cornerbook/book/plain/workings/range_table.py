"""A table of workings with a row for each row of a range in the workbook."""

from typing import Any, NamedTuple

from .tables import InRow, Table


class Outside(NamedTuple):
    """What each row reads where it stands: a column of the range, from 0."""

    column: int


class RowNumber(NamedTuple):
    """The number of each row, from 1, which is written out."""


class RangeTable(Table):
    """A table whose rows are those of a range: what they have in common is recorded once.

    given: the `Given` of the range, whose cells are read where they stand.
    """

    def __init__(self, title, note, given):
        super().__init__(title, note)
        self._given: Any = given
        self.rows = [{} for _ in given.value]

    def outside(self, column):
        """The step for the cell of a column of the range in each row."""
        return self.recorder.input((self, Outside(column)))

    def number(self):
        """The step for the number of each row."""
        return self.recorder.input((self, RowNumber()))

    def want_given(self, step, key, rows):
        pass  # it has no cell here

    def given_addresses(self, key):
        rows = range(len(self.rows))
        if isinstance(key, Outside):
            return [self._given.cells(row, key.column) for row in rows]
        return [str(row + 1) for row in rows]

    def given_value(self, row, key):
        if isinstance(key, Outside):
            return self._given.value[row][key.column]
        return float(row + 1)

    def length_of(self, key):
        if isinstance(key, InRow):
            return super().length_of(key)
        return len(self.given_addresses(key)[-1])
