"""How far distances may be off, from slopes and bands that stand elsewhere in the workings."""

from ....catalogue import FORMULAS
from ....catalogue.set_up.lengths import leeway
from ....cells.moved import AXES
from ....geometry.vec import Vec
from ..recorded.block import ImportedBlock
from ..recorded.naming import named_steps
from ..recorded.said import number_said
from .tables import Table

BAND = ("band_from", "band_to")


class LeewayTable(Table):
    """DISTANCE_LEEWAY of one block: one row, into which each slope and band is fed once.

    workings: the `BlockWorkings`.
    """

    def __init__(self, workings):
        super().__init__(f"{workings.name}: leeway of distances", "slopes and bands, each once")
        self.rows.append({})
        self._workings = workings
        self._block = ImportedBlock(workings.points, self)

    def leeway(self, points, quantity, now, slopes, band):
        """(result, what is wrong) as steps. points: the names of both; quantity: a name.

        now: (formula, value) of a cell that shows the quantity; slopes: of those that show its
        slopes, by (point, axis); band: the `Asked` of both ends.
        """
        recorder, known = self.recorder, self._workings.points
        recorder.said = []
        said = []

        def fed(key, name, cell, argument=None):
            step = self.input(key, "Asked for", name)
            self.rows[0][key] = cell
            said.append(number_said(recorder, step, argument or name))
            return step

        known.forget_said()
        at = fed(("now", quantity), quantity, now)
        by = [
            Vec(*(fed((quantity, point, axis), f"{quantity} by {point} {axis}", slopes[point, axis])
                  for axis in AXES))
            for point in points
        ]  # fmt: skip
        ends = [
            fed(("end", one.key), f"{quantity}, {name}", one.cell, name)
            for name, one in zip(BAND, band, strict=True)
        ]
        with named_steps():
            result = leeway(self._block, points, at, by, ends)
        return result, recorder.first_said(
            [*said, known.imported_said(self), *known.said_besides(self), *recorder.said]
        )


ENTRY = FORMULAS["DISTANCE_LEEWAY"]
