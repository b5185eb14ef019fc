"""Outside values of the formulas for understeer; `independent.py` says how they are used."""

import numpy as np
from scipy.spatial.transform import Rotation

from tests.authorities import turn_by_balance
from tests.catalogue.independent import authority


@authority
def axle_slip(*given):
    return turn_by_balance.axle_slip(*given)


def _travels(track, roll):
    """How far the (left, right) wheel rises against a body whose left side rises by a roll."""
    body = Rotation.from_euler("x", roll, degrees=True)
    return [-body.apply([0.0, side * track / 2.0, 0.0])[2] for side in (1.0, -1.0)]


@authority
def front_roll_steer(bump_steer, track):
    small = 1e-3
    left, right = (bump_steer * travel for travel in _travels(track, small))
    # Toe-in turns the left wheel to the right and the right one to the left.
    return float(np.mean([-left, right]) / small)


@authority
def roll_camber(camber_gain, track):
    small = 1e-3
    left, right = (camber_gain * travel for travel in _travels(track, small))
    # The body rolls to the right: the left wheel's top with it toward the car, the right's away.
    return float(np.mean([-(-small + left), small + right]) / small)
