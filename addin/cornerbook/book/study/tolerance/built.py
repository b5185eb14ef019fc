"""Many cars worked out from one workbook."""

import tempfile

import numpy as np

from ..many.numbers import NotForMany
from .lines import Lines

IN_MEMORY = 2**28
"""Bytes of all values that are held in memory; more are held in a file, which goes by itself."""


class Built:
    """Every result of every car, and a straight line through each result.

    study: the `Study`. amounts: its `Amount`s. draws: their `Draws`. progress: a function of
    the number of cars just done. results: those that could be had for all cars; left_out:
    [(name, why)] of the rest. values: array (results, cars), NaN for a car without that
    result. slopes: array (results, amounts), for a deviation of one tolerance.
    """

    def __init__(self, study, amounts, draws, progress):
        self.cells = study.cells
        self.amounts = amounts
        self.results = list(study.results)
        self.left_out = list(study.left_out)
        while not self._work_out(draws, progress):
            pass

    def _work_out(self, draws, progress):
        """Work out all cars; false if a result had to be left out, to begin again without."""
        self.values = _room(len(self.results), draws.cars)
        lines = Lines(len(self.results), len(self.amounts))
        wanted = [result.cell for result in self.results]
        drawn = np.array([result.drawn for result in self.results])
        for part, deviations in draws.chunks():
            count = part.stop - part.start
            moved = self._moved(deviations, count)
            here = self.values[:, part]
            try:
                here[:] = self.cells.evaluate(wanted, moved, count)
            except NotForMany:
                self._leave_out(moved, count)
                progress(-part.start)
                return False
            lines.add(deviations, here - drawn[:, None])
            progress(count)
        self.slopes = lines.slopes()
        return True

    def _moved(self, deviations, count):
        """{cell: how far it is off in each car}."""
        moved = {cell: np.zeros(count) for cell in self.cells.spread}
        for amount, deviation in zip(self.amounts, deviations, strict=True):
            for cell in amount.cells:
                moved[cell] += amount.within * deviation
        return moved

    def _leave_out(self, moved, count):
        """Leave out the results that cannot be had for some cars, where they differ."""
        cells = [result.cell for result in self.results]
        found = self.cells.evaluate_each(cells, moved, count)
        for result, values in zip(list(self.results), found, strict=True):
            if isinstance(values, NotForMany):
                self.results.remove(result)
                self.left_out.append((result.name, f"it needs {values}"))


def _room(results, cars):
    """An array of shape (results, cars) to be filled."""
    if results * cars * 8 <= IN_MEMORY:
        return np.empty((results, cars))
    with tempfile.TemporaryFile() as held:
        return np.memmap(held, dtype=float, shape=(results, cars))
