"""The lowest point of a tyre with a crowned tread, by a search over its surface.

The tread's section is an arc about a point in the wheel's plane; the wheel's turn about its own
axis makes a surface of it. Every point of the surface has two angles: how far round the wheel,
and how far round the section. The least height over both is found by scipy.optimize.minimize,
from a start that is off it. Rotations are scipy.spatial.transform's; the wheel's attitude is that
of `measures_by_scipy_rotation`. Lengths in any one unit, angles in degrees.
"""

import numpy as np
from scipy.optimize import minimize
from scipy.spatial.transform import Rotation


class Crowned:
    """A wheel: centre (3,), unit spindle (3,) outboard, radius at the tread's middle, crown."""

    def __init__(self, centre, spindle, radius, crown):
        self.centre = np.asarray(centre, dtype=float)
        self.spindle = np.asarray(spindle, dtype=float)
        self.radius, self.crown = radius, crown
        way = np.cross(self.spindle, [0.0, 0.0, 1.0])
        self.ahead = way / np.linalg.norm(way)

    def point(self, angles):
        """A point of the tread: turned round the wheel from ahead, and round the section."""
        out = Rotation.from_rotvec(self.spindle * angles[0]).apply(self.ahead)
        section = out * np.cos(angles[1]) + self.spindle * np.sin(angles[1])
        return self.centre + out * (self.radius - self.crown) + section * self.crown

    def lowest(self):
        """The contact centre on level ground, (3,)."""
        starts = [np.array([turn, side]) for turn in (1.2, -1.2) for side in (0.3, -0.3)]
        found = [
            minimize(lambda a: self.point(a)[2], start, method="BFGS", options={"gtol": 1e-9})
            for start in starts
        ]
        return self.point(min(found, key=lambda one: one.fun).x)


def trail_and_scrub(contact, lower, upper, spindle):
    """Both by vectors: where the axis passes the contact's height, along and across the heading."""
    lower, upper = np.asarray(lower, dtype=float), np.asarray(upper, dtype=float)
    share = (contact[2] - lower[2]) / (upper[2] - lower[2])
    ground = lower + share * (upper - lower)
    across = np.array([spindle[0], spindle[1], 0.0])
    across /= np.linalg.norm(across)
    heading = np.cross(across, [0.0, 0.0, 1.0])
    return float((ground - contact) @ heading), float((contact - ground) @ across)
