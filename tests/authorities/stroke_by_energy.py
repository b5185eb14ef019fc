"""A wheel on a spring with stops, by energy: where it stands is where work and energy part least.

What spring and stops take up is a sum of squares of how far each is pushed; a load at the wheel
works load x travel. The wheel stands where the energy less that work is at its least, which scipy
finds without any force. Between rows scipy's own Hermite spline runs.
"""

import numpy as np
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq, minimize_scalar


def energy(length, rate, free_length, bump=0.0, bump_rate=0.0, droop=0.0, droop_rate=0.0):
    """What spring and stops hold at a length."""
    pushed = (
        (rate, free_length - length), (bump_rate, bump - length), (droop_rate, length - droop),
    )  # fmt: skip
    return sum(each * np.maximum(way, 0.0) ** 2 / 2 for each, way in pushed)


def spline(rows):
    """The spring's length over travel, of rows of travel, length and motion ratio."""
    travel, length, ratio = np.array(rows, dtype=float).T
    return CubicHermiteSpline(travel, length, -ratio)


def travel_at_length(rows, length):
    """Where the spline has a length."""
    return brentq(lambda t: spline(rows)(t) - length, rows[0][0], rows[-1][0], xtol=1e-12)


def travel_at_load(rows, load, *springs):
    """Where energy less work is at its least: near by that, and then where their slope is 0."""
    length = spline(rows)
    low, high = rows[0][0], rows[-1][0]
    near = minimize_scalar(
        lambda t: energy(length(t), *springs) - load * t, bounds=(low, high), method="bounded",
        options={"xatol": 1e-6},
    ).x  # fmt: skip
    small = 0.02

    def slope(t):
        # The first derivative by five points.
        at = [energy(length(np.clip(t + n * small, low, high)), *springs) for n in (-2, -1, 1, 2)]
        return (at[0] - 8 * at[1] + 8 * at[2] - at[3]) / (12 * small) - load

    return brentq(slope, max(low + small, near - 1.0), min(high - small, near + 1.0), xtol=1e-12)
