"""The workings of one corner's block: its points, its poses and what is measured there.

*Points* is a table of one row: the block's numbers, what is wrong with them, and what
follows from them for every pose. *Poses* has a row for each travel and rack asked for, with
the measures taken there. `calls.py` adds a table for each formula that needs more.
"""

from ...cells.block import POINTS, VALUES, Block, key_of
from ...cells.corner import DrawnPose, actuation_of, linkage_of
from ...cells.findings import findings
from ...geometry import motion
from ...geometry.road import OnRoad
from ...geometry.vec import Vec
from .naming import named_steps
from .record import Step
from .recorded_corner import DrawnCorner, ImportedBlock, PoseCorner
from .said import Same, closed, listed, number_said
from .tables import Table

AXES = ("x", "y", "z")

ROAD = ("roll", "heave", "rack")


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

    def word(self, label, choices):
        # A word is read when the copy is made; one that is edited later must not pass.
        found = super().word(label, choices)
        if self.has(label):
            name, cells = self.cells_of(label)
            address = self.address(self.row_numbers[key_of(label)], 1)
            same = self.table.recorder.make("=", self.table.cell(address, cells[0]), cells[0])
            sentence = f"# {name}: this word was edited; make the copy anew to change it"
            self.table.recorder.said.append(self.table.recorder.where(same, "", sentence))
        return found

    def _number_step(self, label, place, cells, axis=""):
        key = (key_of(label), place)
        heading = (f"{label} {axis}").strip()
        step = self.table.input(key, "Numbers of the block; #N/A where a cell holds none", heading)
        where = self.address(self.row_numbers[key[0]], 1 + place)
        value = cells[place] if place < len(cells) else None
        self.numbers[key] = (
            lambda: f"=IF(ISNUMBER({where}),{where},NA())",
            float(value) if _is_number(value) else float("nan"),
        )
        return step

    def say(self, label, name, cells, axes):
        """Add what is wrong with a row: its name changed, or a cell that is no number."""
        recorder = self.table.recorder
        row = self.row_numbers[key_of(label)]
        named = self.table.cell(self.address(row, 0), name)
        same = recorder.make("=", named, name)
        sentences = [recorder.where(same, "", f'# the row "{label}" is missing')]
        sentences[0].label = ("What is wrong with a row", f"{label}, its name")
        for place, axis in enumerate(axes):
            value = cells[place] if place < len(cells) else None
            cell = self.table.cell(self.address(row, 1 + place), value)
            start = f"{name}: {axis} is "
            text = recorder.make(
                "&",
                recorder.make("&", f'# {start}"', cell),
                '"; a number alone was expected',
            )
            empty = recorder.step(f"# {start}empty; a number was expected")
            wrong = recorder.where(recorder.make("=", cell, ""), empty, text)
            one = recorder.where(recorder.make("ISNUMBER", cell), "", wrong)
            one.label = ("What is wrong with a row", f"{label}, {axis}")
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
        self.points = Table(f"Points of {name}", "what every pose needs, worked out once")
        self.poses = Table(f"Poses of {name}", "a row for each travel and rack asked for")
        self.road = Table(f"{name} on the road", "a row for each roll, heave and rack asked for")
        self.block = RecordedBlock(rows, address, self.points)
        self.points.rows.append(self.block.numbers)
        self.calls = {}
        self._linkage = None
        self._said_of_linkage = []
        self._pose = None
        self._motion = None
        self._on_road = None
        self._road_motion = None
        self._actuation = None
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
        extra = [s for s in self.points.recorder.said if s not in Same(self._said_of_linkage)]
        return [table.import_step(self.points, said) for said in extra]

    def forget_said(self):
        """Begin to listen to what is said of the points."""
        self.linkage()
        self.points.recorder.said = []

    def actuation(self):
        """(the actuation in steps of the points' table, what is said of it)."""
        if self._actuation is None:
            linkage = self.linkage()[0]
            recorder = self.points.recorder
            recorder.said = []
            with named_steps():
                made = actuation_of(self.block, DrawnPose(self.block), linkage)
            self._actuation = (made, recorder.first_said(recorder.said))
        return self._actuation

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
            corner = DrawnCorner(self)
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
        rows = listed(recorder, recorder.said)
        recorder.said = []
        corner = DrawnCorner(self)
        with named_steps():
            found = [
                recorder.where(fine, "", recorder.sentence(sentence, values))
                for fine, sentence, values in findings(corner, unit)
            ]
        for step in found:
            self.points.show(step, "What is wrong with the proportions", "finding")
        wrong = listed(recorder, found)
        result = recorder.where(recorder.make("=", wrong, ""), "ok", closed(recorder, wrong))
        result = recorder.where(recorder.make("=", said, ""), result, said)
        return recorder.where(recorder.make("=", rows, ""), result, closed(recorder, rows))

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

    # The wheel on the road, the body rolled and heaved

    def on_road(self):
        """The wheel on the road in steps of that table, by its roll, heave and rack."""
        if self._on_road is None:
            table = self.road
            linkage = self.imported(table, self.linkage()[0])
            drawn = DrawnPose(ImportedBlock(self, table))
            asked = [table.input(name, "Asked for", name) for name in ROAD]
            with named_steps():
                self._on_road = OnRoad(linkage, drawn, *asked)
        return self._on_road

    def road_motion(self):
        """The motion per travel there."""
        if self._road_motion is None:
            solved = self.on_road()
            with named_steps():
                self._road_motion = solved.motion()
        return self._road_motion

    # Rows of both

    def row(self, table, key, asked):
        """The number of a table's row for what is asked: {name: (function for text, value)}.

        key: what makes two of them the same.
        """
        full = (id(table), key)
        if full not in self._rows:
            self._rows[full] = len(table.rows)
            table.rows.append(dict(asked))
        return self._rows[full]

    def pose_row(self, travel, rack):
        """The number of the poses' row for a travel and rack: (text, value, key) of each."""
        key = (travel[2], rack[2])
        return self.row(self.poses, key, {"travel": travel[:2], "rack": rack[:2]})

    def pose_measure(self, key, function):
        """(result, said) in the poses' table, of a function of (corner, travel, rack)."""
        key = ("pose", key)
        if key not in self._measures:
            corner = PoseCorner(self)
            self._measures[key] = self.measured(
                self.poses, corner, self.travel, self.rack, function
            )
        return self._measures[key]

    def measured(self, table, corner, travel, rack, function):
        """(result, said) in a table of poses, of a function of (corner, travel, rack)."""
        recorder = table.recorder
        recorder.said = []
        self.forget_said()
        with named_steps():
            result = function(corner, travel, rack)
        besides = self.said_besides(table)
        asked = [number_said(recorder, travel, "travel"), number_said(recorder, rack, "rack")]
        points = table.import_step(self.points, self.linkage()[1])
        said = recorder.first_said([*asked, points, *besides, *recorder.said])
        table.show(said, "What is wrong", "said")
        return result, said

    def tables(self):
        """Every table that has rows, in the order of the sheet."""
        tables = (self.points, self.poses, self.road, *self.calls.values())
        return [table for table in tables if table.rows and table.shown]
