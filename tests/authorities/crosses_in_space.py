"""Universal joints as bodies in space: shafts, forks and crosses as vectors, no angles' relation.

A cross has two arms square to each other, one in each fork; a fork's pins lie square to its
shaft. Speeds follow from the cross being one body: its spin is that of either shaft plus one
about the arm that it turns on, three linear equations.
"""

import numpy as np
from scipy.optimize import minimize_scalar
from scipy.spatial.transform import Rotation


def unit(vector):
    return np.asarray(vector) / np.linalg.norm(vector)


def turned(vector, axis, angle):
    """A vector turned about an axis, right-handed, by degrees."""
    return Rotation.from_rotvec(np.radians(angle) * unit(axis)).apply(vector)


def far_arm(shaft, arm):
    """The cross's arm in the driven fork: square to the driven shaft and to the other arm."""
    return unit(np.cross(shaft, arm))


def speed(driving, driven, arm):
    """Speed of the driven shaft for a unit speed of the driving one."""
    other = far_arm(driven, arm)
    return np.linalg.solve(np.column_stack([-arm, driven, other]), driving)[1]


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
    arms = [far_arm(driven, turned(start, driving, angle)) for angle in steps]
    # Followed without a jump; the arm has no ends that differ, so half turns are taken out.
    angles = np.unwrap([np.arctan2(a @ square, a @ first) for a in arms], period=np.pi)
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
    """Largest less smallest value of a function of an angle of half a turn's period."""
    coarse = np.linspace(0.0, 180.0, 181)
    values = [function(angle) for angle in coarse]

    def best(sign):
        near = coarse[np.argmax(sign * np.array(values))]
        found = minimize_scalar(
            lambda angle: -sign * function(angle),
            bounds=(near - 1.0, near + 1.0), method="bounded", options={"xatol": 1e-9},
        )  # fmt: skip
        return -sign * found.fun

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
