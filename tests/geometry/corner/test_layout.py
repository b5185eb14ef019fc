"""Relations between plain numbers, before any pickup is drawn."""

import numpy as np
import pytest
import sympy as sp
from cornerbook.geometry.corner import layout
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.vec import Vec
from scipy.spatial.transform import Rotation

from tests.authorities.turn_by_scipy_rotation import Turned, axis_of
from tests.authorities.turn_of_two_wheels import outer_by_cotangents


def _random_wheels(seed, n):
    draw = np.random.default_rng(seed)
    steer = draw.uniform(-60, 60, n)
    return list(
        zip(
            steer.tolist(),
            draw.uniform(-12, 20, n).tolist(),
            draw.uniform(-5, 25, n).tolist(),
            draw.uniform(-6, 6, n).tolist(),
            strict=True,
        )
    )


@pytest.mark.parametrize("wheel", _random_wheels(701, 200))
def test_turned_wheel_against_scipy_rotation(wheel):
    ours, theirs = layout.TurnedWheel(*wheel), Turned(*wheel)
    assert np.abs(np.array([*ours.axis]) - theirs.axis).max() < 1e-14
    assert theirs.steer == pytest.approx(wheel[0], abs=1e-10)
    assert ours.camber() == pytest.approx(theirs.camber, abs=1e-9)
    turn = np.degrees(np.arctan2(ours.sine, ours.cosine))
    assert turn == pytest.approx(theirs.turn, abs=1e-9)
    assert ours.rise(262.0, 55.0, 7.0) == pytest.approx(theirs.rise(262.0, 55.0, 7.0), abs=1e-8)


def test_turned_vectors_against_scipy_rotation():
    draw = np.random.default_rng(702)
    for wheel in _random_wheels(703, 100):
        ours = layout.TurnedWheel(*wheel)
        angle = np.arctan2(ours.sine, ours.cosine)
        rotation = Rotation.from_rotvec(angle * axis_of(*wheel[1:3]))
        vector = draw.normal(size=3)
        turned = np.array([*ours.turned(Vec(*vector.tolist()))])
        assert np.abs(turned - rotation.apply(vector)).max() < 1e-13


def test_turned_wheel_of_arrays():
    steer = np.linspace(-50.0, 50.0, 11)
    many = layout.TurnedWheel(steer, 6.0, 9.0, -1.0)
    rise = many.rise(262.0, 60.0, 5.0)
    for i, angle in enumerate(steer.tolist()):
        one = layout.TurnedWheel(angle, 6.0, 9.0, -1.0)
        assert many.camber()[i] == pytest.approx(one.camber(), abs=1e-12)
        assert rise[i] == pytest.approx(one.rise(262.0, 60.0, 5.0), abs=1e-12)


def test_a_wheel_that_cannot_reach_the_steer_angle_has_no_camber():
    """A spindle near the axis swings on a narrow cone and never points far to a side."""
    assert np.isnan(layout.TurnedWheel(90.0, 0.0, 50.0, 44.0).camber())
    with pytest.raises(ValueError):
        Turned(90.0, 0.0, 50.0, 44.0)  # the search finds no such turn either


def test_straight_ahead_nothing_changes():
    wheel = layout.TurnedWheel(0.0, 6.0, 9.0, -1.0)
    assert wheel.camber() == pytest.approx(-1.0, abs=1e-13)
    assert wheel.rise(262.0, 60.0, 5.0) == pytest.approx(0.0, abs=1e-12)


def test_trail_and_scrub_from_the_line_where_it_meets_the_ground():
    """SymPy: the axis through a place beside the hub, met with the plane of the ground."""
    caster, inclination, radius, ahead, outboard = sp.symbols("c i r a o", positive=True)
    axis_at_hub = sp.Point3D(-ahead, -outboard, radius)
    direction = [-sp.tan(caster), -sp.tan(inclination), 1]
    axis = sp.Line3D(axis_at_hub, direction_ratio=direction)
    ground = sp.Plane(sp.Point3D(0, 0, 0), normal_vector=(0, 0, 1))
    (met,) = axis.intersection(ground)
    numbers = {caster: 0.11, inclination: 0.17, radius: 262.0, ahead: 5.0, outboard: 60.0}
    place = [float(value.subs(numbers)) for value in met.coordinates]
    assert layout.trail_from_caster(float(np.degrees(0.11)), 262.0, 5.0) == pytest.approx(
        place[0], rel=1e-13
    )
    assert layout.scrub_from_inclination(float(np.degrees(0.17)), 262.0, 60.0) == pytest.approx(
        -place[1], rel=1e-13
    )


def test_trail_and_scrub_are_those_of_a_pose_with_an_upright_wheel():
    axis = axis_of(6.5, 8.0)
    hub = np.array([-5.0, 600.0 - 58.0, 262.0])  # the axis at hub height
    lower, upper = hub - 110.0 * axis, hub + 100.0 * axis
    pose = Pose(
        lower=Vec(*lower.tolist()), upper=Vec(*upper.tolist()), tie_outer=None, tie_inner=None,
        wheel_centre=Vec(0.0, 600.0, 262.0), spindle=spindle_of(0.0, 0.0), radius=262.0,
    )  # fmt: skip
    assert layout.trail_from_caster(pose.caster(), 262.0, 5.0) == pytest.approx(pose.trail())
    assert layout.scrub_from_inclination(pose.inclination(), 262.0, 58.0) == pytest.approx(
        pose.scrub()
    )


@pytest.mark.parametrize("inner", [-44.0, -8.0, 0.5, 12.0, 30.0, 60.0])
def test_ideal_outer_against_the_ackermann_relation(inner):
    ours = layout.ideal_outer(abs(inner), 1120.0, 1580.0)
    theirs = outer_by_cotangents(abs(inner), 1120.0, 1580.0)
    assert ours == pytest.approx(theirs, rel=1e-12)
    assert ours < abs(inner)


@pytest.mark.parametrize("inner", [-75.0, -44.0, -8.0, -0.5, 12.0, 60.0])
def test_ideal_outer_of_a_turn_to_the_right_is_the_mirror(inner):
    ours = layout.ideal_outer(inner, 1120.0, 1580.0)
    theirs = outer_by_cotangents(abs(inner), 1120.0, 1580.0)
    assert ours == pytest.approx(np.copysign(theirs, inner), rel=1e-12)


def test_ideal_outer_of_arrays():
    inner = np.linspace(-80.0, 80.0, 33)
    one_by_one = [layout.ideal_outer(angle, 1120.0, 1580.0) for angle in inner.tolist()]
    np.testing.assert_allclose(layout.ideal_outer(inner, 1120.0, 1580.0), one_by_one, rtol=1e-15)


def test_ideal_outer_of_no_turn_is_none():
    assert layout.ideal_outer(0.0, 1120.0, 1580.0) == 0.0
