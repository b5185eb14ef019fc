"""Braking limits against balances solved and searched; relations that must hold."""

import math

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.geometry.car import brakes

from tests.authorities.brakes_by_statics import loads, locks
from tests.catalogue.test_bad_input import said

CARS = 300


def random_cars(seed, turning):
    draw = np.random.default_rng(seed)
    for _ in range(CARS):
        yield (
            float(draw.uniform(0, 1)), float(draw.uniform(0.2, 1.6)),
            float(draw.uniform(150, 500)), float(draw.uniform(0.3, 0.7)),
            float(draw.uniform(1200, 2500)), float(draw.uniform(-15, 15)),
            float(draw.uniform(-1, 1)) if turning else 0.0,
        )  # fmt: skip


@pytest.mark.parametrize("turning", [False, True])
@pytest.mark.parametrize("axle", ["front", "rear"])
def test_against_a_search(axle, turning):
    shown = 0
    for car in random_cars(101 + turning, turning):
        wanted, found = locks(axle, *car), call("BRAKE_LOCK", axle, *car)
        if wanted is None:
            said(found, "slide" if abs(car[-1]) > car[1] * math.cos(math.radians(car[5])) else "")
        else:
            assert found == pytest.approx(wanted, rel=1e-9, abs=1e-9), car
            shown += 1
    assert shown > CARS // 4


def test_the_ideal_share_locks_both_at_once_and_uses_all_friction():
    for _, friction, height, share, wheelbase, _, _ in random_cars(103, False):
        ideal = brakes.ideal_share(friction, height, share, wheelbase)
        if ideal < 1.0:
            car = (ideal, friction, height, share, wheelbase, 0.0, 0.0)
            assert brakes.front_locks(*car) == pytest.approx(friction)
            assert brakes.rear_locks(*car) == pytest.approx(friction)


def test_more_share_in_front_locks_the_front_sooner_and_the_rear_later():
    shares = np.linspace(0.5, 0.95, 10)
    car = (0.9, 320.0, 0.45, 1600.0, 0.0, 0.2)
    assert (np.diff(brakes.front_locks(shares, *car)) < 0).all()
    assert (np.diff(brakes.rear_locks(shares, *car)) > 0).all()


def test_rear_brakes_alone_in_closed_form():
    """mu (1 - f) / (1 + mu h / L), of the axle's load and what it loses."""
    for _, mu, height, share, wheelbase, _, _ in random_cars(104, False):
        wanted = mu * (1 - share) / (1 + mu * height / wheelbase)
        assert brakes.rear_locks(0.0, mu, height, share, wheelbase, 0.0, 0.0) == pytest.approx(
            wanted
        )


def test_without_rear_brakes_the_rear_lifts():
    found = brakes.rear_locks(1.0, 0.9, 500.0, 0.6, 1500.0, 0.0, 0.0)
    assert found == pytest.approx(0.4 * 1500.0 / 500.0)
    assert loads(found, 500.0, 0.6, 1500.0)[1] == pytest.approx(0.0, abs=1e-12)


def test_a_turn_and_a_slope_take_of_it():
    level = call("BRAKE_LOCK", "rear", 0.6, 1.1, 310.0, 0.45, 1580.0)
    assert call("BRAKE_LOCK", "rear", 0.6, 1.1, 310.0, 0.45, 1580.0, 0.0, 0.7) < level
    assert call("BRAKE_LOCK", "rear", 0.6, 1.1, 310.0, 0.45, 1580.0, -8.0) < level
    left = call("BRAKE_LOCK", "rear", 0.6, 1.1, 310.0, 0.45, 1580.0, 0.0, 0.7)
    assert call("BRAKE_LOCK", "rear", 0.6, 1.1, 310.0, 0.45, 1580.0, 0.0, -0.7) == left


def test_floats_and_arrays():
    share = np.linspace(0.0, 1.0, 11)
    car = (0.9, 320.0, 0.45, 1600.0, 0.1, 0.3)
    for find in (brakes.front_locks, brakes.rear_locks):
        many = find(share, *car)
        for one, value in zip(share.tolist(), many.tolist(), strict=True):
            assert find(one, *car) == pytest.approx(value, rel=1e-13, nan_ok=True)


def test_what_cannot_be_is_said():
    car = (1.1, 310.0, 0.45, 1580.0)
    said(call("BRAKE_LOCK", "front", 0.0, *car), "the front axle never locks")
    said(call("BRAKE_LOCK", "front", 0.2, *car), "the front axle never locks")
    said(call("BRAKE_LOCK", "front", 1.0, 1.5, 600.0, 0.7, 1200.0), "rear wheels lift")
    said(call("BRAKE_LOCK", "rear", 0.6, *car, 0.0, 1.2), "slide already at 1.2 g")
    for share in (-0.1, 1.1):
        said(call("BRAKE_LOCK", "rear", share, *car), "brake_share", "from 0 to 1")
    said(call("IDEAL_BRAKE_SHARE", 3.0, 320.0, 0.45, 1600.0), "rear wheels lift before 3 g")
    said(call("STOPPING_DISTANCE", 2e4, 0.8, 9806.65, -1.0), "delay", "0 or more")
    for share in (0.0, -0.5, 1.01):
        said(call("LINE_PRESSURE", 300.0, 5.0, 15.9, share), "bar_share", "at most 1")


def test_pedal_and_brake_force_go_together():
    hydraulics = (5.0, 15.9, 31.8, 2.0, 0.7, 95.0, 262.0, 0.6)
    force = call("BRAKE_FORCE", 250.0, *hydraulics)
    assert call("PEDAL_FORCE", force, *hydraulics) == pytest.approx(250.0)
