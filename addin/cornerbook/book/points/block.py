"""A block of points in a workbook: its rows, the cells they stand in, and their units."""

from ...catalogue import call
from ...cells.block import VALUES, key_of
from ...cells.mend import shown
from ..file.address import cell_name
from ..file.asked import place_asked
from ..file.trouble import Trouble
from ..formula.values import Values
from .row import ANGLE_KEYS, MM, TEXT_KEYS, Row, of_known_length, unit_named
from .unit import unit_said


class PointBlock:
    """A block of a workbook: its rows, where they stand, and its unit of length.

    package: the workbook. name: the block's name in it, or its address. unit: of its
    lengths, for a workbook that does not say. rows: as the cells have them, each with the
    unit beside it. lines: {key: (line, row)}. Raises `Trouble` where there is no such block,
    or it says two different units.
    """

    def __init__(self, package, name="Front", unit=None):
        self.package = package
        self.values = Values(package)
        self.sheet, self.top, self.left, self.bottom, right = place_asked(
            package, name, "give the block's name, or its address such as Sheet1!A6:D24"
        )
        # Below the last filled row there is nothing to take.
        self.bottom = self.values.cut((self.sheet, self.top, self.left, self.bottom, right))[3]
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
        self.unit = unit or unit_said(self)

    def address(self, line, column):
        """A cell's address; column 0 is that of the names, 1 to 3 are x, y, z, 4 the unit."""
        return cell_name(line, self.left + column)

    def _take(self, line):
        name = self._cell(line, 0)
        if not isinstance(name, str) or not name.strip():
            return
        found = [self._cell(line, column) for column in (1, 2, 3)]
        while found and found[-1] is None:
            found.pop()
        unit = self._cell(line, 4)
        row = Row(name.strip(), tuple(found), unit_named(unit) if isinstance(unit, str) else "")
        if row.key in self.lines:
            raise Trouble(
                f"the row {shown(row.name)} stands in the block {self.name} more than once"
            )
        self.lines[row.key] = (line, row)
        self.rows.append(row)

    def _cell(self, line, column):
        value = self.values.at(self.sheet, self.address(line, column))
        if isinstance(value, tuple):
            value = value[0][0]
        return None if value == "" else value

    def unit_of(self, row):
        """The unit of a row's numbers: of length, "deg", or '' where none is known."""
        key = row.key
        if key in ANGLE_KEYS:
            return "deg"
        if key in TEXT_KEYS:
            return ""
        if of_known_length(key) or (row.is_triple and row.unit in ("", *MM)):
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
