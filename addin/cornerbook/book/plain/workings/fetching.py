"""Tables that read poses: what they use of a pose is fetched from its row.

Where a recorded formula asks for a pose, its formulas name the very cells of the table of poses
in which what they use of that pose stands. A look-up in the whole column would make a cell
depend on every row of it, also on one that is asked for by what the cell leads to: a circle to
programs that follow references, not values.
"""

from typing import Any, NamedTuple

from ....geometry.corner.motion import Motion
from ....geometry.corner.pose import Pose
from ....geometry.vec import Vec
from ..recorded.steps import Step
from .asked import worked_out
from .tables import Table


class Fetched(NamedTuple):
    """What is read of a pose: the number of the pose in its table, and the step there."""

    pose: int
    step: Any


class FetchingTable(Table):
    """A table whose rows fetch what they use of poses from the tables of poses.

    workings: the `BlockWorkings`, or None for formulas of plain numbers. `numbers` are the
    given columns that each row brings with it, by name. `fetched_rows`: for each row the rows
    of its poses in their tables, by the pose's number.
    """

    def __init__(self, title, note, workings):
        super().__init__(title, note)
        self.workings = workings
        self.numbers = []
        self.fetched_rows = []
        self._poses = []
        self._arguments = []
        self._made = {}

    def number(self, name):
        """The step for a number that each row brings with it."""
        self.numbers.append(name)
        return self.input(name, "Asked for", name)

    def once(self, kind, numbers, make):
        """What `make(*numbers)` gives, recorded once for the same kind and numbers."""
        key = (kind, *(id(self.recorder.step(number)) for number in numbers))
        if key not in self._made:
            self._made[key] = make(*numbers)
        return self._made[key]

    def fetched_pose(self, poses, asked):
        """The `FetchedPose` for what is asked of `Poses` or `RoadPoses`, in steps of this table."""
        for known in self._poses:
            if known.poses is poses and all(
                a is b for a, b in zip(known.asked, asked, strict=True)
            ):
                return known
        self._poses.append(FetchedPose(self, len(self._poses), poses, asked))
        return self._poses[-1]

    def fetched(self, pose, step):
        """The step that reads a step of a `FetchedPose`."""
        if step.kind == "constant":
            return self.recorder.step(step.what)
        there = pose.poses.table
        if step.kind == "input" and step.what[0] is not there:
            return self.recorder.input(step.what)
        there.show(step, None, None)
        return self.recorder.input((self, Fetched(pose.number, step)))

    def call_row(self, arguments):
        """The number of the row for a call. arguments: an `Asked` by name of each number."""
        number = self.row({name: arguments[name] for name in self.numbers})
        if number == len(self._arguments):
            self._arguments.append(arguments)
        return number

    def settle(self):
        # What is asked of poses is known only when every measure has been recorded.
        self.fetched_rows = [
            [_row_of(pose, arguments) for pose in self._poses] for arguments in self._arguments
        ]
        super().settle()

    # What is fetched is read where it stands

    def same(self, row, step):
        key = step.what[1]
        if isinstance(key, Fetched):
            there, at = self._poses[key.pose].poses.table.sharing, self.fetched_rows[row][key.pose]
            return there.firsts(key.step)[at] if there else at
        return super().same(row, step)

    def want_given(self, step, key, rows):
        if not isinstance(key, Fetched):
            super().want_given(step, key, rows)
            return
        there = self._poses[key.pose].poses.table
        for row in rows:
            there.want(key.step, self.fetched_rows[row][key.pose])

    def given_addresses(self, key):
        if not isinstance(key, Fetched):
            return super().given_addresses(key)
        there = self._poses[key.pose].poses.table.layout.addresses(key.step)
        return [there[rows[key.pose]] for rows in self.fetched_rows]

    def given_value(self, row, key):
        if not isinstance(key, Fetched):
            return super().given_value(row, key)
        there = self._poses[key.pose].poses.table
        return there.values.plain(self.fetched_rows[row][key.pose], key.step)


def _row_of(pose, arguments):
    """The number of the row of its table in which the pose for a call stands."""
    names = pose.poses.names
    asked = [worked_out(step, arguments) for step in pose.asked]
    return pose.poses.table.row(dict(zip(names, asked, strict=True)))


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
                *(self._fetched(getattr(motion, name)) for name in Motion.__slots__)
            )
        return self.moved

    def __getattr__(self, name):
        if name not in Pose.__slots__:
            raise AttributeError(name)
        value = self._fetched(getattr(self.poses.pose(), name))
        setattr(self, name, value)
        return value

    def _fetched(self, thing):
        if isinstance(thing, Vec):
            return Vec(*map(self._fetched, thing))
        if isinstance(thing, Step):
            return self.table.fetched(self, thing)
        return thing
