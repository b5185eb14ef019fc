"""The drive against interpolation, searches and integrations written apart; closed forms."""

import math

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import GEARS, PULLS, TORQUES
from cornerbook.geometry.car import drive

from tests.authorities import drive_by_scipy as outside
from tests.catalogue.test_bad_input import said

CARS = 200


def rows(pairs):
    return [(float(a), float(b), True) for a, b in pairs]


def random_motor(draw):
    speeds = np.sort(draw.uniform(0, 8000, 9))
    return list(zip(speeds.tolist(), draw.uniform(0, 60, 9).tolist(), strict=True))


def test_lines_between_rows():
    draw = np.random.default_rng(111)
    for _ in range(CARS):
        motor = random_motor(draw)
        for at in draw.uniform(-500, 9000, 10).tolist():
            assert drive.along(rows(motor), at) == pytest.approx(outside.torque(motor, at))
        for at, wanted in motor:
            assert drive.along(rows(motor), at) == pytest.approx(wanted)


def test_blank_rows_are_passed_over():
    motor = rows([(0, 30), (3000, 20), (5000, 0)])
    holed = [motor[0], (0.0, 0.0, False), motor[1], (0.0, 0.0, False), motor[2]]
    for at in np.linspace(0, 5500, 23).tolist():
        assert drive.along(holed, at) == drive.along(motor, at)
    assert drive.top_speed(rows([(0, 5), (10, -5)])) == 5.0
    assert drive.top_speed([(0.0, 5.0, True), (0.0, 0.0, False), (10.0, -5.0, True)]) == 5.0


def test_a_car_that_does_not_get_away_has_no_top_speed():
    """Nothing is left at rest: what its motor would do further up is never come to."""
    for start in (0.0, -3.0):
        climbs = rows([(0, start), (10, 5), (20, -5)])
        assert np.isnan(drive.top_speed(climbs))
        assert np.isnan(drive.top_speed([(0.0, 9.0, False), *climbs]))
    assert drive.top_speed(rows([(0, 1), (10, 5), (20, -5)])) == 15.0


def test_a_drive_without_steps():
    draw = np.random.default_rng(112)
    for _ in range(CARS):
        high, low = np.sort(draw.uniform(0.5, 4, 2)).tolist()
        engages, shifts = np.sort(draw.uniform(1000, 5000, 2)).tolist()
        speed, final, radius = draw.uniform(0, 40e3), draw.uniform(1, 6), draw.uniform(200, 320)
        gear = outside.variable_gear(speed, low, high, shifts, final, radius)
        used, turned = drive.variable(speed, low, high, engages, shifts, final, radius)
        assert used == pytest.approx(gear)
        wanted = max(engages, outside.turns(speed, gear * final, radius))
        assert turned == pytest.approx(wanted)


@pytest.mark.parametrize("driven", ["front", "rear", "both"])
def test_grip_against_a_search(driven):
    draw = np.random.default_rng(113)
    for _ in range(CARS):
        car = (draw.uniform(0.2, 1.6), draw.uniform(150, 700), draw.uniform(0.3, 0.7),
               draw.uniform(1200, 2500), draw.uniform(-15, 15), draw.uniform(0, 0.05))  # fmt: skip
        friction, height, share, wheelbase, slope, rolling = map(float, car)
        found = call("DRIVE_GRIP", driven, friction, 2700.0, height, share, wheelbase, slope,
                     rolling)  # fmt: skip
        assert found == pytest.approx(2700.0 * outside.most_force(driven, *map(float, car)))


@pytest.mark.parametrize("driven", ["front", "rear", "both"])
def test_the_steepest_start_against_a_search(driven):
    draw = np.random.default_rng(114)
    for _ in range(CARS):
        car = (draw.uniform(0.2, 1.6), draw.uniform(150, 700), draw.uniform(0.3, 0.7),
               draw.uniform(1200, 2500), draw.uniform(0, 0.05))  # fmt: skip
        pull = float(draw.uniform(0.05, 1.3))
        found = call("STEEPEST_START", pull * 2700.0, driven, float(car[0]), 2700.0,
                     *map(float, car[1:]))  # fmt: skip
        assert found == pytest.approx(outside.steepest(pull, driven, *map(float, car)), abs=1e-9)


def test_time_and_way_against_integration():
    draw = np.random.default_rng(115)
    for _ in range(CARS):
        speeds = np.concatenate([[0.0], np.sort(draw.uniform(1, 40, 8))])
        spare = draw.uniform(50, 2000, 9)
        if draw.random() < 0.3:
            # Nearly even, where the closed form would lose its digits.
            spare = spare[0] * (1.0 + draw.uniform(-0.02, 0.02, 9))
        pairs = list(zip(speeds.tolist(), spare.tolist(), strict=True))
        speed = float(draw.uniform(0.5, speeds[-1]))
        found = drive.time_and_way(rows(pairs), 280.0, speed)
        assert list(found) == pytest.approx(outside.to_speed(pairs, speed, 280.0), rel=1e-9)


def test_an_even_pull_in_closed_form():
    """v over a, and v squared over 2 a."""
    time, way = drive.time_and_way(rows([(0, 560), (30, 560)]), 280.0, 20.0)
    assert time == pytest.approx(10.0, rel=1e-14)
    assert way == pytest.approx(100.0, rel=1e-14)


def test_a_pull_that_dies_away_in_closed_form():
    """F (1 - v / top): a time that grows as the logarithm of what is left."""
    time, _ = drive.time_and_way(rows([(0, 560), (40, 0)]), 280.0, 39.9)
    assert time == pytest.approx(40.0 / 2.0 * math.log(40.0 / 0.1), rel=1e-10)


def test_both_axles_use_all_the_friction_until_the_front_lifts():
    assert call("DRIVE_GRIP", "both", 0.8, 1000.0, 300.0, 0.5, 1600.0) == pytest.approx(800.0)
    # Half the weight times wheelbase over height: what lifts it, whatever the friction.
    for driven in ("rear", "both"):
        found = call("DRIVE_GRIP", driven, 9.0, 1000.0, 800.0, 0.5, 1600.0)
        assert found == pytest.approx(1000.0)
    assert call("DRIVE_GRIP", "front", 0.8, 1000.0, 300.0, 0.5, 1600.0) < 400.0


def test_floats_and_arrays():
    speeds = np.linspace(0.0, 30e3, 13)
    motor, gears = rows([r for r in TORQUES if r[0] != ""]), [(2.8, True), (1.0, True)]
    many = drive.best_gear(motor, gears, speeds, 3.0, 260.0)
    for i, speed in enumerate(speeds.tolist()):
        one = drive.best_gear(motor, gears, speed, 3.0, 260.0)
        assert [many[0][i], many[1][i]] == pytest.approx(list(one))
    pulls = rows([r for r in PULLS if r[0] != ""])
    times = drive.time_and_way(pulls, 280.0, speeds)[0]
    for one, speed in zip(times.tolist(), speeds.tolist(), strict=True):
        assert one == pytest.approx(drive.time_and_way(pulls, 280.0, speed)[0], nan_ok=True)


def test_what_cannot_be_is_said():
    back = ((2000.0, 30.0), (1000.0, 20.0))
    motor = (9000.0, GEARS, 3.0, 260.0)
    said(call("DRIVE_FORCE", back, *motor), "the motor speed of row 2 is 1000", "above the last")
    said(call("DRIVE_FORCE", ((2000.0, 30.0),) * 2, *motor), "row 2 is 2000", "not above the one")
    said(call("DRIVE_FORCE", ((2000.0, -1.0),), *motor), "the torque of row 1 is -1")
    said(call("DRIVE_FORCE", ((2000.0, ""),), *motor), "the torque of row 1 is missing")
    said(call("DRIVE_FORCE", (("", 20.0),), *motor), "the motor speed of row 1 is missing")
    said(call("DRIVE_FORCE", TORQUES, 9000.0, ((0.0,),), 3.0, 260.0), "the ratio of row 1 is 0")
    said(call("DRIVE_FORCE", TORQUES, 9000.0, (("",),), 3.0, 260.0), "gears", "no row has a number")
    said(call("DRIVE_FORCE", TORQUES, -1.0, GEARS, 3.0, 260.0), "road_speed", "not below 0")
    said(call("DRIVE_FORCE", TORQUES, *motor, 1.2), "efficiency", "at most 1")
    said(call("VARIABLE_MOTOR_SPEED", 9e3, 0.8, 3.0, 1500.0, 3200.0, 3.0, 260.0), "high_ratio")
    said(call("VARIABLE_MOTOR_SPEED", 9e3, 3.0, 0.8, 3300.0, 3200.0, 3.0, 260.0), "engages")
    said(call("TOP_SPEED", PULLS[:-1]), "still speeds up at 20000", "higher speeds")
    said(call("TOP_SPEED", ((0.0, -5.0), (9.0, -6.0))), "does not get away")
    car = (2700.0, 9806.65)
    said(call("TIME_TO_SPEED", PULLS, 26000.0, *car), "the rows end before the speed 26000")
    said(call("DISTANCE_TO_SPEED", PULLS, 22000.0, *car), "22000 is not reached")
    said(call("TIME_TO_SPEED", PULLS, 20000.0, *car, 0.9), "mass_factor", "not below 1")
    said(call("ROAD_LOAD", 9.0, 2700.0, 0.02, -1.0), "drag", "0 or more")
    said(call("ROAD_LOAD", 9.0, 2700.0, 1.0, 0.1), "rolling", "from 0 to below 1")
