"""Outside values of the points for pictures.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np
from scipy.spatial.transform import Rotation

from tests.catalogue.independent import authority, measured
from tests.catalogue.independent_turn import on_road

FRAME = (
    "lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup",
    "tie rod inner",
)  # fmt: skip


def rim_by_rotation(at, angle):
    """A point of the rim, (3,): the level way forward turned about the spindle.

    at: `Measured` of the left-hand or of the mirrored wheel. Forward turns upward by a turn
    about the axis that points to the right, whichever wheel it is.
    """
    to_the_right = -at.spindle * np.sign(at.spindle[1])
    ahead = at.heading.apply([1.0, 0.0, 0.0])
    turned = Rotation.from_rotvec(np.radians(angle) * to_the_right)
    return at.centre + at.corner["tyre radius"] * turned.apply(ahead)


@authority
def rim_point(corner, angle, coordinate, travel=0.0, rack=0.0, side="left"):
    at = measured(corner, travel, rack, right=side == "right")
    return rim_by_rotation(at, angle)["xyz".index(coordinate)]


def seen(place, name):
    """A named point of a wheel on the road, (3,), by SciPy's solution of it."""
    if name in FRAME:
        way = [0.0, place.rack if name == "tie rod inner" else 0.0, 0.0]
        return place.of_body(place.corner[name] + way)
    if name.endswith("instant centre"):
        return place.moving().instant_centre((0, 2) if name.startswith("side") else (1, 2))
    if name in ("contact centre", "axis at ground"):
        return getattr(place.measured, name.replace(" ", "_"))
    return place.measured.at(name)


@authority
def view_point(corner, point, coordinate, roll=0.0, heave=0.0, rack=0.0, side="left"):
    return seen(on_road(corner, side, roll, heave, rack), point)["xyz".index(coordinate)]
