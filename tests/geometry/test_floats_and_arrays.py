"""The same lines serve floats and arrays; shapes broadcast; the drawn assembly is kept."""

import math

import numpy as np
import pytest

from tests.support.corners import random_corners
from tests.support.sampling import random_poses

MEASURES = ["camber", "toe", "caster", "inclination", "trail", "scrub"]


def test_floats_and_arrays_agree():
    corners = random_corners(501, 200, wild=True)
    travel, rack = random_poses(502, corners, 10)
    many = corners.linkages().pose(travel, rack)
    tables = {name: getattr(many, name)() for name in MEASURES}
    for i in range(corners.count):
        linkage = corners.linkage(i)
        for j in range(travel.shape[1]):
            one = linkage.pose(float(travel[i, j]), float(rack[i, j]))
            for name, table in tables.items():
                value = getattr(one, name)()
                assert type(value) is float
                assert value == pytest.approx(table[i, j], rel=1e-12, abs=1e-12, nan_ok=True)


def test_one_corner_over_a_grid():
    linkage = random_corners(503, 1).linkage(0)
    travel = np.linspace(-60.0, 60.0, 5)
    rack = np.linspace(-20.0, 20.0, 7)
    grid = linkage.pose(travel[:, None], rack).camber()
    assert grid.shape == (5, 7)
    assert grid[3, 2] == pytest.approx(
        linkage.pose(float(travel[3]), float(rack[2])).camber(), rel=1e-12
    )


def test_a_float_beside_an_array():
    linkage = random_corners(504, 1).linkage(0)
    over_rack = linkage.pose(10.0, np.array([-5.0, 5.0]))
    over_travel = linkage.pose(np.array([-5.0, 10.0]), 5.0)
    assert over_rack.toe().shape == over_travel.toe().shape == (2,)
    assert over_rack.toe()[1] == pytest.approx(over_travel.toe()[1], rel=1e-12)


def test_many_corners_at_one_pose_each():
    corners = random_corners(505, 6)
    camber = corners.linkages().pose(12.0, -3.0).camber()
    assert camber.shape == (6, 1)
    for i in range(6):
        assert camber[i, 0] == pytest.approx(
            corners.linkage(i).pose(12.0, -3.0).camber(), rel=1e-12
        )


def test_unreachable_places_in_an_array_leave_the_others_alone():
    linkage = random_corners(506, 1).linkage(0)
    camber = linkage.pose(np.array([0.0, 5000.0, 20.0]), 0.0).camber()
    assert np.isnan(camber).tolist() == [False, True, False]
    assert camber[2] == pytest.approx(linkage.pose(20.0, 0.0).camber(), rel=1e-12)


@pytest.mark.parametrize("wild", [False, True], ids=["plausible", "wild"])
def test_without_travel_and_rack_the_corner_is_as_drawn(wild):
    corners = random_corners(507, 500, wild)
    pose = corners.linkages().pose(0.0, 0.0)
    for ours, name in [
        (pose.lower, "lower ball joint"),
        (pose.upper, "upper ball joint"),
        (pose.tie_outer, "tie rod outer"),
        (pose.wheel_centre, "wheel centre"),
    ]:
        at = np.stack([np.ravel(component) for component in ours], axis=-1)
        assert np.abs(at - corners.points[name]).max() < 1e-10
    assert np.ravel(pose.camber()) == pytest.approx(corners.values["static camber"], abs=1e-11)
    assert np.ravel(pose.toe()) == pytest.approx(corners.values["static toe"], abs=1e-11)


def test_the_drawn_assembly_is_followed_without_a_jump():
    """From drawn to the asked pose in small steps nothing moves by more than a step's worth."""
    corners = random_corners(508, 300)
    travel, rack = random_poses(509, corners, 1)
    way = np.linspace(0.0, 1.0, 201)
    pose = corners.linkages().pose(travel * way, 0.8 * rack * way)
    for vec in (pose.lower, pose.upper, pose.tie_outer, pose.wheel_centre):
        for component in vec:
            # A step is at most 0.4 mm of travel and 0.4 mm of rack.
            assert np.nanmax(np.abs(np.diff(component, axis=-1))) < 5.0


def test_a_rack_to_the_left_steers_by_the_side_on_which_the_rod_lies():
    """Pushed to the left, a rod ahead of the axis turns the wheel left, one behind it right."""
    corners = random_corners(510, 200)
    toe = corners.linkages().pose(0.0, np.array([0.0, 5.0])).toe()
    turned_left = toe[:, 0] - toe[:, 1] > 0.0
    ahead = corners.points["tie rod outer"][:, 0] > corners.points["lower ball joint"][:, 0]
    assert 0 < ahead.sum() < 200
    assert np.array_equal(turned_left, ahead)


def test_measures_of_an_unreachable_pose_are_nan():
    pose = random_corners(511, 1).linkage(0).pose(0.0, 900.0)
    for name in MEASURES:
        assert math.isnan(getattr(pose, name)())
