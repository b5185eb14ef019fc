"""Outside values of the formulas for the bearings of a rear solid axle.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np

from tests.authorities.axle_by_free_body import FreeAxle
from tests.catalogue.independent import authority


def _axle(up_left, up_right, forward, sideways, track, radius, left, right, holds, *pull):
    return FreeAxle((up_left, up_right), forward, sideways, track, radius, (left, right), holds,
                    pull)  # fmt: skip


@authority
def bearing_force(bearing, component, *loaded):
    force = _axle(*loaded).on_frame[bearing]
    return float(np.linalg.norm(force) if component == "size" else force["xyz".index(component)])


@authority
def axle_bending(bearing, *loaded):
    return _axle(*loaded).bending(bearing)
