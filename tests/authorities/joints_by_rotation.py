"""Tilts of joints, from the rotations of the bodies (SciPy's).

corner: name to (3,) array or value, as drawn; measured: the `Measured` upright at a pose.
"""

import numpy as np
from scipy.spatial.transform import Rotation


def between(one, other):
    """Degrees between two directions, by Kahan's half-angle formula."""
    one, other = one / np.linalg.norm(one), other / np.linalg.norm(other)
    return np.degrees(2.0 * np.arctan2(np.linalg.norm(one - other), np.linalg.norm(one + other)))


def arm_turned(corner, measured, arm):
    """The rotation of an arm from the drawn pose: the one that takes its three points along."""
    ball, front, rear = (
        corner[f"{arm} {name}"] for name in ("ball joint", "front pickup", "rear pickup")
    )
    now = {"lower": measured.lower, "upper": measured.upper}[arm]
    middle = 0.5 * (front + rear)
    found, _ = Rotation.align_vectors([now - middle, front - rear], [ball - middle, front - rear])
    return found


def ball_joint(corner, measured, arm):
    axis = corner["upper ball joint"] - corner["lower ball joint"]
    return between(arm_turned(corner, measured, arm).apply(axis), measured.turned.apply(axis))


def rod(corner, measured, rack):
    """The tie rod from its inner end to its outer one."""
    return measured.at("tie rod outer") - corner["tie rod inner"] - np.array([0.0, rack, 0.0])


def rod_end(corner, measured, rack):
    drawn = corner["tie rod outer"] - corner["tie rod inner"]
    axis = corner["upper ball joint"] - corner["lower ball joint"]
    # As near to the axis as being square to the rod allows: the nearest point of that plane.
    square = np.linalg.svd(drawn[None, :])[2][1:]
    bolt = measured.turned.apply(square.T @ (square @ axis))
    return abs(90.0 - between(bolt, rod(corner, measured, rack)))


def toggle(corner, measured, rack):
    """Degrees off one line of rod and steering arm, in a view along the steering axis."""
    axis = measured.upper - measured.lower
    view = np.linalg.svd(axis[None, :])[2][1:]
    arm = view @ (measured.at("tie rod outer") - measured.lower)
    angle = between(arm, view @ rod(corner, measured, rack))
    return min(angle, 180.0 - angle)


def ends(corner, measured, member, rack):
    if member == "tie rod":
        return measured.at("tie rod outer"), corner["tie rod inner"] + np.array([0.0, rack, 0.0])
    arm, leg = member.split()
    return {"lower": measured.lower, "upper": measured.upper}[arm], corner[f"{arm} {leg} pickup"]
