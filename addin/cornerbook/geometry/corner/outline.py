"""Points and lines of a corner to draw: rim, arms, upright, tie rod, axis, trail and scrub.

Everything is read off a `Pose` and the frame points that go with it, in the axes of that
pose: those of the body, or those of the road under a rolled body. The wheel is the thin disc
of the loaded radius. Lines are tuples of `Vec`, from end to end.
"""

from ..numbers import cos, radians, ratio, sin
from ..vec import Vec
from . import wheel
from .axis import axis_at_height


def rim_point(pose, angle):
    """A point of the edge of the wheel's disc.

    angle: degrees in the disc from its level direction forward, turning upward: 90 is the
    top, -90 or 270 the contact centre.
    """
    turn = radians(angle)
    ahead = wheel.heading_of(pose.spindle)
    up = ahead.cross(pose.spindle)
    return pose.wheel_centre + ahead * (pose.radius * cos(turn)) + up * (pose.radius * sin(turn))


def rim(pose, count):
    """The disc's edge as `count` points and the first one again, forward first, then upward."""
    step = 360.0 / count
    return tuple(rim_point(pose, step * (i % count)) for i in range(count + 1))


class Frame:
    """The body's own points of a corner, in the axes of the `Pose` that they go with."""

    __slots__ = ("lower_front", "lower_rear", "upper_front", "upper_rear")

    def __init__(self, lower_front, lower_rear, upper_front, upper_rear):
        self.lower_front = lower_front
        self.lower_rear = lower_rear
        self.upper_front = upper_front
        self.upper_rear = upper_rear

    def placed(self, stance):
        """The same points in the axes of the road, by a `Stance` of `road.py`."""
        return Frame(*(stance.place(getattr(self, name)) for name in self.__slots__))


def lower_arm(pose, frame):
    """Front pickup, ball joint, rear pickup of the lower arm."""
    return (frame.lower_front, pose.lower, frame.lower_rear)


def upper_arm(pose, frame):
    """Front pickup, ball joint, rear pickup of the upper arm."""
    return (frame.upper_front, pose.upper, frame.upper_rear)


def upright(pose):
    """Both ball joints, then the tie rod's outer end: a triangle that is rigid."""
    return (pose.lower, pose.upper, pose.tie_outer)


def hub(pose):
    """Both ball joints, then the wheel centre: the rest of the upright."""
    return (pose.lower, pose.upper, pose.wheel_centre)


def tie_rod(pose):
    """Inner end, outer end."""
    return (pose.tie_inner, pose.tie_outer)


def steering_axis(pose):
    """From where the axis meets the ground, through both joints, a little past the upper one."""
    past = axis_at_height(
        pose.lower, pose.upper, pose.upper.z + 0.15 * (pose.upper.z - pose.lower.z)
    )
    return (pose.axis_at_ground(), past)


def trail_and_scrub(pose):
    """Contact centre, the place beside it on the ground, and where the axis meets the ground.

    From the first to the second is the trail, along the wheel's heading; from the second to
    the third the scrub radius, across it, inboard where positive.
    """
    contact = pose.contact_centre()
    beside = contact + wheel.heading_of(pose.spindle) * pose.trail()
    return (contact, beside, pose.axis_at_ground())


def roll_centre(left, right, left_slope, right_slope):
    """Where the lines of both wheels to their instant centres cross: a `Vec` in front view.

    left, right: contact centres, each of a left-hand corner, the right one mirrored. slopes:
    rise per unit of the way inboard. x is midway between both contacts. Lines that are
    parallel cross nowhere, and midway where both are level at one height.
    """
    both = left_slope + right_slope
    apart = left.z - right.z
    aside = ratio(
        apart + left_slope * left.y - right_slope * right.y, both, 0.5 * (left.y - right.y)
    )
    height = left.z + left_slope * (left.y - aside)
    return Vec(0.5 * (left.x + right.x), aside, height)
