"""Instant centres and paths from the velocities of four points of the upright.

The velocities come from `rates_by_sympy`. The upright being rigid, they fix one angular
velocity (by least squares). An instant centre is where the normals to the velocities of two
points of a plane cross: the construction that textbooks draw (Milliken & Milliken, *Race Car
Vehicle Dynamics*, 1995; Reimpell et al., *The Automotive Chassis*). Lengths in mm.
"""

import numpy as np
from scipy.spatial.transform import Rotation

POINTS = ("lower ball joint", "upper ball joint", "tie rod outer", "wheel centre")


class Moving:
    """One corner at a pose, moving by one unit of travel with the rack held.

    measured: `Measured` at the pose; rates: what `rates_by_sympy.rates` gives there.
    """

    def __init__(self, measured, rates):
        self.measured = measured
        self.centre = measured.centre
        self.centre_velocity = rates["wheel centre"][:, 0]
        rows, right = [], []
        for name in POINTS[:3]:
            x, y, z = measured.at(name) - self.centre
            rows.append([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
            right.append(rates[name][:, 0] - self.centre_velocity)
        self.spin = np.linalg.lstsq(np.vstack(rows), np.concatenate(right), rcond=None)[0]

    def velocity(self, point):
        """Velocity of a point fixed to the upright, (3,)."""
        return self.centre_velocity + np.cross(self.spin, point - self.centre)

    def instant_centre(self, plane):
        """The instant centre in a plane through the contact: axes such as (1, 2) for y and z."""
        contact = self.measured.contact_centre
        above = contact + np.array([0.0, 0.0, 100.0])
        rows, right = [], []
        for point in (contact, above):
            v = self.velocity(point)[list(plane)]
            rows.append(v)
            right.append(v @ point[list(plane)])
        found = contact.copy()
        found[list(plane)] = np.linalg.solve(rows, right)
        return found

    def contact_velocity(self):
        """Velocity of the disc's lowest point, by turning the upright a little each way."""

        def contact(step):
            turned = Rotation.from_rotvec(step * self.spin) * self.measured.turned
            centre = self.centre + step * self.centre_velocity
            return type(self.measured)(self.measured.corner, centre, turned).contact_centre

        def slope(step):
            return (contact(step) - contact(-step)) / (2.0 * step)

        # Richardson's extrapolation of central differences.
        one, two = slope(0.25), slope(0.5)
        return one + (one - two) / 3.0
