"""A damper unlike in bump and rebound: each way's damping ratio in a body's swings, integrated."""

import math

import pytest
from cornerbook.catalogue import call
from scipy.integrate import solve_ivp

RATE, LOAD, GRAVITY, RATIO = 10.4, 500.0, 9806.65, 0.706
BUMP, REBOUND = 1.35, 2.2


def extremes():
    """Heights at which the body turns round after it was let go high, the tyre rigid."""
    mass = LOAD / GRAVITY

    def moves(time, state):
        height, speed = state
        # Down is bump: the damper is shortened.
        damper = (BUMP if speed < 0.0 else REBOUND) * RATIO**2
        return speed, -(RATE * height + damper * speed) / mass

    def turns(time, state):
        return state[1]

    run = solve_ivp(moves, (0.0, 1.2), (20.0, 0.0), events=turns, rtol=1e-10, atol=1e-12)
    places = zip(run.t_events[0], run.y_events[0], strict=True)
    return [20.0, *(state[0] for time, state in places if time > 1e-3)]


def test_each_half_swing_loses_by_its_own_damping_ratio():
    found = extremes()
    for way, before, after in ((BUMP, *found[:2]), (REBOUND, *found[1:3])):
        share = call("DAMPING_RATIO", way, RATIO, RATE, LOAD, GRAVITY)
        kept = math.exp(-math.pi * share / math.sqrt(1.0 - share**2))
        assert -after / before == pytest.approx(kept, rel=1e-6)
