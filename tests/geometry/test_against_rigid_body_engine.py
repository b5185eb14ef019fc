"""Poses against a general rigid-body engine, whose own kinematics close the loop."""

import math

import numpy as np
import pytest

from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.rigid_bodies_by_mujoco import Bodies
from tests.support.corners import random_corners
from tests.support.sampling import STEER, random_poses

CORNERS = 300
POSES_EACH = 2

# Lengths in mm, angles in degrees; some 550 poses agreed to 2e-12.
AGREED = 1e-9


@pytest.fixture(scope="module")
def compared():
    """(our pose, the engine's `Bodies` measured) for each pose up to `STEER`."""
    corners = random_corners(201, CORNERS)
    travels, racks = random_poses(202, corners, POSES_EACH)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        bodies = Bodies(one)
        for travel, rack in zip(travels[i].tolist(), racks[i].tolist(), strict=True):
            if not bodies.solve(travel, rack) < 1e-9:
                continue
            measured = Measured(one, bodies.at("wheel centre"), bodies.turned())
            if abs(measured.toe) <= STEER:
                places = {n: bodies.at(n) for n in ("upper ball joint", "tie rod outer")}
                found.append((linkage.pose(travel, rack), measured, places))
    return found


def test_hundreds_of_poses_are_compared(compared):
    assert len(compared) > 0.85 * CORNERS * POSES_EACH
    assert not any(math.isnan(pose.wheel_centre.z) for pose, _, _ in compared)


def test_points(compared):
    for pose, measured, places in compared:
        assert np.abs(np.array([*pose.wheel_centre]) - measured.centre).max() < AGREED
        assert np.abs(np.array([*pose.upper]) - places["upper ball joint"]).max() < AGREED
        assert np.abs(np.array([*pose.tie_outer]) - places["tie rod outer"]).max() < AGREED


@pytest.mark.parametrize("measure", ["camber", "toe", "caster", "inclination", "trail", "scrub"])
def test_measures(compared, measure):
    for pose, measured, _ in compared:
        assert getattr(pose, measure)() == pytest.approx(getattr(measured, measure), abs=AGREED)
