"""The way of a linkage from where it is drawn to a place asked for, along its own path.

Closing the linkage directly (`linkage.py`) takes each circle and sphere on the side on which
they meet as drawn. Near the end of a reach that loses places: an arm or the tie rod may come
into line with what it carries, and go on past it to the other side. Here the linkage is
followed instead. Three angles say how it lies: of the lower arm, of the upper arm, and of the
upright about the steering axis. Three conditions hold them: the upright's length, the rod's
length, and the height that is asked for. With how much of the way is gone, from the drawn
place to the asked one, as a fourth unknown they leave a path, which has no corner where
something comes into line. It is followed along its tangent, with Newton's method to come back
to it (pseudo arc length continuation: E. L. Allgower and K. Georg, *Numerical Continuation
Methods*, 1990, chapter 2; from memory).

The true end of a reach is where the way turns back along the path. There the determinant of the
three conditions by the three angles is zero, and two assemblies meet. While it keeps the sign
that it has as drawn, one assembly leads on from the drawn one.
"""

from ..numbers import NAN, absolute, again, larger, ratio, sign, sqrt, where
from ..vec import Vec
from .lying import Links, Lying
from .pose import Pose

# A pose is given only if the wheel centre came to the asked height within this part of the
# upright's height (the distance between its ball joints).
TOLERANCE = 1e-10

# Steps along the path, at most; after each part those that go on are taken out of arrays. Most
# have come to their end in the first part, and but for one in thousands all in the fourth.
STEPS = (12, 12, 12, 24, 24, 48, 48)

# Lengths along it are of the three angles together, in radians, and of the way gone, whose whole
# counts as what the angles would change by at the rate as drawn, from `LEAST` to one. A path
# that must be followed closer than the shortest step (0.0006 degrees) has come to its end.
LONGEST = 0.3
SHORTEST = 1e-5
LEAST = 1e-4

# Up to so many places are followed one by one, though given as arrays: it costs less.
FEW = 8

# Rounds of Newton's method at the end of the way.
_ROUNDS = 4

# A step is taken again, shorter, if Newton's method asks for more than this part of it; if the
# path turned by more than this cosine; or if the tangent's part along the way is less than so
# many times what Newton's method asks for: the way may then have turned back. Besides that part
# Newton's method may ask for what a place is not exact by; back from beyond the end, for more.
# A tangent counts as taken at a place itself if that was moved by no more than `_SEEN`.
_CORRECTED = 0.1
_EXACT = 1e-8
_PASSED = 1e-4
_SEEN = 1e-4
_STRAIGHT = 0.85
_ONWARD = 3.0
_ONWARD_AT_END = 50.0

# Of the room to where the way is thought to turn back, one step takes this part. If that little
# room is left, and so many times more of the way than it would take at the present rate, the
# end of the way is out of reach. What is thought was seen over a step some ten times as long as
# the room: little enough, in radians, that a way which only comes close to turning back, as the
# rod swings round between two such places, has shown that it does not.
_OF_ROOM = 0.9
_NEAR = 0.0004
_HOPELESS = 3.0


class Goal:
    """The `Links`, and what all ways from the drawn place to the height have in common.

    drawn: how they are `Lying` as drawn. sense, rise_sense: 1.0 or -1.0, the signs of their
    determinants there.
    """

    def __init__(self, linkage, missed):
        self.links = Links(linkage, missed)
        self.drawn = Lying(self.links, 0.0, 0.0, 0.0, 0.0)
        self.sense = sign(self.drawn.determinant())
        self.rise_sense = sign(self.drawn.rising)


class Place:
    """A place on the path.

    lower, upper, turn: the three angles in radians from the drawn place. gone: how much of the
    way, of its `whole`. tangent: unit direction of the path in these four. turning: its change
    for each unit of length. step: length of the next step. free: whether that may not aim at
    the end of the way. seen: whether the tangent was taken at this place itself, not at the
    guess that led to it. look: whether to do that next, instead of a step. going: whether to
    go on.
    """

    __slots__ = (
        "lower", "upper", "turn", "gone", "tangent", "turning",
        "step", "free", "seen", "look", "going",
    )  # fmt: skip

    def __init__(self, four, tangent, turning, step, free, seen, look, going):
        self.lower, self.upper, self.turn, self.gone = four
        self.tangent = tangent
        self.turning = turning
        self.step = step
        self.free = free
        self.seen = seen
        self.look = look
        self.going = going

    @property
    def angles(self):
        """The three angles."""
        return self.lower, self.upper, self.turn

    @property
    def four(self):
        """The three angles and what is gone."""
        return self.lower, self.upper, self.turn, self.gone


class Way:
    """The way of a linkage from one place to another one.

    goal: its `Goal`. racks: at the start and at the end. heights: how much of what is missed as
    drawn is still missed at the start and at the end. lengths: the same at the start for the
    lengths of upright and rod: where an arm was made longer, the drawn place is none in which
    the linkage closes.
    """

    def __init__(self, goal, racks, heights, lengths=1.0):
        self.links = goal.links
        self.sense = goal.sense
        self.rise_sense = goal.rise_sense
        self.racks = racks
        self.heights = heights
        self.lengths = lengths
        drawn = goal.drawn
        self.drawn_misses = drawn.misses
        # What is missed less at the end than at the start, the rack apart.
        self.gained = Vec(
            drawn.misses.x * lengths,
            drawn.misses.y * lengths,
            drawn.misses.z * (heights[0] - heights[1]),
        )
        # What the three angles would change by at the rate as drawn.
        *angles, ahead = drawn.tangent(goal.sense, self.by_gone(drawn, 1.0))
        turned = ratio(_size(angles), ahead, 1.0)
        self.whole = where(turned < 1.0, larger(turned, LEAST), 1.0)

    def by_gone(self, there, whole):
        """How what is missed changes with what is gone, of so much."""
        gained, moved = self.gained, self.racks[1] - self.racks[0]
        return Vec(gained.x, gained.y - there.push.y * moved, gained.z) / whole

    def lying(self, lower, upper, turn, gone):
        """How the linkage is `Lying` at a place; what it is to miss there is not missed."""
        share = gone / self.whole
        rack = self.racks[0] + (self.racks[1] - self.racks[0]) * share
        there = Lying(self.links, lower, upper, turn, rack)
        still = self.lengths * (1.0 - share)
        high = self.heights[0] + (self.heights[1] - self.heights[0]) * share
        drawn, misses = self.drawn_misses, there.misses
        there.misses = Vec(
            misses.x - drawn.x * still, misses.y - drawn.y * still, misses.z - drawn.z * high
        )
        there.by_gone = self.by_gone(there, self.whole)
        return there

    def allows(self, there):
        """Whether the linkage may lie so.

        A wheel turned past a quarter turn, or a rod that points the other way across the car,
        is past lock. Nor is there a travel for a wheel whose centre has turned back down, while
        it is asked to rise against something else than the body.
        """
        return (
            (there.spindle.y > 0.0)
            & (there.same_way > 0.0)
            & (there.rising * self.rise_sense > 0.0)
        )

    def begin(self, angles, there=1.0):
        """The `Place` at the start, at three angles from the drawn place; going if there > 0."""
        none = self.whole * 0.0
        never = none > 0.0
        at = self.lying(*angles, none)
        tangent = at.tangent(self.sense, at.by_gone)
        return Place(
            (*angles, none),
            tangent,
            (none, none, none, none),
            none + LONGEST,
            free=never,
            seen=never,
            look=never,
            going=there + none > 0.0,
        )

    def end_of(self, place):
        """The `Place` at the end of the way, or as far as the linkage goes on it."""
        for steps in STEPS:
            place = again(place.going, _steps, (self, place, steps), place, FEW, 0.8)
        return place

    def pose_at(self, place):
        """The `Pose` at a place that is the end of the way; NaN throughout where it is not."""
        no_number = self.whole * NAN
        nowhere = Vec(no_number, no_number, no_number)
        inner = self.links.tie_inner + Vec(0.0, self.racks[1], 0.0)
        links = self.links
        pose = Pose(nowhere, nowhere, nowhere, inner, nowhere, nowhere, links.radius, links.crown)
        return again(place.gone == self.whole, _settled, (self, place), pose, FEW, 0.5)


def _steps(way, place, steps):
    """The `Place` after some steps."""
    for _ in range(steps):
        place = again(place.going, _stepped, (way, place), place, 0, 0.0)
    return place


def _stepped(way, at):
    """The next `Place` of a way; the same one with a shorter step where that was too far."""
    before, ahead = at.four, at.tangent[3]
    # To the end of the way, what is gone taken as a parabola. NaN where it turns back first.
    left = ratio(way.whole - at.gone, ahead, NAN)
    bend = ratio(at.turning[3], ahead, 0.0)
    to_end = 2.0 * left / (1.0 + sqrt(1.0 + 2.0 * bend * left))
    last = where(at.free, False, where(at.look, False, to_end <= at.step))
    # A step may have passed the end of the way: then it lies back along a path that is known.
    passed = left < 0.0
    free = where(passed, -1.0, 1.0) * at.step
    length = where(at.look, 0.0, where(last, to_end, free))
    far = absolute(length)

    guess = _moved(_moved(before, at.tangent, length), at.turning, 0.5 * length * length)
    guess = (*guess[:3], where(last, way.whole, guess[3]))
    there = way.lying(*guess)
    correction = there.correction(there.by_gone * where(last, 0.0, 1.0))
    tangent = there.tangent(way.sense, there.by_gone)
    amiss = _size(correction)
    at_end = where(passed, _ONWARD, _ONWARD_AT_END)
    near = _CORRECTED * far + where(passed, _PASSED, _EXACT)
    straight = sum(map(_product, tangent, at.tangent)) >= _STRAIGHT
    good = (
        (tangent[3] > where(last, at_end, _ONWARD) * amiss)
        & where(at.look, True, straight & (amiss <= near))
        # Whether the end itself is allowed, beside which this is, is seen with its pose.
        & where(passed, True, way.allows(there))
    )

    now = _moved(guess, correction, 1.0)
    per_length = ratio(1.0, length, 0.0)
    turning = _moved(tangent, at.tangent, -1.0)
    turning = tuple(part * per_length for part in turning)
    # The way turns back where its rate comes to nothing. One step goes nearly there.
    room = where(turning[3] < 0.0, ratio(-tangent[3], turning[3], LONGEST), 2.0 * LONGEST)
    longest = where(_OF_ROOM * room < LONGEST, _OF_ROOM * room, LONGEST)
    longer = where(2.0 * far < longest, 2.0 * far, longest)
    # Where it did turn back, nearly to there; else half as far, but to just before a missed end.
    back = _OF_ROOM * ratio(ahead, ahead - tangent[3], 0.5)
    shorter = where(tangent[3] > 0.0, where(last, _OF_ROOM, 0.5), back) * far
    step = where(at.look, at.step, where(good, longer, shorter))

    beyond = way.whole - now[3] > _HOPELESS * room * tangent[3]
    hopeless = (room < _NEAR) & beyond
    # Before a step is given up as too short, the tangent is taken at the place itself.
    look = where(at.look, False, where(good, False, where(at.seen, False, True)))
    going = where(
        good,
        where(last | hopeless, False, (now[3] > way.whole) | (_OF_ROOM * room > SHORTEST)),
        look | (step > SHORTEST),
    )
    kept = _chosen(good, turning, at.turning)
    return Place(
        _chosen(good, now, before),
        _chosen(good, tangent, at.tangent),
        _chosen(at.look, at.turning, kept),
        step,
        free=where(at.look, at.free, where(good, False, last)),
        seen=where(at.look, amiss <= _SEEN, where(good, False, at.seen)),
        look=look,
        going=where(at.look, good, going),
    )


def _settled(way, place):
    """The `Pose` at the end of a way from near there; NaN throughout where there is none."""
    now, held = place.four, Vec(0.0, 0.0, 0.0)
    for _ in range(_ROUNDS):
        now = _moved(now, way.lying(*now).correction(held), 1.0)
    there = way.lying(*now)
    good = (
        (there.misses.dot(there.misses) <= TOLERANCE * TOLERANCE)
        & (there.determinant() * way.sense > 0.0)
        & way.allows(there)
    )
    return there.pose(where(good, 0.0, NAN))


def _moved(place, way, length):
    """Four numbers, moved by a length along a way."""
    return tuple(map(lambda at, along: at + length * along, place, way))


def _chosen(condition, if_true, if_false):
    return tuple(map(lambda one, other: where(condition, one, other), if_true, if_false))


def _product(a, b):
    return a * b


def _size(way):
    return sqrt(sum(part * part for part in way))
