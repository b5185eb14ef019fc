"""A beam axle on uneven ground, by scipy.spatial.transform: a rigid body with two discs.

Axes of ISO 8855. The beam is turned about x until its wheels stand on the ground given, with
scipy.optimize.brentq; camber is measured on the turned spindle. Angles in degrees.
"""

import numpy as np
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation


class Beam:
    """A beam with its wheel centres `track` apart; camber and toe of both wheels as drawn."""

    def __init__(self, track, radius=260.0, camber=0.0, toe=0.0):
        self.half = 0.5 * track
        self.radius = radius
        # Spindles point outboard. A left wheel's top leans out by a turn about x backwards.
        left = Rotation.from_euler("ZX", [-toe, -camber], degrees=True)
        right = Rotation.from_euler("ZX", [toe, camber], degrees=True)
        self.spindles = {"left": left.apply([0, 1, 0]), "right": right.apply([0, -1, 0])}
        self.centres = {"left": np.array([0, self.half, 0]), "right": np.array([0, -self.half, 0])}

    def _turned(self, roll):
        return Rotation.from_euler("x", roll, degrees=True)

    def camber(self, side, roll):
        """Camber to the vertical, positive when the top leans away from the car.

        The top of the disc is the way up within its plane; outboard is along the spindle.
        """
        spindle = self._turned(roll).apply(self.spindles[side])
        up = np.array([0.0, 0.0, 1.0]) - spindle[2] * spindle
        up /= np.linalg.norm(up)
        level = np.array([spindle[0], spindle[1], 0.0])
        return np.degrees(np.arctan2(up @ level / np.linalg.norm(level), up[2]))

    def _height(self, side, roll, of):
        at = self._turned(roll)
        centre = at.apply(self.centres[side])[2]
        spindle = at.apply(self.spindles[side])
        return centre - (self.radius * np.hypot(spindle[0], spindle[1]) if of == "ground" else 0.0)

    def roll(self, rise, of="centre"):
        """Roll at which the left wheel stands higher by `rise`, at its centre or the ground."""

        def over(roll):
            return self._height("left", roll, of) - self._height("right", roll, of) - rise

        return brentq(over, -89.9, 89.9, xtol=1e-13, rtol=1e-15)

    def change(self, side, rise, of="centre"):
        """Change of a wheel's camber from level ground."""
        return self.camber(side, self.roll(rise, of)) - self.camber(side, 0.0)
