"""Springs as plain numbers, against eigenvalues, energies, and a whole quarter of a car."""

import math

import numpy as np
import pytest
from cornerbook.geometry.springing import springs
from scipy.integrate import solve_ivp
from scipy.linalg import eigh, eigvals

from tests.authorities import quarter_car_by_eigenvalues

CARS = 60
GRAVITY = 9806.65


@pytest.fixture(scope="module")
def drawn():
    """Rates, loads and the like at random, in N and mm."""
    draw = np.random.default_rng(41)
    return {
        "rate": draw.uniform(5, 60, CARS),
        "tyre": draw.uniform(60, 250, CARS),
        "load": draw.uniform(300, 1500, CARS),
        "damper": draw.uniform(0.2, 6.0, CARS),
        "ratio": draw.uniform(0.3, 1.2, CARS),
        "base": draw.uniform(300, 1400, CARS),
    }


def test_frequency_is_the_eigenvalue(drawn):
    ours = springs.frequency(drawn["rate"], drawn["load"], GRAVITY)
    for i in range(CARS):
        square = eigh([[drawn["rate"][i]]], [[drawn["load"][i] / GRAVITY]], eigvals_only=True)[0]
        assert ours[i] == pytest.approx(math.sqrt(square) / math.tau, rel=1e-13)


def test_ride_rate_of_a_wheel_without_mass(drawn):
    """Body on wheel on tyre: as the hub's mass goes to nothing, the body's own frequency."""
    for i in range(CARS):
        rate, tyre, mass = (drawn[n][i] for n in ("rate", "tyre", "load"))
        mass /= GRAVITY
        stiffness = [[rate, -rate], [-rate, rate + tyre]]
        lowest = eigh(stiffness, np.diag([mass, 1e-9 * mass]), eigvals_only=True)[0]
        ours = springs.frequency(springs.in_series(rate, tyre), mass * GRAVITY, GRAVITY)
        assert ours == pytest.approx(math.sqrt(lowest) / math.tau, rel=1e-6)


def test_damping_ratio_is_the_eigenvalue(drawn):
    for i in range(CARS):
        rate, load, damper, ratio = (drawn[n][i] for n in ("rate", "load", "damper", "ratio"))
        mass = load / GRAVITY
        ours = springs.damping_ratio(springs.damping_at_wheel(damper, ratio), rate, mass)
        roots = eigvals([[0, 1], [-rate / mass, -damper * ratio**2 / mass]])
        # The sum of both is -2 x ratio x frequency, over critical damping too.
        both = -roots.sum().real / (2.0 * math.sqrt(rate / mass))
        assert ours == pytest.approx(both, rel=1e-12)


def test_damping_ratio_by_letting_it_swing():
    """Two peaks after a release, by integration: the logarithmic decrement."""
    rate, load, damper, ratio = 12.5, 900.0, 1.1, 0.65
    mass, damping = load / GRAVITY, damper * ratio**2
    peak = lambda _, y: y[1]  # noqa: E731
    peak.direction = -1
    swung = solve_ivp(
        lambda _, y: [y[1], -(rate * y[0] + damping * y[1]) / mass],
        (0.0, 3.0), [10.0, 0.0], events=peak, rtol=1e-11, atol=1e-12,
    )  # fmt: skip
    first, second = (y[0] for y in swung.y_events[0][-2:])
    decrement = math.log(first / second)
    measured = decrement / math.hypot(math.tau, decrement)
    ours = springs.damping_ratio(springs.damping_at_wheel(damper, ratio), rate, mass)
    assert ours == pytest.approx(measured, rel=1e-6)


def test_the_body_on_its_tyre_is_damped_less_than_on_either_rate():
    """A quarter car's own eigenvalue: the tyre gives in series with the damper."""
    draw = np.random.default_rng(42)
    for _ in range(300):
        rate, tyre = draw.uniform(5, 40), draw.uniform(80, 250)
        mass, unsprung = draw.uniform(0.03, 0.15), draw.uniform(0.006, 0.025)
        damping = draw.uniform(0.0, 0.7) * 2.0 * math.sqrt(rate * mass)
        ours = springs.quarter_car_damping(damping, rate, mass, tyre, unsprung)
        mode = quarter_car_by_eigenvalues.body_mode(rate, damping, mass, tyre, unsprung)
        assert ours == pytest.approx(-mode.real / abs(mode), rel=1e-9, abs=1e-12)
        assert ours < springs.damping_ratio(damping, rate, mass) or damping == 0.0
    # On a tyre that hardly gives, and a wheel that weighs hardly anything: that of one mass.
    hard = springs.quarter_car_damping(0.5, 10.0, 0.05, 1e7, 1e-3)
    assert hard == pytest.approx(springs.damping_ratio(0.5, 10.0, 0.05), rel=1e-5)


def test_a_body_past_critical_damping_has_two_of_the_eigenvalues_or_no_ratio():
    settled = 0
    for damping in np.linspace(1.0, 3.0, 30).tolist():
        ratio = springs.quarter_car_damping(damping, 10.0, 0.05, 130.0, 0.012)
        found = quarter_car_by_eigenvalues.eigenvalues(10.0, damping, 0.05, 130.0, 0.012)
        pairs = [
            -(a + b).real / (2.0 * math.sqrt((a * b).real))
            for i, a in enumerate(found) for b in found[i + 1 :]
            if abs((a + b).imag) < 1e-9 and (a * b).real > 0.0
        ]  # fmt: skip
        if not math.isnan(ratio):
            assert min(abs(ratio - pair) for pair in pairs) < 1e-7
            settled += 1
    assert settled > 10


def test_roll_stiffness_by_energy(drawn):
    """The work of a small roll, both of springs and of a bar whose ends go apart."""
    roll = 1e-4
    for i in range(CARS):
        rate, base, ratio = (drawn[n][i] for n in ("rate", "base", "ratio"))
        lift = 0.5 * base * roll
        work = 2 * 0.5 * rate * lift**2
        found = springs.roll_stiffness(rate, base) * math.degrees(roll) * roll / 2
        assert found == pytest.approx(work, rel=1e-12)
        apart = ratio * lift - ratio * -lift
        found = springs.bar_roll_stiffness(rate, ratio, base) * math.degrees(roll) * roll / 2
        assert found == pytest.approx(0.5 * rate * apart**2, rel=1e-12)


def test_a_bar_is_worth_two_springs_of_twice_its_rate():
    """In roll each end goes half as far as the two go apart."""
    bar = springs.bar_roll_stiffness(12.0, 1.0, 1100.0)
    assert bar == pytest.approx(springs.roll_stiffness(2 * 12.0, 1100.0), rel=1e-14)


def test_length_at_rest():
    # Above the preload its value does not matter; below it the damper's end stop holds.
    for preload in (0.0, 150.0, 400.0):
        assert springs.length_at_rest(256.0, preload, 25.0, 500.0) == pytest.approx(236.0)
    assert springs.length_at_rest(256.0, 150.0, 25.0, 40.0) == pytest.approx(250.0)
    assert springs.length_at_rest(256.0, 0.0, 25.0, 0.0) == 256.0


def test_a_loose_spring_pushes_nothing():
    assert springs.squeeze(200.0, 210.0) == 0.0
    loose = springs.Actuators(25.0, 200.0)
    assert springs.wheel_rate(loose.rate(210.0), loose.force(210.0), 0.7, 0.003) == 0.0
    assert math.isnan(springs.squeeze(200.0, math.nan))
    assert math.isnan(springs.wheel_rate(25.0, math.nan, math.nan, math.nan))


def test_wheel_rate_is_the_slope_of_the_force():
    """A spring whose length is any smooth function of the travel."""

    def length(z):
        return 220.0 - 0.6 * z - 0.001 * z**2 + 2e-6 * z**3

    def ratio(z):
        return 0.6 + 0.002 * z - 6e-6 * z**2

    def force(z):
        return 25.0 * springs.squeeze(260.0, length(z)) * ratio(z)

    for z in (-40.0, 0.0, 25.0):
        change = 0.002 - 12e-6 * z
        push = 25.0 * springs.squeeze(260.0, length(z))
        ours = springs.wheel_rate(25.0, push, ratio(z), change)
        # A polynomial of fifth degree: differences of fourth order, at two steps.
        one, two = ((force(z + h) - force(z - h)) / (2 * h) for h in (0.5, 1.0))
        assert ours == pytest.approx((4 * one - two) / 3, rel=1e-9)


def test_arrays_agree_with_floats(drawn):
    numbers = (0.3 * drawn["damper"], drawn["rate"], drawn["load"] / GRAVITY)
    many = springs.damping_ratio(*numbers)
    on_tyre = springs.quarter_car_damping(*numbers, drawn["tyre"], 0.012)
    for i in range(CARS):
        one = [float(each[i]) for each in numbers]
        assert many[i] == pytest.approx(springs.damping_ratio(*one), rel=1e-14)
        alone = springs.quarter_car_damping(*one, float(drawn["tyre"][i]), 0.012)
        assert on_tyre[i] == pytest.approx(alone, rel=1e-9)
    lengths = springs.length_at_rest(256.0, 150.0, 25.0, np.array([40.0, 500.0]))
    assert lengths.tolist() == pytest.approx([250.0, 236.0])
