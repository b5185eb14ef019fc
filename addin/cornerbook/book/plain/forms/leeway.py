"""The plain form of DISTANCE_LEEWAY: the room in a band over a quantity's exact slopes."""

from ....cells.call import call
from ....cells.moved import AXES, coordinate_of
from ....cells.quantity import chosen, name_of, of_axle
from ..workings.leeway import BAND, ENTRY
from .answer import Answer
from .given import ZERO, guards_of
from .places import Constant, Place


class LeewayForm:
    """DISTANCE_LEEWAY: slopes as SENSITIVITY has them, as drawn.

    workings: the `Workings`. results: the `OrdinaryForm` of the quantities.
    """

    def __init__(self, workings, results):
        self._workings = workings
        self._results = results

    def place(self, given):
        """The `Place` of a call; see `OrdinaryForm.place`."""
        texts = [given[name] for name in ("from_point", "to_point", "quantity")]
        *points, quantity = (str(one.value).strip() for one in texts)
        (entry,) = chosen("quantity", (quantity,))
        if of_axle(entry):
            # It has no wheelbase to ask for, and says so.
            return Constant(call(ENTRY.name, *[one.value for one in given.values()]))
        corner = given["corner"]
        block = self._workings.block(corner)
        pose = {"corner": corner, "travel": ZERO, "rack": ZERO}
        now = self._results.place(entry, pose).cell
        table, asked = block.slopes(entry), {name: ZERO.asked() for name in ("travel", "rack")}
        slopes = {}
        for point in points:
            for axis in AXES:
                step = table.slope(entry, coordinate_of(point, axis))
                slopes[point, axis] = Place(table, table.call_row(asked), step).cell
        band = [given[name].asked() for name in BAND]
        fed = block.leeway
        result = fed.leeway(points, name_of(entry), now, slopes, band)
        return Place(fed, 0, Answer(ENTRY).shown(fed, *result), guards_of(*texts))
