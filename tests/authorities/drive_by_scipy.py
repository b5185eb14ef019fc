"""The drive by NumPy's interpolation, searches and integrations of SciPy's, written apart."""

from itertools import pairwise

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq

from tests.authorities.brakes_by_statics import loads


def torque(rows, speed):
    speeds, torques = zip(*rows, strict=True)
    return float(np.interp(speed, speeds, torques, right=0.0))


def turns(road_speed, gearing, radius):
    """A minute: the wheel's path in a minute over its rim, times the gearing."""
    return 60.0 * road_speed / (2.0 * np.pi * radius) * gearing


def variable_gear(road_speed, low, high, shifts, final, radius):
    """The gear between the two that brings the motor nearest to its speed of change."""
    gears = np.array([low, high])
    speeds = turns(road_speed, gears * final, radius)
    if speeds[0] <= shifts:
        return low
    if speeds[1] >= shifts:
        return high
    return brentq(lambda gear: turns(road_speed, gear * final, radius) - shifts, high, low,
                  xtol=1e-15, rtol=1e-15)  # fmt: skip


def most_force(driven, friction, height, front_share, wheelbase, slope=0.0, rolling=0.0):
    """Force over weight at which the driven wheels slide or the front ones lift."""

    def spare(force):
        # Drive is braking the other way round; what goes into rolling does not push the body.
        pushes = force - rolling * np.cos(np.radians(slope))
        front, rear = loads(-pushes, height, front_share, wheelbase, slope)
        held = {"front": front, "rear": rear, "both": front + rear}[driven]
        return min(friction * held - force, front)

    return float(brentq(spare, 0.0, 60.0, xtol=1e-14))


def steepest(pull, driven, friction, height, front_share, wheelbase, rolling=0.0):
    """Degrees of slope on which a force over weight just rolls the car, as far as it has grip."""

    def spare(slope):
        angle = np.radians(slope)
        front, rear = loads(-np.sin(angle), height, front_share, wheelbase, slope)
        held = friction * {"front": front, "rear": rear, "both": front + rear}[driven]
        needs = np.sin(angle) + rolling * np.cos(angle)
        return min(pull - needs, held - needs, front)

    return float(brentq(spare, -60.0, 89.9, xtol=1e-13))


def top_speed(rows):
    speeds, spare = map(np.array, zip(*rows, strict=True))
    last = np.flatnonzero(spare <= 0.0)[0]
    return float(brentq(lambda v: np.interp(v, speeds, spare), speeds[last - 1], speeds[last]))


def to_speed(rows, speed, mass):
    """(time, way) by adaptive integration between the rows."""
    speeds, spare = map(np.array, zip(*rows, strict=True))
    ends = [*speeds[speeds < speed], speed]
    found = np.zeros(2)
    for low, high in pairwise(ends):
        for i, power in enumerate((0, 1)):
            found[i] += quad(
                lambda v, p=power: mass * v**p / np.interp(v, speeds, spare), low, high,
                epsabs=0.0, epsrel=1e-13,
            )[0]  # fmt: skip
    return float(found[0]), float(found[1])
