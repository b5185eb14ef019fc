"""What a driver sees and what is free about him: the road, the hoops, the steering wheel."""

from ..numbers import sqrt
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
