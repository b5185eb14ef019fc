"""What a table of both wheels in roll and steer costs; run it as a script, nothing is a test.

    .venv-test/bin/python -m tests.benchmarks.bench_roll

Prints the time for 10,000 states of both wheels (camber and toe to the road, track) in arrays,
and for the same with SciPy's root, from some of them, in the same run.
"""

import time

import numpy as np
from cornerbook.catalogue.example import EXAMPLE
from cornerbook.front import Corner

from tests.authorities.road_by_scipy import OnRoad
from tests.support.corners import Corners

STATES = 10_000
BY_SCIPY = 40


def ours(corner, roll, rack):
    heave = np.zeros(STATES)
    with np.errstate(all="ignore"):
        left = corner.on_road(roll, heave, rack)
        right = corner.on_road(-roll, heave, -rack)
    track = left.contact_centre().y + right.contact_centre().y
    return left.camber(), left.toe(), right.camber(), right.toe(), track


def main():
    draw = np.random.default_rng(1)
    roll, rack = draw.uniform(-4, 4, STATES), draw.uniform(-35, 35, STATES)
    times = []
    for _ in range(5):
        corner = Corner(EXAMPLE)
        start = time.perf_counter()
        results = ours(corner, roll, rack)
        times.append(time.perf_counter() - start)
    assert np.isfinite(results).all()
    one = Corners.of_rows(EXAMPLE).one(0)
    start = time.perf_counter()
    for i in range(BY_SCIPY):
        for right in (False, True):
            OnRoad(one, float(roll[i]), 0.0, float(rack[i]), right=right).value("camber")
    each = (time.perf_counter() - start) / BY_SCIPY
    best = min(times)
    print("%d states of both wheels in arrays: %.4f s" % (STATES, best))
    print("by scipy.optimize.root: %.4f s for as many; %.0f times" % (
        each * STATES, each * STATES / best))  # fmt: skip


if __name__ == "__main__":
    main()
