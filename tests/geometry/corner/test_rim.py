"""Room between a member and its wheel: distances in space, places by hand, poses out of reach."""

import math

import numpy as np
import pytest
from cornerbook.geometry.corner.rim import Wheel
from cornerbook.geometry.vec import Vec

from tests.authorities import rim_by_distance
from tests.support.corners import random_corners
from tests.support.sampling import random_poses


class _Stands:
    wheel_centre = Vec(0.0, 0.0, 0.0)
    spindle = Vec(0.0, 1.0, 0.0)


def clearance(wheel, outer, inner, member_radius=0.0):
    ends = (Vec(*map(float, outer)), Vec(*map(float, inner)))
    return Wheel(*wheel).clearance(_Stands, *ends, member_radius)


def test_against_the_nearest_points_in_space():
    """Members of all kinds that do not touch; the nearest place is the rim, its edge, the cone."""
    draw = np.random.default_rng(881)
    centre, spindle = np.zeros(3), np.array([0.0, 1.0, 0.0])
    inside = np.zeros(3, dtype=int)
    while inside.sum() < 30:
        flange = float(draw.choice([0.0, draw.uniform(20, 60)]))
        wheel = (draw.uniform(120, 220), draw.uniform(40, 200), flange, draw.uniform(-30, 40))
        outer = np.array([draw.uniform(-100, 100), draw.uniform(-90, 0), draw.uniform(-140, 140)])
        inner = np.array(
            [draw.uniform(-200, 200), draw.uniform(-400, -150), draw.uniform(-250, 250)]
        )
        ours = clearance(wheel, outer, inner, 8.0)
        if ours < -7.0:
            continue
        theirs = rim_by_distance.clearance(centre, spindle, outer, inner, wheel, 8.0)
        assert ours == pytest.approx(theirs, abs=1e-8)
        bare = clearance((*wheel[:2], 0.0, 0.0), outer, inner, 8.0)
        beside = min(-outer[1], -inner[1]) > 0.5 * wheel[1]
        inside[2 if ours < bare else int(beside)] += 1
    assert (inside > 3).all()


@pytest.mark.parametrize(
    "outer, inner, expected",
    [
        # Within the rim, level: 100 less 30.
        ((0, 10, 30), (0, -300, 30), 70.0),
        # It rises by one for each one inboard; from the edge, at 50 inboard and 100 off, it is
        # farther than the 20 it keeps below the rim where it leaves it, by the root of two.
        ((0, 0, 30), (0, -300, 330), 20.0 / math.sqrt(2.0)),
        # Past the rim, within its width: by as much as it is past.
        ((0, -30, 0), (0, -30, 130), -30.0),
        # Beside the rim: 30 sideways and 60 up to the edge, a right-angled triangle.
        ((0, -80, 0), (0, -80, 40), math.hypot(30.0, 60.0)),
        # A level bar across beside the rim, through the spindle's line: its ends are nearest.
        ((130, -90, 0), (-100, -90, 0), 40.0),
    ],
)
def test_by_hand(outer, inner, expected):
    """A rim of radius 100 and width 100 about the y axis, no spokes."""
    assert clearance((100.0, 100.0), outer, inner) == pytest.approx(expected, abs=1e-9)
    less = clearance((100.0, 100.0), outer, inner, 12.0)
    assert less == pytest.approx(expected - 12.0, abs=1e-9)


def test_spokes_by_hand():
    """A cone of 45 degrees from a flange of radius 20, 80 inboard, to the rim of radius 100."""
    wheel = (100.0, 20.0, 20.0, 80.0)
    # At 50 off the cone lies 50 inboard; a place 90 inboard is 40 from it along the spindle.
    assert clearance(wheel, (0, -90, 50), (0, -300, 50)) == pytest.approx(40.0 / math.sqrt(2.0))
    assert clearance(wheel, (0, -30, 50), (0, -300, 50)) == pytest.approx(-20.0 / math.sqrt(2.0))
    # Flat spokes: the plane of the rim's middle.
    assert clearance((100.0, 20.0, 20.0, 0.0), (0, -25, 10), (0, -300, 10)) == pytest.approx(25.0)


def test_arrays_agree_with_floats_and_out_of_reach_there_is_no_number():
    corners = random_corners(814, 4)
    travel, rack = random_poses(815, corners, 5)
    many = corners.linkages()
    poses = many.pose(travel, rack)
    wheel = Wheel(160.0, 60.0, 30.0, 12.0)
    table = wheel.clearance(poses, poses.tie_outer, poses.tie_inner, 8.0)
    assert table.shape == (4, 5)
    for i in range(4):
        for j in range(5):
            pose = corners.linkage(i).pose(float(travel[i, j]), float(rack[i, j]))
            one = wheel.clearance(pose, pose.tie_outer, pose.tie_inner, 8.0)
            assert one == pytest.approx(table[i, j], rel=1e-9, abs=1e-9, nan_ok=True)
    for each in (wheel, Wheel(160.0, 60.0)):
        gone = corners.linkage(0).pose(5000.0, 0.0)
        assert math.isnan(each.clearance(gone, gone.tie_outer, gone.tie_inner))
