"""Which cars lie within the bands that are wanted."""

import numpy as np


class Bands:
    """The bands of those results that have one. numbers: which results of all they are."""

    def __init__(self, results):
        self.numbers = [i for i, result in enumerate(results) if result.is_banded]
        self.low = np.array([results[i].low for i in self.numbers])
        self.high = np.array([results[i].high for i in self.numbers])
        self.half = 0.5 * (self.high - self.low)

    def hold(self, values):
        """Whether values, (bands, cars), lie within; a NaN does not."""
        return (values >= self.low[:, None]) & (values <= self.high[:, None])

    def count_within_all(self, values):
        """How many cars are within every band. values: (bands, cars)."""
        return int(self.hold(values).all(axis=0).sum())
