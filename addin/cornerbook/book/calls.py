"""A table for a formula that needs more than one pose, or numbers besides: a row a call.

The formula is recorded once, with the table's given columns for its arguments. Where it asks
for a pose, the table gets columns that fetch what it uses of that pose from the poses' table,
by the number of the row there.
"""

from ..catalogue.corner import Corner, DrawnPose
from ..geometry.motion import Motion
from ..geometry.pose import Pose
from ..geometry.vec import Vec
from .naming import named_steps
from .record import Step, evaluated
from .tables import Table
from .workings import ImportedBlock, number_said


class CallTable(Table):
    """Calls of one formula, for one block or for none.

    entry: the `Formula`. workings: the `BlockWorkings`, or None for a formula of plain
    numbers. fixed: values by argument name for arguments that are not numbers, or left out.
    """

    def __init__(self, entry, workings, fixed):
        title = "CORNER.%s" % entry.name
        if workings is not None:
            title += " of %s" % workings.name
        super().__init__(title, "a row for each call")
        self.workings = workings
        self.entry = entry
        self.slots = []
        self._rows = {}
        recorder = self.recorder
        values, said = [], []
        self.numbers = []
        for argument in entry.arguments:
            if argument.kind == "block":
                values.append(_CallCorner(self))
            elif argument.name in fixed:
                values.append(fixed[argument.name])
            else:
                step = self.input(argument.name, "Asked for", argument.name)
                self.numbers.append(argument.name)
                said.append(number_said(recorder, step, argument.name, argument))
                values.append(step)
        if workings is not None:
            workings.forget_said()
        with named_steps():
            self.result = entry.function(*values)
        if workings is not None:
            said.append(self.import_step(workings.points, workings.linkage()[1]))
            said += workings.said_besides(self)
        self.said = recorder.first_said([*said, *recorder.said])
        self.show(self.said, "What is wrong", "said")

    def slot(self, travel, rack):
        """The pose of a travel and a rack that are steps of this table."""
        for known_travel, known_rack, pose in self.slots:
            if known_travel is travel and known_rack is rack:
                return pose
        number = len(self.slots)
        pose = _SlotPose(self, number)
        self.slots.append((travel, rack, pose))
        return pose

    def fetched(self, number, step, name):
        """The step for a given column that fetches a step of a slot's pose."""
        place = ("row", number)
        group = "Fetched from the poses, row %d" % (number + 1)
        self.input(place, group, "row of the pose")
        poses = self.workings.poses
        if step.kind == "constant":
            return self.recorder.step(step.what)
        if step.kind == "input" and step.what[0] is not poses:
            return self.recorder.input(step.what)
        poses.show(step, None, None)
        fetched = self.input(("slot", number, step), group, name)
        # The number of the row is read by the fetched columns' own formulas.
        self.show(self.recorder.input((self, place)))
        return fetched

    def row(self, arguments):
        """The number of the row for a call.

        arguments: (function for the text, value, key) by name of each number argument.
        """
        key = tuple(arguments[name][2] for name in self.numbers)
        if key in self._rows:
            return self._rows[key]
        number = self._rows[key] = len(self.rows)
        row = {name: arguments[name][:2] for name in self.numbers}
        self.rows.append(row)
        for place, (travel, rack, _) in enumerate(self.slots):
            pose_row = self._pose_row(travel, rack, arguments)
            row["row", place] = (None, float(pose_row + 1))
            for what in self.given:
                if isinstance(what, tuple) and what[:2] == ("slot", place):
                    row[what] = (self._fetch(what, number), self._fetched_value(what, pose_row))
        return number

    def _fetch(self, what, number):
        _, place, step = what
        poses = self.workings.poses
        return lambda: "=INDEX(%s,%s)" % (
            poses.column_range(step), "$" + self.address(("row", place), number),
        )  # fmt: skip

    def _fetched_value(self, what, pose_row):
        # Asked for when the poses have been computed.
        return lambda: self.workings.poses.value(pose_row, what[2])

    def _pose_row(self, travel, rack, arguments):
        given = []
        for step in (travel, rack):
            text = _substituted(step, arguments)
            known = {}
            value = evaluated(step, lambda what: arguments[what[1]][1], known)
            given.append(((lambda text=text: "=" + text(False)), value, _key(step, arguments)))
        key = (given[0][2], given[1][2])
        return self.workings.pose_row(key, given[0][:2], given[1][:2])


class _CallCorner(Corner):
    """The corner that a recorded formula sees: poses are fetched, the rest is imported."""

    def __init__(self, table):
        self.table = table
        self.block = ImportedBlock(table.workings, table)
        self.drawn = DrawnPose(self.block)

    @property
    def linkage(self):
        raise NotImplementedError("a formula of several poses asks for the linkage itself")

    def hold_linkage(self):
        """What is wrong with the points is said in every row of the table."""

    def pose(self, travel, rack):
        steps = [self.table.recorder.step(value) for value in (travel, rack)]
        if all(step.kind == "constant" and step.what == 0.0 for step in steps):
            return self.drawn
        return self.table.slot(*steps)

    def opposite(self, travel, rack):
        return self.pose(travel, -rack)

    def motion(self, travel, rack):
        steps = [self.table.recorder.step(value) for value in (travel, rack)]
        if all(step.kind == "constant" and step.what == 0.0 for step in steps):
            return self.table.workings.imported(self.table, self.table.workings.drawn_motion())
        return self.table.slot(*steps).motion()


class _SlotPose(Pose):
    """A pose whose fields are fetched from the poses' table when they are first read."""

    __slots__ = ("moved", "number", "table")

    def __init__(self, table, number):
        self.table = table
        self.number = number
        self.moved = None

    def motion(self):
        """The motion per travel at this pose, fetched likewise."""
        if self.moved is None:
            motion = self.table.workings.motion()
            self.moved = Motion(
                *(self._fetched(getattr(motion, name), name) for name in Motion.__slots__)
            )
        return self.moved

    def __getattr__(self, name):
        if name not in Pose.__slots__:
            raise AttributeError(name)
        value = self._fetched(getattr(self.table.workings.pose()[0], name), name)
        setattr(self, name, value)
        return value

    def _fetched(self, thing, name):
        if isinstance(thing, Vec):
            heading = name.replace("_", " ")
            return Vec(*(self._fetched(part, "%s %s" % (heading, axis))
                         for part, axis in zip(thing, "xyz", strict=True)))  # fmt: skip
        if isinstance(thing, Step):
            return self.table.fetched(self.number, thing, name)
        return thing


def _substituted(step, arguments):
    """A function for the text of a step with the call's own arguments put in."""
    if step.kind == "constant":
        return lambda inside: "%.15g" % step.what
    if step.kind == "input":
        return lambda inside: arguments[step.what[1]][0]()[1:]
    if step.kind == "minus":
        inner = _substituted(step.parts[0], arguments)
        return lambda inside: "-(%s)" % inner(True)
    raise NotImplementedError("a pose is asked for by more than an argument or its opposite")


def _key(step, arguments):
    if step.kind == "constant":
        return "%.15g" % step.what
    if step.kind == "input":
        return arguments[step.what[1]][2]
    return "-(%s)" % _key(step.parts[0], arguments)
