"""Why a pose cannot be had, in a sentence with the limits that the linkage does have."""

import math

from .mend import shown

# The limit is looked for in steps of this part of the tyre's radius, then halved down.
_STEP = 0.02
_FARTHEST = 2.0


def closes(corner, travel, rack):
    """Whether the linkage closes there."""
    try:
        return not math.isnan(corner.pose(travel, rack).wheel_centre.z)
    except (ZeroDivisionError, OverflowError):
        return False


def limit(corner, way):
    """How far one goes before the linkage no longer closes.

    way: a function from a distance to (travel, rack), such as one direction of rack.
    Returns None where no end is found within two radii.
    """
    radius = corner.drawn.radius
    good, bad = 0.0, _STEP * radius
    while closes(corner, *way(bad)):
        good, bad = bad, bad + _STEP * radius
        if bad > _FARTHEST * radius or bad == good:  # a radius may be too small to step by
            return None
    for _ in range(30):
        middle = 0.5 * (good + bad)
        if closes(corner, *way(middle)):
            good = middle
        else:
            bad = middle
    return good


def why_not(corner, travel, rack, opposite=False):
    """The sentence for a travel and rack at which the linkage does not close.

    opposite: for the wheel on the other side of the car, which sees the rack mirrored.
    """
    if travel and not closes(corner, travel, 0.0):
        sign = math.copysign(1.0, travel)
        most = limit(corner, lambda d: (sign * d, 0.0))
        return (
            f"travel {shown(travel)} cannot be reached: the arms end "
            f"{'before that' if most is None else 'at ' + shown(sign * most)}"
        )
    sign = math.copysign(1.0, rack)
    side = -sign if opposite else sign
    most = limit(corner, lambda d: (travel, side * d))
    at = "" if travel == 0.0 else f" at travel {shown(travel)}"
    return (
        f"rack {shown(rack)} is past lock: the linkage closes only "
        f"{'before that' if most is None else 'to ' + shown(sign * most)}{at}"
    )
