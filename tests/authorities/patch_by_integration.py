"""Friction of a contact patch that turns on the spot, summed over the patch by SciPy.

Each part of the patch slides with its own velocity; friction x pressure points against it, and
its moment about the axis is taken as the cross product of the way there and the force. A wheel
free to roll takes the rolling speed at which the forces along its heading add up to nothing.
"""

import math
from itertools import pairwise

import numpy as np
from scipy.integrate import dblquad
from scipy.optimize import brentq


def ahead(x, y, rolling):
    """The force ahead on a part of the patch, for a pressure and friction of one.

    The axis stands at the origin; the wheel turns toward toe-out by one radian a second and
    rolls ahead by `rolling`.
    """
    return _against(y - rolling, x, y, rolling)


def turning(x, y, rolling):
    """The moment about the axis of that part."""
    return x * _against(-x, x, y, rolling) - y * ahead(x, y, rolling)


def _against(way, x, y, rolling):
    speed = math.hypot(rolling - y, x)
    return way / speed if speed else 0.0


def integrated(part, length, width, trail, scrub, rolling):
    """A part's force or moment over the patch, whose middle is `trail` behind, `scrub` outboard."""
    # Split where the patch stands still, across which the force's direction jumps.
    total = 0.0
    still = np.clip(rolling, scrub - 0.5 * width, scrub + 0.5 * width)
    sides = [scrub - 0.5 * width, still, scrub + 0.5 * width]
    along = np.clip(0.0, -trail - 0.5 * length, -trail + 0.5 * length)
    ends = [-trail - 0.5 * length, along, -trail + 0.5 * length]
    for low, high in pairwise(sides):
        for rear, front in pairwise(ends):
            if high > low and front > rear:
                total += dblquad(
                    part, low, high, rear, front, args=(rolling,), epsabs=1e-7, epsrel=1e-12
                )[0]
    return total


def moment(load, friction, length, width, trail, scrub, free=False):
    """Moment against the turn; free: whether the wheel may roll."""
    rolling = 0.0
    if free:
        rolling = brentq(
            lambda speed: integrated(ahead, length, width, trail, scrub, speed),
            scrub - 0.49 * width, scrub + 0.49 * width, xtol=1e-9,
        )  # fmt: skip
    turned = integrated(turning, length, width, trail, scrub, rolling)
    return -friction * load / (length * width) * turned
