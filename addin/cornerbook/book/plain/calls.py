"""A table for a formula that needs more than one pose, or numbers besides: a row a call.

The formula is recorded once, with the table's given columns for its arguments. Where it asks
for a pose, the table gets columns that fetch what it uses of that pose from the poses' table,
by the number of the row there.
"""

from ...cells.corner import Corner, DrawnPose
from ...geometry.motion import Motion, by_travel
from ...geometry.pose import Pose
from ...geometry.vec import Vec
from .naming import named_steps
from .record import Step, evaluated
from .recorded_corner import ImportedBlock, imported_actuation
from .said import number_said
from .tables import Table
from .workings import ROAD


class FetchingTable(Table):
    """A table whose rows fetch what they use of poses from the tables of poses.

    workings: the `BlockWorkings`, or None for formulas of plain numbers. `numbers` are the
    given columns that each row brings with it, by name.
    """

    def __init__(self, title, note, workings):
        super().__init__(title, note)
        self.workings = workings
        self.numbers = []
        self.slots = []
        self._rows = {}
        self._asked = []
        if workings is not None:
            self.sources = {
                "travelled": Source(workings.poses, ("travel", "rack"), lambda: workings.pose()[0]),
                "standing": Source(
                    workings.road, ROAD, lambda: workings.on_road().pose, workings.road_motion
                ),
            }

    def slot(self, source, asked):
        """The pose of a `Source` for what is asked, steps of this table."""
        for known, steps, pose in self.slots:
            if known is source and all(a is b for a, b in zip(steps, asked, strict=True)):
                return pose
        pose = _SlotPose(self, len(self.slots), source)
        self.slots.append((source, asked, pose))
        return pose

    def fetched(self, number, source, step, name):
        """The step for a given column that fetches a step of a slot's pose."""
        place = ("row", number)
        group = f"Fetched from another table, row {number + 1}"
        self.input(place, group, "row there")
        if step.kind == "constant":
            return self.recorder.step(step.what)
        if step.kind == "input" and step.what[0] is not source.table:
            return self.recorder.input(step.what)
        source.table.show(step, None, None)
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
        self.rows.append({name: arguments[name][:2] for name in self.numbers})
        self._asked.append(arguments)
        return number

    def settle(self):
        # What is fetched is known only when every measure has been recorded.
        for number, (row, arguments) in enumerate(zip(self.rows, self._asked, strict=True)):
            for place, (source, asked, _) in enumerate(self.slots):
                there = self._row_there(source, asked, arguments)
                row["row", place] = (None, float(there + 1))
                for what in self.given:
                    if isinstance(what, tuple) and what[:2] == ("slot", place):
                        row[what] = (
                            self._fetch(source, what, number),
                            self._fetched_value(source, what, there),
                        )
        super().settle()

    def _fetch(self, source, what, number):
        _, place, step = what
        return lambda: "=INDEX(%s,%s)" % (
            source.table.column_range(step), "$" + self.address(("row", place), number),
        )  # fmt: skip

    @staticmethod
    def _fetched_value(source, what, there):
        # Asked for when the other table has been computed.
        return lambda: source.table.value(there, what[2])

    def _row_there(self, source, asked, arguments):
        given, key = {}, []
        for name, step in zip(source.names, asked, strict=True):
            text = _substituted(step, arguments)
            value = evaluated(step, lambda what: arguments[what[1]][1], {})
            given[name] = ((lambda text=text: "=" + text(False)), value)
            key.append(_key(step, arguments))
        return self.workings.row(source.table, tuple(key), given)


class CallTable(FetchingTable):
    """Calls of one formula, for one block or for none.

    entry: the `Formula`. workings: the `BlockWorkings`, or None for a formula of plain
    numbers. fixed: values by argument name for arguments that are not numbers, or left out.
    """

    def __init__(self, entry, workings, fixed):
        title = f"CORNER.{entry.name}"
        if workings is not None:
            title += f" of {workings.name}"
        super().__init__(title, "a row for each call", workings)
        recorder = self.recorder
        values, said = [], []
        for argument in entry.arguments:
            if argument.kind == "block":
                values.append(CallCorner(self))
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


class SubjectTable(FetchingTable):
    """Measures of one subject at a corner's poses, with rows only where one is asked for.

    A measure is worked out for every row of its table; with a table for each subject, one
    that is asked for at few poses costs few cells.
    """

    def __init__(self, subject, workings):
        title = f"{workings.name}: {subject}"
        super().__init__(title, "a row for each travel and rack asked for", workings)
        self.numbers = ["travel", "rack"]
        self.travel, self.rack = (self.input(name, "Asked for", name) for name in self.numbers)
        self.corner = SubjectCorner(self)
        self._measures = {}

    def measure(self, key, function):
        """(result, said) of a function of (corner, travel, rack)."""
        if key not in self._measures:
            self._measures[key] = self.workings.measured(
                self, self.corner, self.travel, self.rack, function
            )
        return self._measures[key]


class Source:
    """A table of poses that calls fetch from: its table, what its rows ask for, and steps."""

    def __init__(self, table, names, pose, motion=None):
        self.table = table
        self.names = names
        self.pose = pose
        self.motion = motion


class CallCorner(Corner):
    """The corner that a recorded formula sees: poses are fetched, the rest is imported."""

    def __init__(self, table):
        workings = table.workings
        self.table = table
        self.block = ImportedBlock(workings, table)
        self.drawn = DrawnPose(self.block)
        self._travelled = table.sources["travelled"]
        self._standing = table.sources["standing"]

    @property
    def linkage(self):
        raise NotImplementedError("a formula of several poses asks for the linkage itself")

    def hold_linkage(self):
        """What is wrong with the points is said in every row of the table."""

    def pose(self, travel, rack):
        return self._slot_or_drawn(self._travelled, (travel, rack))

    def opposite(self, travel, rack):
        return self.pose(travel, -rack)

    def motion(self, travel, rack):
        return self._motion_of(self.pose(travel, rack))

    def actuated(self, travel, rack):
        workings = self.table.workings
        made = imported_actuation(workings, self.table)
        linkage = self._imported(workings.linkage()[0])
        return made.at(linkage, self.pose(travel, rack), self.motion(travel, rack))

    def on_road(self, roll, heave, rack):
        """The wheel's pose in the road's axes."""
        return self._slot_or_drawn(self._standing, (roll, heave, rack))

    def on_road_motion(self, roll, heave, rack):
        """Its motion per travel there."""
        return self._motion_of(self.on_road(roll, heave, rack))

    def _slot_or_drawn(self, source, asked):
        steps = [self.table.recorder.step(value) for value in asked]
        if all(step.kind == "constant" and step.what == 0.0 for step in steps):
            return self.drawn
        return self.table.slot(source, steps)

    def _motion_of(self, pose):
        if pose is self.drawn:
            return self._imported(self.table.workings.drawn_motion())
        if pose.source.motion is not None:
            return pose.motion()
        return by_travel(self._imported(self.table.workings.linkage()[0]), pose)

    def _imported(self, thing):
        return self.table.workings.imported(self.table, thing)


class SubjectCorner(CallCorner):
    """The corner that the measures of a subject see: at a row's pose, each thing made once."""

    def __init__(self, table):
        super().__init__(table)
        self._motion = None
        self._actuated = None

    @property
    def linkage(self):
        return self._imported(self.table.workings.linkage()[0])

    def pose(self, travel, rack):
        if travel is not self.table.travel or rack is not self.table.rack:
            raise NotImplementedError("a measure at one pose asks for another one")
        return super().pose(travel, rack)

    def motion(self, travel, rack):
        if self._motion is None:
            self._motion = super().motion(travel, rack)
        return self._motion

    def actuated(self, travel, rack):
        # What is wrong with the actuation is said to each measure that asks for it.
        made = imported_actuation(self.table.workings, self.table)
        if self._actuated is None:
            pose = self.pose(travel, rack)
            self._actuated = made.at(self.linkage, pose, self.motion(travel, rack))
        return self._actuated


class _SlotPose(Pose):
    """A pose whose fields are fetched from the poses' table when they are first read."""

    __slots__ = ("moved", "number", "source", "table")

    def __init__(self, table, number, source):
        self.table = table
        self.number = number
        self.source = source
        self.moved = None

    def motion(self):
        """The motion per travel at this pose, fetched likewise."""
        if self.moved is None:
            motion = self.source.motion()
            self.moved = Motion(
                *(self._fetched(getattr(motion, name), name) for name in Motion.__slots__)
            )
        return self.moved

    def __getattr__(self, name):
        if name not in Pose.__slots__:
            raise AttributeError(name)
        value = self._fetched(getattr(self.source.pose(), name), name)
        setattr(self, name, value)
        return value

    def _fetched(self, thing, name):
        if isinstance(thing, Vec):
            heading = name.replace("_", " ")
            return Vec(*(self._fetched(part, f"{heading} {axis}")
                         for part, axis in zip(thing, "xyz", strict=True)))  # fmt: skip
        if isinstance(thing, Step):
            return self.table.fetched(self.number, self.source, thing, name)
        return thing


def _substituted(step, arguments):
    """A function for the text of a step with the call's own arguments put in.

    The function takes whether the text stands within another one and wants brackets.
    """
    if step.kind == "constant":
        return lambda inside: f"{step.what:.15g}"
    if step.kind == "input":
        return lambda inside: ("(%s)" if inside else "%s") % arguments[step.what[1]][0]()[1:]
    parts = [_substituted(part, arguments) for part in step.parts]
    if step.kind == "minus":
        return lambda inside: ("(-%s)" if inside else "-%s") % parts[0](True)
    if step.kind in ("+", "-", "*", "/"):
        pattern = "(%s%s%s)"

        def text(inside):
            whole = pattern % (parts[0](True), step.kind, parts[1](True))
            return whole if inside else whole[1:-1]

        return text
    raise NotImplementedError("a pose is asked for by more than sums and products of arguments")


def opposite(key):
    """What makes the opposite of an argument the same as another one; twice is none."""
    return key[2:-1] if key.startswith("-(") else f"-({key})"


def _key(step, arguments):
    if step.kind == "constant":
        return f"{step.what:.15g}"
    if step.kind == "input":
        return arguments[step.what[1]][2]
    if step.kind == "minus":
        return opposite(_key(step.parts[0], arguments))
    return f"({_key(step.parts[0], arguments)}{step.kind}{_key(step.parts[1], arguments)})"
