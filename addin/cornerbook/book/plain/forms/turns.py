"""The plain form of ADJUSTER_TURNS: a column of numbers from two ranges of cells."""

from ....catalogue import FORMULAS
from ..workings.cells_table import CellsTable
from ..workings.spread import Spread
from .places import Place, Range


class TurnsForm:
    """ADJUSTER_TURNS: the turns one below the other. workings: the `Workings`."""

    def __init__(self, workings):
        self._workings = workings

    def place(self, given):
        """The `Range` of a call; see `OrdinaryForm.place`."""
        spreads = self._workings.spreads
        key = ("ADJUSTER_TURNS", *(one.identity for one in given.values()))
        if key not in spreads:
            cells = {name: one.numbers() for name, one in given.items()}
            table = CellsTable(FORMULAS["ADJUSTER_TURNS"], cells)
            self._workings.alone.append(table)
            spreads[key] = Spread(table.title, ["turns"])
            for step in table.results:
                spreads[key].add([Place(table, 0, step).cell])
        return Range(spreads[key])
