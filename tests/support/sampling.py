"""Which travels and racks the random corners are tried at."""

import numpy as np

TRAVEL = 80.0
"""Travel to either side, in mm."""

STEER = 40.0
"""Largest steer angle, in degrees."""


def random_poses(seed, corners, each):
    """Travels and racks of shape (n, each), in the unit of mm.

    The rack runs a little past what turns the wheel by `STEER`, were the tie rod square
    to its lever: the lever times the sine of that angle.
    """
    draw = np.random.default_rng(seed)
    shape = (corners.count, each)
    most = 1.1 * corners.lever() * np.sin(np.radians(STEER))
    travel = draw.uniform(-TRAVEL, TRAVEL, shape)
    rack = draw.uniform(-1.0, 1.0, shape) * most[:, None]
    return travel, rack
