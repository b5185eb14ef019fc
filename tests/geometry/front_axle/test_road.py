"""Wheels on the road under a rolled and heaved body, against solutions written apart and limits."""

import numpy as np
import pytest
from cornerbook.geometry.corner import instant, motion
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.front_axle import road
from scipy.spatial.transform import Rotation

from tests.authorities import road_by_scipy
from tests.authorities.closure_by_scipy import NotClosed
from tests.authorities.rigid_bodies_by_mujoco import Bodies
from tests.geometry.corner.test_instant import plane_corner
from tests.support.corners import Corners, random_corners
from tests.support.sampling import STEER, random_poses

CORNERS = 150
ROLL, HEAVE = 5.0, 30.0

# Lengths in mm, angles in degrees; some 290 wheels agreed to 4e-12.
AGREED = 1e-9

MEASURES = ["camber", "toe", "caster", "inclination", "trail", "scrub"]
POINTS = ["lower", "upper", "tie_outer", "tie_inner", "wheel_centre", "spindle"]


def random_stances(seed, corners, each):
    """Rolls in degrees, heaves and racks in mm, of shape (n, each)."""
    draw = np.random.default_rng(seed)
    shape = (corners.count, each)
    _, rack = random_poses(seed + 1, corners, each)
    return draw.uniform(-ROLL, ROLL, shape), draw.uniform(-HEAVE, HEAVE, shape), 0.9 * rack


def both(linkage, roll, heave, rack):
    """(left, right) `OnRoad`, the right one as a left-hand corner."""
    drawn = linkage.pose(0.0, 0.0)
    left = road.OnRoad(linkage, drawn, roll, heave, rack)
    return left, road.OnRoad(linkage, drawn, -roll, heave, -rack)


def crossing(slope, left, right):
    """(height, lateral) where lines of both wheels cross."""
    slopes = [slope(wheel.motion(), wheel.pose) for wheel in (left, right)]
    return road.BothWheels(left.pose, right.pose).crossing(*slopes)


@pytest.fixture(scope="module")
def compared():
    """Pairs of ours and SciPy's: [(left, right), (left, right), (roll, heave)] for each stance."""
    corners = random_corners(901, CORNERS)
    rolls, heaves, racks = random_stances(902, corners, 1)
    found = []
    for i in range(CORNERS):
        stance = tuple(float(each[i, 0]) for each in (rolls, heaves, racks))
        one = corners.one(i)
        try:
            theirs = [road_by_scipy.OnRoad(one, *stance, right=side) for side in (False, True)]
        except NotClosed:
            continue
        if max(abs(wheel.value("toe")) for wheel in theirs) <= STEER:
            found.append((both(corners.linkage(i), *stance), theirs, stance))
    return found


def test_enough_are_compared(compared):
    assert len(compared) > 0.85 * CORNERS
    rolls = [stance[0] for _, _, stance in compared]
    assert min(rolls) < -0.9 * ROLL
    assert max(rolls) > 0.9 * ROLL


@pytest.mark.parametrize("measure", MEASURES)
def test_measures_of_both_wheels(compared, measure):
    for ours, theirs, _ in compared:
        for wheel, its in zip(ours, theirs, strict=True):
            assert getattr(wheel.pose, measure)() == pytest.approx(its.value(measure), abs=AGREED)


def test_places_and_travel_of_both_wheels(compared):
    for ours, theirs, (roll, heave, _) in compared:
        for wheel, its, sign in zip(ours, theirs, (1.0, -1.0), strict=True):
            contact = np.array([*wheel.pose.contact_centre()]) * [1.0, sign, 1.0]
            assert contact == pytest.approx(its.contact, abs=AGREED)
            drawn = wheel.linkage.pose(0.0, 0.0)
            travel = road.travel_of(wheel.pose, drawn, sign * roll, heave)
            assert travel == pytest.approx(its.travel, abs=AGREED)


def test_track(compared):
    for ours, theirs, _ in compared:
        track = road.BothWheels(ours[0].pose, ours[1].pose).track()
        assert track == pytest.approx(theirs[0].contact[1] - theirs[1].contact[1], abs=AGREED)


def test_roll_centres(compared):
    for ours, theirs, _ in compared[:50]:
        for slope, find in (
            (road.slope_by_centre, road_by_scipy.roll_centre),
            (instant.slope_by_force, road_by_scipy.roll_centre_by_force),
        ):
            height, lateral = crossing(slope, *ours)
            # Nearly parallel lines cross far away, where all is less sure.
            far = 1e-7 * (1.0 + abs(lateral) / 500.0) ** 2
            assert (lateral, height) == pytest.approx(find(*theirs), abs=far)


def test_against_a_rigid_body_engine():
    """MuJoCo's pose at our travel, turned and lifted as the body is, stands on the road."""
    corners = random_corners(903, 25)
    rolls, heaves, racks = random_stances(904, corners, 1)
    for i in range(25):
        one, linkage = corners.one(i), corners.linkage(i)
        roll, heave, rack = (float(each[i, 0]) for each in (rolls, heaves, 0.5 * racks))
        drawn = linkage.pose(0.0, 0.0)
        wheel = road.OnRoad(linkage, drawn, roll, heave, rack)
        bodies = Bodies(one)
        assert bodies.solve(road.travel_of(wheel.pose, drawn, roll, heave), rack) < 1e-9
        body = Rotation.from_euler("x", roll, degrees=True)
        foot = np.array([0.0, 0.0, drawn.contact_centre().z])
        centre = body.apply(bodies.at("wheel centre") - foot) + foot + [0.0, 0.0, heave]
        spindle = (body * bodies.turned()).apply([*drawn.spindle])
        lowest = centre[2] - one["tyre radius"] * np.sqrt(1.0 - spindle[2] ** 2)
        assert lowest == pytest.approx(foot[2], abs=1e-8)
        assert np.array([*wheel.pose.wheel_centre]) == pytest.approx(centre, abs=1e-8)
        assert wheel.pose.camber() == pytest.approx(-np.degrees(np.arcsin(spindle[2])), abs=1e-9)


def test_without_roll_it_is_the_pose_of_that_travel():
    corners = random_corners(905, 50)
    linkage = corners.linkages()
    drawn = linkage.pose(0.0, 0.0)
    heave = np.linspace(-40.0, 40.0, 9)
    wheel = road.OnRoad(linkage, drawn, 0.0, heave, 4.0)
    same = linkage.pose(road.travel_of(wheel.pose, drawn, 0.0, heave), 4.0)
    for name in MEASURES:
        assert getattr(wheel.pose, name)() == pytest.approx(getattr(same, name)(), abs=1e-9)
    ground = drawn.contact_centre().z + 0.0 * heave
    assert wheel.pose.contact_centre().z == pytest.approx(ground, abs=1e-9)
    assert same.contact_centre().z == pytest.approx(ground - heave, abs=1e-9)


def test_as_drawn_nothing_moves():
    linkage = random_corners(906, 1).linkage(0)
    drawn = linkage.pose(0.0, 0.0)
    pose = road.OnRoad(linkage, drawn, 0.0, 0.0, 0.0).pose
    for name in POINTS:
        assert [*getattr(pose, name)] == pytest.approx([*getattr(drawn, name)], abs=1e-11)


def test_a_roll_to_the_other_side_mirrors_all():
    corners = random_corners(907, 40)
    rolls, heaves, racks = random_stances(908, corners, 1)
    for i in range(40):
        linkage = corners.linkage(i)
        roll, heave, rack = (float(each[i, 0]) for each in (rolls, heaves, 0.5 * racks))
        here, there = both(linkage, roll, heave, rack), both(linkage, -roll, heave, -rack)
        for one, other in ((here[0], there[1]), (here[1], there[0])):
            for name in MEASURES:
                assert getattr(one.pose, name)() == getattr(other.pose, name)()
        for slope in (road.slope_by_centre, instant.slope_by_force):
            height, lateral = crossing(slope, *here)
            other_height, other_lateral = crossing(slope, *there)
            assert other_height == pytest.approx(height, rel=1e-9)
            assert other_lateral == pytest.approx(-lateral, rel=1e-9)


@pytest.mark.parametrize("way", [(1000.0, 0.0, 0.0), (0.0, 0.0, -200.0)])
def test_moving_the_whole_car_changes_nothing(way):
    """Along the car, or in height together with its road."""
    corners = random_corners(909, 60)
    stance = random_stances(910, corners, 3)
    moved = corners.moved(np.array(way))
    results = []
    for each in (corners, moved):
        left, right = both(each.linkages(), *stance)
        wheels = road.BothWheels(left.pose, right.pose)
        measures = [getattr(left.pose, name)() for name in MEASURES]
        results.append([*measures, wheels.track(), crossing(road.slope_by_centre, left, right)[0]])
    for one, other in zip(*results, strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-7, atol=1e-8)


def test_parallel_equal_arms_lean_with_the_body():
    """Camber to the road is the roll itself, and the body rolls about the road at first."""
    linkage = plane_corner()
    for roll in (-4.0, -1.0, 0.0, 2.5):
        left, right = both(linkage, roll, 10.0, 0.0)
        # Its left side up, the body and the left wheel lean to the right: inward.
        assert left.pose.camber() == pytest.approx(-roll, abs=1e-9)
        assert right.pose.camber() == pytest.approx(roll, abs=1e-9)
    # Level arms: both lines lie in the road.
    assert crossing(road.slope_by_centre, *both(linkage, 0.0, 0.0, 0.0)) == pytest.approx((0, 0))


def test_without_roll_the_roll_centre_is_that_of_the_corner():
    corners = random_corners(911, 40)
    for i in range(40):
        linkage = corners.linkage(i)
        left, right = both(linkage, 0.0, -12.0, 0.0)
        move = motion.by_travel(linkage, left.in_body)
        for slope, find in (
            (road.slope_by_centre, instant.roll_centre),
            (instant.slope_by_force, instant.roll_centre_by_force),
        ):
            height, lateral = crossing(slope, left, right)
            assert height == pytest.approx(find(move, left.in_body), abs=1e-9)
            assert lateral == pytest.approx(0.0, abs=1e-9)


def test_the_contacts_move_as_about_the_roll_centre_by_force():
    """The body turned about the road mid-car takes both contacts along by the centre's height.

    To keep the contacts in place it must turn about the roll centre instead. Wheels straight
    ahead in the car's own cross plane, so that a wheel that leans keeps its lowest point.
    """
    corners = random_corners(912, 30)
    values = dict(corners.values)
    values["static toe"] = 0.0 * values["static toe"]
    corners = Corners(corners.points, values)
    for i in range(30):
        linkage = corners.linkage(i)
        height, _ = crossing(instant.slope_by_force, *both(linkage, 0.0, 0.0, 0.0))
        step = 0.01
        places = []
        for roll in (-step, step):
            left, right = (wheel.pose.contact_centre().y for wheel in both(linkage, roll, 0.0, 0.0))
            places.append(0.5 * (left - right))
        slope = (places[1] - places[0]) / np.radians(2.0 * step)
        assert -slope == pytest.approx(height, abs=1e-4)


def test_lines_that_are_parallel_off_the_road_do_not_cross():
    pose = plane_corner().pose(0.0, 0.0)
    assert np.isnan(road.BothWheels(pose, pose).crossing(0.1, -0.1)).all()


def test_the_way_there_and_back():
    linkage = random_corners(913, 1).linkage(0)
    stance = road.Stance(3.0, 7.0, 1.5)
    pose = linkage.pose(5.0, 3.0)
    there = stance.pose(pose)
    assert isinstance(there, Pose)
    for name in POINTS[:-1]:
        back = stance.back(getattr(there, name))
        assert [*back] == pytest.approx([*getattr(pose, name)], abs=1e-10)


def test_arrays_agree_with_floats():
    corners = random_corners(914, 60, wild=True)
    stance = random_stances(915, corners, 4)
    many = both(corners.linkages(), *stance)
    track = road.BothWheels(many[0].pose, many[1].pose).track()
    heights = crossing(instant.slope_by_force, *many)[0]
    for i in range(60):
        for j in range(4):
            one = both(corners.linkage(i), *(float(each[i, j]) for each in stance))
            for wheel, table in zip(one, many, strict=True):
                camber = wheel.pose.camber()
                assert type(camber) is float
                assert camber == pytest.approx(table.pose.camber()[i, j], abs=1e-9, nan_ok=True)
            alone = road.BothWheels(one[0].pose, one[1].pose).track()
            assert alone == pytest.approx(track[i, j], rel=1e-11, nan_ok=True)
            height = crossing(instant.slope_by_force, *one)[0]
            assert height == pytest.approx(heights[i, j], rel=1e-6, nan_ok=True)


def test_a_grid_and_places_out_of_reach():
    linkage = random_corners(916, 1).linkage(0)
    roll = np.array([-3.0, 0.0, 3.0])
    heave = np.array([-900.0, 0.0])
    wheel = road.OnRoad(linkage, linkage.pose(0.0, 0.0), roll[:, None], heave, 0.0)
    camber = wheel.pose.camber()
    assert camber.shape == (3, 2)
    assert np.isnan(camber[:, 0]).all()
    assert not np.isnan(camber[:, 1]).any()
