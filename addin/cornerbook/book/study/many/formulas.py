"""Formulas of ours, called for many cars."""

import numpy as np

from ....catalogue import FORMULAS, call
from ....cells.inputs import value_of
from ....cells.mend import Mend
from ....cells.rows import rows_of
from ...file.cell_error import CellError
from ...formula.ranges import single
from .columns import Column
from .numbers import Many, ManyCorner, NotForMany


class ManyFormulas:
    """Calls a formula of ours once, with arrays in it, for all cars.

    reader: what knows the values of all cars, the `ManyValues`. cars: its `Cars`.
    """

    def __init__(self, reader, cars):
        self.reader = reader
        self.cars = cars
        self._corners = {}

    def value(self, name, raw):
        """The value of CORNER.name, for arguments as a host hands them over."""
        entry = FORMULAS[name]
        if len(raw) > len(entry.arguments):
            return call(name, *([None] * len(raw)))
        with self.cars.apart() as marks:
            try:
                result = self._run(entry, raw)
            except Mend as mend:
                return mend.sentence
            except (ZeroDivisionError, OverflowError):
                return "# no real number"
            except (TypeError, ValueError, AttributeError, LookupError):
                # A formula that works on floats alone; what it does is its own affair.
                raise NotForMany(f"CORNER.{name}, which takes one car at a time") from None
        if result is None:
            raise CellError("#N/A")
        failed = marks[0] if marks else None
        if isinstance(result, tuple):
            return tuple(tuple(self._shown(part, failed) for part in row) for row in result)
        return self._shown(result, failed)

    def _run(self, entry, raw):
        values = []
        for number, argument in enumerate(entry.arguments):
            value = raw[number] if number < len(raw) else None
            if argument.kind == "block" and isinstance(value, tuple):
                values.append(self._corner(argument, value))
            elif argument.kind == "rows" and isinstance(value, tuple):
                values.append(rows_of(argument, value, _of_many))
            elif self.reader.differs(value, "cells"):
                values.append(self._limited(argument, _plain(single(value))))
            else:
                values.append(value_of(argument, value))
        return entry.function(*values)

    def _corner(self, argument, rows):
        if not self.reader.is_mixed(rows):
            return value_of(argument, rows)
        # The rows are kept beside the corner, so that no others get their identity.
        if id(rows) not in self._corners:
            plain = tuple(tuple(map(_plain, row)) for row in rows)
            self._corners[id(rows)] = (rows, ManyCorner(plain, self.cars))
        return self._corners[id(rows)][1]

    def _limited(self, argument, value):
        if argument.kind != "number" or not isinstance(value, Many):
            raise NotForMany(f"{argument.name} that differs from car to car")
        within = np.isfinite(value.array)
        if argument.above is not None:
            within &= value.array > argument.above
        if argument.below is not None:
            within &= value.array < argument.below
        self.cars.number(within).hold("", ())
        return value

    def _shown(self, value, failed):
        if value is None:
            return CellError("#N/A")
        if isinstance(value, str):
            if failed is not None:
                raise NotForMany("a text that differs from car to car")
            return value
        array = value.array if isinstance(value, Many) else np.full(self.cars.count, value)
        found = np.isfinite(array) if failed is None else np.isfinite(array) & ~failed
        if found.all():
            return Column(array, self.cars)
        return Column(np.where(found, array, np.nan), self.cars, missing=~found)


def _of_many(cell):
    """The numbers of all cars of a cell in which they differ; None for any other cell."""
    return cell.numbers if isinstance(cell, Column) else None


def _plain(value):
    """A value as formulas of ours take it."""
    return value.numbers if isinstance(value, Column) else value
