"""Travel by length and by load over a table, against the linkage itself, by work and energy."""

import math

import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE, STROKE
from scipy.integrate import quad
from scipy.optimize import brentq

from tests.authorities.stroke_by_energy import energy
from tests.catalogue.test_bad_input import said

SPRING = (25.0, 256.0)
STOPS = (205.0, 60.0, 235.0, 80.0)


@pytest.fixture(scope="module")
def stroke():
    """Seven rows over the travel of a damper."""
    return tuple(
        (t, call("SPRING_LENGTH", EXAMPLE, t), call("MOTION_RATIO", EXAMPLE, t))
        for t in map(float, range(-36, 37, 12))
    )  # fmt: skip


def force(travel, *stops):
    return call("WHEEL_FORCE", EXAMPLE, *SPRING, travel, 0.0, *stops)


@pytest.mark.parametrize("load", [120.0, 250.0, 700.0, 871.0, 930.0, 1500.0])
def test_a_load_is_held_where_the_linkage_holds_it(stroke, load):
    exact = brentq(lambda t: force(t, *STOPS) - load, -36.0, 36.0, xtol=1e-12)
    assert call("TRAVEL_AT_LOAD", stroke, *SPRING, load, *STOPS) == pytest.approx(exact, abs=2e-4)
    alone = brentq(lambda t: force(t) - 700.0, -36.0, 36.0, xtol=1e-12)
    assert call("TRAVEL_AT_LOAD", stroke, *SPRING, 700.0) == pytest.approx(alone, abs=2e-4)


def test_a_length_is_found_where_the_linkage_has_it(stroke):
    for length in (239.0, 226.1, 205.0, 195.0):
        exact = brentq(lambda t: call("SPRING_LENGTH", EXAMPLE, t) - length, -36.0, 36.0)  # noqa: B023
        found = call("TRAVEL_AT_LENGTH", stroke, length)
        assert found == pytest.approx(exact, abs=5e-5)


def test_the_force_over_the_travel_works_what_spring_and_stops_take_up():
    ends = (-36.0, 36.0)
    touch = [brentq(lambda t: call("SPRING_LENGTH", EXAMPLE, t) - x, *ends) for x in (235.0, 205.0)]  # noqa: B023
    work = quad(lambda t: force(t, *STOPS), *ends, points=touch, epsabs=1e-6)[0]
    held = [energy(call("SPRING_LENGTH", EXAMPLE, t), *SPRING, *STOPS) for t in ends]
    assert work == pytest.approx(held[1] - held[0], rel=1e-9)


def test_a_rate_is_the_slope_of_the_force():
    for travel in (-34.0, 0.0, 30.0):
        near = [force(travel + way, *STOPS) for way in (-1e-4, 1e-4)]
        rate = call("WHEEL_RATE", EXAMPLE, *SPRING, travel, 0.0, *STOPS)
        assert rate == pytest.approx((near[1] - near[0]) / 2e-4, rel=1e-6)


def test_the_wheel_stays_at_the_dampers_longest_under_little_load():
    first = STROKE[0][0]
    assert call("TRAVEL_AT_LOAD", STROKE, *SPRING, 10.0) == first
    assert call("TRAVEL_AT_LOAD", STROKE, *SPRING, -200.0) == first
    assert math.isclose(call("TRAVEL_AT_LENGTH", STROKE, STROKE[-1][1]), STROKE[-1][0])


def test_what_is_wrong_is_said():
    said(call("TRAVEL_AT_LENGTH", STROKE, 250.0), "spring_length", "241.97", "190.01")
    said(call("TRAVEL_AT_LENGTH", STROKE[:1], 240.0), "stroke", "two at least")
    said(call("TRAVEL_AT_LENGTH", (*STROKE, ("", "", "")), 240.0), "stroke", "blank")
    said(call("TRAVEL_AT_LOAD", STROKE, *SPRING, 5000.0), "wheel_load", "stiffer")
    said(call("TRAVEL_AT_LOAD", STROKE, *SPRING, 500.0, 0.0, 60.0), "bump_stop_length", "touches")
    said(call("TRAVEL_AT_LOAD", STROKE, *SPRING, 500.0, 0.0, 0.0, 235.0, -1.0), "droop_stop_rate")
    said(call("WHEEL_FORCE", EXAMPLE, *SPRING, 5.0, 0.0, 0.0, 60.0), "bump_stop_length", "touches")
