"""A contact patch that turns on the spot, against sums over the patch and by hand."""

import math

import numpy as np
import pytest
from cornerbook.geometry.steering import patch

from tests.authorities import patch_by_integration


@pytest.mark.parametrize("seed", range(12))
def test_the_moment_is_that_of_the_friction_of_every_part(seed):
    draw = np.random.default_rng(seed)
    length, width = draw.uniform(40, 160), draw.uniform(30, 200)
    trail, scrub = draw.uniform(-60, 60), draw.uniform(-90, 90)
    ours = patch.parking_moment(1100.0, 0.9, length, width, trail, scrub)
    theirs = patch_by_integration.moment(1100.0, 0.9, length, width, trail, scrub)
    assert ours == pytest.approx(theirs, rel=1e-8)


def test_a_wheel_free_to_roll_rolls_its_scrub_away_and_keeps_its_trail():
    length, width, trail, scrub = 110.0, 70.0, 21.0, 26.0
    free = patch_by_integration.moment(1.0, 1.0, length, width, trail, scrub, free=True)
    assert patch.parking_moment(1.0, 1.0, length, width, trail, 0.0) == pytest.approx(
        free, rel=1e-7
    )
    assert free > 1.1 * patch.parking_moment(1.0, 1.0, length, width, 0.0, 0.0)


def test_by_hand():
    # A thin strip turned about its middle: a quarter of its length; about its end, a half.
    assert patch.mean_distance(100.0, 1e-3, 0.0, 0.0) == pytest.approx(25.0, rel=1e-6)
    assert patch.mean_distance(100.0, 1e-3, 50.0, 0.0) == pytest.approx(50.0, rel=1e-6)
    # A square of side 2 about its middle (a known mean: root two and its logarithm, by three).
    known = (math.sqrt(2.0) + math.log(1.0 + math.sqrt(2.0))) / 3.0
    assert patch.mean_distance(2.0, 2.0, 0.0, 0.0) == pytest.approx(known)
    # Far off, the distance itself.
    assert patch.mean_distance(100.0, 70.0, 3e3, 4e3) == pytest.approx(5e3, rel=1e-4)


def test_arrays_agree_with_floats():
    trail = np.linspace(-60.0, 60.0, 13)
    many = patch.parking_moment(900.0, 0.9, 120.0, 70.0, trail, 0.0)
    ones = [patch.parking_moment(900.0, 0.9, 120.0, 70.0, each, 0.0) for each in trail.tolist()]
    assert many == pytest.approx(ones, rel=1e-13)
