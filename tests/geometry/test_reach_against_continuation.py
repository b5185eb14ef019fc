"""Poses and limits held to the arc-length continuation of the constraints, corner by corner.

CORNERBOOK_MANY=2000 tries so many corners of a kind, by hand.
"""

import functools
import math
import os
import re

import numpy as np
import pytest
from cornerbook.cells.corner import Corner
from cornerbook.cells.reach import closes, limit_of_rack, limit_of_travel, why_not

from tests.authorities.reach_by_continuation import Ways, follow
from tests.support.corners import POINTS, Corners, random_corners
from tests.support.sampling import TRAVEL, random_poses

COUNT = int(os.environ.get("CORNERBOOK_MANY", 12))
EACH = 4
"""Poses tried of each corner."""

FAR = 1000.0
"""In mm: a travel and a rack that no such corner reaches."""

NEAR = 1e-6
"""Of the way to a limit, on either side of it: there the angles still differ by some 0.05 degrees
between the two assemblies that meet, as by the square root of it, well above any rounding."""

ROUNDING = 1e-7
"""In mm: a pose is given if it misses its height by less than 1e-10 of the upright's length."""

SAME = 1e-8
"""Of a limit: both sides know the end of the way by its square, so to nearly all digits."""

SENTENCE = re.compile(r"(?:the arms end at|the linkage closes only to) (\S+?)(?: at travel .*)?$")

WAYS = [(FAR, 0.0), (-FAR, 0.0), (0.0, FAR), (0.0, -FAR)]


def moved_about(seed, n):
    """Plausible corners with every point but the wheel's moved by up to 45 mm each way."""
    corners = random_corners(seed, n)
    draw = np.random.default_rng(seed)
    for name in POINTS[1:]:
        corners.points[name] = corners.points[name] + draw.uniform(-45.0, 45.0, (n, 3))
    return corners


def short_armed(seed, n):
    """Plausible corners with arms and rod of a third of their length, whose ends come early."""
    corners = random_corners(seed, n)
    points = dict(corners.points)
    for arm in ("lower", "upper"):
        front, rear = (points[f"{arm} {end} pickup"] for end in ("front", "rear"))
        inward = 2.0 / 3.0 * (points[f"{arm} ball joint"] - 0.5 * (front + rear))
        points[f"{arm} front pickup"], points[f"{arm} rear pickup"] = front + inward, rear + inward
    rod = points["tie rod outer"] - points["tie rod inner"]
    points["tie rod inner"] = points["tie rod inner"] + 2.0 / 3.0 * rod
    return Corners(points, corners.values)


MAKERS = {
    "plausible": lambda: random_corners(11, COUNT),
    "moved about": lambda: moved_about(12, COUNT),
    "short-armed": lambda: short_armed(13, COUNT),
    "wild": lambda: random_corners(14, COUNT, True),
}

KINDS = [pytest.param(make(), id=kind.replace(" ", "-")) for kind, make in MAKERS.items()]


def repeated(corners, each):
    """Every corner so many times, one after the other."""
    return Corners(
        {name: np.repeat(at, each, axis=0) for name, at in corners.points.items()},
        {name: np.repeat(value, each) for name, value in corners.values.items()},
    )


def copies(corners, count):
    """All corners so many times, one lot after the other: followed at once they cost less."""
    return Corners(
        {name: np.tile(at, (count, 1)) for name, at in corners.points.items()},
        {name: np.tile(value, count) for name, value in corners.values.items()},
    )


def onward(corners, unknown, start, end):
    """`Followed` from what was found at a (travel, rack) to another one."""
    ways = Ways(corners, *end, start=start)
    unknown = unknown.copy()
    unknown[:, 9] = 0.0
    return follow(ways, unknown)


def limits(corners, ways):
    """How far each corner goes on some ways, in travel or rack, to its true limit: (ways, n)."""
    ends = np.repeat(ways, corners.count, axis=0)
    found = follow(Ways(copies(corners, len(ways)), *ends.T))
    assert not found.reached.any()
    return (found.share * ends.sum(axis=1)).reshape(len(ways), -1)


@functools.cache
def _all_limits(corners):
    return limits(corners, WAYS)


def gone(corners, way):
    """`limits` of one of `WAYS`: (n,)."""
    return _all_limits(corners)[WAYS.index(way)]


def told(said):
    """The limit that a sentence gives."""
    return float(SENTENCE.search(said).group(1))


def assert_told(said, limit):
    """The sentence gives the limit to six digits, and none that lies beyond it."""
    short = (limit - told(said)) * math.copysign(1.0, limit)
    assert -SAME * abs(limit) <= short <= 1.001e-5 * abs(limit), (said, limit)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("corners", KINDS)
def test_what_is_within_the_limit_is_reached_and_the_sentence_gives_it(corners, way):
    limits = gone(corners, way)
    # A corner may be drawn at its end: a part of so little is less than a rounding.
    farther = limits * (1.0 + NEAR) + np.copysign(ROUNDING, limits)
    within, beyond = ([travel, 0.0 * limits] for travel in (limits * (1.0 - NEAR), farther))
    if not way[0]:
        within, beyond = within[::-1], beyond[::-1]
    many = corners.linkages()
    for pose, reached in ((within, True), (beyond, False)):
        found = many.pose(*(number[:, None] for number in pose)).wheel_centre.z[:, 0]
        assert np.array_equal(np.isfinite(found), np.full(corners.count, reached))
    for number, limit in enumerate(limits.tolist()):
        corner = Corner(corners.rows(number))
        assert closes(corner, *(float(each[number]) for each in within)), number
        past = tuple(float(each[number]) for each in beyond)
        assert not closes(corner, *past), number
        # However far is asked, the limit is the same; what is asked is told from it.
        for asked in (way, past):
            said = why_not(corner, *asked)
            assert said.startswith("travel " if way[0] else "rack "), said
            assert_told(said, limit)
            assert f" {told(said)!r} " not in said.split(":")[0] + " "
        shown = (told(why_not(corner, *way)), 0.0)
        assert closes(corner, *(shown if way[0] else shown[::-1])), number


# Of some hundreds of corners these took the most: their paths wind, or pass close by an end before
# the limit. Of the last two, the one all but turns back at 0.71 of its limit.
HARD = [
    (moved_about, 42, 400, 276, (FAR, 0.0)),
    (moved_about, 41, 400, 216, (-FAR, 0.0)),
    (short_armed, 42, 400, 206, (-FAR, 0.0)),
    (short_armed, 42, 400, 334, (-FAR, 0.0)),
    (short_armed, 43, 400, 278, (-FAR, 0.0)),
    (random_corners, 43, 400, 140, (-FAR, 0.0)),
    (moved_about, 12, 1000, 315, (-FAR, 0.0)),
    (moved_about, 103, 1000, 91, (FAR, 0.0)),
]


@pytest.mark.parametrize("make, seed, count, number, way", HARD)
def test_a_corner_hard_to_follow_is_followed_up_to_the_limit(make, seed, count, number, way):
    corners = make(seed, count).part(slice(number, number + 1))
    limit = float(limits(corners, [way])[0, 0])
    shares = np.concatenate([np.linspace(0.0, 0.99, 34), 1.0 - 10.0 ** np.arange(-3.0, -8.0, -1.0)])
    travel = limit * shares
    assert np.isfinite(corners.linkages().pose(travel, 0.0).wheel_centre.z).all()
    linkage = corners.linkage(0)
    for one in travel.tolist():
        assert math.isfinite(linkage.pose(one, 0.0).wheel_centre.z), one
    assert not math.isfinite(linkage.pose(limit * (1.0 + NEAR), 0.0).wheel_centre.z)


@pytest.mark.parametrize("of_travel", [True, False], ids=["of travel", "of rack"])
@pytest.mark.parametrize("corners", KINDS)
def test_the_limit_is_that_for_the_rack_or_the_travel_that_was_asked(corners, of_travel):
    """At a third of the way to the end of the one, the limit of the other one there."""
    n = corners.count
    none, far = np.zeros(n), np.full(n, FAR)
    held = gone(corners, (0.0, FAR) if of_travel else (FAR, 0.0)) / 3.0
    start, end = ((none, held), (far, held)) if of_travel else ((held, none), (held, far))
    first = follow(Ways(corners, *start))
    assert first.reached.all()
    ends = onward(corners, first.unknown, start, end).share * FAR
    straight = gone(corners, (FAR, 0.0) if of_travel else (0.0, FAR))
    assert np.max(np.abs(ends - straight)) > 1.0  # else it would not tell the two apart
    for number, (at, limit) in enumerate(zip(held.tolist(), ends.tolist(), strict=True)):
        corner = Corner(corners.rows(number))
        if of_travel:
            assert limit_of_travel(corner, FAR, at) == pytest.approx(limit, rel=SAME), number
            said = why_not(corner, FAR, at)
            assert f"cannot be reached at rack {at:.6g}: the arms end at " in said, said
            assert_told(said, limit)
            continue
        assert limit_of_rack(corner, at, FAR) == pytest.approx(limit, rel=SAME), number
        said = why_not(corner, at, -FAR, opposite=True)
        # The travel is said to be out of reach only where this rack is none by itself.
        assert not closes(corner, 0.0, FAR)
        assert said.startswith(f"rack {-FAR:g} is past lock") and f"at travel {at:.6g}" in said
        assert -told(said) == pytest.approx(limit, rel=1.001e-5)


@pytest.mark.parametrize("corners", KINDS)
def test_both_out_of_reach_are_both_said(corners):
    travels, racks = gone(corners, (-FAR, 0.0)), gone(corners, (0.0, FAR))
    for number, (travel, rack) in enumerate(zip(travels.tolist(), racks.tolist(), strict=True)):
        said = why_not(Corner(corners.rows(number)), -FAR, FAR)
        of_rack, of_travel = said.split("; and ")
        assert of_rack.startswith("rack 1000 is past lock")
        assert of_travel.startswith("travel -1000 cannot be reached")
        assert_told(of_rack, rack)
        assert_told(of_travel, travel)


def by_any_way(corners, travel, rack):
    """What leads to each place, by `follow`: straight, or round either corner.

    Returns (whether reached (n,), the `Followed.points` there (n, 3, 3), spindles (n, 3)).
    """
    none, n = 0.0 * travel, corners.count
    first = follow(
        Ways(
            copies(corners, 3),
            np.concatenate([travel, travel, none]),
            np.concatenate([rack, none, rack]),
        )
    )
    round_corners = np.concatenate([travel, none]), np.concatenate([none, rack])
    there = np.tile(travel, 2), np.tile(rack, 2)
    last = onward(copies(corners, 2), first.unknown[n:], round_corners, there)
    reached, points, spindle = first.reached[:n], first.points[:n], first.spindle[:n]
    leads = first.reached[n:] & last.reached
    for lot in (slice(n), slice(n, None)):
        new = leads[lot] & ~reached
        points = np.where(new[:, None, None], last.points[lot], points)
        spindle = np.where(new[:, None], last.spindle[lot], spindle)
        reached = reached | new
    return reached, points, spindle


def tried_poses(corners, seed):
    """Travels and racks (n,): some at random, some that come close to where a way ends."""
    travel, rack = random_poses(seed, corners, EACH)
    # Most of these lie within reach. Twice as far, the ways end before them.
    many = repeated(corners, EACH)
    ways = Ways(many, 4.0 * travel.ravel(), 3.0 * rack.ravel())
    share = follow(ways).share
    draw = np.random.default_rng(seed)
    close = share * (1.0 + draw.choice([-1.0, 1.0], share.size) * 10.0 ** draw.uniform(-5, -2))
    at_random = np.arange(share.size) % 2 == 0
    return many, *(
        np.where(at_random, factor * number.ravel(), far * close * number.ravel())
        for number, factor, far in ((travel, 1.5, 4.0), (rack, 1.0, 3.0))
    )


@pytest.mark.parametrize("corners", KINDS)
def test_a_pose_is_given_if_and_only_if_some_way_leads_there(corners):
    many, travel, rack = tried_poses(corners, 21)
    reached, points, spindle = by_any_way(many, travel, rack)
    assert 0.2 < reached.mean() < 0.95  # both must be seen
    assert np.abs(travel).max() > TRAVEL
    pose = many.linkages().pose(travel[:, None], rack[:, None])
    arrays = {
        name: np.stack([component[:, 0] for component in getattr(pose, name)], axis=-1)
        for name in ("lower", "upper", "tie_outer", "spindle")
    }
    assert np.array_equal(np.isfinite(arrays["spindle"]).all(axis=1), reached)
    # Near an end places lie by the square root of what is missed: 1e-10 of the upright's height.
    for joint, name in enumerate(("lower", "upper", "tie_outer")):
        off = np.abs(arrays[name] - points[:, joint])[reached]
        assert off.max() < 1e-2, name
        assert np.median(off) < 1e-9, name
    assert np.abs(arrays["spindle"] - spindle)[reached].max() < 1e-4
    for number in range(many.count):
        one = many.linkage(number).pose(float(travel[number]), float(rack[number]))
        assert math.isfinite(one.spindle.y) == reached[number], number
        if reached[number]:
            for name, array in arrays.items():
                assert tuple(getattr(one, name)) == pytest.approx(array[number], abs=1e-2), name
