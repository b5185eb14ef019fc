"""The locked rear axle, against the shaft's speed found by a root finder, and its facts."""

import math

import numpy as np
import pytest
from cornerbook.geometry.car import locked
from scipy.integrate import solve_ivp

from tests.authorities import locked_axle_by_shaft_speed as by_shaft_speed

CARS = 3000


def random_axles(seed, n=CARS, coasting=False):
    """Columns of arguments of `LockedAxle`: N and mm; some with a wheel in the air."""
    draw = np.random.default_rng(seed)
    inner, outer = draw.uniform(-200.0, 1500.0, n), draw.uniform(300.0, 2500.0, n)
    radius = np.exp(draw.uniform(np.log(700.0), np.log(200e3), n))
    friction = draw.uniform(0.3, 1.6, n)
    grip = friction * (inner.clip(0.0) + outer)
    drive = np.zeros(n) if coasting else draw.uniform(-0.98, 0.98, n) * grip
    return np.column_stack(
        [inner, outer, radius, draw.uniform(700.0, 1500.0, n), friction,
         draw.uniform(6.0, 25.0, n), drive]
    )  # fmt: skip


@pytest.mark.parametrize("coasting", [True, False])
def test_forces_and_moment_against_the_shafts_speed(coasting):
    kinds = set()
    for one in random_axles(951, coasting=coasting).tolist():
        axle = locked.LockedAxle(*one)
        theirs = by_shaft_speed.forces(*one)
        size = max(abs(theirs[0]), abs(theirs[1]), 1.0)
        assert (axle.inner, axle.outer) == pytest.approx(theirs, abs=1e-8 * size)
        moment = by_shaft_speed.moment(*one)
        assert axle.moment() == pytest.approx(moment, abs=1e-8 * size * one[3])
        grips = [one[4] * max(load, 0.0) for load in one[:2]]
        kinds.add(tuple(abs(f) > 0.999999 * g for f, g in zip(theirs, grips, strict=True)))
    # Every kind of axle was among them: none slides, the inner, the outer.
    assert kinds >= {(False, False), (True, False)}
    assert coasting or (False, True) in kinds


def test_beside_a_side_force_less_is_left_along_the_car():
    """The friction ellipse, a circle: both forces together on the road, by a root finder."""
    draw = np.random.default_rng(956)
    for one in random_axles(957, 600, coasting=True).tolist():
        lateral = float(draw.uniform(-0.98, 0.98)) * one[4]
        left = locked.friction_along(one[4], lateral)
        drive = float(draw.uniform(-0.9, 0.9)) * locked.most_drive(*one[:2], left)
        axle = locked.LockedAxle(*one[:4], left, one[5], drive)
        theirs = by_shaft_speed.forces(*one[:6], drive, lateral)
        size = max(abs(theirs[0]), abs(theirs[1]), 1.0)
        assert (axle.inner, axle.outer) == pytest.approx(theirs, abs=1e-8 * size)
        for force, load in zip(theirs, one[:2], strict=True):
            grip = one[4] * max(load, 0.0)
            assert math.hypot(force, lateral * max(load, 0.0)) <= grip * (1.0 + 1e-9) + 1e-9
    assert math.isnan(locked.friction_along(0.8, 0.9))


def test_a_coasting_axle_resists_the_turn_and_never_helps_it():
    axles = random_axles(952, coasting=True)
    axle = locked.LockedAxle(*axles.T)
    np.testing.assert_array_equal(axle.inner, -axle.outer)
    assert (axle.moment() >= 0.0).all()
    in_the_air = axles[:, 0] <= 0.0
    assert in_the_air.sum() > 100
    assert (axle.moment()[in_the_air] == 0.0).all()
    assert (axle.moment()[~in_the_air] > 0.0).all()
    # At most the lighter wheel's grip, at both ends of the track.
    most = axles[:, 4] * axles[:, :2].min(axis=1).clip(0.0) * axles[:, 3]
    assert (axle.moment() <= most * (1.0 + 1e-12)).all()


def _moments(column, factor):
    """(moments, with one argument scaled) of many coasting axles."""
    axles = random_axles(953, coasting=True)
    axles = axles[axles[:, 0] > 0.0]
    changed = axles.copy()
    changed[:, column] *= factor
    return locked.LockedAxle(*axles.T).moment(), locked.LockedAxle(*changed.T).moment(), axles


@pytest.mark.parametrize(
    "what, column, factor",
    [("a narrower track", 3, 0.9), ("a lighter inner wheel", 0, 0.5), ("a wider turn", 2, 1.5),
     ("less friction", 4, 0.8), ("softer tyres", 5, 0.7)],
)  # fmt: skip
def test_what_never_gives_more_moment(what, column, factor):
    before, after, axles = _moments(column, factor)
    if what == "a lighter inner wheel":
        # Lighter than the outer one to begin with, as it is in a turn.
        before, after = before[axles[:, 0] < axles[:, 1]], after[axles[:, 0] < axles[:, 1]]
    assert (after <= before * (1.0 + 1e-12)).all()
    assert (after < before * (1.0 - 1e-6)).sum() > 100


def test_below_sliding_the_moment_goes_with_the_square_of_the_track():
    """Half the slip and half the arm: a quarter."""
    wide = locked.LockedAxle(700.0, 900.0, 40e3, 1200.0, 1.2, 12.0, 0.0)
    narrow = locked.LockedAxle(700.0, 900.0, 40e3, 600.0, 1.2, 12.0, 0.0)
    assert wide.inner < 0.5 * 1.2 * 700.0
    assert narrow.moment() == pytest.approx(0.25 * wide.moment(), rel=1e-12)


def test_it_fades_as_the_inner_wheel_lifts():
    loads = np.linspace(600.0, -50.0, 40)
    moments = locked.LockedAxle(loads, 1800.0 - loads, 4000.0, 1080.0, 1.1, 12.0, 0.0).moment()
    assert (np.diff(moments[loads > 0.0]) < 0.0).all()
    assert (moments[loads <= 0.0] == 0.0).all()


def test_a_wheel_in_the_air_leaves_the_drive_to_the_other():
    axle = locked.LockedAxle(-80.0, 1900.0, 4000.0, 1080.0, 1.1, 12.0, 300.0)
    assert (axle.inner, axle.outer) == (0.0, 300.0)
    # Then the drive turns the car into the turn.
    assert axle.moment() == -0.5 * 1080.0 * 300.0


def test_without_a_turn_each_wheel_drives_by_its_load():
    axle = locked.LockedAxle(600.0, 1200.0, 1e15, 1080.0, 1.1, 12.0, 900.0)
    assert (axle.inner, axle.outer) == pytest.approx((300.0, 600.0))


def test_a_drive_past_both_grips_is_none():
    for drive, fine in ((2089.9, True), (2090.1, False), (-2090.1, False)):
        axle = locked.LockedAxle(650.0, 1250.0, 5000.0, 1080.0, 1.1, 12.0, drive)
        assert math.isfinite(axle.inner) == math.isfinite(axle.moment()) == fine


def test_the_radius_to_slide_is_where_the_lighter_wheel_slides():
    compared = 0
    for one in random_axles(954, 400, coasting=True).tolist():
        inner, outer, _, track, friction, stiffness, _ = one
        if inner < 20.0:
            continue
        ours = locked.radius_to_slide(inner, outer, track, friction, stiffness)
        theirs = by_shaft_speed.radius_to_slide(inner, outer, track, friction, stiffness)
        assert ours == pytest.approx(theirs, rel=1e-7)
        grip = friction * min(inner, outer)
        tighter = by_shaft_speed.forces(inner, outer, 0.99 * ours, track, friction, stiffness)
        wider = by_shaft_speed.forces(inner, outer, 1.01 * ours, track, friction, stiffness)
        assert abs(tighter[0]) == pytest.approx(grip, rel=1e-9)
        assert abs(wider[0]) < 0.995 * grip
        compared += 1
    assert compared > 250
    assert math.isnan(locked.radius_to_slide(0.0, -5.0, 1080.0, 1.1, 12.0))


def _steer_for(radius, moment, length, front, rear):
    """Steer that holds a car of two wheels on a circle, by letting it drive until it settles.

    The linear car of one track (Milliken & Milliken 1995, from memory) in its steady turn to
    the left, the moment against it: the yaw rate for each steer is found by integration.
    """
    mass, inertia, speed, ahead = 0.4, 2.0e5, 6000.0, 0.55 * length

    def settled(steer):
        def change(_, state):
            sideways, yaw = state
            front_slip = math.degrees((sideways + ahead * yaw) / speed) - steer
            rear_slip = math.degrees((sideways - (length - ahead) * yaw) / speed)
            by_front, by_rear = -front * front_slip, -rear * rear_slip
            turn = ahead * by_front - (length - ahead) * by_rear - moment
            return [(by_front + by_rear) / mass - speed * yaw, turn / inertia]

        run = solve_ivp(change, (0.0, 40.0), [0.0, 0.0], method="LSODA", rtol=1e-11, atol=1e-12)
        return run.y[1, -1]

    # Yaw rate is linear in steer.
    one, other = settled(1.0), settled(3.0)
    return 1.0 + 2.0 * (speed / radius - one) / (other - one)


@pytest.mark.parametrize("rear", [420.0, 300.0])
def test_extra_steer_holds_a_car_on_its_circle(rear):
    length, front, moment, radius = 1600.0, 300.0, 297e3, 20e3
    free = _steer_for(radius, 0.0, length, front, rear)
    held = _steer_for(radius, moment, length, front, rear)
    assert held - free == pytest.approx(locked.extra_steer(moment, length, front, rear), rel=1e-6)
    assert held > free
    # The front tyres' part alone is less.
    assert locked.extra_steer(moment, length, front, 0.0) < 0.8 * (held - free)


def test_a_longer_wheelbase_asks_for_less():
    assert locked.front_force(297e3, 1600.0) == 185.625
    assert locked.front_force(297e3, 1800.0) < locked.front_force(297e3, 1600.0)
    short, long = (locked.extra_steer(297e3, w, 300.0, 420.0) for w in (1600.0, 1800.0))
    assert long < short


def test_arrays_agree_with_floats():
    axles = random_axles(955, 300)
    axles[::7, 6] = 1e6  # more drive than grip
    many = locked.LockedAxle(*axles.T)
    slide = locked.radius_to_slide(*axles[:, [0, 1, 3, 4, 5]].T)
    for i, one in enumerate(axles.tolist()):
        axle = locked.LockedAxle(*one)
        theirs = (many.inner[i], many.outer[i], many.moment()[i], slide[i])
        radius = locked.radius_to_slide(one[0], one[1], *one[3:6])
        assert theirs == pytest.approx(
            (axle.inner, axle.outer, axle.moment(), radius), rel=1e-12, nan_ok=True
        )
    assert np.isnan(many.inner[::7]).all()
