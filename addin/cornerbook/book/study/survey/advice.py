"""Which points measurements do not fix, and a distance that would."""

from itertools import combinations

import numpy as np

from .measured import ALONG, DISTANCE, Measurement

# A distance that meets a free direction at a flatter angle than this fixes it poorly.
_STEEP = 0.05


def advised(adjusted, count):
    """Measurements that would fix what nothing fixes, the best first.

    adjusted: an `Adjusted`. count: how many points there are.
    """
    free = adjusted.unfixed.reshape(len(adjusted.unfixed), -1)
    found = []
    while len(free):
        best, slope = _best(adjusted.places, free, np.flatnonzero(adjusted.loose), count)
        if best is None:
            break
        found.append(best)
        # What is still free is square to what this one measures.
        own = free @ slope
        turned = np.linalg.svd(own[None, :])[2][1:]
        free = turned @ free
    return found


def _best(places, free, loose, count):
    best, most, its_slope = None, _STEEP, None
    pairs = [pair for pair in combinations(range(count), 2) if set(pair) & set(loose)]
    tried = [Measurement(DISTANCE, pair, 0.0, 1.0) for pair in pairs]
    tried += [Measurement(kind, (point,), 0.0, 1.0) for kind in ALONG[::-1] for point in loose]
    for one in tried:
        slope = one.slope(places)
        # A distance is measured sooner than a plumbed coordinate: that must be much better.
        size = np.linalg.norm(free @ slope) * (1.0 if one.kind == DISTANCE else 0.5)
        if size > most + 1e-9:
            best, most, its_slope = one, size, slope
    return best, its_slope
