"""Universal joints as bodies in space: shafts, forks and crosses as vectors, no angles' relation.

A cross has two arms square to each other, one in each fork; a fork's pins lie square to its
shaft. Speeds follow from the cross being one body: its spin is that of either shaft plus one
about the arm that it turns on, three linear equations. Angles may be arrays (n,): arms are then
(n, 3), and speeds (n,).
"""

import numpy as np
from scipy.spatial.transform import Rotation


def unit(vector):
    return np.asarray(vector) / np.linalg.norm(vector, axis=-1, keepdims=True)


def turned(vector, axis, angle):
    """A vector turned about an axis, right-handed, by degrees."""
    turn = np.radians(angle)[..., None] * unit(axis)
    return Rotation.from_rotvec(turn).apply(vector)


def far_arm(shaft, arm):
    """The cross's arm in the driven fork: square to the driven shaft and to the other arm."""
    return unit(np.cross(shaft, arm))


def speed(driving, driven, arm):
    """Speed of the driven shaft for a unit speed of the driving one."""
    ways = np.broadcast_arrays(-arm, driven, far_arm(driven, arm))
    return np.linalg.solve(np.stack(ways, axis=-1), driving[:, None])[..., 1, 0]


def bent(*angles, planes=None):
    """Directions of shafts with these bends in degrees; planes: turns of each bend's plane."""
    way, normal = np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0])
    ways = [way]
    for angle, plane in zip(angles, planes or (0.0,) * len(angles), strict=True):
        normal = turned(normal, way, plane)
        way = turned(way, normal, angle)
        ways.append(way)
    return ways


def in_plane(driving, driven):
    """The pins of the driving fork where they lie in the plane of the two shafts."""
    return unit(driven - driving * np.dot(driving, driven))


def angle_out(angle_in, bend):
    """Degrees turned by the driven shaft, followed in small steps of the driving one."""
    driving, driven = bent(bend)
    start = in_plane(driving, driven)
    first = far_arm(driven, start)
    square = np.cross(driven, first)
    steps = np.linspace(0.0, angle_in, 2 + int(abs(angle_in) / 5.0))
    arms = far_arm(driven, turned(start, driving, steps))
    # Followed without a jump; the arm has no ends that differ, so half turns are taken out.
    angles = np.unwrap(np.arctan2(arms @ square, arms @ first), period=np.pi)
    return np.degrees(angles[-1])


def speed_ratio(angle_in, bend):
    driving, driven = bent(bend)
    return speed(driving, driven, turned(in_plane(driving, driven), driving, angle_in))


def train(ways, forks, angle_in):
    """Speed of the third shaft for a unit speed of the first.

    forks: degrees from the middle shaft's upper fork to its lower one, about the shaft.
    """
    one, two, three = ways
    arm = turned(in_plane(one, two), one, angle_in)
    lower = turned(far_arm(two, arm), two, forks)
    return speed(one, two, arm) * speed(two, three, lower)


def column_speed_ratio(angle_in, upper, lower, error=0.0):
    return train(bent(upper, lower), error, angle_in)


def ripple(function):
    """Largest less smallest value of a function of an array of angles, of half a turn's period."""

    def best(sign):
        angles = np.linspace(0.0, 180.0, 181)
        # Where it is flat, an angle known to 1e-4 degrees gives the value to some 1e-12.
        for _ in range(3):
            values = sign * function(angles)
            near, step = angles[np.argmax(values)], angles[1] - angles[0]
            angles = np.linspace(near - step, near + step, 181)
        return sign * values.max()

    return best(1.0) - best(-1.0)


def column_ripple(upper, lower, error=0.0):
    return ripple(lambda angle: column_speed_ratio(angle, upper, lower, error))


def phase(one, two, three):
    """Degrees between the planes of two bends about the middle shaft, within a quarter turn."""
    # Seen along the middle shaft, each plane is a line: that of the other shaft it holds.
    across = unit(np.cross(two, [0.3, -0.5, 0.7]))
    other = np.cross(unit(two), across)
    lines = [np.degrees(np.arctan2(way @ other, way @ across)) for way in (one, three)]
    return (lines[1] - lines[0] + 90.0) % 180.0 - 90.0
