"""A braked car as a rigid body in balance, its loads solved for, its limit searched for.

The body is held up by two axles on a slope; forces and moments about the rear contact are put
into linear equations, and the braking at which an axle's friction is used up is found by SciPy's
root finder, from nothing upward.
"""

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

MOST = 20.0
"""More braking, in weights of the car, than any car does."""


def loads(braking, height, front_share, wheelbase, slope=0.0):
    """(front, rear) load over weight for a braking over weight; slope in degrees, up positive."""
    angle = np.radians(slope)
    # Upward forces, and moments about the rear contact; inertia acts forward at the height.
    decelerates = braking + np.sin(angle)
    balance = [[1.0, 1.0], [wheelbase, 0.0]]
    turning = (
        np.cos(angle) * front_share * wheelbase - np.sin(angle) * height + decelerates * height
    )
    return np.linalg.solve(balance, [np.cos(angle), turning])


def locks(axle, share, friction, height, front_share, wheelbase, slope=0.0, lateral=0.0):
    """Deceleration in g at which the axle's friction is used up; None where it is not."""
    place = ("front", "rear").index(axle)
    own, on = (share, front_share) if place == 0 else (1.0 - share, 1.0 - front_share)

    def spare(braking):
        load = loads(braking, height, front_share, wheelbase, slope)[place]
        return friction * load - np.hypot(own * braking, on * lateral)

    if spare(0.0) < 0.0 or spare(MOST) > 0.0:
        return None
    braking = brentq(spare, 0.0, MOST, xtol=1e-14)
    if loads(braking, height, front_share, wheelbase, slope)[1] < -1e-12:
        return None
    return float(braking + np.sin(np.radians(slope)))


def way_to_rest(speed, deceleration, gravity, delay):
    """By integration over time."""
    seconds = speed / (deceleration * gravity)

    def rates(_, state):
        return [state[1], -deceleration * gravity]

    found = solve_ivp(rates, (0.0, seconds), [speed * delay, speed], rtol=1e-12, atol=1e-9)
    return float(found.y[0, -1])
