"""Rates by travel and by rack against an independent differentiation, in SymPy."""

import numpy as np
import pytest
from cornerbook.geometry.corner import motion

from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.rates_by_sympy import rates
from tests.support.corners import random_corners
from tests.support.sampling import STEER, random_poses

CORNERS = 300
POINTS = [
    ("lower", "lower ball joint"),
    ("upper", "upper ball joint"),
    ("tie_outer", "tie rod outer"),
    ("wheel_centre", "wheel centre"),
]

# Degrees per mm and mm per mm; some 540 poses agreed to 2e-13.
AGREED = 1e-10


@pytest.fixture(scope="module")
def compared():
    """(our pose, our motions by travel and by rack, SymPy's rates)."""
    corners = random_corners(401, CORNERS)
    travels, racks = random_poses(402, corners, 2)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        closure = Closure(one)
        drawn = Measured(one, one["wheel centre"], np.zeros(3))
        for travel, rack in zip(travels[i].tolist(), racks[i].tolist(), strict=True):
            try:
                place = closure.solve(travel, rack)
            except NotClosed:
                continue
            if abs(Measured(one, *place).toe) > STEER:
                continue
            pose = linkage.pose(travel, rack)
            moves = motion.by_travel(linkage, pose), motion.by_rack(linkage, pose)
            found.append((pose, moves, rates(one, *place, rack, drawn.spindle)))
    return found


def test_enough_poses_are_compared(compared):
    assert len(compared) > 0.85 * CORNERS * 2


@pytest.mark.parametrize("by", [0, 1], ids=["by travel", "by rack"])
def test_camber_and_toe(compared, by):
    for pose, moves, theirs in compared:
        assert moves[by].camber_rate(pose.spindle) == pytest.approx(
            theirs["camber"][by], abs=AGREED
        )
        assert moves[by].toe_rate(pose.spindle) == pytest.approx(theirs["toe"][by], abs=AGREED)


@pytest.mark.parametrize("by", [0, 1], ids=["by travel", "by rack"])
@pytest.mark.parametrize("ours, name", POINTS)
def test_velocities(compared, by, ours, name):
    for pose, moves, theirs in compared:
        velocity = np.array([*moves[by].velocity_of(getattr(pose, ours))])
        assert np.abs(velocity - theirs[name][:, by]).max() < AGREED


def test_rates_of_arrays_are_those_of_floats():
    corners = random_corners(403, 40)
    travel, rack = random_poses(404, corners, 5)
    linkages = corners.linkages()
    pose = linkages.pose(travel, 0.5 * rack)
    many = motion.by_travel(linkages, pose)
    camber, toe = many.camber_rate(pose.spindle), many.toe_rate(pose.spindle)
    for i in range(40):
        linkage = corners.linkage(i)
        for j in range(5):
            one = linkage.pose(float(travel[i, j]), float(0.5 * rack[i, j]))
            move = motion.by_travel(linkage, one)
            assert move.camber_rate(one.spindle) == pytest.approx(camber[i, j], abs=1e-12)
            assert move.toe_rate(one.spindle) == pytest.approx(toe[i, j], abs=1e-12)
