"""Tilts of joints, against SciPy's closure and rotations."""

import math

import numpy as np
import pytest
from cornerbook.geometry.corner import joints
from cornerbook.geometry.vec import Vec

from tests.authorities import joints_by_rotation as authority
from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.support.corners import random_corners
from tests.support.sampling import random_poses

CORNERS = 30


@pytest.fixture(scope="module")
def compared():
    """(corner, rack, linkage, our pose, SciPy's upright) of random corners."""
    corners = random_corners(811, CORNERS)
    travels, racks = random_poses(812, corners, 1)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        travel, rack = 0.6 * float(travels[i, 0]), 0.6 * float(racks[i, 0])
        try:
            measured = Measured(one, *Closure(one).solve(travel, rack, stages=8))
        except NotClosed:
            continue
        pose = linkage.pose(travel, rack)
        if not math.isnan(pose.toe()):
            found.append((one, rack, linkage, pose, measured))
    assert len(found) > 0.8 * CORNERS
    return found


def test_ball_joints(compared):
    for one, _, linkage, pose, measured in compared:
        lower = authority.ball_joint(one, measured, "lower")
        upper = authority.ball_joint(one, measured, "upper")
        assert joints.lower_tilt(linkage, pose) == pytest.approx(lower, abs=1e-8)
        assert joints.upper_tilt(linkage, pose) == pytest.approx(upper, abs=1e-8)


def test_rod_end(compared):
    for one, rack, linkage, pose, measured in compared:
        ours = joints.rod_end_tilt(linkage, pose, linkage.pose(0.0, 0.0))
        assert ours == pytest.approx(authority.rod_end(one, measured, rack), abs=1e-8)


def test_toggle_and_the_inner_end(compared):
    for one, rack, _, pose, measured in compared:
        ours = joints.toggle_margin(pose)
        assert ours == pytest.approx(authority.toggle(one, measured, rack), abs=1e-8)
        rod = authority.rod(one, measured, rack)
        inner = authority.between(rod, np.array([0.0, 1.0, 0.0]))
        assert joints.rack_end_angle(pose) == pytest.approx(inner, abs=1e-8)
        # Tangents of the two views are the sides of the one in space.
        plan, front = (math.tan(math.radians(f(pose)))
                       for f in (joints.plan_angle, joints.front_angle))  # fmt: skip
        assert math.hypot(plan, front) == pytest.approx(math.tan(math.radians(inner)), abs=1e-10)
        assert math.copysign(1.0, plan) == math.copysign(1.0, rod[0])
        assert math.copysign(1.0, front) == math.copysign(1.0, rod[2])


def test_as_drawn_nothing_is_tilted():
    corners = random_corners(813, 50, wild=True)
    linkages = corners.linkages()
    drawn = linkages.pose(0.0, 0.0)
    for found in (
        joints.lower_tilt(linkages, drawn),
        joints.upper_tilt(linkages, drawn),
        joints.rod_end_tilt(linkages, drawn, drawn),
    ):
        assert np.abs(found).max() < 1e-9


def test_toggle_margin_is_nought_where_rod_and_arm_are_in_line():
    class Pose:
        lower, upper = Vec(0.0, 0.0, 0.0), Vec(0.0, 0.0, 200.0)
        tie_outer, tie_inner = Vec(60.0, -80.0, 30.0), Vec(150.0, -200.0, 90.0)

    assert joints.toggle_margin(Pose) == pytest.approx(0.0, abs=1e-12)
    Pose.tie_inner = Vec(60.0 - 160.0, -80.0 - 120.0, 90.0)
    assert joints.toggle_margin(Pose) == pytest.approx(90.0)


def test_arrays_agree_with_floats():
    corners = random_corners(814, 4)
    travel, rack = random_poses(815, corners, 5)
    many = corners.linkages()
    poses = many.pose(travel, rack)
    drawn = many.pose(0.0, 0.0)
    tables = [
        joints.lower_tilt(many, poses), joints.upper_tilt(many, poses),
        joints.rod_end_tilt(many, poses, drawn), joints.toggle_margin(poses),
        joints.rack_end_angle(poses), joints.plan_angle(poses), joints.front_angle(poses),
    ]  # fmt: skip
    for i in range(corners.count):
        linkage = corners.linkage(i)
        still = linkage.pose(0.0, 0.0)
        for j in range(5):
            pose = linkage.pose(float(travel[i, j]), float(rack[i, j]))
            values = [
                joints.lower_tilt(linkage, pose), joints.upper_tilt(linkage, pose),
                joints.rod_end_tilt(linkage, pose, still), joints.toggle_margin(pose),
                joints.rack_end_angle(pose), joints.plan_angle(pose), joints.front_angle(pose),
            ]  # fmt: skip
            for value, table in zip(values, tables, strict=True):
                assert value == pytest.approx(table[i, j], rel=1e-9, abs=1e-9, nan_ok=True)


def test_out_of_reach_there_is_no_number():
    linkage = random_corners(816, 1).linkage(0)
    pose = linkage.pose(5000.0, 0.0)
    for found in (
        joints.lower_tilt(linkage, pose), joints.toggle_margin(pose), joints.plan_angle(pose),
        joints.rack_end_angle(pose),
    ):  # fmt: skip
        assert math.isnan(found)
