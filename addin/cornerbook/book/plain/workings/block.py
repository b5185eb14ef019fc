"""The workings of one corner's block, which stand on one sheet."""

from .call_tables import CallTable, SubjectTable, table_for
from .points import Points
from .poses import Poses, RoadPoses
from .rows import RowsOfCalls
from .slopes import SlopeTable


class BlockWorkings:
    """All tables of one block: its points, its poses, and those of the formulas that read them.

    name: what the block is called. rows, address: see `RecordedBlock`.
    """

    def __init__(self, name, rows, address):
        self.name = name
        self.points = Points(name, rows, address)
        self.poses = Poses(name, self.points)
        self.road = RoadPoses(name, self.points)
        self._calls = {}
        self._rows = RowsOfCalls()

    def calls(self, call):
        """The `CallTable` for a `SortedCall` of a formula for this block."""

        def make():
            return CallTable(call.entry.group, call.moving, self, self._rows.of(call))

        return table_for(self._calls, call, make)

    def subject(self, name):
        """The `SubjectTable` of a subject."""
        if name not in self._calls:
            self._calls[name] = SubjectTable(name, self)
        return self._calls[name]

    def slopes(self, entry):
        """The `SlopeTable` for a quantity's `Formula`: one for each subject and kind of pose."""
        key = ("slopes", entry.group, entry.arguments)
        if key not in self._calls:
            self._calls[key] = SlopeTable(self, entry)
        return self._calls[key]

    def settle(self):
        """Decide what has cells, in every table; they may not be filled after that."""
        points, poses, road = self.points.table, self.poses.table, self.road.table
        calls = list(self._calls.values())
        # A table that reads another one decides what that has to show.
        for table in (*calls, poses, road):
            table.settle()
            for source, step in table.imports():
                if source is points:
                    points.show(step, *points.shown.get(step, (None, None)))
        points.settle()
        self._rows.settle(calls)

    def lay_out(self):
        """Decide which cells are wanted; returns the tables with any, as the sheet has them."""
        points, poses, road = self.points.table, self.poses.table, self.road.table
        calls, rows = list(self._calls.values()), self._rows.tables
        for table in (*calls, *rows, poses, road, points):
            table.follow_wanted()
        tables = [table for table in (*rows, points, poses, road, *calls) if table.wanted]
        for table in tables:
            table.lay_out()
        return tables

    def compute(self):
        """Work out every table's values, in an order in which each finds what it reads."""
        self._rows.compute()
        tables = (self.points.table, self.poses.table, self.road.table, *self._calls.values())
        for table in tables:
            table.values.compute()
