"""Random deviations, the same for the same seed, for some cars at a time."""

import numpy as np

CHUNK = 12288
"""Cars worked on at once: so many that what is done once for all of them costs little beside."""

SIGMAS = 3.0
"""Standard deviations in a tolerance, by the normal law."""


class Draws:
    """How far off every amount is in every car, in its tolerances; the same each time.

    amounts: how many there are, each drawn from a stream of its own. spread: "normal" or
    "uniform". variance: of a deviation.
    """

    def __init__(self, amounts, spread, cars, seed):
        self.amounts = amounts
        self.spread = spread
        self.cars = cars
        self.seed = seed
        self.variance = 1.0 / SIGMAS**2 if spread == "normal" else 1.0 / 3.0

    def slices(self):
        """The cars, some at a time, as slices."""
        return [slice(at, min(at + CHUNK, self.cars)) for at in range(0, self.cars, CHUNK)]

    def chunks(self):
        """(slice, deviations) of some cars at a time; deviations: array (amounts, cars)."""
        seeds = np.random.SeedSequence(self.seed).spawn(self.amounts)
        streams = [np.random.default_rng(seed) for seed in seeds]
        for part in self.slices():
            count = part.stop - part.start
            if self.spread == "normal":
                drawn = np.array([stream.standard_normal(count) for stream in streams]) / SIGMAS
            else:
                drawn = np.array([stream.uniform(-1.0, 1.0, count) for stream in streams])
            yield part, drawn
