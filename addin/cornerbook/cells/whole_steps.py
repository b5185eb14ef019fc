"""Adjusters turned in whole steps within limits: the fewest that bring every result into its band.

The results answer the steps nearly in proportion. So the steps are looked for on a plane that
touches the results where they are, exhaustively by branch and bound; then the results are
worked out exactly there, a new plane is laid, and so on until the steps stay. At the end single
steps, and two at a time, are tried on the exact results.
"""

from itertools import combinations, product

ROUNDS = 8
"""Planes that are laid at most; two or three are enough as a rule."""

NODES = 40000
"""Branches looked at on one plane. Where they do not suffice, the best found so far stands."""

_TINY = 1e-9


def _side_by_side(*rows):
    # Of one length by their making; Python 3.8 cannot be asked to look.
    return zip(*rows)  # noqa: B905


class Band:
    """What a change may be: from least to most, either of which may be None."""

    __slots__ = ("least", "most", "scale")

    def __init__(self, least, most):
        self.least = -float("inf") if least is None else least
        self.most = float("inf") if most is None else most
        width = self.most - self.least
        self.scale = width if 0.0 < width < float("inf") else None

    def gap(self, low, high):
        """How far a range, or with both ends alike a value, is from the band."""
        return max(self.least - high, low - self.most, 0.0)


class Steps:
    """The search. change: a function of a tuple of whole steps, which gives the exact change of
    each result, or None where the linkage does not close. limits: (least, most) for each
    adjuster, whole. bands: a `Band` for each result.
    """

    def __init__(self, change, limits, bands):
        self._change = change
        self._known = {}
        self.limits = limits
        self.bands = bands

    def at(self, steps):
        """The exact changes at some steps, kept."""
        if steps not in self._known:
            self._known[steps] = self._change(steps)
        return self._known[steps]

    def fewest(self):
        """The steps as a tuple: the fewest, or where no steps suffice, the nearest."""
        steps = tuple(min(max(0, low), high) for low, high in self.limits)
        if self.at(steps) is None:
            return steps
        self._scale(steps)
        best, seen = steps, set()
        for _ in range(ROUNDS):
            if steps in seen:
                break
            seen.add(steps)
            plane = self._plane(steps)
            steps = _Search(*plane, self.limits, self.bands).found
            while self.at(steps) is None:
                # Beyond what closes: half way back to what does, and the last step whole.
                steps = tuple(b + int((a - b) / 2) for a, b in _side_by_side(steps, best))
            best = min(best, steps, key=self._rank)
        return self._polished(best)

    def _rank(self, steps):
        changes = self.at(steps)
        if changes is None:
            return float("inf"), 0, 0
        missed = sum(
            (band.gap(change, change) / band.scale) ** 2
            for change, band in _side_by_side(changes, self.bands)
        )
        size = sum(map(abs, steps))
        return (missed if missed > _TINY else 0.0, size, sum(n * n for n in steps))

    def _scale(self, steps):
        """Give bands without a width of their own the size of the largest effect of a step."""
        _, slopes = self._plane(steps)
        for row, band in _side_by_side(slopes, self.bands):
            if band.scale is None:
                band.scale = max(map(abs, row), default=0.0) or 1.0

    def _plane(self, steps):
        """(changes at no steps, changes for each step) of the plane that touches at some steps."""
        here = self.at(steps)
        columns = []
        for j, (low, high) in enumerate(self.limits):
            ends = []
            for n in (min(steps[j] + 1, high), max(steps[j] - 1, low)):
                there = (*steps[:j], n, *steps[j + 1 :])
                ends.append((n, self.at(there)))
            (up, above), (down, below) = (
                (n, values) if values is not None else (steps[j], here) for n, values in ends
            )
            apart = up - down
            columns.append(
                [(a - b) / apart if apart else 0.0 for a, b in _side_by_side(above, below)]
            )
        slopes = [[column[i] for column in columns] for i in range(len(here))]
        base = [
            value - sum(slope * n for slope, n in _side_by_side(row, steps))
            for value, row in _side_by_side(here, slopes)
        ]
        return base, slopes

    def _polished(self, steps):
        rank = self._rank(steps)
        while True:
            best = min(self._near(steps), key=self._rank, default=steps)
            found = self._rank(best)
            if not found < rank:
                return steps
            steps, rank = best, found

    def _near(self, steps):
        """Steps that differ by one, of one adjuster or of two."""
        count = range(len(steps))
        for some in (*combinations(count, 1), *combinations(count, 2)):
            for signs in product((1, -1), repeat=len(some)):
                moved = list(steps)
                for j, sign in _side_by_side(some, signs):
                    moved[j] += sign
                if all(low <= n <= high for n, (low, high) in _side_by_side(moved, self.limits)):
                    yield tuple(moved)


class _Search:
    """Branch and bound on one plane; `found` is the steps."""

    def __init__(self, base, slopes, limits, bands):
        self.bands = bands
        self.slopes = slopes
        self.limits = limits
        results = range(len(bands))
        # Coarse adjusters first: fine ones then have little left to try.
        self.order = sorted(
            range(len(limits)),
            key=lambda j: -max((abs(slopes[i][j]) / bands[i].scale for i in results), default=0.0),
        )
        # What adjusters from each one on can add to each result, at least and at most.
        self.rest = [[(0.0, 0.0)] * len(bands)]
        for j in reversed(self.order):
            low, high = limits[j]
            self.rest.append([
                (a + min(s * low, s * high), b + max(s * low, s * high))
                for (a, b), s in _side_by_side(self.rest[-1], [slopes[i][j] for i in results])
            ])  # fmt: skip
        self.rest.reverse()
        self.steps = [0] * len(limits)
        self.nodes = 0
        self.found = self._greedy(base)
        self.best = self._exactly(self._of(base, self.found)), sum(map(abs, self.found))
        self._branch(0, base, 0)
        self.found = tuple(self.found)

    def _of(self, base, steps):
        return [
            value + sum(s * n for s, n in _side_by_side(row, steps))
            for value, row in _side_by_side(base, self.slopes)
        ]

    def _exactly(self, values):
        return sum((b.gap(v, v) / b.scale) ** 2 for v, b in _side_by_side(values, self.bands))

    def _missed(self, depth, values):
        """The least that can be missed whatever the adjusters from here on do."""
        return sum(
            (band.gap(value + low, value + high) / band.scale) ** 2
            for value, (low, high), band in _side_by_side(values, self.rest[depth], self.bands)
        )

    def _greedy(self, base):
        """A first answer: one adjuster after the other at its best, some times round."""
        steps = [min(max(0, low), high) for low, high in self.limits]
        for _ in range(10):
            before = list(steps)
            for j in self.order:
                low, high = self.limits[j]
                tries = []
                for n in range(low, high + 1):
                    steps[j] = n
                    tries.append((self._exactly(self._of(base, steps)), abs(n), n))
                steps[j] = min(tries)[2]
            if steps == before:
                break
        return steps

    def _branch(self, depth, values, moved):
        self.nodes += 1
        if self.nodes > NODES:
            return
        missed = self._missed(depth, values)
        if missed > self.best[0] + _TINY:
            return
        if missed > self.best[0] - _TINY and moved >= self.best[1]:
            return
        if depth == len(self.order):
            self.best = missed, moved
            self.found = list(self.steps)
            return
        j = self.order[depth]
        low, high = self.limits[j]
        for n in sorted(range(low, high + 1), key=abs):
            self.steps[j] = n
            there = [value + row[j] * n for value, row in _side_by_side(values, self.slopes)]
            self._branch(depth + 1, there, moved + abs(n))
        self.steps[j] = 0
