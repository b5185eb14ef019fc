"""A table of workings with a row for each row of a range in the workbook."""

from typing import Any

from .tables import Table


class RangeTable(Table):
    """A table whose rows are those of a range: what they have in common is recorded once.

    given: the `Given` of the range, whose cells are read where they stand.
    """

    def __init__(self, title, note, given):
        super().__init__(title, note)
        self._given: Any = given
        self._outside: Any = {}  # {key: (what is written, what it comes to) of each row}
        self.rows = [{} for _ in given.value]

    def outside(self, column):
        """The step for the cell of a column of the range, from 0, in each row."""
        cells = enumerate(self._given.value)
        return self._reads(
            column, [(self._given.cells(n, column), row[column]) for n, row in cells]
        )

    def number(self):
        """The step for the number of each row, from 1, which is written out."""
        numbers = range(1, len(self.rows) + 1)
        return self._reads("number", [(str(n), float(n)) for n in numbers])

    def _reads(self, key, rows):
        self._outside[key] = rows
        return self.recorder.input((self, key))

    def want_given(self, step, key, rows):
        pass  # it has no cell here

    def given_addresses(self, key):
        return [written for written, _ in self._outside[key]]

    def given_value(self, row, key):
        return self._outside[key][row][1]

    def length_of(self, key):
        if key in self._outside:
            return len(self.given_addresses(key)[-1])
        return super().length_of(key)
