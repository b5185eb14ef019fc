"""Poses and measures against SciPy's root on the constraint equations."""

import math

import numpy as np
import pytest

from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.support.corners import random_corners
from tests.support.sampling import STEER, random_poses

POSES_EACH = 3
CORNERS = 1000

# Lengths in mm, angles in degrees; some 2,700 poses agreed to 2e-12.
AGREED = 1e-9


@pytest.fixture(scope="module")
def compared():
    """(corner's arrays, our pose, SciPy's `Measured`) for each pose up to `STEER`."""
    corners = random_corners(101, CORNERS)
    travels, racks = random_poses(102, corners, POSES_EACH)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        closure = Closure(one)
        for travel, rack in zip(travels[i].tolist(), racks[i].tolist(), strict=True):
            try:
                measured = Measured(one, *closure.solve(travel, rack))
            except NotClosed:
                continue
            if abs(measured.toe) <= STEER:
                found.append((one, linkage.pose(travel, rack), measured))
    return found


def test_most_poses_are_compared_and_both_kinds_of_steering_are_among_them(compared):
    assert len(compared) > 0.85 * CORNERS * POSES_EACH
    ahead = [one["tie rod outer"][0] > one["lower ball joint"][0] for one, _, _ in compared]
    assert 0.4 < np.mean(ahead) < 0.6
    steers = [measured.toe for _, _, measured in compared]
    assert min(steers) < -0.95 * STEER
    assert max(steers) > 0.95 * STEER


def test_every_pose_that_scipy_closes_is_found(compared):
    assert not any(math.isnan(pose.wheel_centre.z) for _, pose, _ in compared)


@pytest.mark.parametrize(
    "ours, name",
    [
        ("lower", "lower ball joint"),
        ("upper", "upper ball joint"),
        ("tie_outer", "tie rod outer"),
        ("wheel_centre", "wheel centre"),
    ],
)
def test_points(compared, ours, name):
    for _, pose, measured in compared:
        assert np.abs(np.array([*getattr(pose, ours)]) - measured.at(name)).max() < AGREED


@pytest.mark.parametrize("measure", ["camber", "toe", "caster", "inclination", "trail", "scrub"])
def test_measures(compared, measure):
    for _, pose, measured in compared:
        assert getattr(pose, measure)() == pytest.approx(getattr(measured, measure), abs=AGREED)


@pytest.mark.parametrize("place", ["contact_centre", "axis_at_ground"])
def test_places_on_the_ground(compared, place):
    for _, pose, measured in compared:
        ours = np.array([*getattr(pose, place)()])
        assert np.abs(ours - getattr(measured, place)).max() < AGREED


def test_spindle(compared):
    for _, pose, measured in compared:
        assert np.abs(np.array([*pose.spindle]) - measured.spindle).max() < 1e-11
