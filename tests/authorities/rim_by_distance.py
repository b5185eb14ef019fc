"""How near a bar comes to a wheel, by the least distance between points of both, in space.

The rim's inside and the cone of the spokes are points by two numbers each, the bar's middle
line by one. SciPy's bounded minimiser looks for the three numbers of the nearest pair, from the
nearest of a coarse grid of pairs. Nothing is reduced to a plane.
"""

import numpy as np
from scipy.optimize import minimize
from scipy.spatial import cKDTree

AROUND = np.linspace(0.0, 2.0 * np.pi, 91)
STARTS = 4


class Surface:
    """Points about a spindle. place: of a share from 0 to 1, how far (along, off) the spindle."""

    def __init__(self, centre, spindle, place):
        self.centre = centre
        self.spindle = spindle
        self.one, self.other = np.linalg.svd(spindle[None, :])[2][1:]
        self.place = place

    def at(self, share, angle):
        along, off = self.place(share)
        out = np.cos(angle) * self.one + np.sin(angle) * self.other
        return self.centre + along * self.spindle + off * out

    def distance(self, outer, inner):
        """The least distance from the line between two points."""
        shares = [(s, a) for s in np.linspace(0.0, 1.0, 31) for a in AROUND]
        tree = cKDTree([self.at(*each) for each in shares])
        along = np.linspace(0.0, 1.0, 201)
        near, which = tree.query(outer + along[:, None] * (inner - outer))
        best = np.inf
        for start in np.argsort(near)[:: max(1, len(near) // 40)][:STARTS]:

            def square(x):
                way = outer + x[0] * (inner - outer) - self.at(x[1], x[2])
                return way @ way

            found = minimize(
                square, [along[start], *shares[which[start]]], method="L-BFGS-B",
                bounds=[(0.0, 1.0), (0.0, 1.0), (None, None)],
                options={"ftol": 1e-16, "gtol": 1e-12, "maxiter": 5000},
            )  # fmt: skip
            best = min(best, np.sqrt(found.fun))
        return best


def rim(centre, spindle, radius, width, outboard=300.0):
    """The rim's inside, from its inboard edge; outboard it goes on by this."""
    return Surface(
        centre, spindle, lambda share: (-0.5 * width + share * (outboard + 0.5 * width), radius)
    )


def spokes(centre, spindle, radius, flange_radius, flange_inboard):
    """The cone from the spindle through the flange to the rim's middle."""
    tip = -flange_inboard * radius / (radius - flange_radius)
    return Surface(centre, spindle, lambda share: (tip * (1.0 - share), radius * share))


def clearance(centre, spindle, outer, inner, wheel, member_radius=0.0):
    """To the rim or the spokes of a wheel: (radius, width, flange radius, flange inboard)."""
    radius, width, flange_radius, flange_inboard = wheel
    found = [rim(centre, spindle, radius, width).distance(outer, inner)]
    if flange_radius:
        cone = spokes(centre, spindle, radius, flange_radius, flange_inboard)
        found.append(cone.distance(outer, inner))
    return min(found) - member_radius
