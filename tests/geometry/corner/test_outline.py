"""Points to draw: the rim against rotations, the road's against SciPy's solution, and facts."""

import math

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.block import POINTS
from cornerbook.cells.example import EXAMPLE
from cornerbook.geometry.corner import outline
from cornerbook.geometry.front_axle import road
from cornerbook.geometry.vec import Vec

from tests.authorities import road_by_scipy
from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.catalogue.independent_outline import rim_by_rotation, seen
from tests.catalogue.test_bad_input import said
from tests.support.corners import random_corners
from tests.support.sampling import random_poses

CORNERS = 60
ANGLES = (-90.0, 0.0, 37.0, 90.0, 181.0, 263.0)
AGREED = 1e-8
VIEWED = (*POINTS, "contact centre", "axis at ground", "instant centre")


@pytest.fixture(scope="module")
def corners():
    return random_corners(1301, CORNERS)


@pytest.fixture(scope="module")
def poses(corners):
    """(block, travel, rack) of each corner, at poses that the linkage reaches."""
    travel, rack = random_poses(1302, corners, 1)
    asked = [(corners.rows(i), float(travel[i, 0]), float(rack[i, 0])) for i in range(CORNERS)]
    found = [one for one in asked if isinstance(call("TOE", *one), float)]
    assert len(found) > 0.8 * CORNERS
    return found


def rim_at(block, angle, travel=0.0, rack=0.0, side="left"):
    return np.array([call("RIM_POINT", block, angle, c, travel, rack, side) for c in "xyz"])


def view_at(block, name, roll=0.0, heave=0.0, rack=0.0, side="left"):
    return np.array([call("VIEW_POINT", block, name, c, roll, heave, rack, side) for c in "xyz"])


def test_rim_is_scipys_circle(corners):
    """The wheel closed by SciPy's root, its level way forward turned about the spindle."""
    travel, rack = random_poses(1303, corners, 1)
    compared = 0
    for i in range(0, CORNERS, 3):
        block, corner = corners.rows(i), corners.one(i)
        at, moved = float(travel[i, 0]), float(rack[i, 0])
        for side in ("left", "right"):
            points = corner if side == "left" else road_by_scipy.mirrored(corner)
            try:
                theirs = Measured(points, *Closure(points).solve(at, moved, stages=8))
            except NotClosed:
                continue
            if abs(theirs.toe) > 40.0:
                continue
            for angle in ANGLES:
                ours = rim_at(block, angle, at, moved, side)
                assert ours == pytest.approx(rim_by_rotation(theirs, angle), abs=AGREED)
            compared += 1
    assert compared > 20


def test_rim_lies_on_the_wheel(poses):
    for block, travel, rack in poses:
        rows = {row[0]: row[1:] for row in block}
        centre = np.array(call("POINT", block, "wheel centre", travel, rack)[0])
        arms = [rim_at(block, angle, travel, rack) - centre for angle in ANGLES]
        for arm in arms:
            assert np.linalg.norm(arm) == pytest.approx(rows["Tyre radius"][0], rel=1e-12)
        # All in the plane square to the spindle, which camber and toe give.
        camber, toe = (math.radians(call(n, block, travel, rack)) for n in ("CAMBER", "TOE"))
        spindle = [math.sin(toe) * math.cos(camber), math.cos(toe) * math.cos(camber),
                   -math.sin(camber)]  # fmt: skip
        assert np.array(arms) @ spindle == pytest.approx(0.0, abs=1e-9)


def test_the_lowest_point_is_the_contact_centre(poses):
    for block, travel, rack in poses:
        contact = call("POINT", block, "contact centre", travel, rack)[0]
        assert rim_at(block, -90.0, travel, rack) == pytest.approx(contact, abs=1e-9)
        for angle in (-89.0, -91.0, 20.0):
            assert rim_at(block, angle, travel, rack)[2] > contact[2]


def test_the_angle_starts_forward_and_turns_upward(poses):
    for block, travel, rack in poses:
        centre = call("POINT", block, "wheel centre", travel, rack)[0]
        for side in ("left", "right"):
            level, top = (rim_at(block, a, travel, rack, side) for a in (0.0, 90.0))
            here = centre if side == "left" else rim_at(block, 180.0, travel, rack, side)
            assert level[0] > here[0]
            if side == "left":
                assert level[2] == pytest.approx(centre[2], abs=1e-9)
            assert top[2] > level[2]


def test_toe_out_turns_the_rims_leading_edge_outward():
    """By the signs of toe alone: toe-in brings the leading edge nearer to the car's middle."""
    for toe, sign in ((2.0, -1.0), (-2.0, 1.0)):
        block = tuple(("Static toe", toe, "", "") if r[0] == "Static toe" else r for r in EXAMPLE)
        for side, way in (("left", 1.0), ("right", -1.0)):
            apart = rim_at(block, 0.0, side=side)[1] - rim_at(block, 180.0, side=side)[1]
            assert apart * way * sign > 0.0


def test_the_right_wheel_is_the_mirror_at_the_opposite_rack(poses):
    for block, travel, rack in poses:
        if not isinstance(call("TOE", block, travel, -rack), float):
            continue
        left = rim_at(block, 25.0, travel, -rack)
        assert rim_at(block, 25.0, travel, rack, "right") == pytest.approx(left * [1, -1, 1])


def test_floats_and_arrays_agree(corners):
    travel = np.linspace(-30.0, 30.0, 5)
    angle = np.linspace(0.0, 300.0, 5)
    pose = corners.linkages().pose(travel, 4.0)
    at = outline.rim_point(pose, angle)
    for i in range(0, CORNERS, 10):
        for k in range(5):
            one = corners.linkage(i).pose(float(travel[k]), 4.0)
            want = outline.rim_point(one, float(angle[k]))
            assert [part[i, k] for part in at] == pytest.approx([*want], abs=1e-9)


def test_a_rim_is_closed(corners):
    points = outline.rim(corners.linkage(0).pose(0.0, 0.0), 12)
    assert len(points) == 13
    assert [*points[0]] == [*points[-1]]


@pytest.mark.parametrize("side", ["left", "right"])
def test_points_on_the_road_are_scipys(corners, side):
    draw = np.random.default_rng(1304)
    compared = 0
    for i in range(25):
        roll, heave, rack = (float(draw.uniform(-m, m)) for m in (5.0, 25.0, 20.0))
        try:
            theirs = road_by_scipy.OnRoad(corners.one(i), roll, heave, rack, right=side == "right")
        except NotClosed:
            continue
        for name in VIEWED:
            want = seen(theirs, name)
            ours = view_at(corners.rows(i), name, roll, heave, rack, side)
            # An instant centre far away is less sure.
            near = AGREED * max(1.0, (np.abs(want).max() / 500.0) ** 2)
            assert ours == pytest.approx(want, abs=10.0 * near), name
        compared += 1
    assert compared > 20


def test_without_roll_and_heave_it_is_the_point(corners):
    for i in range(0, CORNERS, 6):
        block = corners.rows(i)
        for name in VIEWED:
            want = np.array(call("POINT", block, name)[0])
            assert view_at(block, name) == pytest.approx(want, rel=1e-12, abs=1e-9)
            assert view_at(block, name, side="right") == pytest.approx(
                want * [1, -1, 1], rel=1e-12, abs=1e-9
            )


def test_both_contacts_stand_on_the_road_while_the_left_side_rises():
    road_height = call("POINT", EXAMPLE, "contact centre", 0.0, 0.0, "z")
    for side, way in (("left", 1.0), ("right", -1.0)):
        contact = view_at(EXAMPLE, "contact centre", 3.0, -4.0, 8.0, side)
        assert contact[2] == pytest.approx(road_height, abs=1e-9)
        assert contact[1] * way > 0.0
        pickup = view_at(EXAMPLE, "lower front pickup", 3.0, 0.0, 0.0, side)
        drawn = call("POINT", EXAMPLE, "lower front pickup", 0.0, 0.0, "z")
        assert (pickup[2] - drawn) * way > 0.0


def test_heave_lifts_what_is_fixed_to_the_body():
    drawn = np.array(call("POINT", EXAMPLE, "upper rear pickup")[0])
    assert view_at(EXAMPLE, "upper rear pickup", 0.0, 12.0) == pytest.approx(
        drawn + np.array([0.0, 0.0, 12.0])
    )


def test_lines_of_a_pose(corners):
    """Each line against the measure that it stands for."""
    for i in range(20):
        pose = corners.linkage(i).pose(15.0, 6.0)
        contact, beside, foot = outline.trail_and_scrub(pose)
        assert (beside - contact).length() == pytest.approx(abs(pose.trail()), abs=1e-9)
        assert (foot - beside).length() == pytest.approx(abs(pose.scrub()), abs=1e-9)
        assert (beside - contact).dot(foot - beside) == pytest.approx(0.0, abs=1e-6)
        for point in (contact, beside, foot):
            assert point.z == pytest.approx(contact.z, abs=1e-9)
        low, high = outline.steering_axis(pose)
        for joint in (pose.lower, pose.upper):
            assert (high - low).cross(joint - low).length() == pytest.approx(0.0, abs=1e-6)
        assert low.z < pose.lower.z < pose.upper.z < high.z


def test_roll_centre_is_where_two_lines_cross():
    """Against NumPy's solution of the two lines, and the road's own where contacts are level."""
    draw = np.random.default_rng(1305)
    for _ in range(40):
        (a, b), (c, d) = draw.uniform([500, -5], [700, 5], (2, 2)).tolist()
        p, q = draw.uniform(0.02, 0.4, 2).tolist()
        at = outline.roll_centre(Vec(0.0, a, b), Vec(0.0, c, d), p, q)
        # z = b + p (a - y) and z = d + q (c + y).
        want = np.linalg.solve([[p, 1.0], [-q, 1.0]], [b + p * a, d + q * c])
        assert (at.y, at.z) == pytest.approx(tuple(want), abs=1e-6)


def test_roll_centre_between_level_contacts_is_that_of_the_road(corners):
    for i in range(20):
        linkage = corners.linkage(i)
        drawn = linkage.pose(0.0, 0.0)
        pair = [road.OnRoad(linkage, drawn, sign * 2.0, -5.0, sign * 8.0) for sign in (1.0, -1.0)]
        slopes = [road.slope_by_centre(wheel.motion(), wheel.pose) for wheel in pair]
        contacts = [wheel.pose.contact_centre() for wheel in pair]
        at = outline.roll_centre(*contacts, *slopes)
        height, lateral = road.BothWheels(*(wheel.pose for wheel in pair)).crossing(*slopes)
        assert (at.z - contacts[0].z, at.y) == pytest.approx((height, lateral), rel=1e-9, abs=1e-6)


def test_what_is_wrong_is_said():
    said(call("RIM_POINT", EXAMPLE, 30.0, "u"), "coordinate", "x, y")
    said(call("RIM_POINT", EXAMPLE, 30.0, "x", 0.0, 0.0, "middle"), "side", "left, right")
    said(call("RIM_POINT", EXAMPLE, 30.0, "x", 900.0), "travel 900 cannot be reached")
    said(call("RIM_POINT", EXAMPLE, 30.0, "x", 0.0, 200.0, "right"), "past lock")
    said(call("VIEW_POINT", EXAMPLE, "hub", "x", 2.0), "hub", "contact centre", "tie rod inner")
    said(call("VIEW_POINT", EXAMPLE, "contact centre", "all"), "coordinate")
    said(call("VIEW_POINT", EXAMPLE, "contact centre", "z", 50.0), "roll", "between -45 and 45")
    for side in ("left", "right"):
        gone = call("VIEW_POINT", EXAMPLE, "contact centre", "z", 40.0, 0.0, 0.0, side)
        said(gone, "roll 40", side + " wheel")
    right_hand = tuple((r[0], r[1], -r[2], r[3]) if isinstance(r[2], float) else r for r in EXAMPLE)
    said(call("VIEW_POINT", right_hand, "contact centre", "z"), "left-hand corner was expected")
    said(call("RIM_POINT", right_hand, 0.0, "z"), "left-hand corner was expected")
