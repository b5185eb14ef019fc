"""Random corners turned as the adjusters say, each closed by SciPy; run it by hand:

    .venv-test/bin/python -m tests.fuzz.adjusters --cases 1000 --seed 1

Each corner has some of the adjusters that a builder may have, with steps and limits of its own,
and bands of its own. Some bands are about what steps within the limits do (they can be reached),
some are anywhere. The steps that ADJUSTER_STEPS tells are turned on the corner that
scipy.optimize closes. A fault is: a step beyond its limits, a reading other than
ADJUSTED_CHANGE promised, a band missed that can be reached, or more steps than another choice
that reaches it. Prints how many cases there were of each kind, and every fault.
"""

import argparse
import collections
import sys

import numpy as np
from cornerbook.catalogue import call

from tests.authorities.adjusted_by_scipy import Adjusted
from tests.support.corners import random_corners

MEASURES = ("camber", "caster", "toe")
# What moves, (dx, dy, dz) for a step, and the most steps to either side.
KNOWN = (
    ("upper arm", (0.0, 0.75, 0.0), 8),
    ("upper arm", (-1.0, 0.0, 0.0), 6),
    ("lower arm", (0.0, 0.75, 0.0), 6),
    ("tie rod", (0.4, 0.0, 0.0), 12),
    ("upper front pickup", (0.0, 0.0, 1.0), 4),
    ("upper rear pickup", (0.0, 0.0, 1.0), 4),
    ("lower front pickup", (1.0, 0.0, 0.5), 3),
    ("tie rod inner", (0.0, 0.0, 1.0), 5),
    ("tie rod outer", (0.0, 0.0, 1.0), 5),
)
CLOSE = 1e-6
"""Degrees between what was promised and what SciPy's corner reads."""


def _column(values):
    return tuple((value,) for value in values)


class Case:
    """One corner, its adjusters and its bands, by a seed."""

    def __init__(self, seed, corners, i):
        draw = np.random.default_rng([1761, seed, i])
        self.rows, self.corner = corners.rows(i), corners.one(i)
        count = int(draw.integers(2, 6))
        chosen = draw.choice(len(KNOWN), count, replace=False)
        self.adjusters = [KNOWN[j] for j in sorted(chosen)]
        self.most = [one[2] for one in self.adjusters]
        self.before = Adjusted(self.corner).measured(0.0, 0.0)
        self.secret = [int(draw.integers(-most, most + 1)) for most in self.most]
        self.is_reachable = draw.uniform() < 0.7
        middle = self.by_scipy(self.secret) if self.is_reachable else draw.uniform(-1.5, 1.5, 3)
        half = draw.uniform(0.05, 0.3, 3)
        # A half of the room lies aside, so that the secret is anywhere in the band.
        aside = half * draw.uniform(-0.9, 0.9, 3)
        self.bands = [
            (float(m - h + a), float(m + h + a))
            for m, h, a in zip(middle, half, aside, strict=True)
        ]

    def cells(self):
        """Names and ways as a formula takes them."""
        ways = (_column([float(one[1][k]) for one in self.adjusters]) for k in range(3))
        return (_column([one[0] for one in self.adjusters]), *ways)

    def told(self):
        """What ADJUSTER_STEPS says."""
        lows, highs = (_column([band[k] for band in self.bands]) for k in (0, 1))
        return call(
            "ADJUSTER_STEPS", self.rows, _column(MEASURES), lows, highs, *self.cells(),
            _column([-float(most) for most in self.most]), _column(map(float, self.most)),
        )  # fmt: skip

    def promised(self, steps):
        """What ADJUSTED_CHANGE says of each measure."""
        steps = _column(map(float, steps))
        return [call("ADJUSTED_CHANGE", self.rows, name, *self.cells(), steps) for name in MEASURES]

    def by_scipy(self, steps):
        """The changes on the corner that SciPy closes."""
        ways = {}
        for n, (name, way, _) in zip(steps, self.adjusters, strict=True):
            if n:
                ways[name] = ways.get(name, 0.0) + n * np.array(way)
        # Pickups change no length: the arms are as long as they are from the drawn ones.
        order = sorted(ways.items(), key=lambda change: "arm" not in change[0])
        after = Adjusted(self.corner, *order).measured(0.0, 0.0)
        return np.array([float(getattr(after, m) - getattr(self.before, m)) for m in MEASURES])

    def missed(self, changes):
        """The sum of squares of what is missed, each over its band's width."""
        return sum(
            (max(low - value, value - high, 0.0) / (high - low)) ** 2
            for value, (low, high) in zip(changes, self.bands, strict=True)
        )

    def kind(self):
        """What became of the case, in words that begin with "fault" where it is one."""
        told = self.told()
        if isinstance(told, str):
            return f"fault: {told}"
        steps = [int(row[0]) for row in told]
        if any(abs(n) > most for n, most in zip(steps, self.most, strict=True)):
            return f"fault: {steps} beyond {self.most}"
        promised, reads = self.promised(steps), self.by_scipy(steps)
        if any(isinstance(value, str) for value in promised):
            return f"fault: {promised}"
        if np.abs(np.array(promised) - reads).max() > CLOSE:
            return f"fault: promised {promised}, reads {reads.tolist()}"
        if self.missed(reads) <= 1e-9:
            more = sum(map(abs, steps)) - sum(map(abs, self.secret))
            if self.is_reachable and more > 0:
                return f"fault: {more} steps more than {self.secret}, {steps}"
            return "reached"
        if self.is_reachable:
            return f"fault: reachable by {self.secret}, {steps} misses {self.missed(reads):.2g}"
        return self._nearest(steps)

    def _nearest(self, steps):
        """Whether one or two adjusters turned by a step or two come nearer."""
        here = self.missed(self.promised(steps))
        for j in range(len(steps)):
            for n in (-2, -1, 1, 2):
                other = list(steps)
                other[j] += n
                if abs(other[j]) > self.most[j]:
                    continue
                there = self.promised(other)
                if not any(isinstance(v, str) for v in there) and self.missed(there) < here - 1e-9:
                    return f"fault: {other} comes nearer than {steps}"
        return "not reachable, the nearest told"


def run(cases, seed, each=lambda i, said: None):
    """A Counter of what became of the cases."""
    corners = random_corners(1762 + seed, cases)
    found = collections.Counter()
    for i in range(cases):
        said = Case(seed, corners, i).kind()
        found["fault" if said.startswith("fault") else said] += 1
        each(i, said)
    return found


def main():
    """Run as the command line says; 1 where a fault was found."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.adjusters")
    parser.add_argument("--cases", type=int, default=1000, help="how many corners (1000)")
    parser.add_argument("--seed", type=int, default=1, help="another set of them (1)")
    options = parser.parse_args()

    def each(i, said):
        if said.startswith("fault"):
            print(f"corner {i}: {said}", flush=True)

    found = run(options.cases, options.seed, each)
    for what, number in found.most_common():
        print(f"{number:6d}  {what}")
    return 1 if found["fault"] else 0


if __name__ == "__main__":
    sys.exit(main())
