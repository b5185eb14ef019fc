"""The steered axle: Ackermann percentage, ideal outer angle, turning radius, symmetry."""

import math

import numpy as np
import pytest
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.front_axle.axle import Axle
from cornerbook.geometry.vec import Vec

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.turn_of_two_wheels import Turn, outer_by_cotangents
from tests.support.corners import random_corners

TRACK, WHEELBASE = 1120.0, 1580.0


def _upright(toe, y=0.5 * TRACK):
    """A pose with an upright wheel at x = 0, its toe in degrees."""
    return Pose(
        lower=Vec(0.0, y - 50.0, 150.0), upper=Vec(-10.0, y - 70.0, 370.0),
        tie_outer=None, tie_inner=None,
        wheel_centre=Vec(0.0, y, 260.0), spindle=spindle_of(0.0, toe), radius=260.0,
    )  # fmt: skip


def _axle(inner, outer, to_left=True):
    """An axle whose wheels are turned by these angles."""
    # A left wheel turned left toes out; the mirrored right-hand wheel toes in.
    left, right = (-inner, outer) if to_left else (outer, -inner)
    return Axle(_upright(left), _upright(right), -WHEELBASE)


@pytest.mark.parametrize("to_left", [True, False])
@pytest.mark.parametrize("inner", [0.2, 5.0, 18.0, 35.0, 44.0])
def test_an_axle_that_keeps_the_ackermann_relation_has_100_percent(inner, to_left):
    outer = float(outer_by_cotangents(inner, TRACK, WHEELBASE))
    axle = _axle(inner, outer, to_left)
    assert axle.ideal_outer() == pytest.approx(outer, rel=1e-11)
    assert axle.ackermann() == pytest.approx(100.0, abs=1e-7)
    # One turn centre, on the rear axle line, for both normals.
    aside = WHEELBASE / math.tan(math.radians(outer))
    assert axle.turning_radius() == pytest.approx(math.hypot(aside, WHEELBASE), rel=1e-11)


@pytest.mark.parametrize("to_left", [True, False])
def test_parallel_steer_has_0_percent(to_left):
    assert _axle(20.0, 20.0, to_left).ackermann() == pytest.approx(0.0, abs=1e-10)


def test_an_inner_wheel_that_turns_less_has_a_negative_percentage():
    assert _axle(20.0, 21.0).ackermann() < -10.0


def test_signs_of_steer():
    to_left = _axle(20.0, 17.0)
    assert (to_left.steer_left, to_left.steer_right) == pytest.approx((20.0, 17.0))
    to_right = _axle(20.0, 17.0, to_left=False)
    assert (to_right.steer_left, to_right.steer_right) == pytest.approx((-17.0, -20.0))


def test_straight_ahead_has_no_inner_wheel():
    axle = _axle(0.0, 0.0)
    assert axle.steer_left == axle.steer_right == 0.0
    assert math.isnan(axle.ackermann())
    assert math.isnan(axle.ideal_outer())
    assert math.isnan(axle.turning_radius())


def test_wheels_turned_to_opposite_sides_have_no_inner_wheel():
    """Static toe does this near straight ahead; the normals then meet nowhere that means a turn."""
    axle = Axle(_upright(-0.4), _upright(-0.1), -WHEELBASE)
    assert (axle.steer_left, axle.steer_right) == pytest.approx((0.4, -0.1))
    assert math.isnan(axle.ackermann())
    assert math.isnan(axle.ideal_outer())
    assert math.isnan(axle.turning_radius())


@pytest.fixture(scope="module")
def racked():
    """(axle, our poses, SciPy's measures of the left wheel and of the mirrored right one)."""
    corners = random_corners(801, 120)
    share = np.random.default_rng(802).uniform(-0.5, 0.5, 120)
    racks = share * corners.lever()
    found = []
    for i, rack in enumerate(racks.tolist()):
        one, linkage = corners.one(i), corners.linkage(i)
        left, right = linkage.pose(0.0, rack), linkage.pose(0.0, -rack)
        axle = Axle(left, right, one["wheel centre"][0] - WHEELBASE)
        # The right-hand wheel as it is: mirrored points and the same rack, to the left.
        mirrored = {n: at * [1, -1, 1] if np.ndim(at) else at for n, at in one.items()}
        mirrored["static camber"] = -one["static camber"]
        mirrored["static toe"] = -one["static toe"]
        theirs = (
            Measured(one, *Closure(one).solve(0.0, rack)),
            Measured(mirrored, *Closure(mirrored).solve(0.0, rack)),
        )
        found.append((axle, one, theirs))
    return found


def _turn(one, theirs):
    left, right = theirs
    return Turn(
        left.contact_centre[:2], right.contact_centre[:2], -left.toe, -right.toe,
        one["wheel centre"][0] - WHEELBASE,
    )  # fmt: skip


def test_steer_angles_of_both_wheels(racked):
    for axle, _, (left, right) in racked:
        assert axle.steer_left == pytest.approx(-left.toe, abs=1e-9)
        assert axle.steer_right == pytest.approx(-right.toe, abs=1e-9)


def test_against_plane_geometry(racked):
    compared = 0
    for axle, one, theirs in racked:
        if min(abs(theirs[0].toe), abs(theirs[1].toe)) < 2.0:
            continue  # nearly straight: the static toe decides, and the radius is anything
        turn = _turn(one, theirs)
        assert axle.inner == pytest.approx(turn.inner, abs=1e-9)
        assert axle.outer == pytest.approx(turn.outer, abs=1e-9)
        assert axle.ideal_outer() == pytest.approx(turn.ideal_outer, abs=1e-9)
        assert axle.ackermann() == pytest.approx(turn.percentage, rel=1e-7, abs=1e-6)
        assert axle.turning_radius() == pytest.approx(turn.radius, rel=1e-9)
        compared += 1
    assert compared > 90


def test_the_other_way_round_left_and_right_change_places():
    corners = random_corners(803, 100)
    linkages, rear = corners.linkages(), corners.points["wheel centre"][:, :1] - WHEELBASE
    rack = np.random.default_rng(804).uniform(10.0, 40.0, (100, 1))
    one = Axle(linkages.pose(5.0, rack), linkages.pose(5.0, -rack), rear)
    other = Axle(linkages.pose(5.0, -rack), linkages.pose(5.0, rack), rear)
    np.testing.assert_array_equal(other.steer_left, -one.steer_right)
    np.testing.assert_array_equal(other.steer_right, -one.steer_left)
    np.testing.assert_allclose(other.ackermann(), one.ackermann(), rtol=1e-12)
    np.testing.assert_allclose(other.turning_radius(), one.turning_radius(), rtol=1e-12)


def test_arrays_agree_with_floats():
    corners = random_corners(805, 1)
    linkage = corners.linkage(0)
    rear = float(corners.points["wheel centre"][0, 0]) - WHEELBASE
    racks = np.linspace(-30.0, 30.0, 9)
    many = Axle(linkage.pose(0.0, racks), linkage.pose(0.0, -racks), rear)
    for i, rack in enumerate(racks.tolist()):
        one = Axle(linkage.pose(0.0, rack), linkage.pose(0.0, -rack), rear)
        for name in ("ackermann", "ideal_outer", "turning_radius"):
            assert getattr(many, name)()[i] == pytest.approx(
                getattr(one, name)(), rel=1e-9, nan_ok=True
            )
