"""A labelled block of cells: a name in the first column, then x, y, z or one value.

Rows are found by name, ignoring case, spaces, hyphens and order. Only the rows that
are asked for are read, so a block may be unfinished.
"""

import difflib
import re
from functools import lru_cache

from ..geometry.vec import Vec
from .mend import Mend, finite, is_number, shown

POINTS = (
    "wheel centre",
    "lower ball joint",
    "lower front pickup",
    "lower rear pickup",
    "upper ball joint",
    "upper front pickup",
    "upper rear pickup",
    "tie rod outer",
    "tie rod inner",
)
VALUES = ("tyre radius", "static camber", "static toe")

CROWN = "crown radius"
"""The row with the radius of a crowned tread's section; absent or 0 for a thin disc."""

ACTUATION_POINTS = (
    "rod outer",
    "rod inner",
    "rocker pivot",
    "rocker axis",
    "spring rocker",
    "spring frame",
)
"""Rows of the spring and what works it. No other formula needs them."""

ROCKER_POINTS = ("rod inner", "rocker pivot", "rocker axis", "spring rocker")
"""Those that are absent, or blank, where the spring stands on the rod's outer point itself."""

ROD_MOUNT = "rod mount"
"""The row with a word for what carries the rod's outer end."""

A_NUMBER = "a number alone was expected, its decimal point as this program takes it"

COLUMN_POINTS = ("steering wheel", "upper joint", "lower joint", "pinion")
"""Rows of the steering column, in a block of its own or beside a corner's."""

_BRACKETS = re.compile(r"\(.*?\)", re.DOTALL)
_IGNORED = re.compile(r"[\s\-_.:]+")


@lru_cache(maxsize=4096)
def key_of(label):
    """A name as it is compared: without case, spaces, hyphens or a unit in brackets.

    American spellings count as the same name.
    """
    key = label.lower()
    # Up to the last bracket that closes, so that none is sought in vain for each that opens.
    closed = key.rfind(")") + 1
    if closed:
        key = _BRACKETS.sub("", key[:closed]) + key[closed:]
    key = _IGNORED.sub("", key)
    return key.replace("center", "centre").replace("tire", "tyre")


POINT_KEYS = {key_of(label) for label in (*POINTS, *ACTUATION_POINTS, *COLUMN_POINTS)}
"""The rows that are points, of any kind of block, by their keys."""

VALUE_KEYS = {key_of(label) for label in (*VALUES, CROWN)}
"""The rows of a single value."""

_NEEDED = {key_of(label): label for label in POINTS + VALUES}
OPTIONAL = {key_of(label): label for label in (*ACTUATION_POINTS, ROD_MOUNT, CROWN)}
"""The rows that a corner may lack, by their keys."""

KNOWN = {**_NEEDED, **OPTIONAL}
_COLUMN = {key_of(label) for label in COLUMN_POINTS}
_COLUMN_ENDS = (COLUMN_POINTS[0], COLUMN_POINTS[-1])

_COMPARED = 200
"""So many rows that are not known are looked at for a name misspelt: a block of more is a list."""


def _is_blank(cells):
    return all(cell is None or (isinstance(cell, str) and not cell.strip()) for cell in cells)


class Block:
    """The rows of a block by their name.

    rows: a sequence of rows of cells, each a number, a text, '' or None.
    Raises `Mend` for what is no block; rows are judged when they are asked for.
    """

    def __init__(self, rows):
        self.rows = {}
        self.read = {}  # the points that were asked for
        self.twice = []
        self.width = max((len(row) for row in rows), default=0)
        if self.width < 2:
            raise Mend(
                "the block has no column of numbers; "
                "a name in the first column, then x, y, z was expected"
            )
        for row in rows:
            label = row[0] if row else None
            if not isinstance(label, str) or not label.strip():
                continue
            key = key_of(label)
            if key in self.rows:
                self.twice.append(label.strip())
            self.rows[key] = (label.strip(), tuple(row[1:4]))

    def point(self, label):
        """The row's x, y, z as a `Vec`."""
        if label not in self.read:
            name, cells = self.point_cells(label)
            self.read[label] = Vec(
                *(self._number(name, axis, cells[i]) for i, axis in enumerate("xyz"))
            )
        return self.read[label]

    def point_cells(self, label):
        """(name as typed, cells) of a point's row; `Mend` if it has too few cells."""
        name, cells = self.cells_of(label)
        if len(cells) < 3:
            raise Mend(
                f"the block is {self.width} columns wide, one or more too few for the row "
                f"{shown(name)}: "
                "a name, x, y and z were expected"
            )
        return name, cells

    def value(self, label):
        """The single value of a row."""
        name, cells = self.cells_of(label)
        return self._number(name, "the value", cells[0] if cells else None)

    def word(self, label, choices):
        """The row's word, one of the choices; the first one where there is no such row."""
        if not self.has(label):
            return choices[0]
        name, cells = self.cells_of(label)
        given = cells[0] if cells else None
        if isinstance(given, str):
            found = [choice for choice in choices if key_of(choice) == key_of(given)]
            if found:
                return found[0]
        said = "empty" if given is None or given == "" else shown(given)
        raise Mend(f"{name}: {said}, where one of these was expected: {', '.join(choices)}")

    def has(self, label):
        """Whether there is a row of this name."""
        return key_of(label) in self.rows

    def is_filled(self, label):
        """Whether there is a row of this name and anything stands in its cells."""
        return self.has(label) and not _is_blank(self.rows[key_of(label)][1])

    def has_rocker(self):
        """Whether any row of a rocker is filled; else the spring stands on the row rod outer."""
        # Every row is asked: a block that records what it is asked has something to say of each.
        filled = [self.is_filled(label) for label in ROCKER_POINTS]
        return any(filled)

    def spring_points(self):
        """Names of the points that the spring needs; none where no row of it is there."""
        if not any(map(self.has, (*ACTUATION_POINTS, ROD_MOUNT))):
            return ()
        rocker = self.has_rocker()
        return tuple(p for p in ACTUATION_POINTS if rocker or p not in ROCKER_POINTS)

    def cells_of(self, label):
        """(name as typed, cells) of a row; `Mend` if it is missing or there twice."""
        key = key_of(label)
        if key not in self.rows:
            raise Mend(f"the row {shown(label)} is missing{self._alike(key)}")
        name, cells = self.rows[key]
        if name in self.twice or any(key_of(n) == key for n in self.twice):
            raise Mend(f"the row {shown(name)} stands in the block more than once")
        return name, cells

    def _unknown(self):
        """Names as typed, by key, of the rows that no formula reads.

        Without an end of a column, a row named "upper joint" is rather a ball joint misspelt.
        """
        column = _COLUMN if any(map(self.has, _COLUMN_ENDS)) else ()
        return {k: row[0] for k, row in self.rows.items() if k not in KNOWN and k not in column}

    def _alike(self, key):
        unknown = self._unknown()
        near = difflib.get_close_matches(key, list(unknown)[:_COMPARED], n=1, cutoff=0.6)
        return f"; is it the row named {shown(unknown[near[0]])}?" if near else ""

    def misspelt(self):
        """Pairs of a row's name that is not known and the known one that it resembles."""
        pairs = []
        for key, name in list(self._unknown().items())[:_COMPARED]:
            near = difflib.get_close_matches(key, _NEEDED, n=1, cutoff=0.75)
            # A row of the user's own, such as "spring rate", is no misspelt "spring frame".
            near = near or difflib.get_close_matches(key, OPTIONAL, n=1, cutoff=0.9)
            if near and near[0] not in self.rows:
                pairs.append((name, KNOWN[near[0]]))
        return pairs

    @staticmethod
    def _number(name, what, cell):
        if is_number(cell):
            number = finite(cell)
            if number is not None:
                return number
        if cell is None or (isinstance(cell, str) and not cell):
            raise Mend(f"{name}: {what} is empty; a number was expected")
        raise Mend(f"{name}: {what} is {shown(cell)}; {A_NUMBER}")
