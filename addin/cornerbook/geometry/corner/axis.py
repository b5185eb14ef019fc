"""The steering axis: the line through the two outer ball joints."""

from ..numbers import atan2, degrees
from ..vec import Vec


def caster_of(lower, upper):
    """Caster angle in degrees, in side view; positive: the top leans rearward."""
    return degrees(atan2(lower.x - upper.x, upper.z - lower.z))


def inclination_of(lower, upper):
    """Kingpin inclination in degrees, in front view; positive: the top leans inward."""
    return degrees(atan2(lower.y - upper.y, upper.z - lower.z))


def axis_at_height(lower, upper, height):
    """The point where the steering axis passes a height, such as the ground's."""
    share = (height - lower.z) / (upper.z - lower.z)
    return Vec(
        lower.x + (upper.x - lower.x) * share,
        lower.y + (upper.y - lower.y) * share,
        height,
    )


def axis_of(pose):
    """Unit direction of the steering axis, upward."""
    return (pose.upper - pose.lower).unit()
