"""A wheel turned about its steering axis alone, by scipy.spatial.transform.

The turn that brings the wheel to a steer angle is looked for by scipy.optimize.brentq;
nothing is solved in closed form. Axes of ISO 8855, a left-hand wheel, angles in degrees.
"""

import numpy as np
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation


def axis_of(caster, inclination):
    """Unit vector up the steering axis: its side and front views lean by these angles."""
    axis = np.array([-np.tan(np.radians(caster)), -np.tan(np.radians(inclination)), 1.0])
    return axis / np.linalg.norm(axis)


class Turned:
    """A wheel without toe, turned about its axis until its heading is at the steer angle."""

    def __init__(self, steer, caster, inclination, camber):
        self.axis = axis_of(caster, inclination)
        self.straight = Rotation.from_euler("X", -camber, degrees=True)

        def miss(turn):
            # The heading against the wanted one, from -180 to 180 degrees.
            return (self._euler(turn)[0] - steer + 180.0) % 360.0 - 180.0

        start = steer * np.cos(np.arccos(self.axis[2]))
        self.turn = brentq(miss, start - 40.0, start + 40.0, xtol=1e-13, rtol=1e-14)
        self.steer, lean, _ = self._euler(self.turn)
        self.camber = -lean

    def about_axis(self, turn):
        """Rotation about the steering axis."""
        return Rotation.from_rotvec(np.radians(turn) * self.axis)

    def _euler(self, turn):
        return (self.about_axis(turn) * self.straight).as_euler("ZXY", degrees=True)

    def rise(self, radius, outboard, ahead):
        """Rise of the disc's lowest point; the axis passes the origin, at hub height."""
        centre = np.array([ahead, outboard, 0.0])
        before = _lowest(centre, self.straight, radius)
        return _lowest(self.about_axis(self.turn).apply(centre), self._wheel(), radius) - before

    def _wheel(self):
        return self.about_axis(self.turn) * self.straight


def _lowest(centre, wheel, radius):
    """Height of a disc's lowest point: its edge is centre + radius (cos t e1 + sin t e2)."""
    e1, e2 = wheel.apply([1.0, 0.0, 0.0]), wheel.apply([0.0, 0.0, 1.0])
    return centre[2] - radius * np.hypot(e1[2], e2[2])
