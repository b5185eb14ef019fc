"""Which cars lie within the bands that are wanted."""

import numpy as np


class Bands:
    """The bands of those results that have one, and are within it as drawn.

    numbers: which results of all they are. A result that fails as drawn is left out: hardly a
    car would pass, whatever the jig, and nothing could be said of the rest.
    """

    def __init__(self, results):
        self.numbers = [
            i for i, result in enumerate(results) if result.is_banded and not result.fails
        ]
        self.low = np.array([results[i].low for i in self.numbers])
        self.high = np.array([results[i].high for i in self.numbers])
        self.half = 0.5 * (self.high - self.low)

    def hold(self, values):
        """Whether values, (bands, cars), lie within; a NaN does not."""
        return (values >= self.low[:, None]) & (values <= self.high[:, None])

    def count_within_all(self, values):
        """How many cars are within every band. values: (bands, cars)."""
        return int(self.hold(values).all(axis=0).sum())
