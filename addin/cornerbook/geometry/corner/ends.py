"""How far a linkage goes from a pose, its travel alone or its rack alone moved on.

The path is followed (`way.py`) to near its end. There one of three things comes to nothing:
the rate at which the way is gone along the path (two assemblies meet, the way turns back), the
spindle's part across the car (the wheel has turned a quarter turn), or the rod's (it points the
other way). The place where it does is found by Newton's method along the path; as the way
turns back squarely, how much of it is gone there is known far better than the place.
"""

from ..numbers import NAN, absolute, again, larger, ratio, sqrt, where
from .heights import WheelAt
from .lying import angles_of
from .way import FEW, Goal, Way

# Length along the path, in radians, over which it is looked how fast something comes to nothing:
# short, since the rod's part across the car may change quickly there; a rounding is still no
# more than 1e-10 of the difference.
_AHEAD = 1e-6

# Rounds of Newton's method for the place. An end is known if the last one asked for no more of
# the way than this part of what is gone; of a linkage drawn at its end, than a rounding.
_ROUNDS = 6
_FOUND = 1e-9
_LEAST = 1e-13

# A place from which more than this is left, in radians, is not near an end; then the path is
# followed on, so many times.
_NEAR = 0.05
_AGAIN = 6


def end_of_travel(linkage, pose, travel, rack, sense):
    """The travel at which the linkage ends, the rack held; NaN where no end is found.

    pose: the `Pose` there now. travel, rack: what it has. sense: 1.0 upward, -1.0 downward.
    """
    last = travel + sense * _farthest(linkage)
    goal = Goal(linkage, WheelAt(linkage.wheel_height + last))
    drawn = goal.drawn.misses.z * linkage.upright_length
    way = Way(goal, (rack, rack), ((travel - last) / drawn, 0.0), 0.0)
    return travel + (last - travel) * _share(way, angles_of(linkage, pose))


def end_of_rack(linkage, pose, travel, rack, sense):
    """The rack at which the linkage ends, the travel held; NaN where no end is found.

    As `end_of_travel`; sense: 1.0 to the left, -1.0 to the right.
    """
    last = rack + sense * _farthest(linkage)
    goal = Goal(linkage, WheelAt(linkage.wheel_height + travel))
    way = Way(goal, (rack, last), (0.0, 0.0), 0.0)
    return rack + (last - rack) * _share(way, angles_of(linkage, pose))


def _farthest(linkage):
    """A way longer than any that the wheel or the rod's inner end could go."""
    rod = sqrt(linkage.tie_radius2 - 2.0 * linkage.tie_half)
    along, lever, across = linkage.wheel
    wheel = absolute(along) + (absolute(lever) + absolute(across)) * sqrt(linkage.tie_radius2)
    return 2.0 * (
        sqrt(linkage.lower.radius2)
        + sqrt(linkage.tie_radius2)
        + absolute(linkage.tie_offset)
        + linkage.upright_length
        + rod
        + wheel
    )


def _share(way, angles):
    """How much of a way is gone at its end, from three angles; NaN where no end is found."""
    place = way.end_of(way.begin(angles))
    for _ in range(_AGAIN):
        place = again(place.going, way.end_of, (place,), place, FEW)
    four = _on_path(way, place.four)
    now, tangent = _measured(way, four)
    then, _ = _measured(way, _on_path(way, _along(four, tangent, _AHEAD)))
    rooms = list(map(_room, now, then))
    # What comes to nothing first; at the very place its room may be a rounding less than none.
    first = rooms[0]
    for room in rooms[1:]:
        first = where(room < first, room, first)
    chosen = [where(room == first, 1.0, 0.0) for room in rooms]

    room = first
    for _ in range(_ROUNDS):
        four = _on_path(way, _along(four, tangent, room))
        now, tangent = _measured(way, four)
        then, _ = _measured(way, _on_path(way, _along(four, tangent, _AHEAD)))
        room = _room(_of(chosen, now), _of(chosen, then))
    share = four[3] / way.whole
    left = absolute(room * tangent[3]) / way.whole
    found = (left <= _FOUND * absolute(share) + _LEAST) & (absolute(first) <= _NEAR)
    # Drawn at an end, the linkage may seem to end a rounding before that.
    return where(found & (share < 1.0) & (share >= -_FOUND), larger(share, 0.0), NAN)


def _measured(way, four):
    """(what may come to nothing at a place on the path, the tangent there)."""
    there = way.lying(*four)
    tangent = there.tangent(way.sense, there.by_gone)
    return (tangent[3], there.spindle.y, there.same_way * sqrt(way.links.per_rod2)), tangent


def _room(now, then):
    """How far along the path something comes to nothing; far where it does not come nearer."""
    return where(then < now, ratio(now * _AHEAD, now - then, NAN), 1e9)


def _of(chosen, numbers):
    return sum(map(lambda share, number: share * number, chosen, numbers))


def _on_path(way, four):
    """The nearest place on the path, by two rounds of Newton's method."""
    for _ in range(2):
        there = way.lying(*four)
        four = _along(four, there.correction(there.by_gone), 1.0)
    return four


def _along(four, tangent, length):
    return tuple(map(lambda at, part: at + length * part, four, tangent))
