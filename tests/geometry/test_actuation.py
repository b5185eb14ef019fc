"""Rod, rocker and spring, against a corner closed in many digits by mpmath, and by energy."""

import numpy as np
import pytest
from cornerbook.geometry import motion

from tests.authorities.actuation_by_mpmath import Actuated, NotClosed
from tests.support.actuations import actuation_of, random_actuation
from tests.support.corners import random_corners

CORNERS = 40

# Parts of the value, or mm and degrees.
AGREED = 1e-8


@pytest.fixture(scope="module")
def compared():
    """(our `Actuated`, the authority's, travel, rack) of random actuations."""
    draw = np.random.default_rng(71)
    corners = random_corners(72, CORNERS)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points = random_actuation(draw, one)
        travel, rack = float(draw.uniform(-25, 25)), float(draw.uniform(-15, 15))
        theirs = Actuated({**one, **points}, mount)
        try:
            theirs.length_and_ratio(travel, rack)
        except NotClosed:
            continue
        pose = linkage.pose(travel, rack)
        ours = actuation_of(one, linkage, mount, points)
        at = ours.at(linkage, pose, motion.by_travel(linkage, pose))
        if at.spring_length == at.spring_length:
            found.append((at, theirs, travel, rack))
    return found


def test_enough_are_compared(compared):
    assert len(compared) > 0.5 * CORNERS


def test_length_ratio_and_its_change(compared):
    for ours, theirs, travel, rack in compared:
        length, ratio, change = theirs.length_and_ratio(travel, rack)
        assert ours.spring_length == pytest.approx(float(length), rel=AGREED)
        assert ours.motion_ratio == pytest.approx(float(ratio), rel=AGREED, abs=AGREED)
        assert ours.motion_ratio_change == pytest.approx(float(change), rel=1e-6, abs=AGREED)


def test_energy_of_the_spring(compared):
    """Force at the wheel is the energy's slope along the travel, the rate its curvature."""
    rate = 25.0
    for ours, theirs, travel, rack in compared:
        free = ours.spring_length + 20.0
        force, curvature = theirs.force_and_rate(rate, free, travel, rack)
        squeeze = rate * (free - ours.spring_length)
        assert squeeze * ours.motion_ratio == pytest.approx(float(force), rel=AGREED, abs=1e-6)
        at_wheel = rate * ours.motion_ratio**2 + squeeze * ours.motion_ratio_change
        assert at_wheel == pytest.approx(float(curvature), rel=1e-6, abs=1e-6)


def test_arrays_agree_with_floats():
    draw = np.random.default_rng(73)
    corners = random_corners(74, 1)
    one, linkage = corners.one(0), corners.linkage(0)
    mount, points = random_actuation(draw, one)
    ours = actuation_of(one, linkage, mount, points)
    travel = np.linspace(-15.0, 15.0, 7)
    pose = linkage.pose(travel, 3.0)
    many = ours.at(linkage, pose, motion.by_travel(linkage, pose))
    for i, t in enumerate(travel.tolist()):
        alone = linkage.pose(t, 3.0)
        single = ours.at(linkage, alone, motion.by_travel(linkage, alone))
        assert many.spring_length[i] == pytest.approx(single.spring_length, rel=1e-12)
        assert many.motion_ratio_change[i] == pytest.approx(single.motion_ratio_change, rel=1e-9)
