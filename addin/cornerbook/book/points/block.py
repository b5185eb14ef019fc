"""The rows of a block of a workbook, to go out into a file and to come in from one."""

import difflib
import math

from ...catalogue import call
from ...cells.block import COLUMN_POINTS, ROD_MOUNT, VALUES, key_of
from ...cells.mend import shown
from ..file.address import cell_name
from ..file.cell_error import CellError
from ..file.trouble import Trouble
from ..formula.rewrite import Call, has_call, put_together, taken_apart
from ..formula.values import Values
from ..study.recalculate import Recalculation
from .row import MM, POINT_KEYS, Row, converted, of_known_length, unit_named

_VALUES = {key_of(name) for name in VALUES}
_ANGLES = {key_of(name) for name in VALUES[1:]}
_TEXTS = {key_of(ROD_MOUNT)}

_COLUMN = {key_of(name) for name in COLUMN_POINTS}
_KNOWN = POINT_KEYS | _VALUES | _TEXTS

# Without an end of a column, an "upper joint" is rather a ball joint misspelt.
_COLUMN_ENDS = {key_of(COLUMN_POINTS[0]), key_of(COLUMN_POINTS[-1])}

_SAME = 1e-12
"""Numbers that differ by less than this part count as one beside a cell's formula."""


NAMED = 8
"""How many cells a sentence names."""


class PointBlock:
    """A block of a workbook: its rows, where they stand, and its unit of length.

    package: the workbook. name: the block's name in it, or its address. unit: of its
    lengths, for a workbook that does not say. Raises `Trouble` where there is no such block,
    or it says two different units.
    """

    def __init__(self, package, name="Front", unit=None):
        self.package = package
        self.values = Values(package)
        self.sheet, self.top, self.left, self.bottom, right = self._place(name)
        self.name = name
        if right - self.left < 3:
            raise Trouble(
                f"{name} is {right - self.left + 1} columns wide; a block has a name, x, "
                "y and z, so four were expected"
            )
        self.lines = {}
        self.rows = []
        for line in range(self.top, self.bottom + 1):
            self._take(line)
        if not self.rows:
            raise Trouble(f"{name} holds no names in its first column, so it is no block")
        self.unit = unit or self._unit()

    def _place(self, name):
        first = self.package.sheets[0]
        try:
            return self.package.resolve(name, first)
        except Trouble as trouble:
            names = [n for n, scope, _ in self.package.names if scope is None]
            near = difflib.get_close_matches(name.lower(), [n.lower() for n in names], n=1)
            spelled = [n for n in names if n.lower() in near]
            raise Trouble(
                "%s%s"
                % (
                    trouble,
                    f"; did you mean {spelled[0]}?"
                    if spelled
                    else "; give the block's name, or its address such as Sheet1!A6:D24",
                )
            ) from None

    def address(self, line, column):
        """A cell's address; column 0 is that of the names, 1 to 3 are x, y, z, 4 the unit."""
        return cell_name(line, self.left + column)

    def _cell(self, line, column):
        value = self.values.at(self.sheet, self.address(line, column))
        if isinstance(value, tuple):
            value = value[0][0]
        return None if value == "" else value

    def _take(self, line):
        name = self._cell(line, 0)
        if not isinstance(name, str) or not name.strip():
            return
        found = [self._cell(line, column) for column in (1, 2, 3)]
        while found and found[-1] is None:
            found.pop()
        unit = self._cell(line, 4)
        row = Row(
            name.strip(), tuple(found), unit_named(unit) if isinstance(unit, str) else ""
        )  # fmt: skip
        if row.key in self.lines:
            raise Trouble(
                f"the row {shown(row.name)} stands in the block {self.name} more than once"
            )
        self.lines[row.key] = (line, row)
        self.rows.append(row)

    def _unit(self):
        """The unit that CHECK is asked for, or else that of the cells beside the points."""
        asked = self._unit_of_check()
        points = [row for row in self.rows if row.key in POINT_KEYS or self._three(row)]
        beside = {row.unit for row in points if row.unit in MM}
        if len(beside) > 1 or (asked and beside and beside != {asked}):
            said = sorted(beside) if not asked or asked in beside else [asked, *sorted(beside)]
            raise Trouble(
                f"the block {self.name} says more than one unit of length: {', '.join(said)}; "
                "make them one, or give "
                "--unit"
            )
        return asked or (beside.pop() if beside else "")

    @staticmethod
    def _three(row):
        return len(row.values) == 3

    def _unit_of_check(self):
        place = (self.sheet, self.top, self.left, self.bottom)
        for sheet in self.package.sheets:
            for address, content in self.values.cells[sheet].items():
                formula = content.formula
                if formula is None or "CHECK" not in formula.upper() or not has_call(formula):
                    continue
                for given in _checks(taken_apart(formula)):
                    try:
                        found = self.package.resolve(put_together(given[0]), sheet, address)
                        unit = self.values.of(put_together(given[1]), sheet, address)
                    except (Trouble, TypeError):
                        continue
                    if found[:4] == place and isinstance(unit, str) and unit_named(unit) in MM:
                        return unit_named(unit)
        return None

    def unit_of(self, row):
        """The unit of a row's numbers: of length, "deg", or '' where none is known."""
        key = row.key
        if key in _ANGLES:
            return "deg"
        if key in _TEXTS:
            return ""
        if of_known_length(key) or (self._three(row) and row.unit in ("", *MM)):
            return self.unit
        return row.unit

    def going_out(self):
        """The rows with what their cells hold and the unit in which they do."""
        return [Row(row.name, row.values, self.unit_of(row)) for row in self.rows]

    def check(self):
        """What CHECK says of the rows: "ok", or a sentence; None for a block of no corner."""
        if not any(key_of(name) in self.lines for name in VALUES):
            return None
        rows = [(row.name, *row.values, *[""] * (3 - len(row.values))) for row in self.rows]
        return call("CHECK", rows, self.unit or "any")

    # Coming in

    def take_in(self, rows, file):
        """Set the block's cells to a file's rows; returns sentences on what to know.

        rows: as a file gives them. file: its name, for messages. Nothing is set unless
        all of it can be.
        """
        messages, changes, seen = [], [], {}
        unknown, unsaid = [], False
        for row in rows:
            if row.key in seen:
                raise Trouble(f"{file}: the row {shown(row.name)} is in it more than once")
            seen[row.key] = row
            if row.key not in self.lines:
                self._hold_no_misspelling(row, rows, file)
                unknown.append(row.name)
                continue
            line, now = self.lines[row.key]
            values = self._values_in(row, now, file)
            if values is None:
                del seen[row.key]
                continue
            unsaid = unsaid or (not row.unit and of_known_length(row.key))
            changes.extend(self._changes(line, now, values, file))
        if not changes and not any(key in self.lines for key in seen):
            raise Trouble(
                f"{file} has no row of the block {self.name}; its names were expected, "
                f"such as {shown(self.rows[0].name)}"
            )
        lost = self._write({(self.sheet, address): value for address, value in changes})
        if unsaid:
            messages.append(
                "The file does not say its unit of length; its numbers are taken as "
                f"{self.unit or 'those of the workbook'}."
            )
        if unknown:
            messages.append(f"Not in the block and left out: {', '.join(unknown)}.")
        absent = [row.name for row in self.rows if row.key not in seen and row.values]
        if absent:
            messages.append(f"Not in the file, so as before: {', '.join(absent)}.")
        if lost:
            cells = ["%s!%s" % cell for cell in lost[:NAMED]] + ["..."] * (len(lost) > NAMED)
            messages.append(
                "Cells with functions that cannot be worked out here are without a value until "
                f"a program opens the file: {', '.join(cells)}."
            )
        return messages

    def _write(self, changes):
        # They are set before it is asked what they move: a cell that was empty moves nothing.
        for cell, value in changes.items():
            self.package.set_value(*cell, value)
        return Recalculation(self.package).write(changes)

    def _hold_no_misspelling(self, row, rows, file):
        there = {other.key for other in rows}
        is_column = row.key in _COLUMN and there & _COLUMN_ENDS
        if is_column or row.key in _KNOWN - _COLUMN:
            # A row of another block, well spelt.
            return
        free = {key: now.name for key, (_, now) in self.lines.items() if key not in there}
        near = difflib.get_close_matches(row.key, free, n=1, cutoff=0.75)
        if near:
            raise Trouble(
                f"{file}: the block {self.name} has no row {shown(row.name)}; did you mean "
                f"{shown(free[near[0]])}?"
            )

    def _values_in(self, row, now, file):
        """The row's values in the workbook's unit; None for a row with nothing in it."""
        values = list(row.values)
        while values and values[-1] in (None, ""):
            values.pop()
        if not values:
            return None
        name = f"{file}: {row.name}"
        if row.key in _TEXTS or (now.values and isinstance(now.values[0], str)):
            if len(values) != 1 or not isinstance(values[0], str):
                raise Trouble(f"{name}: a word was expected, in the first column of numbers")
            return values
        wanted = 3 if row.key in POINT_KEYS or (self._three(now) and row.key not in _VALUES) else 1
        for number, value in enumerate(values):
            what = "xyz"[number] if wanted == 3 else "the value"
            if value in (None, ""):
                raise Trouble(f"{name}: {what} is empty; a number was expected")
            if not isinstance(value, float) or not math.isfinite(value):
                raise Trouble(f"{name}: {what} is {shown(value)}; a number alone was expected")
        if len(values) != wanted:
            raise Trouble(
                f"{name}: {len(values)} numbers; "
                f"{'x, y and z were' if wanted == 3 else 'one was'} expected"
            )
        return self._in_our_unit(values, row, now, name)

    def _in_our_unit(self, values, row, now, name):
        given, ours = row.unit, self.unit_of(now)
        if not given or given == ours:
            return values
        if given not in MM and given != "deg" and (of_known_length(row.key) or ours):
            raise Trouble(
                f"{name}: the unit {shown(given)} is not known; {', '.join(MM)} or deg was expected"
            )
        if of_known_length(row.key) and not ours:
            raise Trouble(
                f"{name}: it is in {given}, and the workbook does not say its unit of "
                "length; give --unit"
            )
        if given in MM and ours in MM:
            return [converted(value, given, ours) for value in values]
        if ours:
            raise Trouble(f"{name}: it is in {given}, and {ours} was expected")
        return values

    def _changes(self, line, now, values, file):
        found = []
        for column, value in enumerate(values, 1):
            address = self.address(line, column)
            before = now.values[column - 1] if column <= len(now.values) else None
            if type(before) is type(value) and before == value:
                continue
            content = self.values.cells[self.sheet].get(address)
            if content is not None and (content.formula is not None or content.in_array):
                if _is_same(before, value):
                    continue
                raise Trouble(
                    f"{file}: {now.name}, {'xyz'[column - 1]} is {shown(value)}, and the cell "
                    f"{self.sheet}!{address} holds a formula that gives {shown(before)}; put a "
                    "number in its place first, or leave the row out of the file"
                )
            found.append((address, value))
        return found


def _is_same(one, two):
    if isinstance(one, float) and isinstance(two, float):
        return abs(one - two) <= _SAME * max(abs(one), abs(two))
    return one == two and not isinstance(one, CellError)


def _checks(parts):
    """The arguments of each call of CHECK with a unit in a formula."""
    for part in parts:
        if isinstance(part, Call):
            if part.name == "CHECK" and len(part.arguments) > 1 and all(part.arguments[:2]):
                yield part.arguments
            for argument in part.arguments:
                yield from _checks(argument or ())


# ---------------------------------------------------------------- whole files
