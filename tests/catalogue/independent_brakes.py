"""Outside values of the formulas for brakes.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np
from scipy.optimize import brentq

from tests.authorities.brakes_by_statics import loads, locks, way_to_rest
from tests.catalogue.independent import authority


@authority
def brake_lock(*raw):
    return locks(*raw)


@authority
def ideal_brake_share(deceleration, cg_height, front_share, wheelbase):
    """The share at which both axles lock at once, at the friction that gives the deceleration."""

    def apart(share):
        both = (
            locks(axle, share, deceleration, cg_height, front_share, wheelbase)
            for axle in ("front", "rear")
        )
        return np.subtract(*both)

    return brentq(apart, 0.4, 0.9, xtol=1e-14)


@authority
def brake_load_transfer(deceleration, weight, cg_height, wheelbase):
    at_rest, braked = (loads(d, cg_height, 0.5, wheelbase) for d in (0.0, deceleration))
    return float(weight * (braked[0] - at_rest[0]))


@authority
def stopping_distance(speed, deceleration, gravity, delay=0.0):
    return way_to_rest(speed, deceleration, gravity, delay)


@authority
def line_pressure(pedal_force, pedal_ratio, master_diameter, bar_share=1.0):
    return float(pedal_force * pedal_ratio * bar_share / (np.pi * (master_diameter / 2) ** 2))


@authority
def brake_force(pedal, lever, master, slave, pistons, factor, radius, wheel, bar=1.0):
    """Step by step: pressure, clamping force, torque of the brake, force at the tread."""
    pressure = line_pressure(pedal, lever, master, bar)
    pressed = pressure * pistons * np.pi * (slave / 2) ** 2
    return float(pressed * factor * radius / wheel)


@authority
def pedal_force(force, *rest):
    return brentq(lambda foot: brake_force(foot, *rest) - force, 1e-3, 1e5, xtol=1e-10)
