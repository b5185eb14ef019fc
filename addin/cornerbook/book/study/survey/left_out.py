"""The sums of squares of a network without each of its measurements in turn, side by side.

The steps are those of `network.py`, of all these networks at once. These sums are only compared
with each other, so that normal equations are exact enough.
"""

import numpy as np

SETTLED = 1e-6
"""As much as a sum of squares may still fall."""

# Eigenvalues of the normal equations below this part of the largest are none: their last digits.
_NOTHING = 1e-12


def sums_without(readings, start, numbers, steps):
    """The least sum of squares without each of some measurements, by their numbers.

    readings: those of all, that answer `at` and `slopes`. start: the points, (points, 3).
    """
    sums = np.zeros(len(numbers))
    size = max(1.0, float(np.ptp(start, axis=0).max()))
    networks = _Networks(readings, start, np.asarray(numbers))
    for _ in range(steps):
        way, settled = networks.way()
        longest = np.abs(way).max(axis=(1, 2), initial=0.0)
        moved = networks.move(way, ~settled, longest < 1e-7 * size)
        sums[networks.which] = networks.sums
        ends = settled | (moved & (longest < 1e-10 * size))
        if ends.any():
            networks.leave(ends)
            if not networks.which.size:
                break
    return sums


class _Networks:
    """Networks of the same readings but for one each.

    which: the numbers of those that are not at their end. sums: of squares of what is left.
    """

    def __init__(self, readings, start, left_out):
        self.readings = readings
        self.which = np.arange(len(left_out))
        self.kept = np.arange(len(readings.values)) != left_out[:, None]
        self.places = np.repeat(start[None], len(left_out), axis=0)
        self.damping = np.zeros(len(left_out))
        ways, left = readings.at(self.places)
        left = left * self.kept
        self.sums = np.sum(left**2, axis=1)
        self.falls, self.squares, self.turned = self._equations(ways, left, self.kept)

    def _equations(self, ways, left, kept):
        """(right sides, eigenvalues, eigenvectors) of the normal equations."""
        slopes = self.readings.slopes(ways) * kept[:, :, None]
        across = slopes.swapaxes(1, 2)
        squares, turned = np.linalg.eigh(across @ slopes)
        turned = turned.swapaxes(1, 2)
        falls = turned @ (across @ left[:, :, None])
        return falls[:, :, 0], squares, turned

    def way(self):
        """(the step of each network, whether it would take next to nothing off its sum)."""
        known = self.squares > _NOTHING * self.squares[:, -1:]
        falls, squares = np.where(known, self.falls, 0.0), np.where(known, self.squares, 1.0)
        settled = np.sum(falls**2 / squares, axis=1) < SETTLED
        shares = falls / (squares + self.damping[:, None])
        return (shares[:, None] @ self.turned).reshape(self.places.shape), settled

    def move(self, way, wanted, nearly):
        """Take the steps that are wanted and fall, or are no steps nearly; which were taken."""
        ways, left = self.readings.at(self.places + way)
        left *= self.kept
        sums = np.sum(left**2, axis=1)
        moved = wanted & ((sums <= self.sums * (1.0 + 1e-12)) | nearly)
        largest = self.squares[:, -1]
        less = np.where(self.damping > 1e-9 * largest, 0.1 * self.damping, 0.0)
        more = np.maximum(4.0 * self.damping, 1e-4 * largest)
        self.damping = np.where(moved, less, more)
        if moved.any():
            self.places[moved] += way[moved]
            self.sums[moved] = sums[moved]
            new = self._equations(ways[moved], left[moved], self.kept[moved])
            self.falls[moved], self.squares[moved], self.turned[moved] = new
        return moved

    def leave(self, ends):
        """Go on without those that are at their end."""
        for name in ("which", "kept", "places", "damping", "sums", "falls", "squares", "turned"):
            setattr(self, name, getattr(self, name)[~ends])
