"""A solid axle held by links, as a rigid body whose allowed velocities are solved for.

A twist is (velocity of the point at the axle line in the ground's middle, angular velocity),
of the axle against the body. A link along a direction u from a point p of the axle allows
those with u . (v + w x p) = 0. x forward of the axle line, y left, z above ground.
"""

import numpy as np
from scipy.linalg import null_space


def row(point, direction):
    """What a link at a point allows: the row whose product with a twist is nought."""
    return np.concatenate([direction, np.cross(point, direction)])


def yaw_per_roll(axle_end, body_end, roll_centre):
    """Yaw of the axle per unit of the body's roll, both in one unit of angle.

    A pair of mirrored links, the axle held sideways at the roll centre; by symmetry it
    neither rises nor pitches.
    """
    rows, right = [], []
    for side in (1.0, -1.0):
        flip = np.array([1.0, side, 1.0])
        end = np.array(axle_end) * flip
        rows.append(row(end, np.array(body_end) * flip - end))
        right.append(0.0)
    rows.append(row(np.array([0.0, 0.0, roll_centre]), np.array([0.0, 1.0, 0.0])))
    right.append(0.0)
    for which, value in ((2, 0.0), (3, -1.0), (4, 0.0)):  # no rise; the body's roll; no pitch
        rows.append(np.eye(6)[which])
        right.append(value)
    return np.linalg.solve(np.array(rows), right)[5]


def height_held_by_apex(apex_height, apex_ahead, slope, aside=400.0):
    """Roll centre height at the axle line: an apex in the middle, two parallel links."""
    apex = np.array([apex_ahead, 0.0, apex_height])
    along = np.array([np.cos(np.radians(slope)), 0.0, np.sin(np.radians(slope))])
    rows = [row(apex, axis) for axis in np.eye(3)]
    rows += [row(np.array([0.0, side * aside, 200.0]), along) for side in (1.0, -1.0)]
    (twist,) = null_space(np.array(rows)).T
    v, w = twist[:3], twist[3:]
    # Lateral velocity v_y + w_z x - w_x z is nought on the axis; at x = 0 that is here.
    return v[1] / w[0]


def height_held_by_rod(axle_end, body_end):
    """Height at which a lateral force in the middle plane leaves the springs alike.

    Statics of the body. Unknowns: the rod's pull for a lateral force of one, what both
    springs take alike, and the height of the force. Ends are (lateral, height).
    """
    y, z = body_end
    uy, uz = np.subtract(axle_end, body_end)
    system = [
        [uy, 0.0, 0.0],  # sideways: with the force of one
        [uz, 2.0, 0.0],  # upward
        [y * uz - z * uy, 0.0, -1.0],  # moments about the line mid-car in the ground
    ]
    return np.linalg.solve(system, [-1.0, 0.0, 0.0])[2]
