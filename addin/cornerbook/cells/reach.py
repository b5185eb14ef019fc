"""Why a pose cannot be had, in a sentence with the limits that the linkage does have.

A limit is where the linkage ends as the one movement is made from nothing, the other one being
held as it was asked for. It is shown to no more than itself, so that what is shown is reached.
"""

import decimal
import math

from ..geometry.corner import ends
from .mend import shown

# A way is looked at in so many places for the first that is out of reach, and the limit before
# that is then halved down to a small part of the way.
_PLACES = 8
_HALVINGS = 30

# How well a limit is known, as a part of it, and how close before it poses are found.
_KNOWN = 1e-9

# A pose that is refused though it lies by this part within a limit shows that it is none.
_WITHIN = 1e-6

# Digits shown of a limit: as many as of other numbers, or more where it is as good as the
# number that was asked for; at most those that a float has.
_DIGITS = 6
_MOST_DIGITS = 15


def closes(corner, travel, rack):
    """Whether the linkage closes there."""
    try:
        return not math.isnan(corner.pose(travel, rack).wheel_centre.z)
    except (ZeroDivisionError, OverflowError):
        return False


def limit(reached, most):
    """How far one goes before a place is not reached, by trying.

    reached: a function from a distance to whether its place is; that at 0 must be. most: a
    distance whose place is not.
    """
    good, bad = 0.0, most
    for place in range(1, _PLACES):
        here = most * place / _PLACES
        if not reached(here):
            bad = here
            break
        good = here
    for _ in range(_HALVINGS):
        middle = 0.5 * (good + bad)
        if reached(middle):
            good = middle
        else:
            bad = middle
    return good


def limit_of_travel(corner, travel, rack):
    """How far the wheel travels at this rack toward a travel that is refused there.

    None where that is not known: the linkage does not close at no travel, or no end is found.
    """
    if not closes(corner, 0.0, rack):
        return None
    return _limit(
        lambda sense: ends.end_of_travel(
            corner.linkage, corner.pose(0.0, rack), 0.0, rack, sense
        ),
        lambda distance: closes(corner, distance, rack),
        travel,
    )  # fmt: skip


def limit_of_rack(corner, travel, rack):
    """How far the rack moves at this travel toward a rack that is refused there; or None."""
    if not closes(corner, travel, 0.0):
        return None
    return _limit(
        lambda sense: ends.end_of_rack(
            corner.linkage, corner.pose(travel, 0.0), travel, 0.0, sense
        ),
        lambda distance: closes(corner, travel, distance),
        rack,
    )  # fmt: skip


def _limit(end, reached, asked):
    """The limit toward a movement that is refused: the linkage's own end, else by trying."""
    try:
        found = end(math.copysign(1.0, asked))
    except (ZeroDivisionError, OverflowError):
        found = math.nan
    if math.isnan(found):
        return limit(reached, asked)
    return found if abs(found) <= abs(asked) * (1.0 + _WITHIN) else None


def both_shown(asked, most):
    """(a number that was asked for, the limit before it) as texts that differ."""
    for digits in range(_DIGITS, _MOST_DIGITS):
        known = decimal.Context(prec=digits, rounding=decimal.ROUND_DOWN)
        within = float(known.create_decimal(repr(most * (1.0 - _KNOWN))))
        texts = f"{asked:.{digits}g}", f"{within:.{digits}g}"
        if texts[0] != texts[1]:
            break
    return texts


def why_not(corner, travel, rack, opposite=False):
    """The sentence for a travel and rack at which the linkage does not close.

    It gives the limit of the travel at that rack; where the rack itself is out of reach, the
    limit of the rack at that travel; where either alone is, the limit of both, each alone.

    opposite: for the wheel on the other side of the car, which sees the rack mirrored.
    """
    mirror = -1.0 if opposite else 1.0
    seen = mirror * rack
    if travel and closes(corner, 0.0, seen):
        most = limit_of_travel(corner, travel, seen)
        if most is not None:
            return _of_travel(travel, most, rack)
    elif rack and closes(corner, travel, 0.0):
        most = limit_of_rack(corner, travel, seen)
        if most is not None:
            return _of_rack(rack, mirror * most, travel)
    elif travel and rack and closes(corner, 0.0, 0.0):
        lock = limit_of_rack(corner, 0.0, seen)
        most = limit_of_travel(corner, travel, 0.0)
        if lock is not None and most is not None:
            return f"{_of_rack(rack, mirror * lock, 0.0)}; and {_of_travel(travel, most, 0.0)}"
    return f"no solution was found at travel {shown(travel)} and rack {shown(rack)}"


def _of_travel(travel, most, rack):
    asked, end = both_shown(travel, most)
    at = "" if rack == 0.0 else f" at rack {shown(rack)}"
    return f"travel {asked} cannot be reached{at}: the arms end at {end}"


def _of_rack(rack, most, travel):
    asked, end = both_shown(rack, most)
    at = "" if travel == 0.0 else f" at travel {shown(travel)}"
    return f"rack {asked} is past lock: the linkage closes only to {end}{at}"
