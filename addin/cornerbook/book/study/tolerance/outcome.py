"""What many cars, each a little off, came to: spreads, bands, shares, what a better jig is worth.

Points are spread at random, each coordinate on its own or a jig's points together, and every
result of the workbook is worked out for every car. Nothing is taken to be small or straight
there; only the shares of the coordinates in a result's variance are of first order: a straight
line fitted by least squares to the results over the deviations, whose slopes squared times the
variances of the deviations add up, because those are independent (propagation of uncertainty,
JCGM 100:2008, clause 5.1; from memory).
"""

import numpy as np

from .bands import Bands
from .built import Built
from .draws import Draws
from .figures import Figures
from .parts import Parts


class Outcome:
    """What the cars came to.

    values: array (results, cars), NaN for a car without that result, which is outside its
    band. failing: the `Result`s that are outside their band as drawn. passing: the share of cars
    within all bands of the others. without: how many cars lack a result.
    Arrays by result: mean, deviation, percentiles, missing (a count), inside (a share, NaN
    without a band), varies; slopes, for a deviation of one tolerance, and shares of variance,
    of first order: (results, amounts). parts: the names of what a better jig would hold; by
    part: part_passing, what passing were had that part no deviation; part_weight, its
    variance over the square of the band's half width, added up over the results. ranking:
    the parts' numbers, the one most worth a better jig first. left_out: [(name, why)].
    """

    def __init__(self, study, amounts, spread, cars, seed, progress=None):
        self.study = study
        self.amounts = amounts
        self.spread = spread
        self.cars = cars
        self.seed = seed
        draws = Draws(len(amounts), spread, cars, seed)
        built = Built(study, amounts, draws, progress or (lambda count: None))
        self.results, self.left_out = built.results, built.left_out
        self.values, self.slopes = built.values, built.slopes
        figures = Figures(self.values)
        self.missing, self.without = figures.missing, figures.without
        self.mean, self.deviation = figures.mean, figures.deviation
        self.percentiles = figures.percentiles
        self.shares = figures.shares(self.slopes, draws.variance)
        self.varies = ~figures.steady & np.isfinite(self.deviation)
        self._count(Bands(self.results), draws)

    def _count(self, bands, draws):
        """How many cars are within the bands, as they are and without each part's deviations."""
        self.banded = bands.numbers
        passing = 0
        for part in draws.slices():
            passing += bands.count_within_all(self.values[self.banded, part])
        self.passing = passing / self.cars if self.banded else np.nan
        self.inside = np.full(len(self.results), np.nan)
        for i, result in enumerate(self.results):
            if result.is_banded:
                values = self.values[i]
                self.inside[i] = ((values >= result.low) & (values <= result.high)).mean()
        self.failing = [result for result in self.results if result.fails]
        parts = Parts(self.amounts)
        if self.banded:
            parts.judge_by_bands(bands, self.values, self.slopes, draws)
        else:
            parts.judge_by_shares(self.shares)
        self.parts, self.part_passing, self.part_weight = parts.names, parts.passing, parts.weight
        self.ranking = parts.ranking(self.passing)
