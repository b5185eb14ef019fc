"""A quantity at a pose of a block whose drawing is changed in one number or two."""

from ....cells.corner import Corner
from ....cells.kept import Unbounded
from ....cells.quantity import of_axle
from ....cells.seen import SeenBlock
from ....geometry.vec import Vec
from ..recorded.block import ImportedBlock
from ..recorded.naming import named_steps
from ..recorded.said import number_said
from .fetching import FetchingTable


class ChangedTable(FetchingTable):
    """One quantity with a row for each change of some coordinates, #N/A where there is none.

    workings: the `BlockWorkings`. entry: the quantity's `Formula`. coordinates: those that
    each row changes. `shown`: the step of the result.
    """

    def __init__(self, workings, entry, coordinates):
        named = ", ".join(each.name for each in coordinates) or "no point"
        super().__init__(f"{workings.name}: {entry.name} with {named} changed", "a row each",
                         workings)  # fmt: skip
        recorder = self.recorder
        recorder.said = []
        asked = {name: self.number(name) for name in self.names(entry)}
        changes = {each: self.number(each.name) for each in coordinates}
        said = [number_said(recorder, step, name) for name, step in asked.items()]
        said += [number_said(recorder, step, each.name) for each, step in changes.items()]
        points = workings.points
        points.forget_said()
        corner = _Corner(ChangedBlock(ImportedBlock(points, self), changes))
        pose = asked["travel"], asked["rack"]
        with named_steps():
            corner.hold_linkage()
            if of_axle(entry):
                result = entry.function(corner, asked["wheelbase"], pose[1], pose[0])
            else:
                result = entry.function(corner, *pose)
        said += [points.imported_said(self), *points.said_besides(self), *recorder.said]
        wrong = self.show(recorder.first_said(said), "What is wrong", "said")
        fine = recorder.where(
            recorder.make("=", wrong, ""), recorder.make("ISNUMBER", result), False
        )
        none = recorder.make("NA")
        self.result = self.show(recorder.where(fine, result, none), "Results", entry.name)

    @staticmethod
    def names(entry):
        """The names of the numbers of a pose that a quantity asks for."""
        return ["travel", "rack", *(["wheelbase"] if of_axle(entry) else [])]


class _Corner(Corner):
    """A corner whose numbers are steps: every pose is solved within the row that asks for it."""

    def __init__(self, block):
        super().__init__(block)
        self._kept = Unbounded()

    def pose(self, travel, rack):
        """The `Pose`; never the drawn one, for a row may ask for any."""
        return self._kept.get("pose", (travel, rack), self._solve)

    def opposite(self, travel, rack):
        """The same for the opposite rack."""
        return self.pose(travel, -rack)

    def motion(self, travel, rack):
        """The `Motion` per travel there."""
        return self._kept.get("motion", (travel, rack), self._move)

    def actuated(self, travel, rack):
        """The `Actuated` there."""
        return self._kept.get("actuated", (travel, rack), self._actuate)


class ChangedBlock(SeenBlock):
    """A block of any kind in which some numbers are others.

    changes: {`Coordinate`: the number}.
    """

    def __init__(self, block, changes):
        super().__init__(block)
        self._changes = changes

    def point(self, label):
        mine = {each.index: new for each, new in self._changes.items() if each.label == label}
        at = super().point(label)
        return Vec(*(mine.get(i, number) for i, number in enumerate(at))) if mine else at

    def value(self, label):
        for each, new in self._changes.items():
            if each.label == label:
                return new
        return super().value(label)
