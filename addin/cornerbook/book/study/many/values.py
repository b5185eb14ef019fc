"""The values of cells for one set of cars."""

from ...file.trouble import Trouble
from ...formula.order import Needed, ask_for, work_out
from ...formula.ranges import Range, rows_of, single, spread
from .columns import Column
from .evaluator import ManyEvaluator
from .numbers import NotForMany


class ManyValues:
    """The values of cells for one set of cars, each cell worked out once.

    A cell is (sheet, address). one: the `Values` of the car as drawn. dependence: the
    `Dependence` on the spread cells. still: what is kept from one set of cars to the next, to
    begin with an empty dictionary. amounts: {spread cell: what is added to it, an array of
    shape (cars,)}. cars: the `Cars`.
    """

    def __init__(self, one, dependence, still, amounts, cars):
        self.one = one
        self.trees = one.trees
        self.dependence = dependence
        self.amounts = amounts
        self.cars = cars
        self.evaluator = ManyEvaluator(self, cars)
        self.known = {}
        self._still = still
        self._ranges = {}
        self._tables = {}
        self._mixed = {}

    def let_go(self):
        """Let go of all values at once: with its evaluator, which keeps corners, this stands in
        circles, and Python would look for these much later."""
        for values in (self.known, self._ranges, self._tables, self._mixed):
            values.clear()
        del self.evaluator.functions, self.evaluator.formulas, self.evaluator

    def at(self, cell):
        """A cell's value: a `Column`, or what it is for every car; a table of them for an array."""
        if not self.dependence.differs(cell):
            try:
                return self.one.at(*cell)
            except Trouble as trouble:
                raise NotForMany(str(trouble)) from None
        return work_out(cell, self.known, self.dependence.before, self._make, self._circle)

    def _circle(self, cell):
        raise NotForMany(f"{cell[1]} needs its own result")

    def _make(self, cell):
        if cell in self.dependence.spread:
            return Column(self.one.at(*cell) + self.amounts[cell], self.cars)
        first = self.trees.first_of_array(cell)
        try:
            if first is not None:
                return self._inside(cell, first)
            array = self.trees.content(cell).array
            value = self.evaluator.value(
                self.trees.tree(cell), self.trees.at(cell), array is not None
            )
            if array is not None:
                _, top, left, bottom, right = self.trees.place(array, self.trees.at(cell))
                value = spread(rows_of(value), bottom - top + 1, right - left + 1)
        except Trouble as trouble:
            raise NotForMany(str(trouble)) from None
        return value.settled() if isinstance(value, Column) else value

    def _inside(self, cell, first):
        if first not in self.known:
            raise Needed(first)
        _, top, left = self.trees.at(first)
        _, row, column = self.trees.at(cell)
        return self.known[first][row - top][column - left]

    # What the evaluator asks for

    def meaning(self, reference, here):
        return self.trees.meaning(reference, here, self._range)

    def _range(self, place):
        found = self._ranges.get(place)
        if found is None:
            found = self._ranges[place] = Range(self, place)
        return found

    def rows(self, place):
        rows = self._tables.get(place)
        if rows is None:
            rows, moving = self._without_moving(place)
            if moving:
                ask_for(cell for _, _, cell in moving if cell not in self.known)
                filled = list(map(list, rows))
                for r, c, cell in moving:
                    filled[r][c] = single(self.known[cell])
                rows = tuple(map(tuple, filled))
                self._mixed[id(rows)] = _has_columns(rows)
            else:
                self._mixed[id(rows)] = False
            self._tables[place] = rows
        return rows

    def _without_moving(self, place):
        """A range as rows, None where cars differ, and (row, column, cell) of those cells."""
        if place not in self._still:
            rows, moving = [], []
            for r, row in enumerate(self.trees.block(place)):
                values = []
                for c, cell in enumerate(row):
                    if self.dependence.differs(cell):
                        moving.append((r, c, cell))
                        values.append(None)
                    else:
                        values.append(single(self.one.at(*cell)))
                rows.append(tuple(values))
            self._still[place] = (tuple(rows), moving)
        return self._still[place]

    def filled(self, place):
        cells = self.trees.filled(place)
        ask_for(c for c in cells if self.dependence.differs(c) and c not in self.known)
        return tuple(
            (single(self.known[c] if self.dependence.differs(c) else self.one.at(*c)),)
            for c in cells
        )

    def cut(self, place):
        return self.trees.cut(place)

    def is_mixed(self, rows):
        """Whether a table has a `Column` in it."""
        known = self._mixed.get(id(rows))
        return _has_columns(rows) if known is None else known

    def differs(self, value, kind):
        """Whether an argument of a kind (see `formula/functions/entry.py`) has a `Column` in it."""
        kind_of_value = type(value)
        if kind_of_value is Column:
            return True
        if kind_of_value is Range:
            return kind != "place" and self.is_mixed(value.filled)
        return kind_of_value is tuple and self.is_mixed(value)


def _has_columns(rows):
    return any(isinstance(value, Column) for row in rows for value in row)
