"""How builds of a workbook's corners differ when every point is a little off.

Points are spread at random, each coordinate on its own or a jig's points together, and every
result of the workbook is worked out for every car. Nothing is taken to be small or straight
there; only the shares of the coordinates in a result's variance are of first order: a straight
line fitted by least squares to the results over the deviations, whose slopes squared times the
variances of the deviations add up, because those are independent (propagation of uncertainty,
JCGM 100:2008, clause 5.1; from memory).
"""

from pathlib import Path

import numpy as np

from .many import NotForMany
from .many_cells import ManyCells
from .model import cell_name
from .package import Package
from .share import Values
from .tolerance_plan import Point, SpreadBlock, from_file, same_for_all
from .tolerance_results import Results
from .trouble import Trouble

CHUNK = 4096
"""Cars worked on at once: few enough that their numbers stay in the processor's cache."""

SIGMAS = 3.0
"""Standard deviations in a tolerance, by the normal law."""

SPREADS = ("normal", "uniform")
FEWEST, MOST = 1000, 1_000_000
PERCENTS = (1, 5, 50, 95, 99)

_DEFAULT = {"mm": 1.0, "cm": 0.1, "m": 0.001, "in": 0.04}
"""The tolerance where none is given, about a millimetre: a guess at what a careful home
builder holds (common practice, no source)."""

# Of drawn values: worked out for many cars they may differ by rounding from a single car's.
_SAME = 1e-9


class Study:
    """A workbook read, its results and blocks found. Made by `Study(path)`.

    results: the `Result`s. blocks: the `SpreadBlock`s. left_out: [(name, why)]. unit: the
    unit of length beside the points, '' where none stands there.
    """

    def __init__(self, path):
        self.name = Path(path).name
        self.package = Package.read(path)
        self.values = Values(self.package)
        self.cells = ManyCells(self.package, self.values)
        finder = Results(self.package, self.values)
        found = finder.find()
        places = self.cells.blocks_behind([result.cell for result in found])
        self.unit = ""
        self.blocks = [block for block in map(self._block, places) if block.points]
        spread = {cell for block in self.blocks for point in block.points for cell in point.cells}
        self.cells.spread_cells(spread)
        if not spread:
            raise Trouble(
                "%s has no result that needs a corner; a cell with a name and a formula such as "
                "=CORNER.TRAIL(Front) was expected" % path
            )
        self.left_out = [
            (name, why) for name, cell, why in finder.left_out if self.cells.differs(*cell)
        ]
        self.results = []
        still = {cell: np.zeros(2) for cell in spread}
        for result in found:
            if self.cells.differs(*result.cell):
                why = self._unfit(result, still)
                if why is None:
                    self.results.append(result)
                else:
                    self.left_out.append((result.name, why))

    def _block(self, place):
        sheet, top, left, bottom, right = place
        name = None
        for known, scope, text in self.package.names:
            try:
                same = self.package.resolve(text, scope or sheet) == place
            except Trouble:
                continue
            if same:
                name = known
                break
        if name is None:
            name = "%s!%s:%s" % (sheet, cell_name(top, left), cell_name(bottom, right))
        points, taken = [], set()
        for row in range(top, bottom + 1):
            label = self.values.at(sheet, cell_name(row, left))
            cells = [(sheet, cell_name(row, left + i)) for i in (1, 2, 3) if left + i <= right]
            numbers = [self.values.at(*cell) for cell in cells]
            if isinstance(label, str) and len(cells) == 3 and all(map(_is_number, numbers)):
                points.append(Point(label.strip(), cells))
                taken.update(cells)
                unit = self.values.at(sheet, cell_name(row, left + 4))
                if not self.unit and isinstance(unit, str):
                    self.unit = unit.strip()
        return SpreadBlock(name, points)

    def _unfit(self, result, still):
        """Why a result cannot be worked out for many cars; None where it can.

        Held to the single car's own value, as drawn.
        """
        try:
            (found,) = self.cells.evaluate([result.cell], still, 2)
        except NotForMany as problem:
            return "it needs %s" % problem
        if not np.all(np.abs(found - result.drawn) <= _SAME * max(1.0, abs(result.drawn))):
            return "for many cars at once its value as drawn is not the same"
        return None

    def amounts(self, within=None, file=None):
        """The `Amount`s for one tolerance, or as a file has them, or for the default."""
        if within is None:
            within = _DEFAULT.get(self.unit.lower())
            if within is None:
                if file is None:
                    raise Trouble(
                        "no unit stands beside the points; say how far each may be off, in the "
                        "workbook's lengths: --within 1"
                    )
                within = 0.0
        if file is not None:
            found = from_file(file, self.blocks, within)
        else:
            found = same_for_all(self.blocks, float(within))
        if not found:
            raise Trouble("every tolerance is 0, so that no car differs; give one above 0")
        return found

    def run(self, amounts, spread="normal", cars=100_000, seed=1, progress=None):
        """The `Outcome` for so many cars; the same seed gives the same cars.

        progress: None, or a function that is called with the number of cars just done.
        """
        return Outcome(self, amounts, spread, cars, seed, progress)


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


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
                self.left_out.append((result.name, "it needs %s" % problem))

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


def tolerance(path, within=None, file=None, spread="normal", cars=100_000, seed=1, bar=True):
    """The study of a workbook: the new workbook's bytes, and one sentence on it.

    within: a tolerance for every coordinate. file: a tolerance file. bar: show progress on
    standard error, where that is a terminal.
    """
    from .tolerance_sheets import said, to_xlsx

    if not FEWEST <= cars <= MOST:
        raise Trouble("--cars: %d given, from %d to %d were expected" % (cars, FEWEST, MOST))
    if seed < 0:
        raise Trouble("--seed: %d given, a whole number of 0 or more was expected" % seed)
    study = Study(path)
    amounts = study.amounts(within, file)
    with _Bar(cars if bar else None) as progress:
        outcome = study.run(amounts, spread, cars, seed, progress)
    return to_xlsx(outcome), said(outcome)


class _Bar:
    """A progress bar on standard error, where that is a terminal and tqdm is installed."""

    def __init__(self, cars):
        self.cars = cars
        self.bar = None

    def __enter__(self):
        if self.cars is None:
            return None
        try:
            from tqdm import tqdm
        except ImportError:
            return None
        self.bar = tqdm(total=self.cars, unit=" cars", disable=None, leave=False)
        return self.bar.update

    def __exit__(self, *_):
        if self.bar is not None:
            self.bar.close()
