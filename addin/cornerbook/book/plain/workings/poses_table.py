"""A table of poses, of which each is solved once for all rows that ask for the same numbers."""

from typing import NamedTuple

from .tables import Table


class Bare(NamedTuple):
    """What a pose is solved for: the number in a given column, which `name` says."""

    name: str


class PosesTable(Table):
    """A row for each pose asked for.

    A rack of nothing times a cell is a rack of nothing: where a row asks for that by itself, the
    pose is solved there, and the other row says by itself what is wrong with the cell.
    """

    def __init__(self, title, note):
        super().__init__(title, note)
        self._known = {}

    def _given(self, name):
        return self.recorder.input((self, name))

    def bare(self, name):
        """The step for what a pose is solved for, of a given column."""
        return self.recorder.input((self, Bare(name)))

    def settle(self):
        for name in self.given:
            self.show(self._given(name))
            keys = [self.same_given(row, name) for row in range(len(self.rows))]
            where = {key: row for row, key in reversed(list(enumerate(keys)))}
            self._known[name] = [where.get(key.bare, row) for row, key in enumerate(keys)]
        super().settle()

    def same(self, row, step):
        key = step.what[1]
        if not _is_bare(key):
            return super().same(row, step)
        return self.same_given(self._known[key.name][row], key.name)

    def want_given(self, step, key, rows):
        if not _is_bare(key):
            super().want_given(step, key, rows)
            return
        rows = {self._known[key.name][row] for row in rows}
        super().want_given(self._given(key.name), key.name, rows)

    def given_addresses(self, key):
        if not _is_bare(key):
            return super().given_addresses(key)
        asked = super().given_addresses(key.name)
        return [asked[known] for known in self._known[key.name]]

    def given_value(self, row, key):
        if not _is_bare(key):
            return super().given_value(row, key)
        return super().given_value(self._known[key.name][row], key.name)


def _is_bare(key):
    return isinstance(key, Bare)
