"""The plain form of CHECK: what is wrong with a block, what is unlikely, or ok."""

from ....cells.block import CROWN, POINTS, ROD_MOUNT, VALUES
from ....cells.call import call
from ....cells.findings import findings
from ....cells.judge import BUT_LOOK, WRONG
from ....cells.mend import Mend
from ....geometry.springing.actuation import MOUNTS
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
            step = checked(points, chosen_unit)
        except (Mend, KeyError):
            return Constant(real)
        points.table.show(step, "Results", f"CHECK {chosen_unit}")
        return Place(points.table, 0, step, guards_of(unit))


def checked(points, unit):
    """The text of CHECK as a step of the points' table."""
    _, said = points.linkage()
    recorder = points.table.recorder
    spring = points.block.spring_points()
    if spring:
        said = recorder.first_said([said, points.actuation()[1]])
    recorder.said = []
    for label in (*POINTS, *spring):
        points.block.point(label)
    for label in (*VALUES, *((CROWN,) if points.block.has(CROWN) else ())):
        points.block.value(label)
    if spring:
        points.block.word(ROD_MOUNT, MOUNTS)
    rows = listed(recorder, recorder.said)
    recorder.said = []
    corner = DrawnCorner(points)
    wrong, look = [], []
    with named_steps():
        for kind, fine, sentence, values in findings(corner, unit):
            step = recorder.where(fine, "", recorder.sentence(sentence, values))
            points.table.show(step, "What is wrong or unlikely in the proportions", "finding")
            (wrong if kind == WRONG else look).append(step)
    result = recorder.step("ok")
    for found, start in ((look, BUT_LOOK), (wrong, "# ")):
        words = listed(recorder, found)
        result = recorder.where(
            recorder.make("=", words, ""), result, closed(recorder, words, start)
        )
    result = recorder.where(recorder.make("=", said, ""), result, said)
    return recorder.where(recorder.make("=", rows, ""), result, closed(recorder, rows))
