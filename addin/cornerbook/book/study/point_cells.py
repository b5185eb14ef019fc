"""The points of a workbook's blocks by name: "Front: upper ball joint x" is one cell."""

import difflib
import re

from ...cells.block import POINT_KEYS, VALUE_KEYS, VALUES, key_of
from ...cells.mend import is_number
from ..file.address import cell_name, row_and_column
from ..file.trouble import Trouble

AXES = "xyz"

_ASKED = re.compile(r"^\s*([^\W\d][\w.]*)\s*:\s*(.*\S)\s*$")


class PointCell:
    """A cell of a block: the block's name, its row's label, its axis ('' for a single value).

    radius: the tyre's radius in that block; None where it has none.
    """

    def __init__(self, block, label, axis, radius):
        self.block = block
        self.label = label
        self.axis = axis
        self.radius = radius

    @property
    def words(self):
        """As a user may ask for it."""
        return f"{self.block}: {self.label} {self.axis}".rstrip()


class PointCells:
    """Where the points of a workbook's named blocks stand.

    package: the workbook. cells: {sheet: {address: its content}} of it.
    """

    def __init__(self, package, cells):
        self._cells = cells
        self._ends = {}  # {sheet: the row after its last one}
        self.blocks = {}  # {name: (sheet, top, left, bottom)}
        for name, scope, text in package.names:
            try:
                sheet, top, left, bottom, right = package.resolve(text, scope or package.sheets[0])
            except Trouble:
                continue
            if right - left >= 3 and any(
                key_of(label) in POINT_KEYS for _, label in self._labels(sheet, top, left, bottom)
            ):
                self.blocks[name] = (sheet, top, left, bottom)

    def _labels(self, sheet, top, left, bottom):
        # A name may be of whole columns, of which the sheet uses a few rows.
        if sheet not in self._ends:
            self._ends[sheet] = max(
                (row_and_column(one)[0] for one in self._cells[sheet]), default=0
            )
        for row in range(top, min(bottom + 1, self._ends[sheet])):
            content = self._cells[sheet].get(cell_name(row, left))
            if content is not None and isinstance(content.value, str) and content.value.strip():
                yield row, content.value.strip()

    def asked(self, text):
        """The cell (sheet, address) of a text such as "Front: upper ball joint x", or None.

        Raises `Trouble` for a block with no such row, or a point without its axis.
        """
        found = _ASKED.match(text)
        named = found and [name for name in self.blocks if name.lower() == found[1].lower()]
        if not named:
            return None
        sheet, top, left, bottom = self.blocks[named[0]]
        rows = {
            key_of(label): (row, label) for row, label in self._labels(sheet, top, left, bottom)
        }
        key = key_of(found[2])
        if key in rows:
            row, label = rows[key]
            if key in POINT_KEYS:
                raise Trouble(f"{text}: say which coordinate, as in {named[0]}: {label} x")
            return sheet, cell_name(row, left + 1)
        if key[-1:] in AXES and key[:-1] in rows:
            row, label = rows[key[:-1]]
            if key[:-1] in VALUE_KEYS:
                raise Trouble(f"{text}: {label} is one number; leave out {key[-1]}")
            return sheet, cell_name(row, left + 1 + AXES.index(key[-1]))
        near = difflib.get_close_matches(key, [*rows, *(k + a for k in rows for a in AXES)], n=1)
        hint = ""
        if near:
            known = rows.get(near[0]) or rows[near[0][:-1]]
            axis = "" if near[0] in rows else " " + near[0][-1]
            hint = f"; did you mean {named[0]}: {known[1]}{axis}?"
        raise Trouble(f"{text}: the block {named[0]} has no such row{hint}")

    def at(self, cell):
        """The `PointCell` of a cell (sheet, address), or None if it is in no block."""
        for name, (sheet, top, left, bottom) in self.blocks.items():
            if sheet != cell[0]:
                continue
            radius = None
            found = None
            for row, label in self._labels(sheet, top, left, bottom):
                addresses = [cell_name(row, left + 1 + i) for i in range(3)]
                if key_of(label) == key_of(VALUES[0]):
                    radius = self._number(sheet, addresses[0])
                if cell[1] in addresses:
                    axis = "" if key_of(label) in VALUE_KEYS else AXES[addresses.index(cell[1])]
                    found = (label, axis)
            if found:
                return PointCell(name, *found, radius)
        return None

    def _number(self, sheet, address):
        content = self._cells[sheet].get(address)
        value = None if content is None else content.value
        return float(value) if is_number(value) and value > 0 else None
