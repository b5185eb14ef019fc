"""Rod, rocker and spring, against mpmath, MuJoCo, energy, plain statics, and limits."""

import math

import mpmath
import numpy as np
import pytest
from cornerbook.geometry.corner import motion

from tests.authorities.actuation_by_mpmath import Actuated, NotClosed
from tests.authorities.actuation_by_mujoco import ActuatedBodies
from tests.authorities.forces_in_a_corner import force_at_the_wheel
from tests.support.actuations import actuation_of, random_actuation
from tests.support.corners import Corners, random_corners

CORNERS = 40

# Parts of the value, or mm and degrees.
AGREED = 1e-8


@pytest.fixture(scope="module")
def compared():
    """(our `Actuated`, the authority's, travel, rack) of random actuations."""
    draw = np.random.default_rng(71)
    corners = random_corners(72, CORNERS)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points = random_actuation(draw, one)
        travel, rack = float(draw.uniform(-25, 25)), float(draw.uniform(-15, 15))
        theirs = Actuated({**one, **points}, mount)
        try:
            theirs.length_and_ratio(travel, rack)
        except NotClosed:
            continue
        pose = linkage.pose(travel, rack)
        ours = actuation_of(one, linkage, mount, points)
        at = ours.at(linkage, pose, motion.by_travel(linkage, pose))
        if at.spring_length == at.spring_length:
            found.append((at, theirs, travel, rack))
    return found


def test_enough_are_compared(compared):
    assert len(compared) > 0.5 * CORNERS


def test_length_ratio_and_its_change(compared):
    for ours, theirs, travel, rack in compared:
        length, ratio, change = theirs.length_and_ratio(travel, rack)
        assert ours.spring_length == pytest.approx(float(length), rel=AGREED)
        assert ours.motion_ratio == pytest.approx(float(ratio), rel=AGREED, abs=AGREED)
        assert ours.motion_ratio_change == pytest.approx(float(change), rel=1e-6, abs=AGREED)


def test_rocker_angle_and_margins(compared):
    for ours, theirs, travel, rack in compared:
        assert ours.rocker_angle == pytest.approx(theirs.rocker_turn(travel, rack), abs=1e-7)
        margins = (ours.rod_margin, ours.spring_margin)
        assert margins == pytest.approx(theirs.margins(travel, rack), abs=1e-6)


def test_energy_of_the_spring(compared):
    """Force at the wheel is the energy's slope along the travel, the rate its curvature."""
    rate = 25.0
    for ours, theirs, travel, rack in compared:
        free = ours.spring_length + 20.0
        force, curvature = theirs.force_and_rate(rate, free, travel, rack)
        squeeze = rate * (free - ours.spring_length)
        assert squeeze * ours.motion_ratio == pytest.approx(float(force), rel=AGREED, abs=1e-6)
        at_wheel = rate * ours.motion_ratio**2 + squeeze * ours.motion_ratio_change
        assert at_wheel == pytest.approx(float(curvature), rel=1e-6, abs=1e-6)


def test_arrays_agree_with_floats():
    draw = np.random.default_rng(73)
    corners = random_corners(74, 1)
    one, linkage = corners.one(0), corners.linkage(0)
    mount, points = random_actuation(draw, one)
    ours = actuation_of(one, linkage, mount, points)
    travel = np.linspace(-15.0, 15.0, 7)
    pose = linkage.pose(travel, 3.0)
    many = ours.at(linkage, pose, motion.by_travel(linkage, pose))
    for i, t in enumerate(travel.tolist()):
        alone = linkage.pose(t, 3.0)
        single = ours.at(linkage, alone, motion.by_travel(linkage, alone))
        assert many.spring_length[i] == pytest.approx(single.spring_length, rel=1e-12)
        assert many.motion_ratio_change[i] == pytest.approx(single.motion_ratio_change, rel=1e-9)


def cases(seed, n, rocker=True):
    """(corner, linkage, mount, points, actuation) of random cars."""
    draw = np.random.default_rng(seed)
    corners = random_corners(seed + 1, n)
    for i in range(n):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points = random_actuation(draw, one, rocker)
        yield one, linkage, mount, points, actuation_of(one, linkage, mount, points)


def at(linkage, actuation, travel, rack):
    pose = linkage.pose(travel, rack)
    return actuation.at(linkage, pose, motion.by_travel(linkage, pose))


def test_spring_without_a_rocker():
    compared = 0
    for one, linkage, mount, points, actuation in cases(75, 15, rocker=False):
        travel, rack = 18.0, -9.0
        theirs = Actuated({**one, **points}, mount)
        length, ratio, change = theirs.length_and_ratio(travel, rack)
        ours = at(linkage, actuation, travel, rack)
        assert ours.spring_length == pytest.approx(length, rel=1e-12)
        assert ours.motion_ratio == pytest.approx(ratio, rel=1e-9, abs=1e-11)
        assert ours.motion_ratio_change == pytest.approx(change, rel=1e-8, abs=1e-12)
        assert math.isnan(ours.rocker_angle)
        assert math.isnan(ours.rod_margin)
        # The end's movement by differences: what of it lies along the spring is the ratio.
        step = 1e-4
        low, high = (
            np.array([float(x) for x in theirs.carried(
                "rod outer", mount, theirs.solve(travel + s, rack), mpmath)])
            for s in (-step, step)
        )  # fmt: skip
        speed = np.linalg.norm(high - low) / (2.0 * step)
        assert math.sin(math.radians(ours.spring_margin)) == pytest.approx(ratio / speed, rel=1e-6)
        compared += 1
    assert compared == 15


def test_rigid_body_engine():
    compared = 0
    for one, linkage, mount, points, actuation in cases(77, 40):
        travel, rack = -14.0, 7.0
        bodies = ActuatedBodies({**one, **points}, mount)
        missed = bodies.solve(travel, rack, stages=12)
        ours = at(linkage, actuation, travel, rack)
        # Near over centre, Newton's steps of the engine may leap to the other assembly.
        if not missed < 1e-9 or not ours.rod_margin > 15.0:
            continue
        compared += 1
        assert ours.spring_length == pytest.approx(bodies.spring_length(), abs=1e-8)
        assert ours.motion_ratio == pytest.approx(bodies.motion_ratio(), rel=1e-8, abs=1e-9)
        turned = math.degrees(bodies.rocker_turn())
        assert abs(ours.rocker_angle) == pytest.approx(abs(turned), abs=1e-7)
    assert compared > 20


def test_force_at_the_wheel_by_statics():
    """Equilibrium of rocker, arms and upright, body by body; no velocity is spoken of."""
    compared = 0
    for one, linkage, mount, points, actuation in cases(79, 30):
        found = at(linkage, actuation, 0.0, 0.0)
        theirs = force_at_the_wheel({**one, **points}, mount, spring_force=1000.0)
        assert 1000.0 * found.motion_ratio == pytest.approx(theirs, rel=1e-9, abs=1e-7)
        compared += 1
    assert compared == 30


def changed(one, points, places, values):
    """The corner and its actuation with every place and every value put through a function."""
    corner = {n: places(at) if np.ndim(at) else values(n, at) for n, at in one.items()}
    return corner, {n: places(at) for n, at in points.items()}


def linkage_for(corner):
    points = {n: at[None] for n, at in corner.items() if np.ndim(at)}
    values = {n: np.array([at]) for n, at in corner.items() if not np.ndim(at)}
    return Corners(points, values).linkage(0)


FIELDS = ("motion_ratio", "rocker_angle", "rod_margin", "spring_margin")


def same(one, other, names=FIELDS, scale=1.0):
    for name in names:
        wanted = pytest.approx(getattr(one, name), rel=1e-7, abs=1e-8, nan_ok=True)
        assert getattr(other, name) == wanted, name
    length = pytest.approx(one.spring_length * scale, rel=1e-10, nan_ok=True)
    assert other.spring_length == length
    change = pytest.approx(one.motion_ratio_change / scale, rel=1e-6, abs=1e-9, nan_ok=True)
    assert other.motion_ratio_change == change


def test_a_car_moved_as_a_whole():
    way = np.array([130.0, 0.0, 45.0])
    for one, linkage, mount, points, actuation in cases(81, 10):
        corner, moved = changed(one, points, lambda p: p + way, lambda _, v: v)
        other = linkage_for(corner)
        found = at(other, actuation_of(corner, other, mount, moved), 12.0, 5.0)
        same(at(linkage, actuation, 12.0, 5.0), found)


def test_a_car_mirrored_fore_and_aft():
    """Toe then changes its sign, and all about the spring is as it was."""
    mirror = np.array([-1.0, 1.0, 1.0])
    for one, linkage, mount, points, actuation in cases(83, 10):
        corner, moved = changed(
            one, points, lambda p: p * mirror, lambda n, v: -v if n == "static toe" else v
        )
        other = linkage_for(corner)
        found = at(other, actuation_of(corner, other, mount, moved), 12.0, 5.0)
        same(at(linkage, actuation, 12.0, 5.0), found)


def test_another_unit_of_length():
    for one, linkage, mount, points, actuation in cases(85, 10):
        corner, moved = changed(
            one, points, lambda p: p / 25.4, lambda n, v: v / 25.4 if n == "tyre radius" else v
        )
        other = linkage_for(corner)
        found = at(other, actuation_of(corner, other, mount, moved), 12.0 / 25.4, 5.0 / 25.4)
        same(at(linkage, actuation, 12.0, 5.0), found, scale=1.0 / 25.4)


def test_the_axis_may_be_given_by_either_side():
    """The rocker's axis has no sense of turning: its second point may lie on either side."""
    for one, linkage, mount, points, actuation in cases(87, 10):
        other = dict(points)
        other["rocker axis"] = 2.0 * points["rocker pivot"] - points["rocker axis"]
        turned = actuation_of(one, linkage, mount, other)
        same(at(linkage, actuation, 12.0, 5.0), at(linkage, turned, 12.0, 5.0))


def test_nothing_has_turned_as_drawn():
    for _, linkage, _, points, actuation in cases(89, 10):
        found = at(linkage, actuation, 0.0, 0.0)
        drawn = np.linalg.norm(points["spring frame"] - points["spring rocker"])
        assert found.rocker_angle == pytest.approx(0.0, abs=1e-6)
        assert found.spring_length == pytest.approx(drawn, rel=1e-9)
        assert found.rod_margin > 0.0 and found.spring_margin > 0.0


def test_rod_at_the_end_of_its_reach():
    """The rocker is followed until rod and arm come into line, and from there on it is NaN."""
    ended = 0
    travels = np.linspace(0.0, 60.0, 241)
    for _, linkage, _, _, actuation in cases(91, 40):
        found = at(linkage, actuation, travels, 0.0)
        lost = np.isnan(found.spring_length)
        end = int(lost.argmax()) if lost.any() else len(travels)
        assert (found.rod_margin[:end] > 0.0).all()
        if end == len(travels):
            continue
        last, beyond = (at(linkage, actuation, t, 0.0) for t in travels[end - 1 : end + 1].tolist())
        assert last.rod_margin > 0.0
        assert math.isnan(beyond.spring_length)
        if not math.isnan(linkage.pose(float(travels[end]), 0.0).lower.z):
            # Of the square root's kind: a quarter millimetre before it, some degrees.
            assert last.rod_margin < 12.0
            ended += 1
    assert ended > 3


def test_motion_ratio_passes_nought_where_the_spring_is_over_centre():
    passed = 0
    travels = np.linspace(-50.0, 50.0, 101)
    for _, linkage, _, _, actuation in cases(93, 60):
        many = at(linkage, actuation, travels, 0.0)
        margins = many.spring_margin
        for i in np.flatnonzero(margins[1:] * margins[:-1] < 0.0).tolist():
            before, now = (at(linkage, actuation, t, 0.0) for t in travels[i : i + 2].tolist())
            assert now.spring_margin * before.spring_margin < 0.0
            for ratios in ((before.motion_ratio, now.motion_ratio), many.motion_ratio[i : i + 2]):
                assert ratios[0] * ratios[1] < 0.0
            passed += 1
    assert passed > 3
