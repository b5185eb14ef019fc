"""The command's survey: from the workbook as measured to the copy with the corners as built."""

from typing import NamedTuple

import numpy as np

from ...file.package import Package
from ...file.trouble import Trouble
from ...formula.values import Values
from .built import add_sheets
from .measured import DISTANCE
from .network import Adjusted
from .story import sentences
from .table import NOT_FIXED, NOT_MEASURED, SIDES, Corner, measurements_of

OTHER_UNIT = 1.6
"""Distances that are on the whole so many times those drawn, or as small a part of them, are in
another unit: the nearest two, inch and cm, are a factor of 2.54 apart, whose root this is."""


class Found(NamedTuple):
    """A point as built, as of a left-hand corner: where, how surely, how far from the drawing."""

    place: np.ndarray
    sds: np.ndarray
    moved: float


class Survey:
    """A workbook's measurements, adjusted.

    corner: the `Corner`. used: the numbers of the points that were measured, in the order of
    `adjusted`. left_out: the one `Measurement` that is taken for misread, or None. suspects: all
    that may be.
    """

    def __init__(self, package, block="Front"):
        values = Values(package)
        self.doubts = values.doubts
        self.corner = Corner(package, values, block)
        made = measurements_of(package, values, self.corner)
        self.used = sorted({point for one in made for point in one.points})
        place_of = {point: i for i, point in enumerate(self.used)}
        for one in made:
            one.points = tuple(place_of[point] for point in one.points)
        start = self.corner.drawn[self.used]
        _hold_unit(made, start)
        adjusted = Adjusted(made, start)
        wrong = adjusted.suspects()
        self.suspects = [made[i] for i in wrong]
        self.left_out = None
        if len(wrong) == 1:
            self.left_out = made[wrong[0]]
            adjusted = Adjusted([one for one in made if one is not self.left_out], start)
        self.adjusted = adjusted
        self.sentences = list(sentences(self))

    @property
    def places_of_used(self):
        """Where the points are that were measured."""
        return self.adjusted.places

    def state(self, side):
        """`NOT_MEASURED`, `NOT_FIXED`, or '' where a side's measured points are all fixed."""
        count = len(self.corner.labels)
        own = [i for i, point in enumerate(self.used) if point // count == side]
        if not own:
            return NOT_MEASURED
        return NOT_FIXED if any(self.adjusted.loose[i] for i in own) else ""

    def found(self, label, side):
        """The `Found` of a point of a side, 0 or 1; None for one that was not measured."""
        point = self.corner.point(f"{SIDES[side]} {label}")
        if point not in self.used:
            return None
        i = self.used.index(point)
        mirror = np.array([1.0, -1.0 if side else 1.0, 1.0])
        moved = np.linalg.norm(self.adjusted.places[i] - self.corner.drawn[point])
        return Found(self.adjusted.places[i] * mirror, self.adjusted.sds[i], float(moved))


def _hold_unit(measurements, drawn):
    """Raise `Trouble` where the tapes were read in another unit than the drawing's."""
    lengths = [(one.value, one.of(drawn)) for one in measurements if one.kind == DISTANCE]
    shares = [measured / there for measured, there in lengths if there > 0.0]
    share = float(np.median(shares)) if shares else 1.0
    if len(shares) > 1 and not 1.0 / OTHER_UNIT < share < OTHER_UNIT:
        raise Trouble(
            f"the distances as measured are {share:.3g} of those drawn: type them in the unit that "
            "stands beside them on the sheet Survey"
        )


def survey(path, block="Front"):
    """(the bytes of the copy, sentences on what was found); raises `Trouble`."""
    package = Package.read(path)
    found = Survey(package, block)
    built, readings, names = add_sheets(package, found)
    said = [*package.warnings(), *found.sentences, *found.doubts()]
    named = f", by the names {' and '.join(names)} for formulas" if names else ""
    said.append(
        f"the corners as built are on the sheet {built}{named}, the measurements on {readings}"
    )
    return package.to_bytes(), said
