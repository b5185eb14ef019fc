"""What a cell shows for each of many cars, where it is not a number for all of them."""

import numpy as np

from ...formula.cell_values import BLANK, SKIPPED, Blank, Unseen
from ...formula.ranges import Range
from .numbers import Many, NotForMany


class Column(Many):
    """What a cell shows for each car. It goes to formulas of ours as the `Many` that it gives.

    array: NaN where a car has no number. others: {car: what it has instead}, a text, an error,
    None for nothing; of a car with NaN that is not in it no more is known than that a formula
    of ours gave it no number.
    is_logical: whether the numbers are truths. missing: an array of truths, the cars with NaN;
    None if there are none.
    """

    __slots__ = ("_numbers", "is_logical", "missing", "others")

    def __init__(self, array, cars, others=None, is_logical=False, missing=None):
        super().__init__(array, cars)
        self.others = others or {}
        self.is_logical = is_logical
        self.missing = missing
        self._numbers = None

    @classmethod
    def of(cls, array, cars, others=None, is_logical=False):
        """From an array in which NaN is looked for."""
        missing = np.isnan(array)
        return cls(array, cars, others, is_logical, missing if missing.any() else None)

    @property
    def numbers(self):
        """A plain `Many`, always the same: what formulas of ours work out for it is kept.

        Raises `NotForMany` where no car that is known has a number, but some a text.
        """
        if self._numbers is None:
            self._numbers = Many(self._as_numbers(), self.cars)
        return self._numbers

    def _as_numbers(self):
        if not self.others:
            return self.array
        array = self.array.copy()
        for car, value in self.others.items():
            if value is None:
                raise NotForMany("a cell that is empty for some cars")
            if isinstance(value, float):
                array[car] = value  # what shows an empty cell
        texts = any(isinstance(value, str) for value in self.others.values())
        if texts and np.isnan(array).all():
            raise NotForMany("a text that differs from car to car")
        return array

    def settled(self):
        """What a cell shows whose formula comes to this: an empty cell as 0."""
        for car, value in self.others.items():
            if value is None or value is SKIPPED:
                self.others[car] = BLANK
        return self


def picked(value, car):
    """The value of one car."""
    if not isinstance(value, Column):
        return value
    number = float(value.array[car])
    if number != number:
        return value.others[car] if car in value.others else Unseen()
    return bool(number) if value.is_logical else number


def is_plain(value):
    """Whether a value is a number or a truth that an array can hold."""
    return isinstance(value, (float, int)) and type(value) is not Blank


def gathered(values, cars):
    """The values of all cars as one: what is the same for all by itself, else a `Column`."""
    if isinstance(values[0], tuple):
        return _tables(values, cars)
    if all(type(value) is float for value in values):
        return Column(np.array(values), cars)
    if isinstance(values[0], str) and all(value == values[0] for value in values):
        return values[0]
    array = np.full(cars.count, np.nan)
    others = {}
    for car, value in enumerate(values):
        if is_plain(value):
            array[car] = value
        elif not isinstance(value, Unseen):
            others[car] = value
    return Column.of(array, cars, others, all(isinstance(value, bool) for value in values))


def _tables(values, cars):
    """Tables of one size, place by place."""
    sizes = {(len(v), len(v[0])) if isinstance(v, tuple) else None for v in values}
    if len(sizes) != 1:
        raise NotForMany("a table whose size differs from car to car")
    ((height, width),) = sizes
    return tuple(
        tuple(gathered([value[r][c] for value in values], cars) for c in range(width))
        for r in range(height)
    )


class OneCar:
    """What a `Range` reads for one car. reader: what knows the values of all."""

    def __init__(self, reader, car):
        self.reader = reader
        self.car = car

    def rows(self, place):
        rows = self.reader.rows(place)
        if not self.reader.is_mixed(rows):
            return rows
        return tuple(tuple(picked(value, self.car) for value in row) for row in rows)

    def filled(self, place):
        return tuple((picked(value, self.car),) for (value,) in self.reader.filled(place))

    def cut(self, place):
        return self.reader.cut(place)

    def argument(self, value):
        """An argument of a function as this car has it."""
        if isinstance(value, Range):
            return Range(self, value.place)
        if isinstance(value, tuple):
            return tuple(tuple(picked(cell, self.car) for cell in row) for row in value)
        return picked(value, self.car)
