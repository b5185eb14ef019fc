"""What many cars, each a little off, came to: spreads, bands, shares, what a better jig is worth.

Points are spread at random, each coordinate on its own or a jig's points together, and every
result of the workbook is worked out for every car. Nothing is taken to be small or straight
there; only the shares of the coordinates in a result's variance are of first order: a straight
line fitted by least squares to the results over the deviations, whose slopes squared times the
variances of the deviations add up, because those are independent (propagation of uncertainty,
JCGM 100:2008, clause 5.1; from memory).
"""

import numpy as np

from ..many.numbers import NotForMany

CHUNK = 4096
"""Cars worked on at once: few enough that their numbers stay in the processor's cache."""

SIGMAS = 3.0
"""Standard deviations in a tolerance, by the normal law."""

PERCENTS = (1, 5, 50, 95, 99)

# Of drawn values: worked out for many cars they may differ by rounding from a single car's.
_SAME = 1e-9


class Outcome:
    """What the cars came to.

    values: array (results, cars), NaN for a car without that result, which is outside its
    band. passing: the share of cars within all bands. without: how many cars lack a result.
    Arrays by result: mean, deviation, percentiles, missing (a count), inside (a share, NaN
    without a band), varies; slopes, for a deviation of one tolerance, and shares of variance,
    of first order: (results, amounts). parts: the names of what a better jig would hold; by
    part: part_passing, what passing were had that part no deviation; part_weight, its
    variance over the square of the band's half width, added up over the results. ranking:
    the parts' numbers, the one most worth a better jig first. left_out: [(name, why)].
    """

    def __init__(self, study, amounts, spread, cars, seed, progress=None):
        self.study = study
        self.results = list(study.results)
        self.left_out = list(study.left_out)
        self.amounts = amounts
        self.spread = spread
        self.cars = cars
        self.seed = seed
        while not self._work_out(progress or (lambda count: None)):
            pass
        self.banded = [i for i, result in enumerate(self.results) if result.is_banded]
        self._describe()
        self._judge_parts()

    def _chunks(self):
        """(slice, deviations in tolerances) of some cars at a time; each time the same."""
        seeds = np.random.SeedSequence(self.seed).spawn(len(self.amounts))
        draws = [np.random.default_rng(seed) for seed in seeds]
        for start in range(0, self.cars, CHUNK):
            part = slice(start, min(start + CHUNK, self.cars))
            count = part.stop - start
            if self.spread == "normal":
                drawn = np.array([draw.standard_normal(count) for draw in draws]) / SIGMAS
            else:
                drawn = np.array([draw.uniform(-1.0, 1.0, count) for draw in draws])
            yield part, drawn

    def _work_out(self, progress):
        """Work out all cars; false if a result had to be left out, to begin again without."""
        cells = self.study.cells
        self.values = np.empty((len(self.results), self.cars))
        wanted = [result.cell for result in self.results]
        size = len(self.amounts) + 1
        self._squares = np.zeros((len(wanted), size, size))
        self._products = np.zeros((len(wanted), size))
        drawn = np.array([result.drawn for result in self.results])
        for part, deviations in self._chunks():
            count = part.stop - part.start
            moved = {cell: np.zeros(count) for cell in cells.spread}
            for amount, deviation in zip(self.amounts, deviations, strict=True):
                for cell in amount.cells:
                    moved[cell] += amount.within * deviation
            here = self.values[:, part]
            try:
                here[:] = cells.evaluate(wanted, moved, count)
            except NotForMany:
                self._leave_out(moved, count)
                progress(-part.start)
                return False
            self._fit(np.vstack([np.ones(count), deviations]), here - drawn[:, None])
            progress(count)
        return True

    def _leave_out(self, moved, count):
        """Leave out the results that cannot be had for some cars, where they differ."""
        for result in list(self.results):
            try:
                self.study.cells.evaluate([result.cell], moved, count)
            except NotForMany as problem:
                self.results.remove(result)
                self.left_out.append((result.name, f"it needs {problem}"))

    def _fit(self, terms, changes):
        """Add some cars to the sums of least squares, each result over those that have it."""
        known = np.isfinite(changes)
        whole = known.all(axis=1)
        self._squares[whole] += _sums(terms, terms)
        self._products[whole] += _sums(changes[whole], terms)
        for i in np.flatnonzero(~whole):
            part = terms[:, known[i]]
            self._squares[i] += _sums(part, part)
            self._products[i] += _sums(changes[i : i + 1, known[i]], part)[0]

    def _describe(self):
        known = np.isfinite(self.values)
        count = known.sum(axis=1)
        self.missing = self.cars - count
        self.without = int((~known).any(axis=0).sum())
        shape = len(self.results)
        self.mean, self.deviation = np.full(shape, np.nan), np.full(shape, np.nan)
        self.percentiles = np.full((shape, len(PERCENTS)), np.nan)
        self.slopes = np.zeros((shape, len(self.amounts)))
        for i in np.flatnonzero(count > 1):
            values = self.values[i] if known[i].all() else self.values[i, known[i]]
            self.mean[i], self.deviation[i] = values.mean(), values.std(ddof=1)
            self.percentiles[i] = np.percentile(values, PERCENTS)
            self.slopes[i] = np.linalg.lstsq(self._squares[i], self._products[i], rcond=None)[0][1:]
        # Of a deviation in tolerances.
        self.variance = 1.0 / SIGMAS**2 if self.spread == "normal" else 1.0 / 3.0
        with np.errstate(all="ignore"):
            shares = self.slopes**2 * self.variance / self.deviation[:, None] ** 2
        steady = self.deviation <= _SAME * np.maximum(1.0, np.abs(self.mean))
        self.shares = np.where(np.isfinite(shares) & ~steady[:, None], shares, 0.0)
        self.varies = ~steady & np.isfinite(self.deviation)
        self.low = np.array([self.results[i].low for i in self.banded])
        self.high = np.array([self.results[i].high for i in self.banded])
        self.inside = np.full(shape, np.nan)
        passing = 0
        for part in _slices(self.cars):
            inside = self._in_bands(self.values[self.banded, part])
            passing += int(inside.all(axis=0).sum())
        for i in self.banded:
            result = self.results[i]
            values = self.values[i]
            self.inside[i] = ((values >= result.low) & (values <= result.high)).mean()
        self.passing = passing / self.cars if self.banded else np.nan

    def _in_bands(self, values):
        return (values >= self.low[:, None]) & (values <= self.high[:, None])

    def _judge_parts(self):
        """What each part does: the cars within all bands, had it no deviation, and its weight."""
        parts: dict = {}
        for number, amount in enumerate(self.amounts):
            parts.setdefault(amount.part, []).append(number)
        self.parts = list(parts)
        members = list(parts.values())
        if self.banded:
            slopes = self.slopes[self.banded]
            half = 0.5 * (self.high - self.low)
            weights = np.where(half[:, None] > 0.0, slopes**2, 0.0) * self.variance
            weights = (weights / np.where(half > 0.0, half, 1.0)[:, None] ** 2).sum(axis=0)
            passing = np.zeros(len(members), dtype=int)
            for part, deviations in self._chunks():
                values = self.values[self.banded, part]
                for number, amounts in enumerate(members):
                    moved = _weighted(slopes[:, amounts], deviations[amounts])
                    passing[number] += int(self._in_bands(values - moved).all(axis=0).sum())
            self.part_passing = passing / self.cars
        else:
            weights = self.shares.sum(axis=0)
            self.part_passing = np.full(len(members), np.nan)
        self.part_weight = np.array([weights[amounts].sum() for amounts in members])
        gain = np.nan_to_num(self.part_passing - self.passing)
        order = sorted(range(len(members)), key=lambda i: (-gain[i], -self.part_weight[i], i))
        self.ranking = [i for i in order if gain[i] > 0.0 or self.part_weight[i] > 0.0]


def _sums(one, other):
    """Sums over the cars of each row times each row of another: a matrix product.

    Not through BLAS, whose several threads cost more than they save on so little, and whose
    last digits are those of its number of threads.
    """
    return np.einsum("ik,jk->ij", one, other)


def _weighted(slopes, deviations):
    return np.einsum("ia,ak->ik", slopes, deviations)


def _slices(cars):
    return [slice(start, min(start + CHUNK, cars)) for start in range(0, cars, CHUNK)]
