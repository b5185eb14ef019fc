"""Universal joints and columns, against crosses in space, SymPy, and the limits of a joint."""

import math

import numpy as np
import pytest
import sympy
from cornerbook.geometry.steering import shafts
from cornerbook.geometry.vec import Vec

from tests.authorities import crosses_in_space as space

draw = np.random.default_rng(831)
JOINTS = [(float(a), float(b)) for a, b in draw.uniform((-720, -80), (720, 80), (40, 2))]
COLUMNS = [
    tuple(map(float, row))
    for row in draw.uniform((-360, -60, -60, -180), (360, 60, 60, 180), (40, 4))
]


def rad(*angles):
    return [math.radians(angle) for angle in angles]


@pytest.mark.parametrize("angle, bend", JOINTS)
def test_a_joint(angle, bend):
    out = math.degrees(shafts.angle_out(*rad(angle, bend)))
    assert out == pytest.approx(space.angle_out(angle, bend), abs=1e-9)
    assert shafts.speed_ratio(*rad(angle, bend)) == pytest.approx(space.speed_ratio(angle, bend))
    assert math.tan(math.radians(out)) == pytest.approx(
        math.tan(math.radians(angle)) / math.cos(math.radians(bend)), rel=1e-8
    )


def test_speed_is_the_slope_of_the_angle():
    angle, bend = sympy.symbols("angle bend", real=True)
    slope = sympy.diff(sympy.atan(sympy.tan(angle) / sympy.cos(bend)), angle)
    for a, b in JOINTS:
        at = dict(zip((angle, bend), rad(a, b), strict=True))
        assert shafts.speed_ratio(*rad(a, b)) == pytest.approx(float(slope.evalf(30, at)))


@pytest.mark.parametrize("bend", [0.0, 12.0, -35.0, 80.0])
def test_limits_of_the_speed(bend):
    """cos and 1/cos of the bend (Shigley, from memory), at a quarter turn and at nought."""
    cosine = math.cos(math.radians(bend))
    assert shafts.speed_ratio(*rad(0.0, bend)) == pytest.approx(1.0 / cosine)
    assert shafts.speed_ratio(*rad(90.0, bend)) == pytest.approx(cosine)
    assert shafts.ripple(*rad(bend)) == pytest.approx(1.0 / cosine - cosine, abs=1e-15)


def test_whole_turns_are_kept():
    turns = np.radians(np.arange(-4, 5) * 90.0)
    assert shafts.angle_out(turns, np.float64(0.6)) == pytest.approx(turns, abs=1e-12)


@pytest.mark.parametrize("angle, upper, lower, error", COLUMNS)
def test_a_column(angle, upper, lower, error):
    theirs = space.column_speed_ratio(angle, upper, lower, error)
    assert shafts.column_speed_ratio(*rad(angle, upper, lower, error)) == pytest.approx(theirs)
    assert shafts.column_ripple(*rad(upper, lower, error)) == pytest.approx(
        space.column_ripple(upper, lower, error), abs=1e-9
    )


def test_equal_bends_in_phase_cancel():
    for angle, upper, _, _ in COLUMNS:
        ratio = shafts.column_speed_ratio(*rad(angle, upper, upper, 0.0))
        assert ratio == pytest.approx(1.0, abs=1e-14)
        assert shafts.column_ripple(*rad(upper, -upper, 0.0)) == 0.0
        # A quarter turn off, the two add up: the ratio of the one squared.
        cosine2 = math.cos(math.radians(upper)) ** 2
        worst = shafts.column_ripple(*rad(upper, upper, 90.0))
        assert worst == pytest.approx(1.0 / cosine2 - cosine2, abs=1e-12)


LAYOUTS = draw.uniform((5, 5, -180, 5), (50, 50, 180, 20), (30, 4))


@pytest.mark.parametrize("bend, other, plane, ahead", LAYOUTS.tolist())
def test_phase_of_shafts_in_space(bend, other, plane, ahead):
    """With the forks set by the phase the joints cancel as far as their bends let them."""
    ways = space.bent(bend, bend, planes=(ahead, plane))
    phase = math.degrees(shafts.phase(*(Vec(*map(float, way * 3.0)) for way in ways)))
    assert abs(phase) <= 90.0
    assert phase == pytest.approx(space.phase(*ways), abs=1e-9)
    for angle in (0.0, 31.0, 77.0, 140.0):
        assert space.train(ways, phase, angle) == pytest.approx(1.0, abs=1e-12)
    # Bends that differ, and forks set past the phase: the error of the relation, and its sign.
    ways = space.bent(bend, other, planes=(ahead, plane))
    for error in (0.0, 25.0, -40.0):
        for angle in (10.0, 100.0):
            ours = shafts.column_speed_ratio(*rad(angle, bend, other, error))
            assert space.train(ways, phase + error, angle) == pytest.approx(ours, abs=1e-12)


def test_a_shaft_of_positive_phase_is_turned_clockwise_for_the_driver():
    # Seen by one who looks forward, the upper bend lies upright; the lower one's upper side
    # leans to the right.
    ways = [Vec(1.0, 0.0, 0.5), Vec(1.0, 0.0, 0.0), Vec(1.0, -0.2, 0.4)]
    assert math.degrees(shafts.phase(*ways)) == pytest.approx(math.degrees(math.atan(0.5)))


def test_bend_between_shafts():
    for bend in (0.0, 20.0, 89.0, 120.0):
        one, other = (Vec(*map(float, way)) for way in space.bent(bend))
        assert math.degrees(shafts.bend_between(one, other)) == pytest.approx(bend, abs=1e-12)


def test_arrays_agree_with_floats():
    angle, upper, lower, error = np.radians(np.array(COLUMNS)).T
    ratio = shafts.column_speed_ratio(angle, upper, lower, error)
    ripple = shafts.column_ripple(upper, lower, error)
    out = shafts.angle_out(angle, upper)
    for i, row in enumerate(COLUMNS):
        a, u, lo, e = rad(*row)
        assert ratio[i] == pytest.approx(shafts.column_speed_ratio(a, u, lo, e), rel=1e-13)
        assert ripple[i] == pytest.approx(shafts.column_ripple(u, lo, e), rel=1e-12)
        assert out[i] == pytest.approx(shafts.angle_out(a, u), rel=1e-13)
