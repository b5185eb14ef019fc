"""Tables that read poses: by the number of a pose's row, what they use of it is fetched.

Where a recorded formula asks for a pose, its table gets columns that fetch what the formula
uses of that pose from the table of poses.
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
        place = ("row", pose.number)
        group = f"Fetched from another table, row {pose.number + 1}"
        self.input(place, group, "row there")
        if step.kind == "constant":
            return self.recorder.step(step.what)
        there = pose.poses.table
        if step.kind == "input" and step.what[0] is not there:
            return self.recorder.input(step.what)
        there.show(step, None, None)
        fetched = self.input(("fetched", pose.number, step), group, name)
        # The number of the row is read by the fetched columns' own formulas.
        self.show(self.recorder.input((self, place)))
        return fetched

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
        """Bring to a row the number of a pose's row and what is fetched from there."""
        asked = [worked_out(step, arguments) for step in pose.asked]
        poses, row = pose.poses, self.rows[number]
        there = poses.table.row(
            tuple(one.key for one in asked),
            {name: one.cell for name, one in zip(poses.names, asked, strict=True)},
        )
        row["row", pose.number] = (None, float(there + 1))
        for key in self.given:
            if isinstance(key, tuple) and key[:2] == ("fetched", pose.number):
                row[key] = self._fetching_cell(number, pose, there, key[2])

    def _fetching_cell(self, number, pose, there, step):
        """(formula, value) of a cell that fetches a step, both known when all is placed."""
        table = pose.poses.table

        def formula():
            row = self.layout.address(("row", pose.number), number)
            return f"=INDEX({table.layout.column_range(step)},${row})"

        return formula, lambda: table.values.of(there, step)


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
