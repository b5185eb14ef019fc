"""The table of a survey in a workbook: its rows, the points that they name, and what is wrong."""

import difflib

import numpy as np

from ....cells.block import POINT_KEYS, key_of
from ....cells.mend import is_number, shown
from ...file.trouble import Trouble
from .measured import ALONG, DISTANCE, Measurement

SIDES = ("left", "right")
NAME, SURE, USUAL = "Survey", "SurveySure", 1.0
KINDS = (DISTANCE, *ALONG)
NOT_MEASURED, NOT_FIXED = "not measured", "not fixed"
"""What is said of a side of which no point was measured, or some point is not fixed."""


class Corner:
    """A workbook's block of a left-hand corner: its rows, and the points of both sides.

    rows: (label, values) as they stand. labels: of its points. drawn: the points as drawn, the
    left side's and then the right side's, (2 * labels, 3).
    """

    def __init__(self, package, values, name):
        try:
            self.place = package.resolve(name, package.sheets[0])
        except Trouble as trouble:
            raise Trouble(f"{trouble}; give the block's name with --block") from None
        sheet, top, left, bottom, _ = self.place
        self.name = name
        block = values.block(sheet, top, left, bottom, left + 3)
        self.rows = [(row[0], row[1:]) for row in block]
        points = [
            (label.strip(), cells) for label, cells in self.rows
            if isinstance(label, str) and key_of(label) in POINT_KEYS and all(map(is_number, cells))
        ]  # fmt: skip
        if not points:
            raise Trouble(f"{name} holds no points with x, y and z")
        self.labels = [label for label, _ in points]
        left_side = np.array([cells for _, cells in points], dtype=float)
        self.drawn = np.vstack([left_side, left_side * [1.0, -1.0, 1.0]])

    def point(self, text):
        """The number of a point as a row names it: "right upper ball joint"."""
        words = text.split()
        side = 0
        if words and words[0].lower() in SIDES and key_of(text) not in map(key_of, self.labels):
            side, words = SIDES.index(words[0].lower()), words[1:]
        wanted = key_of(" ".join(words))
        known = [key_of(label) for label in self.labels]
        if wanted in known:
            return side * len(known) + known.index(wanted)
        near = difflib.get_close_matches(wanted, known, n=1)
        hint = f"; did you mean {self.labels[known.index(near[0])]}?" if near else ""
        raise Trouble(f"{shown(text)} is no point of the block {self.name}{hint}")

    def words(self, point):
        """A point as a row may name it."""
        count = len(self.labels)
        return f"{SIDES[point // count]} {self.labels[point % count].lower()}"


def measurements_of(package, values, corner):
    """The `Measurement`s of the table named `NAME`; raises `Trouble` with all that is wrong."""
    try:
        sheet, top, left, bottom, _ = package.resolve(NAME, package.sheets[0])
    except Trouble:
        raise Trouble(
            f"the workbook has no table of the name {NAME}; the chapter survey has one "
            "(cornerbook new makes it)"
        ) from None
    usual = _usual(package, values)
    found, wrong = [], []
    for number, row in enumerate(values.block(sheet, top, left, bottom, left + 4), top + 1):
        if all(_empty(cell) for cell in row[:4]):
            continue
        try:
            found.append(_measurement(corner, row, usual, f"row {number}"))
        except Trouble as trouble:
            wrong.append(f"{sheet}, row {number}: {trouble}")
    if wrong:
        raise Trouble("; ".join(wrong[:5]) + (f"; and {len(wrong) - 5} more" if wrong[5:] else ""))
    if not found:
        raise Trouble(f"nothing is measured yet: the table on the sheet {sheet} is empty")
    return found


def _usual(package, values):
    try:
        sheet, top, left, *_ = package.resolve(SURE, package.sheets[0])
    except Trouble:
        return USUAL
    value = values.block(sheet, top, left, top, left)[0][0]
    return float(value) if is_number(value) and value > 0.0 else USUAL


def _empty(cell):
    return cell is None or cell == "" or (isinstance(cell, str) and not cell.strip())


def _measurement(corner, row, usual, where):
    what, one, other, value, sure = row
    kind = key_of(what) if isinstance(what, str) and not _empty(what) else DISTANCE
    if kind not in KINDS:
        raise Trouble(f"{shown(what)} is not known; one of {', '.join(KINDS)} was expected")
    if not isinstance(one, str) or _empty(one):
        raise Trouble("from is empty; the name of a point was expected")
    points = [corner.point(one)]
    if kind == DISTANCE:
        if not isinstance(other, str) or _empty(other):
            raise Trouble("to is empty; a distance goes from one point to another")
        points.append(corner.point(other))
        if points[0] == points[1]:
            raise Trouble("from and to are the same point")
    elif not _empty(other):
        raise Trouble(f"{kind} is of one point; leave the cell to empty")
    if not is_number(value):
        raise Trouble("measured: " + ("it is empty" if _empty(value) else f"{shown(value)} given")
                      + "; a number was expected")  # fmt: skip
    if kind == DISTANCE and not value > 0.0:
        raise Trouble(f"measured: {shown(value)} given; a distance above 0 was expected")
    if not _empty(sure) and not (is_number(sure) and sure > 0.0):
        raise Trouble(f"how sure: {shown(sure)} given; a number above 0 was expected")
    words = f"{where}, {kind} " + " to ".join(map(corner.words, points))
    return Measurement(kind, points, float(value), usual if _empty(sure) else float(sure), words)
