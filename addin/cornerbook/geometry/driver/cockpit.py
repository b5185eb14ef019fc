"""What a driver sees and what is free about him: the road, the hoops, the steering wheel."""

from ..numbers import absolute, larger, ratio, sqrt, where
from .posture import Rim


def road_seen(eye_x, eye_z, cowl_x, cowl_z):
    """x of the nearest point of a level road that an eye sees over an edge ahead of it."""
    return eye_x + eye_z * (cowl_x - eye_x) / (eye_z - cowl_z)


def under_line(x, z, radius, front_x, front_z, rear_x, rear_z):
    """How far a ball stays below the line through the tops of two hoops, in side view."""
    along_x, along_z = front_x - rear_x, front_z - rear_z
    long = sqrt(along_x * along_x + along_z * along_z)
    below = (along_z * (x - rear_x) - along_x * (z - rear_z)) / long
    return below - radius


def knee_to_wheel(knee, knee_radius, centre, tilt, radius):
    """How far a knee, taken as a ball about its joint, stays from the steering wheel's disc."""
    return Rim(centre, tilt, radius).clearance(knee) - knee_radius


def limb_to_bar(upper, lower, limb_radius, bar_x, bar_z, bar_radius):
    """How far a limb stays from a round bar that runs across the whole car.

    upper, lower: (x, z) of the limb's ends. The limb lies in an upright plane along the car, so
    that in side view the bar is a point and the limb a line with ends.
    """
    return sqrt(_square_to_line(upper, lower, bar_x, bar_z)) - limb_radius - bar_radius


def _square_to_line(one, other, x, z):
    """The square of a point's distance from a line between two ends."""
    along_x, along_z = other[0] - one[0], other[1] - one[1]
    from_x, from_z = x - one[0], z - one[1]
    squared = along_x * along_x + along_z * along_z
    share = ratio(from_x * along_x + from_z * along_z, squared, 0.0)
    share = where(share < 0.0, 0.0, where(share > 1.0, 1.0, share))
    off_x, off_z = from_x - along_x * share, from_z - along_z * share
    return off_x * off_x + off_z * off_z


def limb_to_box(upper, lower, limb_y, limb_radius, centre, sides):
    """How far a limb stays from a box along the car's axes; less its own radius where they meet.

    upper, lower: (x, z) of the limb's ends, which lies in the upright plane at limb_y. centre,
    sides: a `Vec` each. Of a line and a rectangle that do not meet, an end of the line or a
    corner of the rectangle is nearest to the other.
    """
    half_x, half_y, half_z = 0.5 * sides.x, 0.5 * sides.y, 0.5 * sides.z
    along_x, along_z = lower[0] - upper[0], lower[1] - upper[1]
    from_x, from_z = upper[0] - centre.x, upper[1] - centre.z
    # They meet unless one of three lines parts them: level, upright, or along the limb.
    level = absolute(from_x + 0.5 * along_x) - 0.5 * absolute(along_x) - half_x
    upright = absolute(from_z + 0.5 * along_z) - 0.5 * absolute(along_z) - half_z
    across = absolute(from_x * along_z - from_z * along_x)
    across = across - half_x * absolute(along_z) - half_z * absolute(along_x)
    apart = where(level > 0.0, True, where(upright > 0.0, True, across > 0.0))
    nearest = None
    for x, z in (upper, lower):
        off_x = larger(absolute(x - centre.x) - half_x, 0.0)
        off_z = larger(absolute(z - centre.z) - half_z, 0.0)
        nearest = _smaller(nearest, off_x * off_x + off_z * off_z)
    for x in (centre.x - half_x, centre.x + half_x):
        for z in (centre.z - half_z, centre.z + half_z):
            nearest = _smaller(nearest, _square_to_line(upper, lower, x, z))
    beside = larger(absolute(limb_y - centre.y) - half_y, 0.0)
    return sqrt(where(apart, nearest, 0.0) + beside * beside) - limb_radius


def _smaller(one, other):
    return other if one is None else where(other < one, other, one)
