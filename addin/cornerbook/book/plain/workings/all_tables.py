"""Every table of the workings of one workbook, and the sheets that they are to stand on."""

from .block import BlockWorkings
from .call_tables import CallTable
from .rows import RowsOfCalls


class Workings:
    """All tables of a workbook: each block's, those of plain numbers, and the `Spread`s.

    `spreads` has these by what makes two of them one. `alone`: tables of one call each.
    """

    def __init__(self):
        self.spreads = {}
        self.alone = []
        self._blocks = {}
        self._calls = {}
        self._rows = RowsOfCalls()

    def block(self, given):
        """The `BlockWorkings` of the block that a `Given` is."""
        if given.identity not in self._blocks:
            self._blocks[given.identity] = BlockWorkings(given.name, given.value, given.cells)
        return self._blocks[given.identity]

    def calls(self, call):
        """The `CallTable` for a `SortedCall` of a formula of plain numbers."""
        if call.key not in self._calls:
            rows = self._rows.of(call)
            self._calls[call.key] = CallTable(call.entry, None, call.common, rows)
        return self._calls[call.key]

    def settle(self):
        """Decide every table's columns; returns {title: tables} for the sheets."""
        sheets = {}
        calls = [table for table in self._calls.values() if table.rows] + self.alone
        for table in calls:
            table.settle()
        rows = self._rows.settle(calls)
        if calls:
            sheets["Workings"] = [*rows, *calls]
        for block in self._blocks.values():
            tables = block.settle()
            if tables:
                sheets[f"Workings {block.name}"] = tables
        spreads = list(self.spreads.values())
        for spread in spreads:
            spread.settle()
        if spreads:
            sheets["Workings tables"] = spreads
        return sheets

    def compute(self):
        """Work out every table's values, in an order in which each finds what it reads."""
        self._rows.compute()
        for table in (*self._calls.values(), *self.alone):
            table.values.compute()
        for block in self._blocks.values():
            block.compute()
        for spread in self.spreads.values():
            spread.values.compute()
