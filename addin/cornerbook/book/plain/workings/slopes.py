"""How quantities change with each coordinate of a block: exact derivatives, in plain formulas.

At a pose three angles say how the linkage lies, and three conditions hold them
(`geometry/corner/lying.py`). What a quantity changes by when a coordinate is moved is what it does
with the angles held, less what the conditions make the angles undo (theorem of implicit
functions): each condition counts for a factor that makes the quantity stand still to the angles.
All coordinates are had in one pass (`recorded/slopes.py`), so a pose takes one row.
"""

from ....cells.corner import Corner, DrawnPose, actuation_of, linkage_of
from ....cells.quantity import of_axle
from ....geometry.corner import motion
from ....geometry.corner.heights import WheelAt
from ....geometry.corner.lying import Links, Lying, angles_of
from ..recorded.block import ImportedBlock
from ..recorded.naming import named_steps
from ..recorded.said import number_said
from ..recorded.slopes import made_of, slopes
from .fetching import FetchingTable

NONE = (
    "this quantity has no derivative by that coordinate here: it stands at a kink or at an end "
    "of its range"
)


class SlopeTable(FetchingTable):
    """Derivatives of quantities by a block's coordinates, with a row for each pose asked for.

    workings: the `BlockWorkings`. entry: the `Formula` of one of the quantities, which all are
    of one group and ask for the same numbers.
    """

    def __init__(self, workings, entry):
        title = f"{workings.name}: sensitivities, {entry.group}"
        super().__init__(title, "a row for each pose asked for", workings)
        names = [argument.name for argument in entry.arguments if argument.kind == "number"]
        self.asked = {name: self.number(name) for name in names}
        self._corner = None
        self._measured = {}
        self._slopes = {}

    def slope(self, entry, coordinate):
        """The step that shows the derivative of a quantity, or says why there is none.

        entry: the quantity's `Formula`. coordinate: a `Coordinate`. Raises `Mend` where the
        block has no row for it.
        """
        key = (entry.name, coordinate.name)
        if key not in self._slopes:
            points = self.workings.points
            points.forget_said()
            by = coordinate.of(self._corner_of_leaves().block)
            besides = points.said_besides(self)
            if entry.name not in self._measured:
                self._measured[entry.name] = self._measure(entry)
            result, wrong = self._measured[entry.name]
            wrong = self.recorder.first_said([*besides, wrong])
            self._slopes[key] = self._shown(entry, result, wrong, by, coordinate.name)
        return self._slopes[key]

    def wrong(self, entry):
        """The step that says what is wrong with a quantity of which a slope was asked for."""
        return self._measured[entry.name][1]

    def depends(self, entry, coordinate):
        """Whether a quantity of which this slope was asked for has to do with the coordinate."""
        by = coordinate.of(self._corner_of_leaves().block)
        step = self._corner.by_all(self._measured[entry.name][0]).get(by)
        return step is not None and not (step.kind == "constant" and step.what == 0.0)

    def _corner_of_leaves(self):
        if self._corner is None:
            with named_steps():
                self._corner = LeafCorner(self)
        return self._corner

    def _measure(self, entry):
        """(the quantity, what is wrong with it or with the inputs; an empty text for nothing)."""
        recorder, points = self.recorder, self.workings.points
        corner = self._corner_of_leaves()
        recorder.said = []
        points.forget_said()
        travel, rack = self.asked["travel"], self.asked["rack"]
        with named_steps():
            if of_axle(entry):
                result = entry.function(corner, self.asked["wheelbase"], rack, travel)
            else:
                result = entry.function(corner, travel, rack)
        declared = {argument.name: argument for argument in entry.arguments}
        said = [number_said(recorder, step, name, declared[name])
                for name, step in self.asked.items()]  # fmt: skip
        said += [points.imported_said(self), *points.said_besides(self), *recorder.said]
        result = recorder.step(result)
        beyond = recorder.where(
            recorder.make("ISNUMBER", result), "", recorder.sentence(entry.beyond)
        )
        said = recorder.first_said(said)
        wrong = recorder.where(recorder.make("=", said, ""), beyond, said)
        return result, self.show(wrong, "What is wrong", entry.name)

    def _shown(self, entry, result, wrong, by, name):
        recorder = self.recorder
        step = self._corner.by_all(result).get(by, recorder.step(0.0))
        heading = f"{entry.name} by {name}"
        good = step
        if step.kind != "constant":
            is_number = recorder.make("ISNUMBER", step)
            good = recorder.where(is_number, step, recorder.sentence(NONE))
        shown = recorder.where(recorder.make("=", wrong, ""), good, wrong)
        return self.show(shown, "Results", heading)


class LeafCorner(Corner):
    """The corner of a `SlopeTable`'s rows, all of it made of the block's numbers and the angles.

    table: the `SlopeTable`.
    """

    def __init__(self, table):
        self.block = ImportedBlock(table.workings.points, table)
        self.drawn = DrawnPose(self.block)
        self._table = table
        self._actuation = None
        self._linkage = linkage_of(self.block, self.drawn)
        self._said_of_actuation = []
        self._lying = {}
        self._motions = {}
        self._by = {}

    def hold_linkage(self):
        """What is wrong with the points is said in every row of the table."""

    @property
    def actuation(self):
        """The corner's `Actuation`; what is wrong with it is said to each who asks."""
        said = self._table.recorder.said
        if self._actuation is None:
            before = len(said)
            self._actuation = actuation_of(self.block, self.drawn, self._linkage)
            self._said_of_actuation = said[before:]
        else:
            said += self._said_of_actuation
        return self._actuation

    def pose(self, travel, rack):
        """The `Pose` by its three angles."""
        return self._at(travel, rack)[2]

    def opposite(self, travel, rack):
        """The same for the opposite rack."""
        return self.pose(travel, -rack)

    def motion(self, travel, rack):
        """The `Motion` per travel there."""
        key = (id(travel), id(rack))
        if key not in self._motions:
            self._motions[key] = motion.by_travel(self._linkage, self.pose(travel, rack))
        return self._motions[key]

    def actuated(self, travel, rack):
        """The `Actuated` there."""
        made = self.actuation
        return made.at(self._linkage, self.pose(travel, rack), self.motion(travel, rack))

    def on_road(self, roll, heave, rack):
        """Not asked for by a quantity at a pose."""
        raise NotImplementedError("a quantity at a pose asks for the wheel on the road")

    on_road_motion = on_road

    def _at(self, travel, rack):
        """(three angles, the `Lying` at these, its `Pose`); travel, rack: steps of the table."""
        key = (id(travel), id(rack))
        if key not in self._lying:
            fetched = self._table.fetched_pose(self._table.workings.poses, (travel, rack))
            angles = angles_of(self._linkage, fetched)
            links = Links(self._linkage, WheelAt(self._linkage.wheel_height + travel))
            lying = Lying(links, *angles, rack)
            self._lying[key] = (angles, lying, lying.pose(0.0))
        return self._lying[key]

    def by_all(self, result):
        """{a step of the block: the derivative of a quantity by it}."""
        if result not in self._by:
            self._by[result] = self._by_all(result)
        return self._by[result]

    def _by_all(self, result):
        recorder = self._table.recorder
        counted = [(result, recorder.step(1.0))]
        angles = [angle for made in self._lying.values() for angle in made[0]]
        by_angles = slopes(recorder, counted, angles)
        for own, lying, _ in self._lying.values():
            one, two, three = lying.by_lower, lying.by_upper, lying.by_turn
            first, second, third = (by_angles[angle] for angle in own)
            two_three = two.cross(three)
            factors = two_three * first + three.cross(one) * second + one.cross(two) * third
            factors = factors / one.dot(two_three)
            counted += [(miss, recorder.subtract(0.0, factor))
                        for miss, factor in zip(lying.misses, factors, strict=True)]  # fmt: skip
        # What is read of the points' table here is the numbers of the block themselves.
        points = self._table.workings.points.table
        leaves = [step for step in made_of([step for step, _ in counted])
                  if step.kind == "input" and step.what[0] is points]  # fmt: skip
        found = slopes(recorder, counted, [*leaves, *angles])
        return {leaf: found[leaf] for leaf in leaves}
