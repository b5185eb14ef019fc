"""The workings of one corner's block, which stand on one sheet."""

from .call_tables import CallTable, SubjectTable, table_for
from .changed import ChangedTable
from .leeway import LeewayTable
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
        self._leeway = None
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

    def changed(self, entry, coordinates):
        """The `ChangedTable` of a quantity's `Formula` for changes of some coordinates."""
        key = ("changed", entry.name, *(each.name for each in coordinates))
        if key not in self._calls:
            self._calls[key] = ChangedTable(self, entry, coordinates)
        return self._calls[key]

    @property
    def leeway(self):
        """The `LeewayTable`."""
        if self._leeway is None:
            self._leeway = LeewayTable(self)
        return self._leeway

    @property
    def _tables(self):
        """The tables of calls, each after those whose results it is fed."""
        return [*self._calls.values(), *([self._leeway] if self._leeway is not None else [])]

    def settle(self):
        """Decide what has cells, in every table; they may not be filled after that."""
        points, poses, road = self.points.table, self.poses.table, self.road.table
        calls = self._tables
        # A table that reads another one decides what that has to show.
        for table in (*calls, poses, road):
            table.settle()
            table.show_what_is_read((points,))
        points.settle()
        self._rows.settle(calls)

    def lay_out(self):
        """Decide which cells are wanted; returns the tables with any, as the sheet has them."""
        points, poses, road = self.points.table, self.poses.table, self.road.table
        calls, rows = self._tables, self._rows.tables
        for table in (*calls, *reversed(rows), poses, road, points):
            table.follow_wanted()
        tables = [table for table in (*rows, points, poses, road, *calls) if table.wanted]
        for table in tables:
            table.lay_out()
        return tables

    def forget(self):
        """Let go of every table; see `Workings.forget`."""
        asked = (self.points, self.poses, self.road)
        for table in (*self._tables, *self._rows.tables, *(each.table for each in asked)):
            table.forget()
        for each in (self.points.block, *asked, self):
            vars(each).clear()

    def compute(self):
        """Work out every table's values, in an order in which each finds what it reads."""
        self._rows.compute()
        tables = (self.points.table, self.poses.table, self.road.table, *self._tables)
        for table in tables:
            table.values.compute()
