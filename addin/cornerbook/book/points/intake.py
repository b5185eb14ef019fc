"""The rows of a file set in a block of a workbook, once every one of them is known to fit."""

import difflib

from ...cells.block import COLUMN_POINTS, key_of
from ...cells.mend import shown
from ..file.cell_error import CellError
from ..file.trouble import Trouble, some_of
from ..study.recalculate import Recalculation, lost_said
from .fit import fitting
from .row import KNOWN_KEYS, of_known_length

_COLUMN = {key_of(name) for name in COLUMN_POINTS}

# Without an end of a column, an "upper joint" is rather a ball joint misspelt.
_COLUMN_ENDS = {key_of(COLUMN_POINTS[0]), key_of(COLUMN_POINTS[-1])}

_SAME = 1e-12
"""Numbers that differ by less than this part count as one beside a cell's formula."""

LISTED = 20
"""How many rows that are left out a sentence names."""

_MISSPELT = 50
"""So many unknown rows are looked at for one that is meant for the block."""


class Intake:
    """A file's rows on their way into a block: what they change, and what is to be said of it.

    block: the `PointBlock`. rows: as a file gives them. file: its name, for messages. Made,
    it has changed nothing yet: it raises `Trouble` for the first row that does not fit.
    `write` sets the cells.
    """

    def __init__(self, block, rows, file):
        self.block = block
        self.file = file
        self.there = {row.key for row in rows}
        self.taken = set()
        self.unknown = []
        self.unsaid = False
        self.changes = {}
        """{(sheet, address): value} of the cells that get another one."""
        seen = set()
        for row in rows:
            if row.key in seen:
                raise Trouble(f"{file}: the row {shown(row.name)} is in it more than once")
            if row.key not in block.lines:
                # A file with hundreds of other rows is of another kind: nobody misspelt these.
                if len(self.unknown) < _MISSPELT:
                    self._hold_no_misspelling(row)
                self.unknown.append(row.name)
            elif not self._take(row):
                # A row with nothing in it may stand there again, filled in.
                continue
            seen.add(row.key)
        if not self.changes and not self.taken:
            raise Trouble(
                f"{file} has no row of the block {block.name}; its names were expected, "
                f"such as {shown(block.rows[0].name)}"
            )

    def _take(self, row):
        """Take a row of the block in; false if it holds nothing."""
        line, now = self.block.lines[row.key]
        values = fitting(row, now, self.block, self.file)
        if values is None:
            return False
        self.taken.add(row.key)
        self.unsaid = self.unsaid or (not row.unit and of_known_length(row.key))
        self._note_changes(line, now, values)
        return True

    def _hold_no_misspelling(self, row):
        """Raise `Trouble` for a row that is none of the block's, if it may be meant for one."""
        is_column = row.key in _COLUMN and self.there & _COLUMN_ENDS
        if is_column or row.key in KNOWN_KEYS - _COLUMN:
            # A row of another block, well spelt.
            return
        lines = self.block.lines
        free = {key: now.name for key, (_, now) in lines.items() if key not in self.there}
        near = difflib.get_close_matches(row.key, free, n=1, cutoff=0.75)
        if near:
            raise Trouble(
                f"{self.file}: the block {self.block.name} has no row {shown(row.name)}; did you "
                f"mean {shown(free[near[0]])}?"
            )

    def _note_changes(self, line, now, values):
        """Note the cells of a line that get other values; none may hold a formula."""
        block = self.block
        for column, value in enumerate(values, 1):
            address = block.address(line, column)
            before = now.values[column - 1] if column <= len(now.values) else None
            if type(before) is type(value) and before == value:
                continue
            content = block.values.cells[block.sheet].get(address)
            if content is not None and (content.formula is not None or content.in_array):
                if _is_same(before, value):
                    continue
                raise Trouble(
                    f"{self.file}: {now.name}, {'xyz'[column - 1]} is {shown(value)}, and the "
                    f"cell {block.sheet}!{address} holds a formula that gives {shown(before)}; "
                    "put a number in its place first, or leave the row out of the file"
                )
            self.changes[block.sheet, address] = value

    def write(self):
        """Set the cells and what they move; returns sentences on what to know."""
        package = self.block.package
        # They are set before it is asked what they move: a cell that was empty moves nothing.
        for cell, value in self.changes.items():
            package.set_value(*cell, value)
        return self._messages(Recalculation(package).write(self.changes))

    def _messages(self, lost):
        messages = []
        if self.unsaid:
            messages.append(
                "The file does not say its unit of length; its numbers are taken as "
                f"{self.block.unit or 'those of the workbook'}."
            )
        if self.unknown:
            messages.append(f"Not in the block and left out: {some_of(self.unknown, LISTED)}.")
        absent = [row.name for row in self.block.rows if row.key not in self.taken and row.values]
        if absent:
            messages.append(f"Not in the file, so as before: {', '.join(absent)}.")
        return messages + lost_said(lost)


def _is_same(one, two):
    if isinstance(one, float) and isinstance(two, float):
        return abs(one - two) <= _SAME * max(abs(one), abs(two))
    return one == two and not isinstance(one, CellError)
