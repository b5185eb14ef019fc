"""The cells of a workbook for many cars at once, some of its cells being spread.

What is the same for all cars is worked out as for one (`formula/values.py`). Of the
rest, formulas of ours run on arrays; so do operators and those functions that are written for
both (`formula/functions/entry.py`), and through all others the cars go one by one. A car whose
formula of ours would give a sentence or an error has NaN, and what is worked out from that has NaN
too: a comparison with it, or a value in place of an error, is not made up.
"""

import math

import numpy as np

from ....catalogue import FORMULAS, call
from ....cells.inputs import value_of
from ....cells.mend import Mend
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ...formula.cell_values import Unseen, number_of, truth_of
from ...formula.evaluate import Evaluator
from ...formula.functions import WHOLE
from ...formula.order import Needed, work_out
from ...formula.parse import nodes
from ...formula.ranges import Range, rows_of, size_of, spread
from .columns import Column, OneCar, chosen, gathered, is_plain
from .numbers import Cars, Many, ManyCorner, NotForMany

_OF_ARRAYS = ("number", "value", *WHOLE)
"""Kinds of argument that may be an array."""


class ManyCells:
    """Cells for many cars.

    package: the `Package`. values: its `Values` for the car as drawn.
    """

    def __init__(self, package, values):
        self.package = package
        self.values = values
        self.trees = values.trees
        self.spread = frozenset()
        self._needs = {}
        self._before = {}
        self._still = {}

    def blocks_behind(self, cells):
        """Ranges that formulas take as blocks on the way to these cells, in order, once each."""
        found, seen, waiting = {}, set(), list(reversed(cells))
        while waiting:
            cell = waiting.pop()
            if cell in seen:
                continue
            seen.add(cell)
            for reference, is_block in self._references(cell):
                try:
                    place = self.trees.place(reference, self.trees.at(cell))
                except Trouble:
                    continue
                if is_block:
                    found[place] = None
                else:
                    waiting.extend(c for row in self.trees.block(place) for c in row)
        return list(found)

    def _references(self, cell):
        """(text, whether it is given as a block) of every reference in a cell's formula."""
        first = self.trees.first_of_array(cell) or cell
        content = self.trees.content(first)
        if content is None or content.formula is None:
            return
        try:
            found = list(nodes(self.trees.tree(first)))
        except Trouble:
            return
        blocks = set()
        for node in found:
            for argument in _blocks_of(node):
                blocks.update(id(n) for n in nodes(argument) if n[0] == "reference")
        for node in found:
            if node[0] == "reference":
                yield node[1], id(node) in blocks

    def spread_cells(self, cells):
        """Say which cells, as (sheet, address), differ from car to car."""
        self.spread = frozenset(cells)
        self._needs = dict.fromkeys(cells, True)
        self._before = {}
        self._still = {}

    def differs(self, sheet, address):
        """Whether a cell is spread, or worked out from one that is, or may be."""
        cell = (sheet, address)
        if cell in self._needs:
            return self._needs[cell]
        entered, waiting = set(), [cell]
        while waiting:
            here = waiting[-1]
            if here in self._needs:
                waiting.pop()
                continue
            reads, hidden = self.trees.reads(here)
            if here not in entered:
                entered.add(here)
                # A circle adds nothing.
                waiting.extend(c for c in reads if c not in self._needs and c not in entered)
                continue
            self._needs[here] = (hidden and bool(self.spread)) or any(
                self._needs.get(other, False) for other in reads
            )
        return self._needs[cell]

    def before(self, cell):
        """Cells that differ from car to car, to be worked out before another that does."""
        if cell not in self._before:
            reads = () if cell in self.spread else self.trees.surely_reads(cell)
            self._before[cell] = [other for other in reads if self.differs(*other)]
        return self._before[cell]

    def still(self, place):
        """A range as rows, None where cars differ, and (row, column, cell) of those cells."""
        if place not in self._still:
            rows, moving = [], []
            for r, row in enumerate(self.trees.block(place)):
                values = []
                for c, cell in enumerate(row):
                    if self.differs(*cell):
                        moving.append((r, c, cell))
                        values.append(None)
                    else:
                        values.append(_single(self.values.at(*cell)))
                rows.append(tuple(values))
            self._still[place] = (tuple(rows), moving)
        return self._still[place]

    def evaluate(self, wanted, amounts, count):
        """The values of cells for some cars: for each cell an array of shape (count,).

        wanted: [(sheet, address)]. amounts: {spread cell: what is added to it, an array of
        shape (count,)}. NaN stands for what is no number. Raises `NotForMany` for a cell that
        cannot be had this way.
        """
        return [_as_array(value, count) for value in self.shown(wanted, amounts, count)]

    def shown(self, wanted, amounts, count):
        """The same, as the cells show it: a `Column`, or what it is for every car."""
        with np.errstate(all="ignore"):
            work = _Work(self, amounts, Cars(count))
            return [_single(work.at(cell)) for cell in wanted]


def _as_array(value, count):
    if isinstance(value, Column):
        return value.numbers.array
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return np.full(count, float(value) if is_number else math.nan)


def _blocks_of(node):
    """The arguments of a call of ours that are blocks."""
    if node[0] != "call" or not node[1].startswith("CORNER."):
        return
    entry = FORMULAS.get(node[1][len("CORNER.") :])
    for described, argument in zip(entry.arguments if entry else (), node[2], strict=False):
        if described.kind == "block" and argument is not None:
            yield argument


class _Work(Evaluator):
    """The cells of one set of cars; a cell is (sheet, address)."""

    def __init__(self, cells, amounts, cars):
        super().__init__(self)
        self.cells = cells
        self.trees = cells.trees
        self.amounts = amounts
        self.cars = cars
        self.known = {}
        self.ranges = {}
        self.tables = {}
        self.mixed = {}
        self.corners = {}

    def at(self, cell):
        """A cell's value: a `Many`, or what it is for every car."""
        if not self.cells.differs(*cell):
            try:
                return self.cells.values.at(*cell)
            except Trouble as trouble:
                raise NotForMany(str(trouble)) from None
        return work_out(cell, self.known, self.cells.before, self._make, self._circle)

    def _circle(self, cell):
        raise NotForMany(f"{cell[1]} needs its own result")

    def _make(self, cell):
        if cell in self.cells.spread:
            return Column(self.cells.values.at(*cell) + self.amounts[cell], self.cars)
        first = self.trees.first_of_array(cell)
        try:
            if first is not None:
                return self._inside(cell, first)
            array = self.trees.content(cell).array
            value = self.value(self.trees.tree(cell), self.trees.at(cell), array is not None)
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
        found = self.ranges.get(place)
        if found is None:
            found = self.ranges[place] = Range(self, place)
        return found

    def rows(self, place):
        rows = self.tables.get(place)
        if rows is None:
            rows, moving = self.cells.still(place)
            if moving:
                filled = list(map(list, rows))
                for r, c, cell in moving:
                    if cell not in self.known:
                        raise Needed(cell)
                    filled[r][c] = _single(self.known[cell])
                rows = tuple(map(tuple, filled))
                self.mixed[id(rows)] = _has_columns(rows)
            else:
                self.mixed[id(rows)] = False
            self.tables[place] = rows
        return rows

    def is_mixed(self, rows):
        """Whether a table has a `Column` in it."""
        known = self.mixed.get(id(rows))
        return _has_columns(rows) if known is None else known

    # Functions

    def work(self, function, values, kinds):
        differing = [k for k, v in zip(kinds, values, strict=True) if self._differs(v, k)]
        if not differing:
            return super().work(function, values, kinds)
        if kinds == ("any",):
            return self._asked_of(function, values[0])
        if function.arrays and all(kind in _OF_ARRAYS for kind in differing):
            return self._at_once(function, values, kinds)
        return self._one_by_one(function, values, kinds)

    def _differs(self, value, kind):
        kind_of_value = type(value)
        if kind_of_value is Column:
            return True
        if kind_of_value is Range:
            return kind != "place" and self.is_mixed(value.rows)
        return kind_of_value is tuple and self.is_mixed(value)

    def _one_by_one(self, function, values, kinds):
        """The function's value for each car."""
        every = range(self.cars.count)
        return gathered(self._some(function, values, kinds, every), self.cars)

    def _some(self, function, values, kinds, which):
        """The function's values for some cars, as a list."""
        found = []
        for car in which:
            one = OneCar(self, car)
            try:
                value = super().work(function, [one.argument(v) for v in values], kinds)
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
            return float(super().work(function, [value], ("any",)))
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

    def select(self, truth, one, other):
        if not isinstance(truth, Column):
            return super().select(truth, one, other)
        truth = self._truths(truth)
        if (truth.array == 1.0).all():
            return one()
        if (truth.array == 0.0).all():
            return other()
        choices = [self._asked(choice) for choice in (one, other)]
        sizes = {size_of(choice) for choice in choices} - {(1, 1)}
        if not sizes:
            value = chosen(truth, *map(_single, choices))
            if isinstance(value, CellError):
                raise value
            return value
        if len(sizes) > 1:
            raise NotForMany("a range whose size differs from car to car")
        ((height, width),) = sizes
        tables = [spread(rows_of(choice), height, width) for choice in choices]
        return tuple(
            tuple(chosen(truth, a, b) for a, b in zip(*rows, strict=True))
            for rows in zip(*tables, strict=True)
        )

    def pick(self, truth, one, other):
        if isinstance(truth, Column):
            return chosen(self._truths(truth), one, other)
        return super().pick(truth, one, other)

    def _truths(self, value):
        """A `Column` as truths; a text or an error of a car ends the formula for that car."""
        if value.is_logical and not value.others:
            return value
        array = np.where(np.isnan(value.array), np.nan, value.array != 0.0)
        for car, other in value.others.items():
            try:
                array[car] = truth_of(other)
            except CellError:
                pass
        return Column.of(array, self.cars, is_logical=True)

    # Formulas of ours

    def ours(self, name, raw):
        if not any(self._differs(value, "cells") for value in raw):
            return super().ours(name, raw)
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
            elif self._differs(value, "cells"):
                values.append(self._limited(argument, _plain(_single(value))))
            else:
                values.append(value_of(argument, value))
        return entry.function(*values)

    def _corner(self, argument, rows):
        if not self.is_mixed(rows):
            return value_of(argument, rows)
        # The rows are kept beside the corner, so that no others get their identity.
        if id(rows) not in self.corners:
            plain = tuple(tuple(map(_plain, row)) for row in rows)
            self.corners[id(rows)] = (rows, ManyCorner(plain, self.cars))
        return self.corners[id(rows)][1]

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


def _single(value):
    return value[0][0] if isinstance(value, tuple) and value and value[0] else value


def _plain(value):
    """A value as formulas of ours take it."""
    return value.numbers if isinstance(value, Column) else value


def _has_columns(rows):
    return any(isinstance(value, Column) for row in rows for value in row)
