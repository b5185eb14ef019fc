"""Legs and arms against SciPy's closure, over drawn persons and places."""

import numpy as np
import pytest
from cornerbook.geometry.driver import posture
from cornerbook.geometry.vec import Vec

from tests.authorities import posture_by_scipy as by_scipy

LEG = (431.0, 433.0, 268.0, 69.0, -900.0, 170.0, -150.0, 90.0, -80.0, 230.0)


def leg_of(thigh, shank, foot, ankle_height, *places):
    points = [Vec(places[i], 0.0, places[i + 1]) for i in (0, 2, 4)]
    return posture.Leg(thigh, shank, foot, ankle_height, *points)


def drawn_legs(count):
    draw = np.random.default_rng(11)
    for _ in range(count):
        yield tuple(float(n) for n in np.array(LEG) * draw.uniform(0.93, 1.07, len(LEG)))


def test_knee_and_angles_are_those_of_bones_closed_by_scipy():
    seen = 0
    for numbers in drawn_legs(60):
        leg, other = leg_of(*numbers), by_scipy.Leg(*numbers)
        assert (leg.spare() >= 0.0) == other.closed
        if not other.closed:
            assert leg.knee.x != leg.knee.x
            continue
        assert (leg.knee.x, leg.knee.z) == pytest.approx(tuple(other.knee), abs=1e-7)
        for joint, angle in (("hip", leg.hip_angle(32.0)), ("knee", leg.knee_angle()),
                             ("ankle", leg.ankle_angle())):  # fmt: skip
            assert angle == pytest.approx(other.angle(joint, 32.0), abs=1e-8)
        seen += 1
    assert seen > 40


def test_a_shift_for_an_angle_gives_that_angle():
    for numbers in drawn_legs(40):
        leg = leg_of(*numbers)
        for angle, shift, of in (
            (101.0, leg.shift_for_hip(101.0, 38.0), lambda moved: moved.hip_angle(38.0)),
            (118.0, leg.shift_for_knee(118.0), lambda moved: moved.knee_angle()),
            (95.0, leg.shift_for_ankle(95.0), lambda moved: moved.ankle_angle()),
        ):
            there = leg_of(*by_scipy.moved(numbers, shift))
            assert of(there) == pytest.approx(angle, abs=1e-7)


def test_an_angle_never_had_is_taken_at_the_straight_leg():
    leg = leg_of(*LEG)
    straight = leg.shift_for_knee(180.0)
    for beyond in (125.0, 140.0, 175.0):
        assert leg.shift_for_hip(beyond, 30.0) == pytest.approx(straight, abs=1e-6)


def test_the_elbow_hangs_lowest_and_keeps_both_bones():
    draw = np.random.default_rng(5)
    for _ in range(30):
        shoulder = np.array([-1150.0, 180.0, 610.0]) + draw.uniform(-40, 40, 3)
        hand = np.array([-650.0, 130.0, 500.0]) + draw.uniform(-60, 60, 3)
        out = float(draw.uniform(-40, 60))
        found = posture.elbow(327.0, 352.0, Vec(*shoulder.tolist()), Vec(*hand.tolist()), out)
        assert np.linalg.norm(np.array(list(found)) - shoulder) == pytest.approx(327.0, abs=1e-9)
        assert np.linalg.norm(np.array(list(found)) - hand) == pytest.approx(352.0, abs=1e-9)
        other = by_scipy.Arm(327.0, 352.0, shoulder, hand, out).elbow
        assert tuple(found) == pytest.approx(tuple(other), abs=1e-4)


def test_a_hand_over_the_lock_is_as_far_as_a_search_finds():
    draw = np.random.default_rng(6)
    for _ in range(12):
        tilt, hold, turned = (float(draw.uniform(*r)) for r in ((-5, 50), (30, 110), (5, 300)))
        point = np.array([-1150.0, 180.0, 610.0]) + draw.uniform(-60, 60, 3)
        rim = posture.Rim(Vec(-650.0, 4.0, 500.0), tilt, 130.0)
        for end in ("least", "most"):
            found = rim.reach(Vec(*point.tolist()), hold, turned, end == "most")
            wanted = by_scipy.rim_distance(
                end, point, (-650.0, 4.0, 500.0), tilt, 130.0, hold, turned
            )
            assert found == pytest.approx(wanted, abs=1e-6)
