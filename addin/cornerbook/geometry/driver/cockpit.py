"""What a driver sees and what is free about him: the road, the hoops, the steering wheel."""

from ..numbers import ratio, sqrt, where
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
    along_x, along_z = lower[0] - upper[0], lower[1] - upper[1]
    from_x, from_z = bar_x - upper[0], bar_z - upper[1]
    squared = along_x * along_x + along_z * along_z
    share = ratio(from_x * along_x + from_z * along_z, squared, 0.0)
    share = where(share < 0.0, 0.0, where(share > 1.0, 1.0, share))
    off_x, off_z = from_x - along_x * share, from_z - along_z * share
    return sqrt(off_x * off_x + off_z * off_z) - limb_radius - bar_radius
