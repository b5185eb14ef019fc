"""The corner closed by scipy.optimize.root on its constraint equations.

Unknowns: where the wheel centre is (3) and the rotation vector of the upright (3).
Equations: the four lengths from pickups to ball joints, the tie rod's length, and the
height of the wheel centre. Written from the definition of a double wishbone; lengths in mm.
"""

import math

import numpy as np
from scipy.optimize import root

LINKS = (
    ("lower ball joint", "lower front pickup"),
    ("lower ball joint", "lower rear pickup"),
    ("upper ball joint", "upper front pickup"),
    ("upper ball joint", "upper rear pickup"),
    ("tie rod outer", "tie rod inner"),
)


class NotClosed(ArithmeticError):
    """SciPy found no place where all the links have their lengths."""


class Closure:
    """One corner. corner: name to (3,) array in mm, as drawn."""

    # Stages on the way from the drawn pose: short ones keep to the assembly as drawn.
    STAGES = 4

    def __init__(self, corner):
        self.centre = np.asarray(corner["wheel centre"], dtype=float)
        self.ends = np.array([corner[outer] for outer, _ in LINKS])
        self.inner = np.array([corner[inner] for _, inner in LINKS])
        # Outer ends are three points, each fixed to the upright; seen from the wheel centre.
        self.arms = (self.ends - self.centre).T
        self.lengths = np.linalg.norm(self.ends - self.inner, axis=1)

    def asked(self, travel, rack):
        """What `misses` takes besides the unknowns, in floats: a number at a time, they are less
        work than arrays."""
        inner = self.inner.tolist()
        inner[4][1] += rack
        links = list(zip(self.arms.T.tolist(), inner, self.lengths.tolist(), strict=True))
        return links, float(self.centre[2]) + travel

    def solve(self, travel, rack, stages=STAGES):
        """Wheel centre (3,) in mm and rotation vector (3,) in radians, from the drawn pose."""
        unknown = np.concatenate([self.centre, np.zeros(3)])
        for stage in range(1, stages + 1):
            share = stage / stages
            unknown = self.step(unknown, share * travel, share * rack)
        worst = np.abs(misses(unknown, *self.asked(travel, rack))).max()
        if not worst < 1e-8:
            raise NotClosed(f"links miss their lengths by up to {worst:g} mm")
        return unknown[:3], unknown[3:]

    def step(self, unknown, travel, rack):
        """One call of SciPy's root, from a guess."""
        return root(misses, unknown, args=self.asked(travel, rack), tol=1e-13).x


def misses(unknown, links, height):
    """By how much each link misses its length, and the wheel centre its height, in mm."""
    x, y, z, *turn = unknown.tolist()
    (a, b, c), (d, e, f), (g, h, i) = _rows(*turn)
    found = []
    for (p, q, r), inner, length in links:
        end = (x + a * p + b * q + c * r, y + d * p + e * q + f * r, z + g * p + h * q + i * r)
        found.append(math.dist(end, inner) - length)
    found.append(z - height)
    return found


def rotation(vector):
    """Matrix (3, 3) of a rotation vector in radians; the textbook's Rodrigues formula."""
    return np.array(_rows(*vector))


def _rows(x, y, z):
    angle = math.sqrt(x * x + y * y + z * z)
    if angle < 1e-12:
        return (1.0, -z, y), (z, 1.0, -x), (-y, x, 1.0)
    one = math.sin(angle) / angle
    two = (1.0 - math.cos(angle)) / (angle * angle)
    return (
        (1.0 - two * (y * y + z * z), two * x * y - one * z, two * x * z + one * y),
        (two * x * y + one * z, 1.0 - two * (x * x + z * z), two * y * z - one * x),
        (two * x * z - one * y, two * y * z + one * x, 1.0 - two * (x * x + y * y)),
    )
