"""A steered axle: two mirrored corners that one rack turns together.

Both wheels are given as left-hand corners; the right-hand one is what its mirror
does for the opposite rack. Angles in degrees, positive to the left (ISO 8855).
"""

from ..numbers import NAN, atan2, cos, degrees, radians, sign, sin, sqrt, where
from ..vec import Vec

# A wheel turned by no more than this, in degrees, stands straight: there is no turn centre.
STRAIGHT = 1e-9


def _chosen(condition, one, other):
    return Vec(
        where(condition, one.x, other.x),
        where(condition, one.y, other.y),
        where(condition, one.z, other.z),
    )


class Axle:
    """Both wheels of an axle at one rack.

    left, right: `Pose`s of left-hand corners, the right-hand wheel mirrored.
    rear_line: x of the rear axle line, in the body's axes.
    """

    def __init__(self, left, right, rear_line):
        self.steer_left = -left.toe()
        self.steer_right = right.toe()
        mean = 0.5 * (self.steer_left + self.steer_right)
        turns = sign(mean)
        to_left = mean >= 0.0
        at_left = left.contact_centre()
        at_right = right.contact_centre()
        size_left = self.steer_left * turns
        size_right = self.steer_right * turns
        # Unless both turn to one side (static toe holds them apart near straight ahead)
        # there is no inner wheel: NaN, which what follows keeps.
        straight = where(size_left > STRAIGHT, where(size_right > STRAIGHT, 0.0, NAN), NAN)
        self.inner = where(to_left, size_left, size_right) + straight
        self.outer = where(to_left, size_right, size_left) + straight
        self.inner_ahead = where(to_left, at_left.x, at_right.x) - rear_line
        self.outer_ahead = where(to_left, at_right.x, at_left.x) - rear_line
        self.inner_aside = where(to_left, at_left.y, at_right.y)
        self.outer_aside = where(to_left, at_right.y, at_left.y)
        self.outer_centre = _chosen(to_left, right.wheel_centre, left.wheel_centre)
        self.outer_spindle = _chosen(to_left, right.spindle, left.spindle)
        self.tyre_radius = left.radius
        self.rear_line = rear_line

    def ideal_outer(self):
        """The outer wheel's angle, were it square to the inner wheel's turn centre.

        That centre is where the inner wheel's normal meets the rear axle line.
        """
        angle = radians(self.inner)
        track = self.inner_aside + self.outer_aside
        return degrees(
            atan2(
                self.outer_ahead * sin(angle),
                self.inner_ahead * cos(angle) + track * sin(angle),
            )
        )

    def ackermann(self):
        """Ackermann percentage: 100 (inner - outer) / (inner - ideal outer)."""
        return 100.0 * (self.inner - self.outer) / (self.inner - self.ideal_outer())

    def mid_rear_radius(self):
        """Distance from the car's middle to the turn centre, positive toward the inside.

        The turn centre lies on the rear axle line, at the mean of the places where
        the two front wheels' normals meet it.
        """
        inner = radians(self.inner)
        outer = radians(self.outer)
        by_inner = self.inner_aside + self.inner_ahead * cos(inner) / sin(inner)
        by_outer = self.outer_ahead * cos(outer) / sin(outer) - self.outer_aside
        return 0.5 * (by_inner + by_outer)

    def turning_radius(self):
        """Radius of the outer front contact centre's path about the turn centre, without slip."""
        aside = self.mid_rear_radius() + self.outer_aside
        return sqrt(aside * aside + self.outer_ahead * self.outer_ahead)
