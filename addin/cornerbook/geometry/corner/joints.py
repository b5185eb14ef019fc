"""How far the joints of a corner are out of line.

A joint is taken to be fitted as the corner is drawn: what it has to give is counted from
there. Angles in degrees. A pose that the linkage cannot reach gives NaN.
"""

from ..numbers import absolute, atan2, degrees, sqrt
from ..vec import from_frame, in_frame


def between(one, other):
    """The angle between two directions, from 0 to 180; their lengths do not matter."""
    return degrees(atan2(one.cross(other).length(), one.dot(other)))


def out_of_square(one, other):
    """How far two lines are from being square to each other, from 0 to 90."""
    return degrees(atan2(absolute(one.dot(other)), one.cross(other).length()))


def carried(circle, joint, direction):
    """A direction fixed to an arm as drawn, the arm turned until its outer end is at `joint`.

    circle: the arm's `Circle`. The turn about the pickups is the textbook one (Rodrigues),
    its sine and cosine taken from the arm as drawn and as it is.
    """
    axis = circle.axis
    now = joint - circle.centre
    cosine = circle.arm.dot(now) / circle.radius2
    sine = axis.dot(circle.arm.cross(now)) / circle.radius2
    held = axis * (axis.dot(direction) * (1.0 - cosine))
    return direction * cosine + axis.cross(direction) * sine + held


def axis_as_drawn(linkage):
    """The steering axis as drawn, from the lower to the upper ball joint, not made unit."""
    return linkage.upper.centre + linkage.upper.arm - linkage.lower_ball


def lower_tilt(linkage, pose):
    """Tilt of the lower ball joint from its place as drawn, 0 or more.

    The bolt is fixed to the upright and taken along the steering axis, about which it may
    turn freely; the housing is fixed to the arm, set square to the bolt as drawn.
    """
    housing = carried(linkage.lower, pose.lower, axis_as_drawn(linkage))
    return between(housing, pose.upper - pose.lower)


def upper_tilt(linkage, pose):
    """Tilt of the upper ball joint from its place as drawn, as for `lower_tilt`."""
    housing = carried(linkage.upper, pose.upper, axis_as_drawn(linkage))
    return between(housing, pose.upper - pose.lower)


def rod_end_tilt(linkage, pose, drawn):
    """How far the tie rod lies out of the plane square to its outer bolt, 0 to 90.

    The bolt is fixed to the upright: square to the rod as drawn and as near to the steering
    axis as that allows. drawn: the `Pose` as drawn, where this is 0.
    """
    axis = drawn.upper - drawn.lower
    rod = drawn.tie_outer - drawn.tie_inner
    bolt = axis - rod * (axis.dot(rod) / rod.dot(rod))
    shares = in_frame(bolt, *_frame(linkage, drawn))
    axis, lever = _frame(linkage, pose)
    bolt = from_frame(shares, axis, lever, axis.cross(lever))
    return out_of_square(pose.tie_outer - pose.tie_inner, bolt)


def _frame(linkage, pose):
    """The upright's unit axis, and its lever: from the axis square to the rod's outer end."""
    axis = (pose.upper - pose.lower) * linkage.upright_inverse
    return axis, pose.tie_outer - pose.lower - axis * linkage.tie_offset


def rack_end_angle(pose):
    """Angle between the tie rod and the rack, which lies across the car; 0 to 90."""
    rod = pose.tie_outer - pose.tie_inner
    aside = rod.x * rod.x + rod.z * rod.z
    return degrees(atan2(sqrt(aside), absolute(rod.y)))


def plan_angle(pose):
    """Tie rod against the rack's line in plan; positive: its outer end lies forward."""
    rod = pose.tie_outer - pose.tie_inner
    return degrees(atan2(rod.x, absolute(rod.y)))


def front_angle(pose):
    """Tie rod against the rack's line in front view; positive: its outer end lies higher."""
    rod = pose.tie_outer - pose.tie_inner
    return degrees(atan2(rod.z, absolute(rod.y)))


def toggle_margin(pose):
    """Angle between tie rod and steering arm, seen along the steering axis, off one line.

    The steering arm is the line from the axis, square to it, to the rod's outer end. 90 at
    best; 0 at toggle (dead centre), where a pull in the rod has no moment about the axis.
    """
    axis = (pose.upper - pose.lower).unit()
    reach = pose.tie_outer - pose.lower
    arm = reach - axis * reach.dot(axis)
    rod = pose.tie_outer - pose.tie_inner
    return degrees(atan2(absolute(axis.dot(reach.cross(rod))), absolute(arm.dot(rod))))
