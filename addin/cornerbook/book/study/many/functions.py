"""Functions of a spreadsheet, called for many cars."""

import math

import numpy as np

from ...file.cell_error import CellError
from ...formula.cell_values import Unseen, number_of
from ...formula.functions import WHOLE
from ...formula.ranges import Range, rows_of
from .columns import Column, OneCar, gathered, is_plain
from .numbers import NotForMany

_OF_ARRAYS = ("number", "value", *WHOLE)
"""Kinds of argument that may be an array."""


class ManyFunctions:
    """Calls a function for all cars: on arrays where it is written for them, else one by one.

    reader: what knows the values of all cars, the `ManyValues`. cars: its `Cars`. work:
    `Evaluator.work`, which calls a function for one car.
    """

    def __init__(self, reader, cars, work):
        self.reader = reader
        self.cars = cars
        self.work = work

    def value(self, function, values, kinds, differing):
        """A function's value; differing: the kinds of those arguments that cars differ in."""
        if kinds == ("any",):
            return self._asked_of(function, values[0])
        if function.arrays and all(kind in _OF_ARRAYS for kind in differing):
            return self._at_once(function, values, kinds)
        if function.found_by is not None and not self._differ(function.found_by(*values)):
            return _as_number(self.work(function, values, kinds))
        return self._one_by_one(function, values, kinds)

    @staticmethod
    def _differ(values):
        return any(isinstance(value, Column) for value in values)

    def _one_by_one(self, function, values, kinds):
        """The function's value for each car."""
        every = range(self.cars.count)
        return gathered(self._some(function, values, kinds, every), self.cars)

    def _some(self, function, values, kinds, which):
        """The function's values for some cars, as a list."""
        found = []
        for car in which:
            one = OneCar(self.reader, car)
            try:
                value = self.work(function, [one.argument(v) for v in values], kinds)
                if isinstance(value, Range):
                    if not value.is_one:
                        raise NotForMany(f"{function.name} of a range that differs from car to car")
                    value = value.rows[0][0]
            except CellError as error:
                value = error
            found.append(value)
        return found

    def _asked_of(self, function, value):
        """A question about what a value is: one answer for all cars that have a number."""
        answer = self._answer(function, True if value.is_logical else 1.0)
        array = np.full(self.cars.count, answer)
        if value.missing is not None:
            array[value.missing] = self._answer(function, Unseen())
            for car, other in value.others.items():
                array[car] = self._answer(function, other)
        return Column.of(array, self.cars, is_logical=True)

    def _answer(self, function, value):
        try:
            return float(self.work(function, [value], ("any",)))
        except CellError:
            return math.nan

    def _at_once(self, function, values, kinds):
        """The function run on arrays; cars with a text or an error go through it one by one."""
        taken = _Taken()
        arguments = []
        for value, kind in zip(values, kinds, strict=True):
            if isinstance(value, Column):
                value = taken.array(value)
            elif isinstance(value, (Range, tuple)):
                value = taken.table(rows_of(value))
            elif kind == "number":
                value = number_of(value)
            elif kind == "value" and isinstance(value, CellError):
                raise value
            arguments.append(value)
        try:
            found = function.work(*arguments)
        except (CellError, ZeroDivisionError, OverflowError):
            # What stops it may be the text of one car.
            return self._one_by_one(function, values, kinds)
        array, is_logical = self._filled(found)
        missing = None if function.blind else taken.missing
        wrong = ~np.isfinite(array)
        if missing is None and not wrong.any():
            return Column(array, self.cars, None, is_logical)
        again = set(taken.others)
        if missing is None:
            again.update(np.flatnonzero(wrong).tolist())
        else:
            again.update(np.flatnonzero(wrong & ~missing).tolist())
        again = sorted(again)
        array = np.where(wrong if missing is None else wrong | missing, np.nan, array)
        # A car of which is not known what it had has nothing known.
        others = {}
        for car, value in zip(again, self._some(function, values, kinds, again), strict=True):
            if is_plain(value):
                array[car] = value
            elif not isinstance(value, Unseen):
                others[car] = value
        return Column.of(array, self.cars, others, is_logical)

    def _filled(self, found):
        """An array of all cars, and whether it is one of truths."""
        if not isinstance(found, np.ndarray) or found.shape != (self.cars.count,):
            found = np.broadcast_to(found, (self.cars.count,))
        is_logical = found.dtype == bool
        return found.astype(float) if found.dtype != float else found, is_logical


def _as_number(value):
    """What a cell that was found is shown as: a truth as a number."""
    if not isinstance(value, Column) or not value.is_logical:
        return value
    others = {c: float(v) if isinstance(v, bool) else v for c, v in value.others.items()}
    return Column(value.array, value.cars, others, missing=value.missing)


class _Taken:
    """Arrays taken out of arguments, and what is known of the cars that have no number there.

    missing: an array of truths, the cars without a number somewhere, or None. others: the
    numbers of cars that have a text or an error there.
    """

    def __init__(self):
        self.missing = None
        self.others = set()

    def array(self, value):
        """The array of a `Column`."""
        if value.missing is not None:
            here = value.missing
            self.missing = here if self.missing is None else self.missing | here
            self.others.update(value.others)
        return value.array

    def table(self, rows):
        """A table with arrays in place of each `Column`."""
        return tuple(
            tuple(self.array(cell) if isinstance(cell, Column) else cell for cell in row)
            for row in rows
        )
