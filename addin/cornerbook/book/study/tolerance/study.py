"""A workbook read for a tolerance study: its results, and the points of which they are made."""

from pathlib import Path

import numpy as np

from ....cells.mend import is_number
from ...file.address import cell_name
from ...file.package import Package
from ...file.trouble import Trouble
from ...formula.values import Values
from ..many.blocks import blocks_behind
from ..many.cells import ManyCells
from ..many.numbers import NotForMany
from .figures import SAME
from .outcome import Outcome
from .plan import Point, SpreadBlock, from_file, same_for_all
from .results import Results

_DEFAULT = {"mm": 1.0, "cm": 0.1, "m": 0.001, "in": 0.04}
"""The tolerance where none is given, about a millimetre: a guess at what a careful home
builder holds (common practice, no source)."""


class Study:
    """A workbook read, its results and blocks found. Made by `Study(path)`.

    results: the `Result`s. blocks: the `SpreadBlock`s. left_out: [(name, why)]. unit: the
    unit of length beside the points, '' where none stands there.
    """

    def __init__(self, path):
        self.name = Path(path).name
        self.package = Package.read(path)
        self.values = Values(self.package)
        self.cells = ManyCells(self.package, self.values)
        finder = Results(self.package, self.values)
        found = finder.find()
        places = blocks_behind(self.values.trees, [result.cell for result in found])
        self.unit = ""
        self.blocks = [block for block in map(self._block, places) if block.points]
        spread = {cell for block in self.blocks for point in block.points for cell in point.cells}
        self.cells.spread_cells(spread)
        if not spread:
            raise Trouble(
                f"{path} has no result that needs a corner; a cell with a name and a formula "
                "such as =CORNER.TRAIL(Front) was expected"
            )
        self.left_out = [
            (name, why) for name, cell, why in finder.left_out if self.cells.differs(*cell)
        ]
        self.results = []
        self._take([result for result in found if self.cells.differs(*result.cell)])

    def _take(self, results):
        """Take the results that can be worked out for many cars, as drawn like a single car's."""
        still = {cell: np.zeros(2) for cell in self.cells.spread}
        cells = [result.cell for result in results]
        for result, found in zip(results, self.cells.evaluate_each(cells, still, 2), strict=True):
            if isinstance(found, NotForMany):
                self.left_out.append((result.name, f"it needs {found}"))
            elif not np.all(np.abs(found - result.drawn) <= SAME * max(1.0, abs(result.drawn))):
                why = "for many cars at once its value as drawn is not the same"
                self.left_out.append((result.name, why))
            else:
                self.results.append(result)

    def _block(self, place):
        sheet, top, left, bottom, right = place
        name = None
        for known, scope, text in self.package.names:
            try:
                same = self.package.resolve(text, scope or sheet) == place
            except Trouble:
                continue
            if same:
                name = known
                break
        if name is None:
            name = f"{sheet}!{cell_name(top, left)}:{cell_name(bottom, right)}"
        points, taken = [], set()
        for row in range(top, bottom + 1):
            label = self.values.at(sheet, cell_name(row, left))
            cells = [(sheet, cell_name(row, left + i)) for i in (1, 2, 3) if left + i <= right]
            numbers = [self.values.at(*cell) for cell in cells]
            if isinstance(label, str) and len(cells) == 3 and all(map(is_number, numbers)):
                points.append(Point(label.strip(), cells))
                taken.update(cells)
                unit = self.values.at(sheet, cell_name(row, left + 4))
                if not self.unit and isinstance(unit, str):
                    self.unit = unit.strip()
        return SpreadBlock(name, points)

    def amounts(self, within=None, file=None):
        """The `Amount`s for one tolerance, or as a file has them, or for the default."""
        if within is None:
            within = _DEFAULT.get(self.unit.lower())
            if within is None:
                if file is None:
                    raise Trouble(
                        "no unit stands beside the points; say how far each may be off, in the "
                        "workbook's lengths: --within 1"
                    )
                within = 0.0
        if file is not None:
            found = from_file(file, self.blocks, within)
        else:
            found = same_for_all(self.blocks, float(within))
        if not found:
            raise Trouble("every tolerance is 0, so that no car differs; give one above 0")
        return found

    def run(self, amounts, spread="normal", cars=100_000, seed=1, progress=None):
        """The `Outcome` for so many cars; the same seed gives the same cars.

        progress: None, or a function that is called with the number of cars just done.
        """
        return Outcome(self, amounts, spread, cars, seed, progress)
