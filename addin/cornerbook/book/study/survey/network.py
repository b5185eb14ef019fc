"""A network of tape distances and plumbed coordinates, adjusted by least squares.

As land surveyors do it: each measurement weighs by one over its variance, the equations are made
linear about the points and solved again until these stay. What no measurement fixes, the
position of the whole among it, stays as near to where it was drawn as it can: of all solutions
the one of least movement (a free network with inner constraints). A misreading shows by its
normalised residual, its residual over the residual's own standard deviation (W.
Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; C. Ghilani, Adjustment
Computations; both from memory).
"""

import numpy as np

from .left_out import sums_without
from .measured import ALONG, DISTANCE

STEPS = 200
"""Gauss and Newton's steps at most; a few are enough as a rule."""

OUTLYING = 3.29
"""A normalised residual above this comes by chance once in a thousand (a normal law)."""

SELDOM = 0.001
"""A sum of squares that chance alone leaves as seldom as this is doubtful, whatever its parts."""

NEARLY = OUTLYING**2
"""Sums of squares nearer to each other than this tell no difference: chance alone, too, makes a
reading that is right explain so much more than the misread one, once in a thousand."""

# Singular values below this part of the largest are none: a direction that nothing fixes.
_NOTHING = 1e-7
# A sum of squares below this is that of readings which agree.
_AGREE = 1e-6
# A measurement of which less than this part is redundant is checked by no other.
_UNCHECKED = 1e-4


class Adjusted:
    """A network after the adjustment.

    places: the points, (points, 3). sds: standard deviations of their coordinates, likewise, of
    the measurements' own, NaN where nothing fixes a point. residuals: measured less adjusted.
    redundancy: of each measurement, from 0 (nothing else checks it) to 1. normalised: each
    residual over its own standard deviation, 0 where nothing checks it. spare: measurements
    more than are needed. unfixed: directions in which points can move and nothing changes,
    (n, points, 3), the movement of whole tied parts left out. afloat: how many movements of
    whole parts nothing fixes.
    """

    def __init__(self, measurements, start):
        self.measurements = list(measurements)
        self.start = np.asarray(start, dtype=float)
        self._readings = _Readings(self.measurements, len(self.start))
        self.places, slopes, left = _solved(self._readings, self.start)
        self.residuals = left * self._readings.sures
        basis, values, fixed = _parted(slopes)
        rank = len(values)
        self.spare = len(self.measurements) - rank
        self.redundancy = np.clip(1.0 - np.sum(basis**2, axis=1), 0.0, 1.0)
        checked = self.redundancy > _UNCHECKED
        self.normalised = np.where(
            checked, left / np.sqrt(np.where(checked, self.redundancy, 1.0)), 0.0
        )
        self.square_sum = float(left @ left)
        self.unfixed, self.afloat = _free(self.measurements, self.places, fixed)
        variance = np.sum((fixed / values[:, None]) ** 2, axis=0).reshape(self.places.shape)
        loose = np.linalg.norm(self.unfixed, axis=(0, 2)) > 1e-5
        self.sds = np.where(loose[:, None], np.nan, np.sqrt(variance))
        self.loose = loose

    @property
    def likelihood(self):
        """How often chance alone leaves a sum of squares as large, None without redundancy.

        Readings of which none is spare leave nothing, unless no shape has all these lengths: the
        nearest one is a flat one then, that has a reading to spare but for its last digits.
        """
        from scipy.special import gammaincc

        if self.spare <= 0 and self.square_sum < _AGREE:
            return None
        return float(gammaincc(0.5 * max(1, self.spare), 0.5 * self.square_sum))

    @property
    def is_doubtful(self):
        """Whether a normalised residual, or all of them together, are larger than by chance."""
        outlying = bool(np.abs(self.normalised).max(initial=0.0) > OUTLYING)
        likelihood = self.likelihood
        return likelihood is not None and (outlying or likelihood < SELDOM)

    def suspects(self):
        """Numbers of the measurements most likely wrong, the likeliest first: none, or some.

        A large misreading bends the network, and the normalised residuals with it. So each
        measurement that others check is left out in its turn, and the network solved without:
        likeliest is the one without which the rest agrees best. Others explain what is off
        nearly as well (their sum of squares is within `NEARLY`): these cannot be told apart.
        """
        if not self.is_doubtful:
            return []
        checked = np.flatnonzero(self.redundancy > _UNCHECKED)
        # One misread so far that the network as bent has no spare reading: any may be it.
        numbers = checked if checked.size else np.arange(len(self.measurements))
        found = sums_without(self._readings, self.start, numbers, STEPS)
        sums = dict(zip(numbers.tolist(), found.tolist(), strict=True))
        least = min(sums.values())
        # Those that explain it alike stay in their order: what is left of both is rounding.
        return sorted(
            (i for i in sums if sums[i] <= least + NEARLY), key=lambda i: round(sums[i], 3)
        )


class _Readings:
    """Measurements as arrays, so that all are worked out at once.

    taped: whether each is a distance. ties: (measurements, points), 1 for the first point of each
    and -1 for the other end of a distance. along: the axis of a coordinate, as a vector.
    """

    def __init__(self, measurements, points):
        self.values = np.array([one.value for one in measurements], dtype=float)
        self.sures = np.array([one.sure for one in measurements], dtype=float)
        self.taped = np.array([one.kind == DISTANCE for one in measurements], dtype=bool)
        self.ties = np.zeros((len(measurements), points))
        for tie, one in zip(self.ties, measurements, strict=True):
            tie[list(one.points[1:])] = -1.0
            tie[one.points[0]] = 1.0
        along = [one.kind == np.array(ALONG) for one in measurements]
        self.along = np.array(along, dtype=float).reshape(-1, 3)

    def at(self, places):
        """(what each is of: the way of a distance or a point's place; what is measured less what
        would be, over the standard deviations). places: (points, 3), or of many networks."""
        ways = self.ties @ places
        read = np.sum(ways * self.along, axis=-1)
        lengths = np.sqrt(np.sum(ways**2, axis=-1))
        return ways, (self.values - np.where(self.taped, lengths, read)) / self.sures

    def slopes(self, ways):
        """How what would be measured changes with each coordinate, over the standard deviations.

        ways: as of `at`.
        """
        lengths = np.sqrt(np.sum(ways**2, axis=-1, keepdims=True))
        # Of two points in one place a distance has no direction yet: any will do.
        apart = lengths > 0.0
        ways = np.where(apart, ways / np.where(apart, lengths, 1.0), [1.0, 0.0, 0.0])
        ways = np.where(self.taped[:, None], ways, self.along) / self.sures[:, None]
        slopes = self.ties[:, :, None] * ways[..., None, :]
        # With no measurement at all there are no rows, and as many columns as ever.
        return slopes.reshape(*ways.shape[:-1], self.ties.shape[1] * 3)


def _solved(readings, start):
    """(places, slopes over the standard deviations, what is left likewise).

    Gauss and Newton's steps, shortened after Levenberg and Marquardt where they would not do.
    """
    places = start.copy()
    ways, left = readings.at(places)
    slopes = readings.slopes(ways)
    basis, values, fixed = _parted(slopes)
    damping, size = 0.0, max(1.0, float(np.ptp(start, axis=0).max()))
    for _ in range(STEPS):
        shares = values / (values**2 + damping)
        way = (fixed.T @ (shares * (basis.T @ left))).reshape(places.shape)
        ways, there = readings.at(places + way)
        longest = float(np.abs(way).max(initial=0.0))
        # Near the end rounding decides: a step of no length is as good as one that does.
        if there @ there <= (left @ left) * (1.0 + 1e-12) or longest < 1e-7 * size:
            places, left, slopes = places + way, there, readings.slopes(ways)
            damping = 0.1 * damping if damping > 1e-9 * values.max(initial=0.0) ** 2 else 0.0
            if longest < 1e-10 * size:
                break
            basis, values, fixed = _parted(slopes)
        else:
            damping = max(4.0 * damping, 1e-4 * values.max() ** 2)
    return places, slopes, left


def _parted(slopes):
    """(left vectors, singular values, right vectors) of all that measurements fix."""
    left, values, right = np.linalg.svd(slopes, full_matrices=False)
    known = values > _NOTHING * values.max(initial=0.0)
    return left[:, known], values[known], right[known]


def _free(measurements, places, fixed):
    """(directions in which points are not fixed, how many movements of whole parts are not)."""
    count = places.size
    if len(fixed) == count:
        return np.zeros((0, *places.shape)), 0
    null = np.linalg.svd(fixed)[2][len(fixed) :] if len(fixed) else np.eye(count)
    wholes = np.array([
        way for part in _parts(measurements, len(places)) for way in _movements(places, part)
    ])  # fmt: skip
    wholes = _basis(wholes)
    # Of the movements of whole parts those that change no measurement.
    sizes, turned = np.linalg.svd(wholes @ fixed.T @ fixed @ wholes.T)[1:]
    adrift = turned[sizes < 1e-8] @ wholes
    inner = _basis(null - null @ adrift.T @ adrift)
    return inner.reshape(-1, *places.shape), len(adrift)


def _basis(rows, least=1e-4):
    """Unit vectors, square to each other, of what rows span."""
    if not len(rows):
        return rows
    sizes, turned = np.linalg.svd(rows, full_matrices=False)[1:]
    return turned[sizes > least * max(1.0, sizes.max())]


def _parts(measurements, count):
    """Lists of points that tapes tie together."""
    part = list(range(count))
    for one in measurements:
        if one.kind == DISTANCE:
            a, b = (part[point] for point in one.points)
            part = [a if p == b else p for p in part]
    return [[i for i in range(count) if part[i] == p] for p in sorted(set(part))]


def _movements(places, part):
    """Six movements of a part as a whole: along and about each axis."""
    middle = places[part].mean(axis=0)
    for axis in np.eye(3):
        along, about = np.zeros(places.shape), np.zeros(places.shape)
        along[part] = axis
        about[part] = np.cross(axis, places[part] - middle) / 100.0
        yield along.ravel()
        yield about.ravel()
