"""What builders know of wheels that steer and bump: common practice, no source.

Each fact follows from statics or plain geometry; none is taken on trust by the code.
A left-hand wheel that steers to the left is the inner one of a turn, to the right the outer.
"""

import math

import numpy as np
import pytest
from cornerbook.geometry.corner import motion
from cornerbook.geometry.corner.layout import TurnedWheel
from cornerbook.geometry.corner.linkage import Linkage
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.vec import Vec

RADIUS, OUTBOARD = 262.0, 60.0


@pytest.mark.parametrize("steer", [3.0, 15.0, 35.0])
@pytest.mark.parametrize("caster", [2.0, 6.0, 12.0])
def test_caster_alone_leans_the_wheels_into_the_turn(caster, steer):
    """Common practice, no source."""
    inner = TurnedWheel(steer, caster, 0.0, 0.0)
    outer = TurnedWheel(-steer, caster, 0.0, 0.0)
    assert outer.camber() < 0.0 < inner.camber()
    assert inner.rise(RADIUS, OUTBOARD, 0.0) < 0.0 < outer.rise(RADIUS, OUTBOARD, 0.0)


@pytest.mark.parametrize("caster", [2.0, 6.0, 12.0])
def test_after_a_quarter_turn_the_camber_change_is_the_caster_angle(caster):
    """Common practice, no source."""
    inner = TurnedWheel(90.0, caster, 0.0, 0.0)
    outer = TurnedWheel(-90.0, caster, 0.0, 0.0)
    # A quarter turn about the axis, not about the vertical.
    assert (inner.cosine, inner.sine) == pytest.approx((0.0, 1.0), abs=1e-14)
    assert (outer.cosine, outer.sine) == pytest.approx((0.0, -1.0), abs=1e-14)
    assert inner.camber() == pytest.approx(caster, abs=1e-12)
    assert outer.camber() == pytest.approx(-caster, abs=1e-12)


@pytest.mark.parametrize("steer", [3.0, 15.0, 35.0])
@pytest.mark.parametrize("inclination", [3.0, 9.0, 15.0])
def test_inclination_alone_treats_both_wheels_alike(inclination, steer):
    """Common practice, no source."""
    inner = TurnedWheel(steer, 0.0, inclination, 0.0)
    outer = TurnedWheel(-steer, 0.0, inclination, 0.0)
    assert inner.camber() > 0.0
    assert inner.camber() == pytest.approx(outer.camber(), abs=1e-13)
    # Both go down against the body, so the body is lifted and the car steers itself straight.
    assert inner.rise(RADIUS, OUTBOARD, 0.0) < 0.0
    assert inner.rise(RADIUS, OUTBOARD, 0.0) == pytest.approx(
        outer.rise(RADIUS, OUTBOARD, 0.0), abs=1e-12
    )


@pytest.mark.parametrize("inclination", [3.0, 9.0, 15.0])
@pytest.mark.parametrize("quarter", [90.0, -90.0])
def test_a_spindle_square_to_an_inclined_axis(inclination, quarter):
    """Common practice, no source: camber of minus the inclination, and none at a quarter turn."""
    straight = TurnedWheel(0.0, 0.0, inclination, -inclination)
    assert straight.axis.dot(straight.straight) == pytest.approx(0.0, abs=1e-15)
    assert straight.camber() == pytest.approx(-inclination, abs=1e-12)
    turned = TurnedWheel(quarter, 0.0, inclination, -inclination)
    assert abs(turned.sine) == pytest.approx(1.0, abs=1e-14)
    assert turned.camber() == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("outboard", [20.0, 60.0])
def test_positive_camber_on_an_upright_axis_brings_the_contact_toward_it(outboard):
    """Common practice, no source."""

    def scrub(camber):
        return Pose(
            lower=Vec(0.0, 540.0, 150.0), upper=Vec(0.0, 540.0, 370.0),
            tie_outer=None, tie_inner=None,
            wheel_centre=Vec(0.0, 540.0 + outboard, RADIUS),
            spindle=spindle_of(camber, 0.0), radius=RADIUS,
        ).scrub()  # fmt: skip

    assert scrub(0.0) == pytest.approx(outboard)
    assert 0.0 < scrub(3.0) < scrub(1.0) < outboard < scrub(-1.0)


def _plane_corner(raised, side):
    """A corner that is plane in front view: both arms' axes run fore and aft.

    The tie rod's line passes through the arms' instant centre, but that its inner end is
    raised by this much. side: 1.0 with the rod ahead of the axis, -1.0 behind it.
    """
    lower, upper = np.array([510.0, 150.0]), np.array([478.0, 372.0])
    lower_axis, upper_axis = np.array([215.0, 163.0]), np.array([262.0, 352.0])
    # Front view, (y, z): where the two arms' lines meet.
    way, other = lower - lower_axis, upper - upper_axis
    share = np.linalg.solve(np.column_stack([way, -other]), upper_axis - lower_axis)
    centre = lower_axis + share[0] * way
    outer = np.array([492.0, 190.0])
    inner = outer + 0.16 * (centre - outer)
    x = side * 90.0

    def at(x, place, up=0.0):
        return Vec(x, float(place[0]), float(place[1]) + up)

    return Linkage(
        lower_ball=at(8.0, lower), upper_ball=at(-16.0, upper),
        lower_front=at(120.0, lower_axis), lower_rear=at(-140.0, lower_axis),
        upper_front=at(80.0, upper_axis), upper_rear=at(-120.0, upper_axis),
        tie_outer=at(x, outer), tie_inner=at(x, inner, raised),
        wheel_centre=Vec(0.0, 555.0, 260.0), spindle=spindle_of(-1.0, 0.0), radius=260.0,
    )  # fmt: skip


def _bump_steer(linkage):
    pose = linkage.pose(0.0, 0.0)
    return motion.by_travel(linkage, pose).toe_rate(pose.spindle)


@pytest.mark.parametrize("side", [1.0, -1.0], ids=["ahead", "behind"])
def test_a_tie_rod_aimed_at_the_instant_centre_gives_no_bump_steer(side):
    """Common practice, no source."""
    assert _bump_steer(_plane_corner(0.0, side)) == pytest.approx(0.0, abs=1e-13)


@pytest.mark.parametrize("side", [1.0, -1.0], ids=["ahead", "behind"])
def test_a_tie_rod_aimed_elsewhere_gives_bump_steer(side):
    """Common practice, no source.

    With the inner end too high the rod falls outward: as its outer end rises toward level it
    is pushed outboard, which turns a wheel steered from ahead out, and from behind in.
    """
    high, low = _bump_steer(_plane_corner(8.0, side)), _bump_steer(_plane_corner(-8.0, side))
    assert -side * high > 1e-3
    assert side * low > 1e-3


def test_bump_steer_free_at_first_order_only():
    """Common practice, no source: far from the drawn place some toe change is left."""
    linkage = _plane_corner(0.0, -1.0)
    toe = [linkage.pose(float(travel), 0.0).toe() for travel in (-60, -1, 0, 1, 60)]
    assert abs(toe[3] - toe[1]) < 1e-4
    assert max(abs(toe[0]), abs(toe[4])) > 0.01
    assert not any(map(math.isnan, toe))
