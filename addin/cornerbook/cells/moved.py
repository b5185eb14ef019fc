"""The coordinates of a block by their name, and a block in which some are changed."""

import difflib
from functools import lru_cache

from ..geometry.vec import Vec
from .block import ACTUATION_POINTS, POINTS, ROCKER_POINTS, VALUES, Block, key_of
from .mend import Mend, shown

AXES = ("x", "y", "z")
VALUE = "value"


class Coordinate:
    """One number of a block: a coordinate of a point, or a row's single value.

    label: the row's known name. index: 0, 1, 2 for x, y, z; 0 for a single value.
    """

    __slots__ = ("label", "index", "key", "name", "single")

    def __init__(self, label, index, single):
        self.label = label
        self.index = index
        self.single = single
        self.key = (key_of(label), index)
        self.name = label if single else f"{label} {AXES[index]}"

    def of(self, block):
        """The number that stands in a block; raises `Mend` where there is none."""
        if self.single:
            return block.value(self.label)
        return tuple(block.point(self.label))[self.index]


_SINGLE = {key_of(label): Coordinate(label, 0, True) for label in VALUES}
_OF_POINTS = {
    (key_of(label), axis): Coordinate(label, i, False)
    for label in POINTS + ACTUATION_POINTS
    for i, axis in enumerate(AXES)
}
_LABELS = {key_of(label): label for label in POINTS + ACTUATION_POINTS + VALUES}


def coordinates_of(block):
    """Every coordinate of the rows that a block has, in the order of the known names.

    Not those of a rocker whose rows are all blank.
    """
    known = [*_OF_POINTS.values(), *_SINGLE.values()]
    absent = () if block.has_rocker() else ROCKER_POINTS
    return [one for one in known if block.has(one.label) and one.label not in absent]


def coordinate_of(point, coordinate):
    """The `Coordinate` of a row's name and "x", "y", "z" or "value"; `Mend` for others."""
    key = key_of(point)
    if key not in _LABELS:
        raise Mend(f"point: {shown(point)} is no row of a corner{_alike(key, _LABELS)}")
    if key in _SINGLE:
        if coordinate != VALUE:
            raise Mend(f'coordinate: {_LABELS[key]} has one value; "value" was expected')
        return _SINGLE[key]
    if coordinate == VALUE:
        raise Mend(f"coordinate: {_LABELS[key]} is a point; x, y or z was expected")
    return _OF_POINTS[key, coordinate]


def coordinate_named(argument, text):
    """The `Coordinate` of a name such as "upper ball joint z" or "static camber"."""
    key = key_of(text)
    if key in _SINGLE:
        return _SINGLE[key]
    found = _OF_POINTS.get((key[:-1], key[-1:]))
    if found is not None:
        return found
    if key in _LABELS:
        raise Mend(
            f'{argument}: say which coordinate of the {_LABELS[key]}, such as "{_LABELS[key]} z"'
        )
    raise Mend(
        f"{argument}: {shown(text)} is not known; travel, rack, or a row with its coordinate "
        f'such as "upper ball joint z" was expected{_alike(key, _LABELS)}'
    )


def _alike(key, known):
    near = difflib.get_close_matches(key, known, n=1, cutoff=0.6)
    return f"; is {shown(known[near[0]])} meant?" if near else ""


class MovedBlock(Block):
    """A block in which some numbers are changed.

    changes: the new number, of any kind, by a `Coordinate`'s key. A moved block made from
    another one starts from the same rows, which both then read once.
    """

    def __init__(self, block, changes):
        self.rows = block.rows
        self.twice = block.twice
        self.width = block.width
        self.changes = changes
        self.read = block.read if isinstance(block, MovedBlock) else {}

    def point(self, label):
        """The row's x, y, z as a `Vec`, changed where they are."""
        at = super().point(label)
        moved = self._changed(label)
        return Vec(*(moved.get(i, number) for i, number in enumerate(at))) if moved else at

    def value(self, label):
        """The single value of a row, changed where it is."""
        number = self.read.get(label)
        if number is None:
            number = self.read[label] = super().value(label)
        return self._changed(label).get(0, number)

    def _changed(self, label):
        own = _key(label)
        return {i: number for (key, i), number in self.changes.items() if key == own}


_key = lru_cache(maxsize=256)(key_of)
