"""Both wheels under a rolled body, jacking and dive: against statics apart, and limits."""

import math

import numpy as np
import pytest
from cornerbook.catalogue import call
from scipy.optimize import brentq, minimize

from tests.authorities import road_by_scipy
from tests.authorities.closure_by_scipy import Closure
from tests.authorities.jacking_by_bars import across_heading, vertical_beside
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.support.corners import random_corners

CORNERS = random_corners(61, 3)
# The linkage solved apart closes to some 1e-9 mm.
NEAR = 1e-6


@pytest.mark.parametrize("i", range(CORNERS.count))
@pytest.mark.parametrize("side", ["left", "right"])
def test_jacking_is_the_load_that_the_links_ask_for_beside_a_side_force(i, side):
    rows, sign = CORNERS.rows(i), {"left": 1.0, "right": -1.0}[side]
    wheel = road_by_scipy.OnRoad(CORNERS.one(i), 1.5, -6.0, 22.0, right=side == "right")
    force = sign * -800.0 * across_heading(wheel.measured)
    lift = vertical_beside(wheel.measured, wheel.inner, force)
    found = call("JACKING_FORCE", rows, side, -800.0, 1.5, -6.0, 22.0)
    assert found == pytest.approx(lift, rel=NEAR, abs=1e-3)


def test_jacking_of_a_roll_centre_is_the_force_times_its_slope():
    # No steer, no roll: force times height of the roll centre over half the track.
    rows = tuple(
        (row[0], 0.0, "", "") if row[0] == "Static toe" else row for row in CORNERS.rows(1)
    )
    slope = call("ROLL_CENTRE", rows) / (0.5 * call("TRACK_IN_ROLL", rows, 0.0))
    outer = call("JACKING_FORCE", rows, "right", -700.0, 0.0)
    assert outer == pytest.approx(700.0 * slope)
    # Forces alike and opposite on both wheels leave nothing; an outboard force pulls down.
    assert call("JACKING_FORCE", rows, "left", 700.0, 0.0) == pytest.approx(-outer)


def test_level_parallel_arms_do_not_jack():
    level = {
        "Wheel centre": (0.0, 560.0, 260.0), "Tyre radius": (260.0, "", ""),
        "Static camber": (0.0, "", ""), "Static toe": (0.0, "", ""),
        "Lower ball joint": (0.0, 520.0, 150.0), "Upper ball joint": (0.0, 500.0, 380.0),
        "Lower front pickup": (120.0, 220.0, 150.0), "Lower rear pickup": (-120.0, 220.0, 150.0),
        "Upper front pickup": (120.0, 200.0, 380.0), "Upper rear pickup": (-120.0, 200.0, 380.0),
        "Tie rod outer": (-90.0, 510.0, 200.0), "Tie rod inner": (-90.0, 210.0, 200.0),
    }  # fmt: skip
    rows = tuple((name, *cells) for name, cells in level.items())
    assert call("JACKING_FORCE", rows, "left", 900.0, 0.0) == pytest.approx(0.0, abs=1e-9)


def test_a_level_body_at_rest_is_the_corner_as_drawn():
    rows = CORNERS.rows(2)
    given = (-50.0, 300.0, 900.0)
    there = call("STEERING_MOMENT_IN_ROLL", rows, "right", *given, 0.0)
    assert there == pytest.approx(call("STEERING_MOMENT", rows, *given))
    assert call("STEER_IN_ROLL", rows, "left", 0.0) == -call("TOE", rows)
    both = (there, -0.4 * there)
    assert call("RACK_FORCE_IN_ROLL", rows, *both, 0.0) == pytest.approx(
        call("RACK_FORCE", rows, *both)
    )


def test_left_and_right_steer_alike_to_the_other_side():
    rows = CORNERS.rows(0)
    one = call("ACKERMANN_IN_ROLL", rows, 1600.0, 2.0, -4.0, 25.0)
    other = call("ACKERMANN_IN_ROLL", rows, 1600.0, -2.0, -4.0, -25.0)
    assert one == pytest.approx(other)


def test_a_sink_is_where_the_energy_is_least():
    # One wheel: its spring under what the links leave, its tyre under all of half the load.
    load, anti, spring, tyre = 500.0, 30.0, 15.0, 110.0

    def energy(moved):
        held = anti / 100.0 * 0.5 * load
        stored = 0.5 * spring * moved[0] ** 2 + 0.5 * tyre * moved[1] ** 2
        return stored - 0.5 * load * (moved[0] + moved[1]) + held * moved[0]

    least = minimize(energy, [0.0, 0.0], method="BFGS", options={"gtol": 1e-9}).x
    assert call("AXLE_SINK", load, anti, spring, tyre) == pytest.approx(least.sum(), rel=1e-6)
    # All of it held by the links, or none of the axle sprung: the tyres are left.
    tyres = 0.5 * load / tyre
    assert call("AXLE_SINK", load, 100.0, spring, tyre) == pytest.approx(tyres)
    assert call("AXLE_SINK", load, 0.0, 0.0, tyre) == pytest.approx(tyres)


def test_dive_on_the_true_path_is_what_virtual_work_gives():
    """A braked front axle, its springs at each wheel centre: the way closed by SciPy."""
    one, rows = CORNERS.one(0), CORNERS.rows(0)
    closure = Closure(one)
    wheelbase, height, share, braking, rate = 1600.0, 320.0, 0.65, 1600.0, 14.0
    load = braking * height / wheelbase

    def measured(travel):
        return Measured(one, *closure.solve(travel, 0.0))

    def slope(travel):
        # Forward movement of the contact as a point of the upright, for each unit of its rise.
        step = 0.01
        now = measured(travel)
        ends = [measured(travel + way) for way in (step, -step)]
        arm = now.turned.inv().apply(now.contact_centre - now.centre)
        up, down = (end.centre + end.turned.apply(arm) for end in ends)
        return (up[0] - down[0]) / (up[2] - down[2])

    def left_over(travel):
        return rate * travel - 0.5 * (load - share * braking * slope(travel))

    truly = brentq(left_over, -60.0, 80.0, xtol=1e-6)
    guess = truly  # the formula's anti-dive is taken half way there
    for _ in range(3):
        anti = call("ANTI_DIVE", rows, wheelbase, height, share, guess)
        guess = (1.0 - anti / 100.0) * load / (2.0 * rate)
    assert guess == pytest.approx(truly, rel=1e-3)
    stiff = 1e12
    assert call("AXLE_SINK", load, anti, rate, stiff) == pytest.approx(truly, rel=1e-3)


def test_pitch_is_small_sinks_over_the_wheelbase():
    assert math.radians(call("PITCH_ANGLE", 3.0, -1.0, 1600.0)) == pytest.approx(0.0025, rel=1e-5)
    assert call("PITCH_ANGLE", -2.0, 1.0, 1600.0) < 0.0


def test_camber_thrust_points_where_the_wheel_leans_and_is_none_in_the_air():
    assert call("CAMBER_THRUST", 3.0, 1000.0, 0.01) == pytest.approx(30.0)
    assert call("CAMBER_THRUST", -3.0, -50.0, 0.01) == 0.0
    # A wheel that holds its load by lean alone: the tangent, for a small one.
    lean = np.degrees(np.arctan(0.02))
    assert call("CAMBER_THRUST", lean, 1000.0, math.pi / 180.0) == pytest.approx(20.0, rel=1e-3)
