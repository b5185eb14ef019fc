"""The cells of a workbook for many cars at once, some of its cells being spread.

What is the same for all cars is worked out as for one (`formula/values.py`). Of the
rest, formulas of ours run on arrays (`formulas.py`); so do operators and those functions that are
written for both (`formula/functions/entry.py`), and through all others the cars go one by one
(`functions.py`). A car whose formula of ours would give a sentence or an error has NaN, and what is
worked out from that has NaN too: a comparison with it, or a value in place of an error, is not made
up.
"""

import contextlib
import math

import numpy as np

from ....cells.mend import is_number
from ...formula.ranges import single
from .columns import Column
from .dependence import Dependence
from .numbers import Cars, NotForMany
from .values import ManyValues


class ManyCells:
    """The cells of a workbook, worked out for many cars as often as is asked.

    package: the `Package`. values: its `Values` for the car as drawn.
    """

    def __init__(self, package, values):
        self.package = package
        self.values = values
        self.spread_cells(())

    def spread_cells(self, cells):
        """Say which cells, as (sheet, address), differ from car to car."""
        self._dependence = Dependence(self.values.trees, cells)
        self._still = {}

    @property
    def spread(self):
        """The cells of which `spread_cells` was told."""
        return self._dependence.spread

    def differs(self, sheet, address):
        """Whether a cell is spread, or worked out from one that is, or may be."""
        return self._dependence.differs((sheet, address))

    def evaluate(self, wanted, amounts, count):
        """The values of cells for some cars: for each cell an array of shape (count,).

        wanted: [(sheet, address)]. amounts: {spread cell: what is added to it, an array of
        shape (count,)}. NaN stands for what is no number. Raises `NotForMany` for a cell that
        cannot be had this way.
        """
        return [_as_array(value, count) for value in self.shown(wanted, amounts, count)]

    def evaluate_each(self, wanted, amounts, count):
        """The same; for a cell that cannot be had its `NotForMany`, and the rest are had."""

        def had(values, cell):
            try:
                return _as_array(single(values.at(cell)), count)
            except NotForMany as problem:
                return problem

        with self._values(amounts, count) as values:
            return [had(values, cell) for cell in wanted]

    def shown(self, wanted, amounts, count):
        """The same, as the cells show it: a `Column`, or what it is for every car."""
        with self._values(amounts, count) as values:
            return [single(values.at(cell)) for cell in wanted]

    @contextlib.contextmanager
    def _values(self, amounts, count):
        """The `ManyValues` of these cars."""
        values = ManyValues(self.values, self._dependence, self._still, amounts, Cars(count))
        try:
            with np.errstate(all="ignore"):
                yield values
        finally:
            values.let_go()


def _as_array(value, count):
    if isinstance(value, Column):
        return value.numbers.array
    return np.full(count, float(value) if is_number(value) else math.nan)
