"""Tables that read poses: what they use of a pose is fetched from its row.

Where a recorded formula asks for a pose, its table gets columns that fetch what the formula
uses of that pose from the table of poses. Each of their cells names the one cell that it shows.
A look-up in the whole column would make the cell depend on every row of it, also on one that is
asked for by what the cell leads to: a circle to programs that follow references, not values.
"""

from ....geometry.motion import Motion
from ....geometry.pose import Pose
from ....geometry.vec import Vec
from ..recorded.steps import Step
from .asked import worked_out
from .tables import Table


class FetchingTable(Table):
    """A table whose rows fetch what they use of poses from the tables of poses.

    workings: the `BlockWorkings`, or None for formulas of plain numbers. `numbers` are the
    given columns that each row brings with it, by name.
    """

    def __init__(self, title, note, workings):
        super().__init__(title, note)
        self.workings = workings
        self.numbers = []
        self._poses = []
        self._arguments = []

    def number(self, name):
        """The step for a number that each row brings with it."""
        self.numbers.append(name)
        return self.input(name, "Asked for", name)

    def fetched_pose(self, poses, asked):
        """The `FetchedPose` for what is asked of `Poses` or `RoadPoses`, in steps of this table."""
        for known in self._poses:
            if known.poses is poses and all(
                a is b for a, b in zip(known.asked, asked, strict=True)
            ):
                return known
        self._poses.append(FetchedPose(self, len(self._poses), poses, asked))
        return self._poses[-1]

    def fetched(self, pose, step, name):
        """The step for a given column that fetches a step of a `FetchedPose`."""
        if step.kind == "constant":
            return self.recorder.step(step.what)
        there = pose.poses.table
        if step.kind == "input" and step.what[0] is not there:
            return self.recorder.input(step.what)
        there.show(step, None, None)
        group = f"Fetched from another table, pose {pose.number + 1}"
        return self.input(("fetched", pose.number, step), group, name)

    def call_row(self, arguments):
        """The number of the row for a call. arguments: an `Asked` by name of each number."""
        key = tuple(arguments[name].key for name in self.numbers)
        number = self.row(key, {name: arguments[name].cell for name in self.numbers})
        if number == len(self._arguments):
            self._arguments.append(arguments)
        return number

    def settle(self):
        # What is fetched is known only when every measure has been recorded.
        for number, arguments in enumerate(self._arguments):
            for pose in self._poses:
                self._fetch(number, arguments, pose)
        super().settle()

    def _fetch(self, number, arguments, pose):
        """Bring to a row what is fetched from a pose's row."""
        asked = [worked_out(step, arguments) for step in pose.asked]
        poses, row = pose.poses, self.rows[number]
        there = poses.table.row(
            tuple(one.key for one in asked),
            {name: one.cell for name, one in zip(poses.names, asked, strict=True)},
        )
        for key in self.given:
            if isinstance(key, tuple) and key[:2] == ("fetched", pose.number):
                row[key] = _fetching_cell(pose.poses.table, there, key[2])


def _fetching_cell(table, row, step):
    """(formula, value) of a cell that shows a row's step of another table of its sheet."""
    return (
        lambda: "=" + table.layout.address(step, row),
        lambda: table.values.of(row, step),
    )


class FetchedPose(Pose):
    """A pose whose fields are fetched from its own table when they are first read.

    table: the `FetchingTable` that reads it, where it has a `number`. poses: the `Poses` or
    `RoadPoses` that it is one of. asked: steps of the table for what it asks of them.
    """

    __slots__ = ("asked", "moved", "number", "poses", "table")

    def __init__(self, table, number, poses, asked):
        self.table = table
        self.number = number
        self.poses = poses
        self.asked = asked
        self.moved = None

    def motion(self):
        """The motion per travel at this pose, fetched likewise."""
        if self.moved is None:
            motion = self.poses.motion()
            self.moved = Motion(
                *(self._fetched(getattr(motion, name), name) for name in Motion.__slots__)
            )
        return self.moved

    def __getattr__(self, name):
        if name not in Pose.__slots__:
            raise AttributeError(name)
        value = self._fetched(getattr(self.poses.pose(), name), name)
        setattr(self, name, value)
        return value

    def _fetched(self, thing, name):
        if isinstance(thing, Vec):
            heading = name.replace("_", " ")
            return Vec(*(self._fetched(part, f"{heading} {axis}")
                         for part, axis in zip(thing, "xyz", strict=True)))  # fmt: skip
        if isinstance(thing, Step):
            return self.table.fetched(self, thing, name)
        return thing
