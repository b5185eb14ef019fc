"""The workings of one corner's block: its points, its poses and what is measured there.

*Points* is a table of one row: the block's numbers, what is wrong with them, and what
follows from them for every pose. *Poses* has a row for each travel and rack asked for, with
the measures taken there. `calls.py` adds a table for each formula that needs more.
"""

from ..catalogue.block import POINTS, VALUES, Block, key_of
from ..catalogue.check import findings
from ..catalogue.corner import Corner, DrawnPose, linkage_of
from ..geometry import motion
from ..geometry.vec import Vec
from .naming import named_steps
from .record import Step
from .tables import Table

AXES = ("x", "y", "z")


def mapped(thing, change):
    """A copy of an object of the geometry with every step in it changed by a function."""
    if isinstance(thing, Step):
        return change(thing)
    if isinstance(thing, tuple):
        return tuple(mapped(part, change) for part in thing)
    if hasattr(thing, "__dict__"):
        fields = vars(thing)
    elif hasattr(thing, "__slots__"):
        fields = {name: getattr(thing, name) for name in thing.__slots__ if hasattr(thing, name)}
    else:
        return thing
    copy = object.__new__(type(thing))
    for name, value in fields.items():
        setattr(copy, name, mapped(value, change))
    return copy


class RecordedBlock(Block):
    """A block whose numbers are steps of the points' table.

    rows: the cells' present values. address: a function from the number of a row and of a
    column of the block to that cell's address in a formula of another sheet. Each row that is
    read adds to the recorder's `said` what is wrong with it.
    """

    def __init__(self, rows, address, table):
        super().__init__(rows)
        self.table = table
        self.address = address
        self.numbers = {}
        self.row_numbers = {
            key_of(row[0]): n for n, row in enumerate(rows) if isinstance(row[0], str)
        }

    def point(self, label):
        name, cells = self.point_cells(label)
        self.say(label, name, cells, AXES)
        return Vec(*(self._number_step(label, i, cells, AXES[i]) for i in range(3)))

    def value(self, label):
        name, cells = self.cells_of(label)
        self.say(label, name, cells, ("the value",))
        return self._number_step(label, 0, cells)

    def _number_step(self, label, place, cells, axis=""):
        key = (key_of(label), place)
        heading = ("%s %s" % (label, axis)).strip()
        step = self.table.input(key, "Numbers of the block; #N/A where a cell holds none", heading)
        where = self.address(self.row_numbers[key[0]], 1 + place)
        value = cells[place] if place < len(cells) else None
        self.numbers[key] = (
            lambda: "=IF(ISNUMBER(%s),%s,NA())" % (where, where),
            float(value) if _is_number(value) else float("nan"),
        )
        return step

    def say(self, label, name, cells, axes):
        """Add what is wrong with a row: its name changed, or a cell that is no number."""
        recorder = self.table.recorder
        row = self.row_numbers[key_of(label)]
        named = self.table.cell(self.address(row, 0), name)
        same = recorder.make("=", named, name)
        sentences = [recorder.where(same, "", '# the row "%s" is missing' % label)]
        sentences[0].label = ("What is wrong with a row", "%s, its name" % label)
        for place, axis in enumerate(axes):
            value = cells[place] if place < len(cells) else None
            cell = self.table.cell(self.address(row, 1 + place), value)
            start = "%s: %s is " % (name, axis)
            text = recorder.make(
                "&",
                recorder.make("&", '# %s"' % start, cell),
                '"; a number alone was expected',
            )
            empty = recorder.step("# %sempty; a number was expected" % start)
            wrong = recorder.where(recorder.make("=", cell, ""), empty, text)
            one = recorder.where(recorder.make("ISNUMBER", cell), "", wrong)
            one.label = ("What is wrong with a row", "%s, %s" % (label, axis))
            sentences.append(one)
        said = recorder.first_said(sentences)
        self.table.show(said, "What is wrong with a row", label)
        recorder.said.append(said)


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


class BlockWorkings:
    """All workings of one block, on one sheet.

    name: what the block is called. rows, address: see `RecordedBlock`. Raises `Mend` for
    cells that are no block, or for a row that is missing when it is first needed.
    """

    def __init__(self, name, rows, address):
        self.name = name
        self.points = Table("Points of %s" % name, "what every pose needs, worked out once")
        self.poses = Table("Poses of %s" % name, "a row for each travel and rack asked for")
        self.block = RecordedBlock(rows, address, self.points)
        self.points.rows.append(self.block.numbers)
        self.calls = {}
        self._linkage = None
        self._said_of_linkage = []
        self._pose = None
        self._motion = None
        self._rows = {}
        self._measures = {}

    # Points

    def linkage(self):
        """(the linkage in steps of the points' table, what is said of the points)."""
        if self._linkage is None:
            recorder = self.points.recorder
            recorder.said = []
            with named_steps():
                made = linkage_of(self.block, DrawnPose(self.block))
            self._said_of_linkage = list(recorder.said)
            said = recorder.first_said(recorder.said)
            self.points.show(said, "What is wrong with the points", "said of the points")
            self._linkage = (made, said)
        return self._linkage

    def imported(self, table, thing):
        """An object in steps of the points' table as another table reads it."""
        return mapped(thing, lambda step: table.import_step(self.points, step))

    def said_besides(self, table):
        """What has been said of the points since `forget_said`, but for the linkage's own rows."""
        extra = [s for s in self.points.recorder.said if s not in _Same(self._said_of_linkage)]
        return [table.import_step(self.points, said) for said in extra]

    def forget_said(self):
        """Begin to listen to what is said of the points."""
        self.linkage()
        self.points.recorder.said = []

    def drawn_motion(self):
        """The motion per travel as drawn, in steps of the points' table."""
        with named_steps():
            return motion.by_travel(self.linkage()[0], DrawnPose(self.block))

    def drawn_measure(self, key, function):
        """(result, said) in the points' table, of a function of the corner as drawn."""
        key = ("drawn", key)
        if key not in self._measures:
            recorder = self.points.recorder
            recorder.said = []
            corner = _DrawnCorner(self)
            with named_steps():
                result = function(corner)
            self._measures[key] = (result, recorder.first_said(recorder.said))
        return self._measures[key]

    def check(self, unit):
        """The text of CHECK: everything that is wrong with the block, or ok."""
        _, said = self.linkage()
        recorder = self.points.recorder
        recorder.said = []
        for label in POINTS:
            self.block.point(label)
        for label in VALUES:
            self.block.value(label)
        rows = _listed(recorder, recorder.said)
        recorder.said = []
        corner = _DrawnCorner(self)
        with named_steps():
            found = [
                recorder.where(fine, "", recorder.sentence(sentence, values))
                for fine, sentence, values in findings(corner, unit)
            ]
        for step in found:
            self.points.show(step, "What is wrong with the proportions", "finding")
        listed = _listed(recorder, found)
        result = recorder.where(recorder.make("=", listed, ""), "ok", _closed(recorder, listed))
        result = recorder.where(recorder.make("=", said, ""), result, said)
        return recorder.where(recorder.make("=", rows, ""), result, _closed(recorder, rows))

    # Poses

    def pose(self):
        """(pose, linkage) in steps of the poses' table."""
        if self._pose is None:
            table = self.poses
            linkage = self.imported(table, self.linkage()[0])
            with named_steps():
                pose = linkage.pose(self.travel, self.rack)
            self._pose = (pose, linkage)
        return self._pose

    @property
    def travel(self):
        """The step of a row's travel in the poses' table."""
        return self.poses.input("travel", "Asked for", "travel")

    @property
    def rack(self):
        """The step of a row's rack in the poses' table."""
        return self.poses.input("rack", "Asked for", "rack")

    def motion(self):
        """The motion per travel in steps of the poses' table."""
        if self._motion is None:
            pose, linkage = self.pose()
            with named_steps():
                self._motion = motion.by_travel(linkage, pose)
        return self._motion

    def pose_row(self, key, travel, rack):
        """The number of the row for a travel and rack, each (function for its text, value).

        key: what makes two of them the same.
        """
        if key not in self._rows:
            self._rows[key] = len(self.poses.rows)
            self.poses.rows.append({"travel": travel, "rack": rack})
        return self._rows[key]

    def pose_measure(self, key, function):
        """(result, said) in the poses' table, of a function of (corner, travel, rack)."""
        key = ("pose", key)
        if key not in self._measures:
            recorder = self.poses.recorder
            travel, rack = self.travel, self.rack
            recorder.said = []
            self.forget_said()
            with named_steps():
                result = function(_PoseCorner(self), travel, rack)
            besides = self.said_besides(self.poses)
            asked = [number_said(recorder, travel, "travel"), number_said(recorder, rack, "rack")]
            points = self.poses.import_step(self.points, self.linkage()[1])
            said = recorder.first_said([*asked, points, *besides, *recorder.said])
            self.poses.show(said, "What is wrong", "said")
            self._measures[key] = (result, said)
        return self._measures[key]

    def tables(self):
        """Every table that has rows, in the order of the sheet."""
        return [t for t in (self.points, self.poses, *self.calls.values()) if t.rows and t.shown]


class _Same:
    """Steps looked for by identity: `==` between steps is recorded, not answered."""

    def __init__(self, steps):
        self.ids = {id(step) for step in steps}

    def __contains__(self, step):
        return id(step) in self.ids


def number_said(recorder, step, name, argument=None):
    """A sentence unless a given value is a number, within the limits of its argument."""
    wrong = recorder.make("&", recorder.make("&", '# %s: "' % name, step),
                          '" given, a number was expected')  # fmt: skip
    fine = recorder.step("")
    if argument is not None and (argument.above is not None or argument.below is not None):
        outside = recorder.sentence(
            "%s: %%s given, a number %s was expected" % (name, argument.between), (step,)
        )
        if argument.below is not None:
            fine = recorder.where(recorder.make("<", step, argument.below), fine, outside)
        if argument.above is not None:
            fine = recorder.where(recorder.make(">", step, argument.above), fine, outside)
    return recorder.where(recorder.make("ISNUMBER", step), fine, wrong)


def _listed(recorder, sentences):
    """All sentences that are not empty, each without '# ' and with '; ' behind it."""
    result = recorder.step("")
    for said in sentences:
        part = recorder.make("&", recorder.make("MID", said, 3.0, 300.0), "; ")
        part = recorder.where(recorder.make("=", said, ""), "", part)
        is_first = result.kind == "constant"
        result = part if is_first else recorder.make("&", result, part)
    return result


def _closed(recorder, listed):
    """A list of sentences with '# ' before it and no '; ' at its end."""
    length = recorder.subtract(recorder.make("LEN", listed), 2.0)
    return recorder.make("&", "# ", recorder.make("LEFT", listed, length))


class _DrawnCorner(Corner):
    """A corner as drawn: steps of the points' table. Made afresh for each measure, so that
    what is asked for is said in the measure's own order."""

    def __init__(self, workings):
        self.workings = workings
        self.block = workings.block
        self.drawn = DrawnPose(workings.block)

    @property
    def linkage(self):
        made, said = self.workings.linkage()
        self.workings.points.recorder.said.append(said)
        return made

    def pose(self, travel, rack):
        return self.drawn

    def opposite(self, travel, rack):
        return self.drawn

    def motion(self, travel, rack):
        return motion.by_travel(self.linkage, self.drawn)


class _PoseCorner(Corner):
    """A corner at a row's pose: steps of the poses' table."""

    def __init__(self, workings):
        self.workings = workings
        self.block = ImportedBlock(workings, workings.poses)
        self.drawn = DrawnPose(self.block)

    @property
    def linkage(self):
        return self.workings.pose()[1]

    def pose(self, travel, rack):
        if travel is not self.workings.travel or rack is not self.workings.rack:
            raise NotImplementedError("a measure at one pose asks for another one")
        return self.workings.pose()[0]

    def motion(self, travel, rack):
        return self.workings.motion()


class ImportedBlock:
    """The block's numbers as another table reads them; what is wrong is said elsewhere."""

    def __init__(self, workings, table):
        self.workings = workings
        self.table = table

    def point(self, label):
        return self._import(self.workings.block.point(label))

    def value(self, label):
        return self._import(self.workings.block.value(label))

    def _import(self, thing):
        return self.workings.imported(self.table, thing)
