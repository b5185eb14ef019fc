"""What a better jig would be worth, for each coordinate or jig."""

import numpy as np

SHOWN = 3
"""How many parts are named as worth a better jig."""


class Parts:
    """What each part does: a coordinate on its own, or all that one jig holds.

    names: of the parts. weight: of each, its variance in each result over the square of the
    band's half width, added up over the results; without bands its shares of variance.
    passing: the share of cars within all bands, had the part no deviation; NaN without bands.
    """

    def __init__(self, amounts):
        members: dict = {}
        for number, amount in enumerate(amounts):
            members.setdefault(amount.part, []).append(number)
        self.names = list(members)
        self._members = list(members.values())
        self.passing = np.full(len(members), np.nan)
        self.weight = np.zeros(len(members))

    def judge_by_shares(self, shares):
        """Where no result has a band. shares: (results, amounts)."""
        self._weigh(shares.sum(axis=0))

    def judge_by_bands(self, bands, values, slopes, draws):
        """Take each part's deviations out of every car again, along the straight lines.

        values, slopes: of all results, (results, cars) and (results, amounts).
        """
        half, slopes = bands.half, slopes[bands.numbers]
        weights = np.where(half[:, None] > 0.0, slopes**2, 0.0) * draws.variance
        self._weigh((weights / np.where(half > 0.0, half, 1.0)[:, None] ** 2).sum(axis=0))
        passing = np.zeros(len(self._members), dtype=int)
        for cars, deviations in draws.chunks():
            here = values[bands.numbers, cars]
            for number, amounts in enumerate(self._members):
                moved = _weighted(slopes[:, amounts], deviations[amounts])
                passing[number] += bands.count_within_all(here - moved)
        self.passing = passing / draws.cars

    def _weigh(self, weights):
        self.weight = np.array([weights[amounts].sum() for amounts in self._members])

    def ranking(self, passing):
        """Their numbers, the one most worth a better jig first; those worth nothing left out.

        passing: the share of cars within all bands as they are.
        """
        gain = np.nan_to_num(self.passing - passing)
        order = sorted(range(len(self.names)), key=lambda i: (-gain[i], -self.weight[i], i))
        return [i for i in order if gain[i] > 0.0 or self.weight[i] > 0.0]


def _weighted(slopes, deviations):
    return np.einsum("ia,ak->ik", slopes, deviations)
