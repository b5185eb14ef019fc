"""Turning at a crawl: swept circles and forced slip, against velocities about the turn centre."""

import math

import numpy as np
import pytest
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.front_axle import turning
from cornerbook.geometry.front_axle.axle import Axle
from cornerbook.geometry.vec import Vec

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.crawl_of_two_wheels import Crawl
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.turn_of_two_wheels import outer_by_cotangents
from tests.support.corners import random_corners

TRACK, WHEELBASE = 1120.0, 1580.0
both_ways = pytest.mark.parametrize("to_left", [True, False])


def _upright(toe):
    """A pose with an upright wheel at x = 0, its toe in degrees."""
    y = 0.5 * TRACK
    return Pose(
        lower=Vec(0.0, y - 50.0, 150.0), upper=Vec(-10.0, y - 70.0, 370.0),
        tie_outer=None, tie_inner=None,
        wheel_centre=Vec(0.0, y, 260.0), spindle=spindle_of(0.0, toe), radius=260.0,
    )  # fmt: skip


def _axle(inner, outer, to_left=True):
    """An axle whose wheels are turned by these angles."""
    left, right = (-inner, outer) if to_left else (outer, -inner)
    return Axle(_upright(left), _upright(right), -WHEELBASE)


def _crawl(inner, outer, to_left=True):
    """The same by the authority."""
    steers = (inner, outer) if to_left else (-outer, -inner)
    return Crawl([0.0, 0.5 * TRACK], [0.0, -0.5 * TRACK], *steers, -WHEELBASE)


@both_ways
@pytest.mark.parametrize("inner", [0.2, 5.0, 18.0, 35.0, 44.0])
def test_at_100_percent_ackermann_no_wheel_slips(inner, to_left):
    outer = float(outer_by_cotangents(inner, TRACK, WHEELBASE))
    axle = _axle(inner, outer, to_left)
    assert turning.slip_angles(axle) == pytest.approx((0.0, 0.0), abs=1e-10)
    # The middle of the front axle steers by the angle of a car with one wheel (Gillespie 1992,
    # from memory: tan = wheelbase / radius), whose cotangent is the mean of both.
    mean = 0.5 * sum(1.0 / math.tan(math.radians(angle)) for angle in (inner, outer))
    assert axle.mid_rear_radius() == pytest.approx(WHEELBASE * mean, rel=1e-11)


@both_ways
def test_parallel_wheels_push_against_each_other(to_left):
    """Parallel steer: the inner wheel turns too little, the outer one too much for the circle.

    So the inner one is pushed out of the turn and the outer one into it: the tyres push against
    each other, which is what Ackermann steering avoids.
    """
    axle, crawl = _axle(20.0, 20.0, to_left), _crawl(20.0, 20.0, to_left)
    left, right = turning.slip_angles(axle)
    inner, outer = (left, right) if to_left else (right, left)
    into = 1.0 if to_left else -1.0
    # Slip and force are of opposite signs (ISO 8855).
    assert -inner * into < -0.5
    assert -outer * into > 0.5
    for side, slip in (("left", left), ("right", right)):
        assert np.sign(crawl.lateral_force(side)[1]) == -np.sign(slip)


@both_ways
def test_wheels_that_open_more_than_the_relation_slip_the_other_way(to_left):
    outer = float(outer_by_cotangents(30.0, TRACK, WHEELBASE))
    slips = [turning.slip_angles(_axle(30.0, outer + more, to_left)) for more in (-2.0, 0.0, 2.0)]
    for side in (0, 1):
        assert slips[0][side] * slips[2][side] < 0.0
        assert abs(slips[1][side]) < 1e-9


def test_random_angles_against_velocities():
    draw = np.random.default_rng(941)
    compared = 0
    for _ in range(400):
        inner, outer = draw.uniform(2.0, 45.0), draw.uniform(2.0, 40.0)
        to_left = bool(draw.integers(2))
        axle, crawl = _axle(inner, outer, to_left), _crawl(inner, outer, to_left)
        if abs(inner - outer) > 15.0 or crawl.mid_rear_radius() < 0.6 * TRACK:
            continue
        slips = turning.slip_angles(axle)
        assert slips == pytest.approx((crawl.slip("left"), crawl.slip("right")), abs=1e-9)
        assert axle.mid_rear_radius() == pytest.approx(crawl.mid_rear_radius(), rel=1e-9)
        compared += 1
    assert compared > 200


@pytest.fixture(scope="module")
def racked():
    """(axle, the authority's car) of random linkages, each wheel closed by SciPy."""
    corners = random_corners(942, 80)
    share = np.random.default_rng(943).uniform(-0.5, 0.5, 80)
    racks = share * corners.lever()
    found = []
    for i, rack in enumerate(racks.tolist()):
        one, linkage = corners.one(i), corners.linkage(i)
        rear = one["wheel centre"][0] - WHEELBASE
        axle = Axle(linkage.pose(0.0, rack), linkage.pose(0.0, -rack), rear)
        mirrored = {n: at * [1, -1, 1] if np.ndim(at) else -at for n, at in one.items()}
        mirrored["tyre radius"] = one["tyre radius"]
        left, right = (Measured(c, *Closure(c).solve(0.0, rack)) for c in (one, mirrored))
        if min(abs(left.toe), abs(right.toe)) < 2.0:
            continue  # nearly straight: the static toe decides
        ends = left.contact_centre[:2], right.contact_centre[:2]
        crawl = Crawl(*ends, -left.toe, -right.toe, rear)
        crawl.tyres = [(m.centre, m.spindle, one["tyre radius"]) for m in (left, right)]
        found.append((axle, crawl))
    assert len(found) > 60
    return found


def test_linkages_against_velocities(racked):
    for axle, crawl in racked:
        slips = turning.slip_angles(axle)
        assert slips == pytest.approx((crawl.slip("left"), crawl.slip("right")), abs=1e-7)
        assert axle.mid_rear_radius() == pytest.approx(crawl.mid_rear_radius(), rel=1e-9)
        path = crawl.outer_wheel_radius()
        assert turning.kerb_to_kerb(axle, 0.0) == pytest.approx(2.0 * path, rel=1e-9)
    kinds = set()
    for axle, crawl in racked[:30]:
        for width in (0.0, 165.0):
            tyre = crawl.tyre_radius(crawl.tyres, width)
            assert turning.tyre_sweep(axle, width) == pytest.approx(tyre, rel=1e-9)
            for overhang, half_width in ((700.0, 420.0), (-200.0, 300.0), (100.0, 650.0)):
                body = crawl.body_radius(WHEELBASE + overhang, half_width)
                ours = turning.wall_to_wall(axle, WHEELBASE, overhang, half_width, width)
                assert ours == pytest.approx(2.0 * max(body, tyre), rel=1e-9)
                kinds.add(body > tyre)
    assert kinds == {True, False}


def test_the_turn_centre_is_that_of_the_turning_radius(racked):
    """Pythagoras from the middle of the rear axle to the outer wheel: one centre for both."""
    for axle, _ in racked:
        aside = axle.mid_rear_radius() + axle.outer_aside
        assert math.hypot(aside, axle.outer_ahead) == pytest.approx(axle.turning_radius())


def test_circles_grow_with_what_sticks_out():
    axle = _axle(25.0, 21.0)
    path = 2.0 * axle.turning_radius()
    assert turning.kerb_to_kerb(axle, 165.0) == path + 165.0
    # A narrow body that ends at the axle line sweeps less than the tyres do.
    tyre = turning.wall_to_wall(axle, WHEELBASE, 0.0, 250.0, 165.0)
    assert path + 165.0 < tyre < path + 165.0 + 60.0
    long, longer = (turning.wall_to_wall(axle, WHEELBASE, o, 600.0, 165.0) for o in (600.0, 900.0))
    assert tyre < long < longer
    assert turning.wall_to_wall(axle, WHEELBASE, 600.0, 700.0, 165.0) > long


def test_straight_ahead_there_is_none_of_it():
    axle = _axle(0.0, 0.0)
    found = [
        axle.mid_rear_radius(), turning.kerb_to_kerb(axle, 165.0),
        turning.wall_to_wall(axle, WHEELBASE, 600.0, 300.0, 165.0), *turning.slip_angles(axle),
    ]  # fmt: skip
    assert np.isnan(found).all()


def test_the_other_way_round_left_and_right_change_places():
    corners = random_corners(944, 60)
    linkages, rear = corners.linkages(), corners.points["wheel centre"][:, :1] - WHEELBASE
    rack = np.random.default_rng(945).uniform(12.0, 40.0, (60, 1))
    one = Axle(linkages.pose(5.0, rack), linkages.pose(5.0, -rack), rear)
    other = Axle(linkages.pose(5.0, -rack), linkages.pose(5.0, rack), rear)
    (left, right), (other_left, other_right) = map(turning.slip_angles, (one, other))
    np.testing.assert_allclose(other_left, -right, rtol=1e-12)
    np.testing.assert_allclose(other_right, -left, rtol=1e-12)
    assert np.isfinite(left).sum() > 50


def test_arrays_agree_with_floats():
    corners = random_corners(946, 1)
    linkage = corners.linkage(0)
    rear = float(corners.points["wheel centre"][0, 0]) - WHEELBASE
    racks = np.linspace(-30.0, 30.0, 9)

    def all_of(axle):
        walls = turning.wall_to_wall(axle, WHEELBASE, 250.0, 400.0, 165.0)
        return [axle.mid_rear_radius(), turning.kerb_to_kerb(axle, 150.0), walls,
                *turning.slip_angles(axle)]  # fmt: skip

    many = all_of(Axle(linkage.pose(0.0, racks), linkage.pose(0.0, -racks), rear))
    for i, rack in enumerate(racks.tolist()):
        one = all_of(Axle(linkage.pose(0.0, rack), linkage.pose(0.0, -rack), rear))
        assert [m[i] for m in many] == pytest.approx(one, rel=1e-8, nan_ok=True)
