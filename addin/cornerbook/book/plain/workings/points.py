"""A block's points in plain formulas: what every pose needs, worked out once.

The table has one row: the block's numbers, what is wrong with them, and what follows from
them for every pose.
"""

from ....cells.corner import DrawnPose, actuation_of, linkage_of
from ....geometry.corner import motion
from ..recorded.block import RecordedBlock
from ..recorded.corners import DrawnCorner
from ..recorded.naming import named_steps
from ..recorded.said import Same
from ..recorded.steps import Step
from .tables import Table


class Points:
    """The block's numbers, its linkage and its actuation as steps, and measures as drawn.

    name: what the block is called. rows, address: see `RecordedBlock`. Raises `Mend` for
    cells that are no block, or for a row that is missing when it is first needed.
    """

    def __init__(self, name, rows, address):
        self.table = Table(f"Points of {name}", "what every pose needs, worked out once")
        self.block = RecordedBlock(rows, address, self.table)
        self.table.rows.append(self.block.numbers)
        self._linkage = None
        self._said_of_linkage = []
        self._actuation = None
        self._measures = {}

    def linkage(self):
        """(the linkage, what is said of the points)."""
        if self._linkage is None:
            recorder = self.table.recorder
            recorder.said = []
            with named_steps():
                made = linkage_of(self.block, DrawnPose(self.block))
                _ = made.doubt  # made here, for every table that reads it
            self._said_of_linkage = list(recorder.said)
            said = recorder.first_said(recorder.said)
            self.table.show(said, "What is wrong with the points", "said of the points")
            self._linkage = (made, said)
        return self._linkage

    def actuation(self):
        """(the actuation, what is said of it)."""
        if self._actuation is None:
            linkage = self.linkage()[0]
            recorder = self.table.recorder
            recorder.said = []
            with named_steps():
                made = actuation_of(self.block, DrawnPose(self.block), linkage)
            self._actuation = (made, recorder.first_said(recorder.said))
        return self._actuation

    def motion(self):
        """The motion per travel as drawn."""
        with named_steps():
            return motion.by_travel(self.linkage()[0], DrawnPose(self.block))

    def measure(self, key, function):
        """(result, said) of a function of the corner as drawn; key: what makes two one."""
        if key not in self._measures:
            recorder = self.table.recorder
            recorder.said = []
            corner = DrawnCorner(self)
            with named_steps():
                result = function(corner)
            self._measures[key] = (result, recorder.first_said(recorder.said))
        return self._measures[key]

    # For tables that read them

    def imported(self, table, thing):
        """An object of the geometry in steps of the points as another table reads it."""
        return mapped(thing, lambda step: table.import_step(self.table, step))

    def imported_said(self, table):
        """What is said of the points, as another table reads it."""
        return table.import_step(self.table, self.linkage()[1])

    def forget_said(self):
        """Begin to listen to what is said of the points."""
        self.linkage()
        self.table.recorder.said = []

    def said_besides(self, table):
        """What has been said of the points since `forget_said`, but for the linkage's own rows."""
        known = Same(self._said_of_linkage)
        return self._imported(table, [s for s in self.table.recorder.said if s not in known])

    def said_as_drawn(self, table):
        """All that has been said of the points since `forget_said`, where no linkage is needed."""
        return self._imported(table, self.table.recorder.said)

    def _imported(self, table, steps):
        return [table.import_step(self.table, step) for step in steps]


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
