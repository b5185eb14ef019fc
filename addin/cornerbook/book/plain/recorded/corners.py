"""What a recorded formula sees in place of a corner: steps of one table or another."""

from ....cells.corner import Corner, DrawnPose
from ....geometry.corner.motion import by_travel
from .block import ImportedBlock


class DrawnCorner(Corner):
    """A corner as drawn: steps of the points' table.

    points: the block's `Points`. Made afresh for each measure, so that what is asked for is
    said in the measure's own order.
    """

    def __init__(self, points):
        self.points = points
        self.block = points.block
        self.drawn = DrawnPose(points.block)

    @property
    def linkage(self):
        made, said = self.points.linkage()
        self.points.table.recorder.said.append(said)
        return made

    def pose(self, travel, rack):
        return self.drawn

    def opposite(self, travel, rack):
        return self.drawn

    def motion(self, travel, rack):
        return by_travel(self.linkage, self.drawn)

    @property
    def actuation(self):
        made, said = self.points.actuation()
        self.points.table.recorder.said.append(said)
        return made

    def actuated(self, travel, rack):
        made = self.actuation
        return made.at(self.linkage, self.drawn, self.motion(travel, rack))


class PoseCorner(Corner):
    """A corner at a row's pose: steps of the poses' table. poses: the block's `Poses`."""

    def __init__(self, poses):
        self.poses = poses
        self.block = ImportedBlock(poses.points, poses.table)
        self.drawn = DrawnPose(self.block)

    @property
    def linkage(self):
        return self.poses.linkage()

    def pose(self, travel, rack):
        _hold_own_pose((travel, rack), self.poses.asked)
        return self.poses.pose()

    def motion(self, travel, rack):
        return self.poses.motion()


class CallCorner(Corner):
    """The corner that a formula of several poses sees: they are fetched, the rest is imported.

    table: the `FetchingTable` of the formula's calls. `needs_linkage`: whether the formula has
    asked for anything but the corner as drawn, so that all of the linkage's rows count.
    """

    def __init__(self, table):
        self.table = table
        self.needs_linkage = False
        self.points = table.workings.points
        self.block = ImportedBlock(self.points, table)
        self.drawn = DrawnPose(self.block)

    @property
    def linkage(self):
        self.needs_linkage = True
        return self._imported(self.points.linkage()[0])

    def hold_linkage(self):
        """What is wrong with the points is said in every row of the table."""
        self.needs_linkage = True

    def once(self, kind, numbers, make):
        return self.table.once(kind, numbers, make)

    def pose(self, travel, rack):
        return self._fetched_or_drawn(self.table.workings.poses, (travel, rack))

    def opposite(self, travel, rack):
        return self.pose(travel, -rack)

    def motion(self, travel, rack):
        return self._motion_of(self.pose(travel, rack))

    @property
    def actuation(self):
        """The actuation as the table reads it; what is wrong with it is said there."""
        self.needs_linkage = True
        made, said = self.points.actuation()
        self.table.recorder.said.append(self.table.import_step(self.points.table, said))
        return self._imported(made)

    def actuated(self, travel, rack):
        return self.actuation.at(self.linkage, self.pose(travel, rack), self.motion(travel, rack))

    def on_road(self, roll, heave, rack):
        """The wheel's pose in the road's axes."""
        return self._fetched_or_drawn(self.table.workings.road, (roll, heave, rack))

    def on_road_motion(self, roll, heave, rack):
        """Its motion per travel there."""
        return self._motion_of(self.on_road(roll, heave, rack))

    def _fetched_or_drawn(self, poses, asked):
        steps = [self.table.recorder.step(value) for value in asked]
        if all(step.kind == "constant" and step.what == 0.0 for step in steps):
            return self.drawn
        self.needs_linkage = True
        return self.table.fetched_pose(poses, steps)

    def _motion_of(self, pose):
        self.needs_linkage = True
        if pose is self.drawn:
            return self._imported(self.points.motion())
        if pose.poses.keeps_motion:
            return pose.motion()
        return by_travel(self.linkage, pose)

    def _imported(self, thing):
        return self.points.imported(self.table, thing)


class SubjectCorner(CallCorner):
    """The corner that the measures of a subject see: at a row's pose, each thing made once.

    table: the `SubjectTable`.
    """

    def __init__(self, table):
        super().__init__(table)
        self._motion = None
        self._actuated = None

    def pose(self, travel, rack):
        _hold_own_pose((travel, rack), self.table.asked)
        return super().pose(travel, rack)

    def motion(self, travel, rack):
        if self._motion is None:
            self._motion = super().motion(travel, rack)
        return self._motion

    def actuated(self, travel, rack):
        # What is wrong with the actuation is said to each measure that asks for it.
        made = self.actuation
        if self._actuated is None:
            pose = self.pose(travel, rack)
            self._actuated = made.at(self.linkage, pose, self.motion(travel, rack))
        return self._actuated


def _hold_own_pose(given, asked):
    """Raise NotImplementedError unless a measure asks for the pose of its own row."""
    if any(step is not own for step, own in zip(given, asked, strict=True)):
        raise NotImplementedError("a measure at one pose asks for another one")
