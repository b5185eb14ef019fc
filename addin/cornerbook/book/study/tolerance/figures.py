"""The figures of each result over the cars that have it."""

import numpy as np

PERCENTS = (1, 5, 50, 95, 99)

# Of drawn values: worked out for many cars they may differ by rounding from a single car's.
SAME = 1e-9


class Figures:
    """How each result spreads. values: array (results, cars), NaN for a car without it.

    Arrays by result: missing (a count of cars), mean, deviation, percentiles, and steady,
    whether it is the same for all cars but for rounding; NaN where fewer than two cars have
    it. without: how many cars lack some result.
    """

    def __init__(self, values):
        results, cars = values.shape
        self.missing, without = np.zeros(results, dtype=int), np.zeros(cars, dtype=bool)
        self.mean, self.deviation = np.full(results, np.nan), np.full(results, np.nan)
        self.percentiles = np.full((results, len(PERCENTS)), np.nan)
        # One by one: all of them together may be more than fits into memory.
        for i, own in enumerate(values):
            lacking = ~np.isfinite(own)
            self.missing[i] = lacking.sum()
            if self.missing[i]:
                without |= lacking
                own = own[~lacking]
            if len(own) > 1:
                self.mean[i], self.deviation[i] = own.mean(), own.std(ddof=1)
                self.percentiles[i] = np.percentile(own, PERCENTS)
        self.without = int(without.sum())
        self.steady = self.deviation <= SAME * np.maximum(1.0, np.abs(self.mean))

    def shares(self, slopes, variance):
        """The shares of each result's variance, of first order: (results, amounts).

        slopes: for a deviation of which variance is the variance.
        """
        with np.errstate(all="ignore"):
            shares = slopes**2 * variance / self.deviation[:, None] ** 2
        return np.where(np.isfinite(shares) & ~self.steady[:, None], shares, 0.0)
