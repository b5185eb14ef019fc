"""The car in a turn, against the free bodies' equilibrium, exact balances and limits."""

import numpy as np
import pytest
from cornerbook.geometry.car import turn
from scipy.optimize import brentq

from tests.authorities.car_by_statics import Statics

CARS = 60


def random_cars(seed, n, soft=False):
    """Arguments of `Statics` for cars of a tonne or less: mm, N, N mm per degree."""
    draw = np.random.default_rng(seed)
    share = draw.uniform(0.35, 0.6, n)
    stiffness = draw.uniform(20e3, 400e3, (2, n)) * (0.4 if soft else 1.0)
    return np.column_stack(
        [
            draw.uniform(2500, 7000, n), draw.uniform(250, 520, n), share,
            draw.uniform(-20, 120, n), draw.uniform(0, 250, n), *stiffness,
            draw.uniform(950, 1400, n), draw.uniform(950, 1400, n),
            draw.uniform(0, 400, n), draw.uniform(0, 700, n), draw.uniform(220, 300, n),
        ]
    )  # fmt: skip


def car_of(
    weight, height, share, centre_front, centre_rear, stiffness_front, stiffness_rear,
    track_front, track_rear, unsprung_front, unsprung_rear, unsprung_height,
):  # fmt: skip
    """The package's car of the same arguments, floats or arrays."""
    axis = turn.roll_axis_height(centre_front, centre_rear, share)
    front = turn.End(
        weight * share, centre_front, unsprung_front, unsprung_height,
        stiffness_front * (180.0 / np.pi), track_front,
    )  # fmt: skip
    rear = turn.End(
        weight * (1.0 - share), centre_rear, unsprung_rear, unsprung_height,
        stiffness_rear * (180.0 / np.pi), track_rear,
    )  # fmt: skip
    return turn.Car(weight * (height - axis), front, rear)


@pytest.mark.parametrize("lateral", [0.9, 0.3, -0.6])
def test_wheel_loads(lateral):
    compared = 0
    for one in random_cars(921, CARS).tolist():
        car, statics = car_of(*one), Statics(*one)
        theirs = statics.loads(lateral)
        ours = car.wheel_loads(lateral)
        if theirs.min() < 0.0:
            assert np.isnan(ours).all()
            continue
        assert ours == pytest.approx(theirs, rel=1e-10)
        assert sum(ours) == pytest.approx(one[0] + one[9] + one[10], rel=1e-12)
        compared += 1
    assert compared > 0.6 * CARS


def test_roll_is_where_the_moments_balance():
    """Against a root finder on the exact balance, from small roll to large."""
    for one in random_cars(922, CARS, soft=True).tolist():
        car = car_of(*one)
        if not car.stiffness > 1.5 * car.lever:
            continue
        for lateral in (-0.8, 0.2, 1.0):

            def over(roll, car=car, lateral=lateral):
                arm = car.lever * (lateral * np.cos(roll) + np.sin(roll))
                return car.stiffness * roll - arm

            exact = brentq(over, -1.5, 1.5, xtol=1e-15)
            ours = car.roll(lateral)
            if abs(exact) < turn.MOST_ROLL:
                assert ours == pytest.approx(exact, rel=1e-9, abs=1e-13)
            else:
                assert np.isnan(ours)


def test_signs():
    """In a left turn the left side rises and the right wheels are loaded."""
    car = car_of(*random_cars(923, 1).tolist()[0])
    front_left, front_right, rear_left, rear_right = car.wheel_loads(0.2)
    assert car.roll(0.2) > 0.0
    assert front_right > front_left
    assert rear_right > rear_left
    # A turn to the right is its mirror.
    there = car.wheel_loads(-0.2)
    assert there == pytest.approx((front_right, front_left, rear_right, rear_left))


def test_lifting_and_tipping():
    """Both ends: the first to lift, and the one that lifts as the car tips."""
    second = []
    for one in random_cars(924, CARS).tolist():
        car = car_of(*one)
        # Either end's springs must hold the body when the other's wheel has lifted.
        if not min(car.front.stiffness, car.rear.stiffness) > 3.0 * car.lever:
            continue
        ours = car.lifts()
        assert ours == pytest.approx(Statics(*one).lifts(), rel=1e-8)
        second.append(max(ours) / min(ours))
    assert len(second) > 0.5 * CARS
    assert max(second) > 1.2  # the two are not merely alike


def test_stiff_springs_tip_at_half_the_track_over_the_height():
    """T/2h, the static stability factor (NHTSA, 49 CFR 575; from memory)."""
    stiff = [4000.0, 350.0, 0.5, 40.0, 40.0, 1e12, 1e12, 1200.0, 1200.0, 0.0, 0.0, 0.0]
    factor = turn.rollover_threshold(1200.0, 350.0)
    assert factor == 1200.0 / 700.0
    assert car_of(*stiff).lifts() == pytest.approx((factor, factor), rel=1e-7)


def test_quasi_static_value_with_roll():
    """For a car alike at both ends it is where both inner wheels lift, for small roll."""
    one = [4000.0, 350.0, 0.5, 40.0, 40.0, 2e6, 2e6, 1200.0, 1200.0, 0.0, 0.0, 0.0]
    car = car_of(*one)
    gradient = np.degrees(turn.roll_gradient(car.lever, car.stiffness))
    assert 0.1 < gradient < 0.5
    value = turn.rollover_with_roll(1200.0, 350.0, 40.0, gradient)
    # What the small angles leave out: roll squared, some 1e-5.
    assert car.lifts()[0] == pytest.approx(value, rel=1e-4)
    assert value < turn.rollover_threshold(1200.0, 350.0)


def test_a_roll_axis_through_the_weight_leaves_no_roll():
    one = [4000.0, 300.0, 0.5, 300.0, 300.0, 1e5, 2e5, 1200.0, 1000.0, 0.0, 0.0, 0.0]
    car = car_of(*one)
    assert car.roll(0.9) == 0.0
    left, right, _, _ = car.wheel_loads(0.9)
    assert right - left == pytest.approx(2.0 * 0.9 * 2000.0 * 300.0 / 1200.0)


def test_the_split_adds_up():
    """Geometric and elastic parts of both axles make up the whole car's moment."""
    for one in random_cars(925, 20).tolist():
        car = car_of(*one)
        roll = car.roll(0.3)
        moments = [end.transfer(0.3, roll) * end.track for end in (car.front, car.rear)]
        arm = one[1] - turn.roll_axis_height(one[3], one[4], one[2])
        height = one[1] - arm + arm * np.cos(roll)
        whole = one[0] * (0.3 * height + arm * np.sin(roll))
        whole += 0.3 * (one[9] + one[10]) * one[11]
        assert sum(moments) == pytest.approx(whole, rel=1e-12)


def test_an_end_without_roll_stiffness():
    """Its links alone unload it; where they do not either, it never lifts by itself."""
    none = [4000.0, 350.0, 0.5, 40.0, 0.0, 3e5, 0.0, 1200.0, 1100.0, 0.0, 0.0, 0.0]
    car = car_of(*none)
    assert car.alone(car.rear) == turn.NEVER
    # Once the front has lifted nothing holds the body: the car tips then.
    front, rear = car.lifts()
    assert front == rear < turn.NEVER
    assert np.isnan(turn.if_ever(turn.NEVER))


def test_arrays_agree_with_floats():
    cars = random_cars(926, 40)
    many = car_of(*cars.T)
    lifts, loads = many.lifts(), many.wheel_loads(0.7)
    for i, one in enumerate(cars.tolist()):
        car = car_of(*one)
        assert car.lifts() == pytest.approx([each[i] for each in lifts], rel=1e-12)
        alone = car.wheel_loads(0.7)
        assert all(type(load) is float for load in alone)
        assert alone == pytest.approx([each[i] for each in loads], rel=1e-12, nan_ok=True)
