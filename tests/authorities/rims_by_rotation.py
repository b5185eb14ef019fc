"""Places on a wheel's rim, and a wheel swung for its camber, by scipy.spatial.transform.

Axes of ISO 8855, a left-hand wheel: turned about z (minus the toe), then leaned about its own x
(minus the camber). What a swing says is looked for by scipy.optimize.root with `Turned`.
"""

import numpy as np
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from tests.authorities.turn_by_scipy_rotation import Turned


class Rim:
    """The rim of a wheel with this toe and camber, its centre at the origin."""

    def __init__(self, toe, camber, diameter):
        self.turned = Rotation.from_euler("ZX", [-toe, -camber], degrees=True)
        self.radius = 0.5 * diameter

    def at_hub_height(self):
        """(front, rear) edges of the rim, (2, 3)."""
        return self.turned.apply([[self.radius, 0.0, 0.0], [-self.radius, 0.0, 0.0]])

    def top_and_bottom(self):
        """(top, bottom) edges of the rim, (2, 3)."""
        return self.turned.apply([[0.0, 0.0, self.radius], [0.0, 0.0, -self.radius]])

    def level_outboard(self):
        """Level unit vector across the wheel's heading, (3,)."""
        outboard = self.turned.apply([0.0, 1.0, 0.0]) * [1.0, 1.0, 0.0]
        return outboard / np.linalg.norm(outboard)


def swung(caster, inclination, straight, turned_in, turned_out):
    """Camber (in, out) of a left-hand wheel, which is turned inward by steer to the right."""
    steers = (-turned_in, turned_out)
    return tuple(Turned(steer, caster, inclination, straight).camber for steer in steers)


def caster_of_swing(camber_in, camber_out, turned_in, turned_out, inclination):
    """Caster with which some wheel reads so, and its camber straight ahead is as it must be."""

    def miss(unknown):
        caster, straight = unknown
        found = swung(caster, inclination, straight, turned_in, turned_out)
        return np.subtract(found, (camber_in, camber_out))

    return _solved(miss, [4.0, 0.5 * (camber_in + camber_out)])[0]


def inclination_of_swing(camber_in, camber_straight, camber_out, turned_in, turned_out):
    """Inclination, with whatever caster, with which a wheel reads so."""

    def miss(unknown):
        found = swung(*unknown, camber_straight, turned_in, turned_out)
        return np.subtract(found, (camber_in, camber_out))

    return _solved(miss, [4.0, 8.0])[1]


def _solved(miss, start):
    found = root(miss, start, tol=1e-14)
    assert np.abs(miss(found.x)).max() < 1e-10
    return found.x
