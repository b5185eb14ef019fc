"""Perches, cross weight and height of the weight, against statics by numpy and a root finder."""

import numpy as np
import pytest
from cornerbook.geometry.set_up import scales

from tests.authorities.scales_by_statics import height_of_weight, load_on_blocks, perches_turned


@pytest.mark.parametrize("i", range(50))
def test_perches_against_a_linear_system(i):
    draw = np.random.default_rng([1711, i])
    rates, tracks = draw.uniform(5, 200, 2).tolist(), draw.uniform(700, 1600, 2).tolist()
    rises = draw.uniform(-10, 10, 4).tolist()
    loads, heights = perches_turned(rises, rates, tracks)
    car = scales.Perches(rates, tracks)
    pairs = list(zip(scales.WHEELS, rises, strict=True))
    for wheel, load, height in zip(scales.WHEELS, loads, heights, strict=True):
        # What several perches do is what each does, added up.
        ours = sum(car.load_change(wheel, perch, rise) for perch, rise in pairs)
        assert ours == pytest.approx(load, abs=1e-9)
        ours = sum(car.height_change(wheel, perch, rise) for perch, rise in pairs)
        assert ours == pytest.approx(height, abs=1e-9)


def test_signs_of_a_perch():
    car = scales.Perches((12.0, 20.0), (1120.0, 1080.0))
    # Turned up at the front left, it takes load there and at the rear right.
    changes = [car.load_change(wheel, "front left", 2.0) for wheel in scales.WHEELS]
    assert [change > 0.0 for change in changes] == [True, False, False, True]
    assert sum(changes) == pytest.approx(0.0, abs=1e-12)
    assert car.rise_for_cross("front left", 5.0) < 0.0 < car.rise_for_cross("front right", 5.0)
    assert car.height_change("front left", "front left", 2.0) > 0.0


@pytest.mark.parametrize("i", range(50))
def test_a_lifted_axle_against_a_body_turned_by_a_root_finder(i):
    draw = np.random.default_rng([1712, i])
    weight, base = draw.uniform(1500, 9000), draw.uniform(1200, 2800)
    level, lift = weight * draw.uniform(0.3, 0.7), base * draw.uniform(0.08, 0.4)
    radius, other = draw.uniform(200, 340, 2).tolist()
    height = draw.uniform(150, 700)
    load = load_on_blocks(weight, level, height, base, lift, radius, other)
    car = scales.Lifted(base, lift, radius, other)
    assert car.load(weight, level, height) == pytest.approx(load, rel=1e-10)
    assert car.height(weight, level, load) == pytest.approx(height, abs=1e-6)
    found = height_of_weight(weight, level, load, base, lift, radius, other)
    assert found == pytest.approx(height, abs=1e-6)


def test_equal_radii_are_the_textbooks_formula():
    weight, level, lifted, base, lift, radius = 2760.0, 1260.0, 1278.0, 1580.0, 400.0, 262.0
    tilt = np.arcsin(lift / base)
    wanted = radius + base * (lifted - level) / (weight * np.tan(tilt))
    found = scales.Lifted(base, lift, radius, radius).height(weight, level, lifted)
    assert found == pytest.approx(wanted, rel=1e-12)
