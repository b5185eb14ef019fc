"""What must not change a corner's measures: its place, its unit, how its pickups are given."""

import numpy as np
import pytest

from tests.support.corners import Corners, random_corners
from tests.support.sampling import random_poses

ANGLES = ["camber", "toe", "caster", "inclination"]
LENGTHS = ["trail", "scrub"]


def _measures(corners, travel, rack):
    pose = corners.linkages().pose(travel, rack)
    return {name: getattr(pose, name)() for name in ANGLES + LENGTHS}


@pytest.fixture(scope="module")
def case():
    corners = random_corners(601, 300)
    travel, rack = random_poses(602, corners, 8)
    return corners, travel, 0.9 * rack


def _same(these, those, length=1.0):
    for name in ANGLES:
        np.testing.assert_allclose(these[name], those[name], rtol=0, atol=1e-9)
    for name in LENGTHS:
        np.testing.assert_allclose(these[name], those[name] * length, rtol=0, atol=1e-9)


@pytest.mark.parametrize("way", [(1000.0, 0, 0), (0, 150.0, 0), (0, 0, -200.0)])
def test_moving_the_whole_corner_changes_nothing(case, way):
    corners, travel, rack = case
    moved = corners.moved(np.array(way))
    _same(_measures(moved, travel, rack), _measures(corners, travel, rack))


@pytest.mark.parametrize("factor", [1 / 25.4, 0.1, 0.001])
def test_another_unit_scales_the_lengths_and_leaves_the_angles(case, factor):
    corners, travel, rack = case
    scaled = _measures(corners.scaled(factor), travel * factor, rack * factor)
    _same(scaled, _measures(corners, travel, rack), factor)


def test_pickups_may_slide_along_their_axis_and_change_places(case):
    corners, travel, rack = case
    points = dict(corners.points)
    for arm in ("lower", "upper"):
        front, rear = points[arm + " front pickup"], points[arm + " rear pickup"]
        points[arm + " front pickup"] = front + 1.7 * (rear - front)
        points[arm + " rear pickup"] = front - 0.3 * (rear - front)
    other = Corners(points, corners.values)
    _same(_measures(other, travel, rack), _measures(corners, travel, rack))


def test_a_linkage_turned_upside_down_moves_the_same_way():
    """With z turned over, camber and travel change sign and toe does not."""
    corners = random_corners(603, 200)
    travel, rack = random_poses(604, corners, 5)
    rack = 0.9 * rack
    over = {name: at * [1.0, 1.0, -1.0] for name, at in corners.points.items()}
    values = dict(corners.values)
    values["static camber"] = -values["static camber"]
    pose = corners.linkages().pose(travel, rack)
    turned = Corners(over, values).linkages().pose(-travel, rack)
    np.testing.assert_allclose(turned.camber(), -pose.camber(), rtol=0, atol=1e-9)
    np.testing.assert_allclose(turned.toe(), pose.toe(), rtol=0, atol=1e-9)


def test_a_corner_turned_back_to_front_moves_the_same_way():
    """With x turned over, toe and caster change sign, and a rack moves the same way."""
    corners = random_corners(605, 200)
    travel, rack = random_poses(606, corners, 5)
    rack = 0.9 * rack
    back = {name: at * [-1.0, 1.0, 1.0] for name, at in corners.points.items()}
    values = dict(corners.values)
    values["static toe"] = -values["static toe"]
    these, those = _measures(Corners(back, values), travel, rack), _measures(corners, travel, rack)
    for name in ("toe", "caster", "trail"):
        np.testing.assert_allclose(these[name], -those[name], rtol=0, atol=1e-9)
    for name in ("camber", "inclination", "scrub"):
        np.testing.assert_allclose(these[name], those[name], rtol=0, atol=1e-9)
