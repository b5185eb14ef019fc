"""How the upright moves at a pose: exact rates by travel and by rack.

Each constraint of the linkage is differentiated as it stands: a point on an arm
moves square to the arm and to its axis, the two ball joints keep their distance,
the tie rod its length. No differences are taken. A rate is per unit of length.
"""

from ..numbers import degrees, sqrt
from ..vec import Vec
from .axis import axis_of


class Motion:
    """The velocity of the upright as a rigid body, per unit of travel or of rack.

    `spin`: angular velocity in radians per unit of length. `lower`: velocity of
    the lower ball joint; `lower_at`: where that joint is.
    """

    __slots__ = ("spin", "lower", "lower_at")

    def __init__(self, spin, lower, lower_at):
        self.spin = spin
        self.lower = lower
        self.lower_at = lower_at

    def velocity_of(self, point):
        """Velocity of a point that is fixed to the upright."""
        return self.lower + self.spin.cross(point - self.lower_at)

    def camber_rate(self, spindle):
        """Degrees of camber per unit of length, the spindle being as it lies."""
        turned = self.spin.cross(spindle)
        level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
        return degrees(-turned.z / level)

    def toe_rate(self, spindle):
        """Degrees of toe per unit of length; positive: toward toe-in."""
        turned = self.spin.cross(spindle)
        level2 = spindle.x * spindle.x + spindle.y * spindle.y
        return degrees((turned.x * spindle.y - turned.y * spindle.x) / level2)


def by_travel(linkage, pose):
    """The `Motion` per unit of travel, the rack held."""
    span = pose.upper - pose.lower
    axis = span * linkage.upright_inverse
    lever = pose.tie_outer - pose.lower
    rod = pose.tie_outer - pose.tie_inner

    # Per radian of the lower arm.
    lower = linkage.lower.axis.cross(pose.lower - linkage.lower.centre)
    tangent = linkage.upper.axis.cross(pose.upper - linkage.upper.centre)
    upper = tangent * (span.dot(lower) / span.dot(tangent))
    swing = axis.cross((upper - lower) * linkage.upright_inverse)
    # The turn about the steering axis that keeps the rod's length.
    pull = rod.dot(lower + swing.cross(lever))
    turn = -pull / rod.dot(axis.cross(lever))
    spin = swing + axis * turn

    # Per unit of travel instead: the wheel centre rises by one.
    rise = lower + spin.cross(pose.wheel_centre - pose.lower)
    return Motion(spin / rise.z, lower / rise.z, pose.lower)


def by_rack(linkage, pose):
    """The `Motion` per unit of rack, the travel held."""
    axis = (pose.upper - pose.lower) * linkage.upright_inverse
    lever = pose.tie_outer - pose.lower
    rod = pose.tie_outer - pose.tie_inner
    # The arms held, the rack pushes the rod and turns the upright about its axis ...
    spin = axis * (rod.y / rod.dot(axis.cross(lever)))
    rise = spin.cross(pose.wheel_centre - pose.lower).z
    # ... which lifts the wheel centre; the arms then move to undo that.
    travel = by_travel(linkage, pose)
    nothing = Vec(0.0, 0.0, 0.0)
    return Motion(spin - travel.spin * rise, nothing - travel.lower * rise, pose.lower)


def turning(pose):
    """The upright's `Motion` about its steering axis, toward toe-in by the radian, arms held."""
    return Motion(axis_of(pose) * -1.0, Vec(0.0, 0.0, 0.0), pose.lower)
