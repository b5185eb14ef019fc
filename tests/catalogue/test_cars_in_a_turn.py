"""Random cars in a turn, and random axles, against statics and velocities solved apart."""

import numpy as np
import pytest
from cornerbook.catalogue import call

from tests.authorities.car_by_statics import Statics
from tests.authorities.solid_axle_by_velocities import height_held_by_rod, yaw_per_roll

WHEELS = [(axle, side) for axle in ("front", "rear") for side in ("left", "right")]


def random_car(draw):
    """weight, cg height, front share, roll centres, roll stiffnesses, tracks: as declared."""
    return tuple(
        float(draw.uniform(low, high))
        for low, high in (
            (1500, 5000), (220, 450), (0.35, 0.6), (-20, 90), (-10, 120),
            (1.5e5, 4e5), (3e5, 2e6), (950, 1300), (900, 1250),
        )
    )  # fmt: skip


def test_wheel_loads():
    compared = 0
    for seed in range(60):
        draw = np.random.default_rng(seed)
        car = random_car(draw)
        statics = Statics(*car)
        try:
            lifts = statics.lifts()
        except ValueError:
            continue  # a car so soft that it falls over before the wheel lifts
        ours = [call("LIFT_ACCELERATION", axle, *car) for axle in ("front", "rear")]
        assert ours == pytest.approx(list(lifts), rel=1e-6)
        lateral = float(draw.uniform(-0.9, 0.9)) * min(lifts)
        loads = [call("WHEEL_LOAD", *wheel, lateral, *car) for wheel in WHEELS]
        assert loads == pytest.approx(list(statics.loads(lateral)), rel=1e-9, abs=1e-6)
        assert sum(loads) == pytest.approx(car[0])
        # Turned the other way, the sides change places.
        mirrored = [call("WHEEL_LOAD", *wheel, -lateral, *car) for wheel in WHEELS]
        assert mirrored == pytest.approx([loads[1], loads[0], loads[3], loads[2]])
        compared += 1
    assert compared > 35


@pytest.mark.parametrize("seed", range(10))
def test_a_car_that_lifts_a_wheel_is_told(seed):
    car = random_car(np.random.default_rng(100 + seed))
    first = min(call("LIFT_ACCELERATION", axle, *car) for axle in ("front", "rear"))
    assert call("TURN_CHECK", 0.98 * first, *car) == "ok"
    assert call("TURN_CHECK", 1.02 * first, *car).startswith("# ")


@pytest.mark.parametrize("seed", range(20))
def test_solid_axle(seed):
    draw = np.random.default_rng(200 + seed)
    axle_y, body_y = draw.uniform(200, 500), -draw.uniform(200, 500)
    axle_z, body_z = draw.uniform(150, 350, 2)
    places = [float(v) for v in (axle_y, axle_z, body_y, body_z)]
    want = height_held_by_rod((places[0], places[1]), (places[2], places[3]))
    assert call("PANHARD_ROLL_CENTRE", *places) == pytest.approx(want, rel=1e-9)
    axle_end = [float(v) for v in draw.uniform((-50, 300, 150), (50, 480, 300))]
    body_end = [float(v) for v in draw.uniform((350, 250, 150), (700, 480, 320))]
    centre = float(draw.uniform(50, 250))
    want = yaw_per_roll(axle_end, body_end, centre)
    got = call("ROLL_STEER", *axle_end, *body_end, centre)
    assert got == pytest.approx(float(want), rel=1e-9, abs=1e-12)


def test_wheel_rate_is_the_slope_of_wheel_force():
    from cornerbook.cells.example import EXAMPLE

    def force(travel):
        return call("WHEEL_FORCE", EXAMPLE, 25.0, 256.0, travel)

    for travel in (-20.0, 0.0, 20.0):
        # Five-point differences: the error is of the fourth order.
        h = 0.5
        slope = (8 * (force(travel + h) - force(travel - h))
                 - (force(travel + 2 * h) - force(travel - 2 * h))) / (12 * h)  # fmt: skip
        assert call("WHEEL_RATE", EXAMPLE, 25.0, 256.0, travel) == pytest.approx(slope, rel=1e-7)


def test_spring_limits_and_rest():
    """A car lowered to rest by a heavier load: what droop gains, bump loses."""
    free = call("SPRING_FREE_LENGTH", 228.0, 40.0, 21.0)
    assert call("PRELOAD", free, 228.0, 21.0) == pytest.approx(40.0)
    light, heavy = (
        call("SPRING_LENGTH_AT_REST", free, 40.0, 21.0, load) for load in (600.0, 810.0)
    )
    assert light - heavy == pytest.approx(210.0 / 21.0)
    assert call("SPRING_LENGTH_AT_REST", free, 40.0, 21.0, 10.0) == pytest.approx(228.0)
    for length in (light, heavy):
        droop = call("DROOP_TRAVEL", length, 228.0, 0.7)
        bump = call("BUMP_TRAVEL", length, 160.0, 120.0, 0.7)
        assert droop + bump == pytest.approx((228.0 - 160.0) / 0.7)
