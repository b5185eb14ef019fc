"""What a pose costs: floats, arrays, and SciPy's root in the same run.

    python tests/benchmarks/bench_pose.py [--jax]

Each figure is the best of a few repeats, on one core. A pose is solved at random places of
+-80 mm of travel and a rack that turns the wheel up to some 40 degrees, and its camber taken.
With --jax only arrays are timed: NumPy's, and JAX's (`pip install jax`) in a compiled function.
"""

import os
import sys
import time
import tracemalloc
from pathlib import Path

for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")
ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "addin")]

import numpy as np  # noqa: E402
from cornerbook.geometry.corner import motion  # noqa: E402
from scipy.optimize import root  # noqa: E402

from tests.authorities.closure_by_scipy import LINKS, Closure  # noqa: E402
from tests.support.corners import random_corners  # noqa: E402
from tests.support.sampling import random_poses  # noqa: E402

# An array of 8,192 numbers is 64 KiB: a chunk's dozens of them stay near the processor. From
# 128 KiB on, the C library may fetch every one anew from the system, which costs a fifth.
CHUNK = 8192
MILLION = 1_000_000


def best(task, repeats=5):
    """The shortest of a few times, in seconds, after a warm-up."""
    task()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        task()
        times.append(time.perf_counter() - start)
    return min(times)


def places(count):
    """One plausible corner, and travels and racks of shape (count,)."""
    corners = random_corners(1, 1)
    travel, rack = random_poses(2, corners, count)
    return corners, travel[0], rack[0]


def camber_in_chunks(linkage, travel, rack, chunk=CHUNK):
    """Camber of every pose, shape (n,)."""
    camber = np.empty_like(travel)
    for start in range(0, len(travel), chunk):
        part = slice(start, start + chunk)
        camber[part] = linkage.pose(travel[part], rack[part]).camber()
    return camber


class NineCoordinates:
    """The corner for SciPy's root as one would first write it, for comparison.

    Unknowns are the coordinates of the two ball joints and the tie rod's outer end, the
    equations their eight lengths and the wheel centre's height.
    """

    def __init__(self, corner):
        names = ("lower ball joint", "upper ball joint", "tie rod outer")
        self.drawn = np.array([corner[name] for name in names])
        self.inner = np.array([corner[inner] for _, inner in LINKS])
        self.lengths = self._lengths(self.drawn, 0.0)
        self.height = corner["wheel centre"][2]
        self.wheel = self._frame(self.drawn) @ (corner["wheel centre"] - self.drawn[0])

    def _lengths(self, points, rack):
        lower, upper, outer = points
        ways = [lower - self.inner[0], lower - self.inner[1], upper - self.inner[2],
                upper - self.inner[3], outer - self.inner[4] - [0.0, rack, 0.0],
                lower - upper, upper - outer, outer - lower]  # fmt: skip
        return np.array([np.linalg.norm(way) for way in ways])

    def _frame(self, points):
        lower, upper, outer = points
        along = (upper - lower) / np.linalg.norm(upper - lower)
        square = np.cross(along, outer - lower)
        square /= np.linalg.norm(square)
        return np.array([along, np.cross(square, along), square])

    def misses(self, unknown, travel, rack):
        points = unknown.reshape(3, 3)
        centre = points[0] + self.wheel @ self._frame(points)
        height = centre[2] - self.height - travel
        return np.append(self._lengths(points, rack) - self.lengths, height)

    def solve(self, travel, rack):
        guess = self.drawn + np.array([0.0, 0.0, travel])
        return root(self.misses, guess.ravel(), args=(travel, rack), tol=1e-12)


def report_jax():
    """NumPy's arrays against JAX's, on one core: JAX would take all that there are."""
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    os.environ["XLA_FLAGS"] = "--xla_cpu_multi_thread_eigen=false"
    import jax
    from cornerbook import Corner

    jax.config.update("jax_enable_x64", True)
    corners, travel, rack = places(MILLION)
    linkage = corners.linkage(0)
    numpy = best(lambda: camber_in_chunks(linkage, travel, rack))
    report("NumPy: a million poses, pose and camber", MILLION / numpy, "poses/s")
    want = camber_in_chunks(linkage, travel, rack)

    corner = Corner(corners.rows(0))
    camber = jax.jit(lambda travel, rack: corner.at("camber", travel, rack))
    for chunk in (16384, MILLION):
        count = MILLION - MILLION % chunk
        poses = [
            [jax.numpy.asarray(each[start : start + chunk]) for each in (travel, rack)]
            for start in range(0, count, chunk)
        ]
        start = time.perf_counter()
        compiled = camber.lower(*poses[0]).compile()
        took = time.perf_counter() - start
        every = lambda: [compiled(*each).block_until_ready() for each in poses]  # noqa: E731, B023
        rate = count / best(every)
        report(f"JAX: compiled, in chunks of {chunk}", rate, "poses/s")
        report("  against NumPy", rate * numpy / MILLION, "times")
        report("  to compile", took, "s")
        found = np.concatenate([np.asarray(each) for each in every()])
        report("  largest difference", 1e15 * np.nanmax(np.abs(found - want[:count])), "1e-15 deg")
        report("  NaN only there", np.sum(np.isnan(found) & ~np.isnan(want[:count])), "poses")


def report(what, figure, unit):
    print(f"{what:<58}{figure:>14,.1f} {unit}")


def main():
    corners, travel, rack = places(MILLION)
    linkage = corners.linkage(0)
    some = list(zip(travel[:2000].tolist(), rack[:2000].tolist(), strict=True))

    floats = best(lambda: [linkage.pose(t, r).camber() for t, r in some]) / len(some)
    report("floats: pose and camber", 1e6 * floats, "us")
    poses = [linkage.pose(t, r) for t, r in some]
    rate = best(lambda: [motion.by_travel(linkage, p).camber_rate(p.spindle) for p in poses])
    report("floats: camber gain of a solved pose", 1e6 * rate / len(some), "us")

    one = best(lambda: camber_in_chunks(linkage, travel, rack), repeats=3) / MILLION
    report("arrays: one corner, a million poses, pose and camber", 1 / one, "poses/s")
    for chunk in (2048, 4096, 12288, 16384, 65536):
        other = best(lambda c=chunk: camber_in_chunks(linkage, travel, rack, c), repeats=2)
        report(f"  the same in chunks of {chunk}", MILLION / other, "poses/s")

    many = random_corners(3, 4096)
    linkages = many.linkages()
    travels, racks = random_poses(4, many, 4)
    task = best(lambda: linkages.pose(travels, racks).camber()) / travels.size
    report("arrays: 4,096 corners, 4 poses each, pose and camber", 1 / task, "poses/s")
    made = best(lambda: many.linkages().pose(travels[:, :1], racks[:, :1]).camber())
    report("arrays: 4,096 corners made anew, one pose each", many.count / made, "poses/s")

    few = some[:300]
    plain = NineCoordinates(corners.one(0))
    nine = best(lambda: [plain.solve(t, r) for t, r in few], repeats=3) / len(few)
    report("scipy.optimize.root, nine coordinates", 1 / nine, "poses/s")
    report("  arrays against it", nine / one, "times")

    closure = Closure(corners.one(0))
    drawn = np.concatenate([closure.centre, np.zeros(3)])
    lift = np.array([0.0, 0.0, 1.0, 0.0, 0.0, 0.0])
    six = best(lambda: [closure.step(drawn + t * lift, t, r) for t, r in few], repeats=3)
    report("scipy.optimize.root, six unknowns, tuned by hand", len(few) / six, "poses/s")
    report("  arrays against it", six / len(few) / one, "times")
    report("  floats against it", six / len(few) / floats, "times")

    tracemalloc.start()
    camber_in_chunks(linkage, travel, rack)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    report("peak memory of a million poses, in chunks", peak / 2**20, "MiB")
    tracemalloc.start()
    linkage.pose(travel, rack).camber()
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    report("peak memory of a million poses at once", peak / 2**20, "MiB")


if __name__ == "__main__":
    with np.errstate(all="ignore"):
        report_jax() if sys.argv[1:] == ["--jax"] else main()
