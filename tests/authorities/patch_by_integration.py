"""Friction of a contact patch that turns on the spot, summed over the patch by SciPy.

Each part of the patch slides with its own velocity; friction x pressure points against it, and
its moment about the axis is taken as the cross product of the way there and the force. A wheel
free to roll takes the rolling speed at which the forces along its heading add up to nothing.
"""

from itertools import pairwise

import numpy as np
from scipy.integrate import dblquad
from scipy.optimize import brentq


def forces(length, width, trail, scrub, rolling):
    """(force ahead, force outboard, moment about the axis) for a pressure and friction of one.

    The axis stands at the origin, the patch's middle `trail` behind and `scrub` outboard of it;
    the wheel turns toward toe-out by one radian a second and rolls ahead by `rolling`.
    """

    def integrated(part):
        # Split where the patch stands still, across which the force's direction jumps.
        total = 0.0
        still = np.clip(rolling, scrub - 0.5 * width, scrub + 0.5 * width)
        sides = [scrub - 0.5 * width, still, scrub + 0.5 * width]
        along = np.clip(0.0, -trail - 0.5 * length, -trail + 0.5 * length)
        ends = [-trail - 0.5 * length, along, -trail + 0.5 * length]
        for low, high in pairwise(sides):
            for rear, front in pairwise(ends):
                if high > low and front > rear:
                    total += dblquad(part, low, high, rear, front, epsabs=1e-7, epsrel=1e-12)[0]
        return total

    def force(x, y):
        ahead, aside = -y + rolling, x
        speed = np.hypot(ahead, aside)
        return (-ahead / speed, -aside / speed) if speed else (0.0, 0.0)

    return (
        integrated(lambda x, y: force(x, y)[0]),
        integrated(lambda x, y: force(x, y)[1]),
        integrated(lambda x, y: x * force(x, y)[1] - y * force(x, y)[0]),
    )


def moment(load, friction, length, width, trail, scrub, free=False):
    """Moment against the turn; free: whether the wheel may roll."""
    rolling = 0.0
    if free:
        rolling = brentq(
            lambda speed: forces(length, width, trail, scrub, speed)[0],
            scrub - 0.49 * width, scrub + 0.49 * width, xtol=1e-9,
        )  # fmt: skip
    return -friction * load / (length * width) * forces(length, width, trail, scrub, rolling)[2]
