"""A car that goes round a given turn centre at a crawl, by the velocities of its points.

Ground plan: x forward, y left, angles in degrees, anticlockwise positive. The turn centre is
found with `turn_of_two_wheels.py`; from there on every velocity is omega x r, and every angle
is had between two vectors. Slip angle of ISO 8855 (from memory): from the wheel's x axis to
its velocity, anticlockwise positive, so a tyre's lateral force is against its sign.
"""

import numpy as np
from scipy.optimize import minimize_scalar

from tests.authorities.turn_of_two_wheels import on_rear_line


class Crawl:
    """left, right: contact centres (2,); steer: angles to the left; rear: x of its axle line."""

    def __init__(self, left, right, steer_left, steer_right, rear):
        self.wheels = {
            "left": (np.asarray(left), steer_left),
            "right": (np.asarray(right), steer_right),
        }
        self.rear = rear
        self.centre = 0.5 * sum(on_rear_line(at, steer, rear) for at, steer in self.wheels.values())
        # The yaw rate for which the middle of the rear axle line goes forward.
        self.yaw_rate = 1.0 if self.centre[1] > 0.0 else -1.0

    def velocity(self, place):
        """Velocity (2,) of a point of the car."""
        way = np.append(np.asarray(place) - self.centre, 0.0)
        return np.cross([0.0, 0.0, self.yaw_rate], way)[:2]

    def radius(self, place):
        """Radius of a point's path."""
        return float(np.linalg.norm(np.asarray(place) - self.centre))

    def mid_rear_radius(self):
        """That of the middle of the rear axle line."""
        return self.radius([self.rear, 0.0])

    def outer_wheel_radius(self):
        """That of the outer wheel's contact centre."""
        return max(self.radius(at) for at, _ in self.wheels.values())

    def tyre_radius(self, wheels, width):
        """That of the outermost place of both tyres' faces, (n, 3) places of them tried.

        wheels: (centre, spindle, radius) of each; a tyre is a cylinder about its spindle.
        """
        farthest = 0.0
        for centre, spindle, radius in wheels:
            one, other = np.linalg.svd(np.asarray(spindle)[None, :])[2][1:]

            def away(angle, face, c=centre, n=spindle, r=radius, u=one, v=other):
                place = c + face * n + r * (np.cos(angle) * u + np.sin(angle) * v)
                return -self.radius(place[:2])

            for face in (-0.5 * width, 0.5 * width):
                for start in np.linspace(0.0, 2.0 * np.pi, 9)[:-1]:
                    found = minimize_scalar(
                        away, bounds=(start - 0.5, start + 0.5), args=(face,),
                        method="bounded", options={"xatol": 1e-10},
                    )  # fmt: skip
                    farthest = max(farthest, -found.fun)
        return farthest

    def body_radius(self, ahead, aside):
        """That of the outer of the body's two front corners, x ahead of the rear line."""
        return max(self.radius([self.rear + ahead, side]) for side in (aside, -aside))

    def slip(self, side):
        """Slip angle of a wheel, in degrees."""
        at, steer = self.wheels[side]
        velocity = self.velocity(at)
        heading = np.array([np.cos(np.radians(steer)), np.sin(np.radians(steer))])
        across = heading[0] * velocity[1] - heading[1] * velocity[0]
        return float(np.degrees(np.arctan2(across, heading @ velocity)))

    def lateral_force(self, side):
        """Which way the tyre pushes the car, in the ground plan (2,): along its spindle,
        against the way in which the contact slides along it."""
        at, steer = self.wheels[side]
        spindle = np.array([-np.sin(np.radians(steer)), np.cos(np.radians(steer))])
        return -np.sign(spindle @ self.velocity(at)) * spindle
