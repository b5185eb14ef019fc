"""Camber, toe, trail and the rest from the upright's rotation, by scipy.spatial.transform.

The wheel's attitude is a turn about z (minus the toe), then a lean about the turned x
(minus the camber), then its own spin, which does not matter: intrinsic Euler angles ZXY.
Signs are those of ISO 8855 for a left-hand corner (y left is outboard). Angles in degrees.
"""

import numpy as np
from scipy.spatial.transform import Rotation


class Measured:
    """One corner at one pose. corner: name to (3,) array or value, as drawn, in mm.

    centre: where the wheel centre is, (3,); turned: a `Rotation`, or a rotation vector (3,)
    in radians, of the upright from the drawn pose.
    """

    def __init__(self, corner, centre, turned):
        self.corner = corner
        self.centre = np.asarray(centre)
        if not isinstance(turned, Rotation):
            turned = Rotation.from_rotvec(turned)
        self.turned = turned
        drawn = Rotation.from_euler(
            "ZX", [-corner["static toe"], -corner["static camber"]], degrees=True
        )
        around_z, around_x, _ = (turned * drawn).as_euler("ZXY", degrees=True)
        self.toe = -around_z
        self.camber = -around_x
        self.spindle = (turned * drawn).apply([0.0, 1.0, 0.0])
        self.heading = Rotation.from_euler("Z", around_z, degrees=True)
        down = Rotation.from_euler("ZX", [around_z, around_x], degrees=True).apply([0, 0, -1])
        # A crowned tread: the crown radius straight down from a smaller disc's lowest point.
        crown = corner.get("crown radius", 0.0)
        disc = (corner["tyre radius"] - crown) * down
        self.contact_centre = self.centre + disc - [0.0, 0.0, crown]
        self.lower = self.at("lower ball joint")
        self.upper = self.at("upper ball joint")
        axis = self.upper - self.lower
        self.caster = np.degrees(np.arctan(-axis[0] / axis[2]))
        self.inclination = np.degrees(np.arctan(-axis[1] / axis[2]))
        down_to_ground = (self.contact_centre[2] - self.lower[2]) / axis[2]
        self.axis_at_ground = self.lower + down_to_ground * axis
        # Ground plan in the wheel's own frame: x along its heading, y outboard.
        ahead, outboard, _ = self.heading.apply(
            self.axis_at_ground - self.contact_centre, inverse=True
        )
        self.trail = ahead
        self.scrub = -outboard

    def at(self, name):
        """Where a point of the upright is, (3,)."""
        return self.centre + self.turned.apply(self.corner[name] - self.corner["wheel centre"])
