"""The plain form of SENSITIVITY: a quantity's derivative by a coordinate of the block."""

from ....cells.mend import Mend
from ....cells.moved import coordinate_of
from ....cells.quantity import chosen, name_of, of_axle
from .given import ZERO, guards_of
from .places import Place


class SensitivityForm:
    """SENSITIVITY: all that is asked of one corner at one pose stands in one row.

    workings: the `Workings`.
    """

    def __init__(self, workings):
        self._workings = workings

    def place(self, given):
        """The `Place` of a call; see `OrdinaryForm.place`."""
        texts = [given[name] for name in ("quantity", "point", "coordinate")]
        quantity, point, axis = (str(one.value).strip() for one in texts)
        (entry,) = chosen("quantity", (quantity,))
        coordinate = coordinate_of(point, axis.lower())
        asked = {name: (given[name] or ZERO).asked() for name in ("travel", "rack")}
        if of_axle(entry):
            if given["wheelbase"] is None:
                raise Mend(f"wheelbase is missing; {name_of(entry)} needs it")
            asked["wheelbase"] = given["wheelbase"].asked()
        table = self._workings.block(given["corner"]).slopes(entry)
        step = table.slope(entry, coordinate)
        return Place(table, table.call_row(asked), step, guards_of(*texts))
