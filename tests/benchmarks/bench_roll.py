"""What both wheels in roll cost: arrays, floats, and SciPy's root in the same run.

    python tests/benchmarks/bench_roll.py

Each figure is the best of a few repeats, on one core. A state is a roll of +-5 degrees, a
heave of +-30 mm and a rack up to some 35 degrees of steer, for both wheels; camber to the
road, toe, track and both roll centres are taken of it.
"""

import os
import sys
from pathlib import Path

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")
ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "addin")]

import numpy as np  # noqa: E402
from cornerbook.geometry.front_axle import road  # noqa: E402

from tests.authorities import road_by_scipy  # noqa: E402
from tests.benchmarks.bench_pose import best, report  # noqa: E402
from tests.support.corners import random_corners  # noqa: E402
from tests.support.sampling import random_poses  # noqa: E402

STATES = 10_000


def poses(linkage, drawn, roll, heave, rack):
    """Camber and toe of both wheels and the track, the bare table."""
    left = road.OnRoad(linkage, drawn, roll, heave, rack)
    right = road.OnRoad(linkage, drawn, -roll, heave, -rack)
    track = road.BothWheels(left.pose, right.pose).track()
    measures = [getattr(wheel.pose, m)() for wheel in (left, right) for m in ("camber", "toe")]
    return left, right, [*measures, track]


def table(linkage, drawn, roll, heave, rack):
    """The same with both roll centres: their heights and lateral places."""
    left, right, columns = poses(linkage, drawn, roll, heave, rack)
    wheels = road.BothWheels(left.pose, right.pose)
    moved = left.motion(), right.motion()
    for slope in (road.slope_by_centre, road.slope_by_path):
        columns += wheels.crossing(slope(moved[0], left.pose), slope(moved[1], right.pose))
    return columns


def main():
    corners = random_corners(1, 1)
    linkage = corners.linkage(0)
    drawn = linkage.pose(0.0, 0.0)
    draw = np.random.default_rng(5)
    roll, heave = draw.uniform(-5, 5, STATES), draw.uniform(-30, 30, STATES)
    rack = 0.9 * random_poses(6, corners, STATES)[1][0]

    bare = best(lambda: poses(linkage, drawn, roll, heave, rack))
    report("arrays: 10,000 states of both wheels, camber, toe, track", 1e3 * bare, "ms")
    full = best(lambda: table(linkage, drawn, roll, heave, rack))
    report("  the same with both kinds of roll centre", 1e3 * full, "ms")
    reached = np.isfinite(table(linkage, drawn, roll, heave, rack)).all(0).mean()
    report("  states that the linkage reaches", 100 * reached, "%")

    few = [tuple(map(float, state)) for state in zip(roll, heave, rack, strict=True)][:200]
    floats = best(lambda: [table(linkage, drawn, *state) for state in few]) / len(few)
    report("floats: one state with both kinds of roll centre", 1e6 * floats, "us")

    one = corners.one(0)
    near = [state for state in few if np.isfinite(table(linkage, drawn, *state)).all()][:40]

    def solved():
        for state in near:
            for right in (False, True):
                road_by_scipy.OnRoad(one, *state, right=right)

    for stages in (road_by_scipy.OnRoad.STAGES, 1):
        road_by_scipy.OnRoad.STAGES = stages
        root = best(solved, repeats=2) / len(near)
        report(f"scipy.optimize.root, both wheels, stages: {stages}", 1e6 * root, "us")
        report("  arrays against it", root / (bare / STATES), "times")
        report("  floats against it, roll centres included", root / floats, "times")


if __name__ == "__main__":
    with np.errstate(all="ignore"):
        main()
