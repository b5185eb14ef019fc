"""The plain form of CHECK: everything that is wrong with a block, or ok."""

from ....cells.block import POINTS, VALUES
from ....cells.call import call
from ....cells.findings import findings
from ....cells.mend import Mend
from ..recorded.corners import DrawnCorner
from ..recorded.naming import named_steps
from ..recorded.said import closed, listed
from .given import guards_of
from .places import Constant, Place


class CheckForm:
    """CHECK: what is said of a block's rows, its points and its proportions, in one cell.

    workings: the `Workings`.
    """

    def __init__(self, workings):
        self._workings = workings

    def place(self, given):
        """The `Place` of a call of CHECK, or a `Constant` for a block or unit that is none."""
        unit = given["unit"]
        points = self._workings.block(given["corner"]).points
        real = call("CHECK", given["corner"].value, None if unit is None else unit.value)
        try:
            chosen_unit = "any" if unit is None else str(unit.value).strip().lower()
            step = _checked(points, chosen_unit)
        except (Mend, KeyError):
            return Constant(real)
        points.table.show(step, "Results", f"CHECK {chosen_unit}")
        return Place(points.table, 0, step, guards_of(unit))


def _checked(points, unit):
    """The text of CHECK as a step of the points' table."""
    _, said = points.linkage()
    recorder = points.table.recorder
    recorder.said = []
    for label in POINTS:
        points.block.point(label)
    for label in VALUES:
        points.block.value(label)
    rows = listed(recorder, recorder.said)
    recorder.said = []
    corner = DrawnCorner(points)
    with named_steps():
        found = [
            recorder.where(fine, "", recorder.sentence(sentence, values))
            for fine, sentence, values in findings(corner, unit)
        ]
    for step in found:
        points.table.show(step, "What is wrong with the proportions", "finding")
    wrong = listed(recorder, found)
    result = recorder.where(recorder.make("=", wrong, ""), "ok", closed(recorder, wrong))
    result = recorder.where(recorder.make("=", said, ""), result, said)
    return recorder.where(recorder.make("=", rows, ""), result, closed(recorder, rows))
