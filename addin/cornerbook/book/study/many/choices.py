"""One value or another for each car, by a truth that differs from car to car."""

import numpy as np

from ...file.cell_error import CellError
from ...formula.cell_values import Unseen, truth_of
from ...formula.ranges import rows_of, single, size_of, spread
from .columns import Column, is_plain
from .numbers import NotForMany


def truths(value):
    """A `Column` as truths; a text or an error of a car ends the formula for that car."""
    if value.is_logical and not value.others:
        return value
    array = np.where(np.isnan(value.array), np.nan, value.array != 0.0)
    for car, other in value.others.items():
        try:
            array[car] = truth_of(other)
        except CellError:
            pass
    return Column.of(array, value.cars, is_logical=True)


def either(truth, one, other):
    """One or the other for each car, by a `Column` of truths; raises an error of all cars.

    one, other: single values or tables, which must then be of one size.
    """
    choices = (one, other)
    sizes = {size_of(choice) for choice in choices} - {(1, 1)}
    if not sizes:
        value = of_each(truth, *map(single, choices))
        if isinstance(value, CellError):
            raise value
        return value
    if len(sizes) > 1:
        raise NotForMany("a range whose size differs from car to car")
    ((height, width),) = sizes
    tables = [spread(rows_of(choice), height, width) for choice in choices]
    return tuple(
        tuple(of_each(truth, a, b) for a, b in zip(*rows, strict=True))
        for rows in zip(*tables, strict=True)
    )


def of_each(truth, one, other):
    """One or the other for each car, by a `Column` of truths; errors are values here.

    A car whose truth is not known has nothing known.
    """
    cars = truth.cars
    by_one, by_other = truth.array == 1.0, truth.array == 0.0
    array = np.where(by_one, _numbers(one), np.where(by_other, _numbers(other), np.nan))
    is_logical = _is_logical(one) and _is_logical(other)
    others = {}
    for value, taken in ((one, by_one), (other, by_other)):
        if isinstance(value, Column):
            others.update((car, value.others[car]) for car in value.others if taken[car])
        elif not is_plain(value) and not isinstance(value, Unseen):
            others.update(dict.fromkeys(np.flatnonzero(taken).tolist(), value))
    if (array == array[0]).all():
        # The same for all: poses at it are then solved once.
        return bool(array[0]) if is_logical else float(array[0])
    return Column.of(array, cars, others, is_logical)


def _numbers(value):
    if isinstance(value, Column):
        return value.array
    return float(value) if is_plain(value) else np.nan


def _is_logical(value):
    return isinstance(value, bool) or (isinstance(value, Column) and value.is_logical)
