"""Why a pose cannot be had, in a sentence with the limits that the linkage does have."""

import math

from .mend import shown

# The way to a pose is looked at in so many places for the first that is out of reach, and the
# limit before that is then halved down to this part of the way.
_PLACES = 8
_HALVINGS = 27


def closes(corner, travel, rack):
    """Whether the linkage closes there."""
    try:
        return not math.isnan(corner.pose(travel, rack).wheel_centre.z)
    except (ZeroDivisionError, OverflowError):
        return False


def limit(corner, way, most):
    """How far one goes before the linkage no longer closes.

    way: a function from a distance to (travel, rack), such as one direction of rack; it must
    close at 0. most: a distance at which it does not.
    """
    good, bad = 0.0, most
    for place in range(1, _PLACES):
        here = most * place / _PLACES
        if not closes(corner, *way(here)):
            bad = here
            break
        good = here
    for _ in range(_HALVINGS):
        middle = 0.5 * (good + bad)
        if closes(corner, *way(middle)):
            good = middle
        else:
            bad = middle
    return good


def why_not(corner, travel, rack, opposite=False):
    """The sentence for a travel and rack at which the linkage does not close.

    It gives the limit of the travel at that rack, else that of the rack at that travel, else, where
    either alone is too far, that of the travel with the rack in the middle.

    opposite: for the wheel on the other side of the car, which sees the rack mirrored.
    """
    seen = -rack if opposite else rack
    if travel and closes(corner, 0.0, seen):
        return _of_travel(corner, travel, rack, seen)
    if rack and closes(corner, travel, 0.0):
        most = limit(corner, lambda d: (travel, d), seen)
        at = "" if travel == 0.0 else f" at travel {shown(travel)}"
        return (
            f"rack {shown(rack)} is past lock: the linkage closes only to "
            f"{shown(-most if opposite else most)}{at}"
        )
    if travel and closes(corner, 0.0, 0.0):
        return _of_travel(corner, travel, 0.0, 0.0)
    return f"no solution was found at travel {shown(travel)} and rack {shown(rack)}"


def _of_travel(corner, travel, rack, seen):
    most = limit(corner, lambda d: (d, seen), travel)
    at = "" if rack == 0.0 else f" at rack {shown(rack)}"
    return f"travel {shown(travel)} cannot be reached{at}: the arms end at {shown(most)}"
