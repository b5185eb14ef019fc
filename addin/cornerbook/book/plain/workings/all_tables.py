"""Every table of the workings of one workbook, and the sheets that they are to stand on."""

from .block import BlockWorkings
from .call_tables import CallTable, table_for
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

        def make():
            return CallTable(call.entry.group, call.moving, None, self._rows.of(call))

        return table_for(self._calls, call, make)

    def settle(self):
        """Decide every table's cells; returns {title: tables} for the sheets."""
        calls = [*self._calls.values(), *self.alone]
        spreads = list(self.spreads.values())
        for table in (*spreads, *calls):
            table.settle()
        rows = self._rows.settle((*spreads, *calls))
        for block in self._blocks.values():
            block.settle()
        for table in (*spreads, *calls, *reversed(rows)):
            table.follow_wanted()
        sheets = {"Workings": [table for table in (*rows, *calls) if table.wanted]}
        for table in (*sheets["Workings"], *spreads):
            table.lay_out()
        for block in self._blocks.values():
            sheets[f"Workings {block.name}"] = block.lay_out()
        sheets["Workings tables"] = spreads
        return {title: tables for title, tables in sheets.items() if tables}

    def forget(self):
        """Let go of every table, once no text or value of any is asked for.

        Tables, steps and corners know of one another in circles: a million things, which else
        would stay until Python has looked all through its own for such.
        """
        for block in self._blocks.values():
            block.forget()
        calls = (*self._calls.values(), *self.alone)
        for table in (*self.spreads.values(), *calls, *self._rows.tables):
            table.forget()
        vars(self).clear()

    def compute(self):
        """Work out every table's values, in an order in which each finds what it reads."""
        self._rows.compute()
        for table in (*self._calls.values(), *self.alone):
            table.values.compute()
        for block in self._blocks.values():
            block.compute()
        for spread in self.spreads.values():
            spread.values.compute()
