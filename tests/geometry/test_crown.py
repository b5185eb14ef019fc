"""A tyre with a crowned tread: contact, trail, scrub, slopes and lever arms."""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.corner import Corner
from cornerbook.geometry.corner import instant
from cornerbook.geometry.corner.motion import by_travel
from cornerbook.geometry.steering import moments

from tests.authorities.crown_by_minimum import Crowned, trail_and_scrub
from tests.authorities.road_by_scipy import OnRoad
from tests.support.corners import random_corners

CORNERS = random_corners(37, 4)
CROWN, LEAN = 55.0, 6.0
# The search knows the least height to a rounding, and the place to the root of one.
PLACE = 1e-3


def crowned(i, crown=CROWN):
    """Corner i as a block of cells, leaning well, with a crown radius."""
    return (*leaning(i), ("Crown radius", crown, "", ""))


def leaning(i, camber=LEAN):
    """Corner i as a block of cells, its camber so much."""
    rows = CORNERS.rows(i)
    return tuple((row[0], camber, "", "") if row[0] == "Static camber" else row for row in rows)


def search(pose):
    return Crowned(tuple(pose.wheel_centre), tuple(pose.spindle), pose.radius, pose.crown)


@pytest.mark.parametrize("i", range(CORNERS.count))
@pytest.mark.parametrize("rack", [0.0, 25.0, -25.0])
def test_contact_trail_and_scrub_are_those_of_the_lowest_point_of_the_tread(i, rack):
    pose = Corner(crowned(i)).pose(12.0, rack)
    contact = search(pose).lowest()
    assert tuple(pose.contact_centre()) == pytest.approx(contact, abs=PLACE)
    trail, scrub = trail_and_scrub(
        contact, tuple(pose.lower), tuple(pose.upper), tuple(pose.spindle)
    )
    assert call("TRAIL", crowned(i), 12.0, rack) == pytest.approx(trail, abs=PLACE)
    assert call("SCRUB", crowned(i), 12.0, rack) == pytest.approx(scrub, abs=PLACE)


def test_contact_lies_beside_the_disc_by_the_crown_and_the_sine_of_camber():
    # In closed form, no toe: c sin(camber) outboard of the disc's plane; R - c lower by its cosine.
    pose = Corner(crowned(0)).pose(0.0, 28.0)
    n = np.array(tuple(pose.spindle))
    beside = (np.array(tuple(pose.contact_centre())) - np.array(tuple(pose.wheel_centre))) @ n
    assert beside == pytest.approx(CROWN * np.sin(np.radians(pose.camber())))
    assert abs(beside) > 1.0
    low = pose.wheel_centre.z - pose.contact_centre().z
    lean = np.cos(np.radians(pose.camber()))
    assert low == pytest.approx((pose.radius - CROWN) * lean + CROWN)


@pytest.mark.parametrize("i", range(2))
def test_no_crown_is_the_thin_disc(i):
    plain, none = leaning(i), crowned(i, 0.0)
    for name in ("TRAIL", "SCRUB", "ROLL_CENTRE", "WHEEL_CENTRE_FORCE_ARM", "TRACK_CHANGE"):
        assert call(name, none, 10.0, 20.0) == call(name, plain, 10.0, 20.0)
    assert call("IN_ROLL", none, "trail", "right", 2.0, 5.0, 9.0) == call(
        "IN_ROLL", plain, "trail", "right", 2.0, 5.0, 9.0
    )


def test_upright_wheel_stands_where_the_disc_does_whatever_the_crown():
    rows = leaning(1, 0.0)
    for name in ("TRAIL", "SCRUB"):
        there = call(name, (*rows, ("Crown radius", CROWN, "", "")))
        assert there == pytest.approx(call(name, rows), abs=1e-9)


@pytest.mark.parametrize("right", [False, True])
def test_crowned_wheel_stands_on_the_road_under_a_rolled_body(right):
    one = {**CORNERS.one(2), "static camber": LEAN, "crown radius": CROWN}
    road = OnRoad(one, -3.0, 8.0, 14.0, right)
    side = "right" if right else "left"
    rows = crowned(2)
    for name in ("camber", "toe"):
        value = call("IN_ROLL", rows, name, side, -3.0, 8.0, 14.0)
        assert value == pytest.approx(road.value(name), abs=1e-8)
    travel = call("WHEEL_TRAVEL_IN_ROLL", rows, side, -3.0, 8.0, 14.0)
    assert travel == pytest.approx(road.travel, abs=1e-7)
    sign = -1.0 if right else 1.0
    corner = Corner(rows)
    pose = corner.on_road(sign * -3.0, 8.0, sign * 14.0)
    assert search(pose).lowest()[2] == pytest.approx(corner.drawn.contact_centre().z, abs=1e-8)


def test_contact_velocity_is_the_slope_of_the_searched_contact():
    corner = Corner(crowned(3))
    step = 2.0
    ends = [search(corner.pose(10.0 + way, 15.0)).lowest() for way in (step, -step)]
    pose = corner.pose(10.0, 15.0)
    velocity = instant.contact_velocity(by_travel(corner.linkage, pose), pose)
    assert tuple(velocity) == pytest.approx((ends[0] - ends[1]) / (2 * step), abs=PLACE)


@pytest.mark.parametrize("reacted", ["upright", "inboard"])
def test_moment_of_a_forward_force_is_that_of_statics(reacted):
    pose = Corner(crowned(0)).pose(0.0, 28.0)
    n, centre = np.array(tuple(pose.spindle)), np.array(tuple(pose.wheel_centre))
    heading = np.cross([n[0], n[1], 0.0], [0.0, 0.0, 1.0])
    force = 700.0 * heading / np.linalg.norm(heading)
    about_centre = np.cross(search(pose).lowest() - centre, force)
    if reacted == "inboard":
        about_centre -= n * (n @ about_centre)
    lower, upper = np.array(tuple(pose.lower)), np.array(tuple(pose.upper))
    axis = (upper - lower) / np.linalg.norm(upper - lower)
    moment = -axis @ (about_centre + np.cross(centre - lower, force))
    found = call("STEERING_MOMENT", crowned(0), 700.0, 0.0, 0.0, 0.0, 28.0, reacted)
    assert found == pytest.approx(moment, abs=700.0 * PLACE)
    arms = {"upright": moments.longitudinal_force_arm, "inboard": moments.wheel_centre_force_arm}
    assert 700.0 * arms[reacted](pose) == pytest.approx(found)


def test_slope_of_scrub_by_a_coordinate_is_that_of_a_difference():
    slope = call("SENSITIVITY", crowned(1), "scrub", "upper ball joint", "z", 5.0, 20.0)
    ends = []
    for change in (0.01, -0.01):
        rows = [list(row) for row in crowned(1)]
        for row in rows:
            row[3] = row[3] + change if row[0] == "Upper ball joint" else row[3]
        ends.append(call("SCRUB", tuple(map(tuple, rows)), 5.0, 20.0))
    assert slope == pytest.approx((ends[0] - ends[1]) / 0.02, rel=1e-5)


@pytest.mark.parametrize("value", [-1.0, 400.0, "round", ""])
def test_bad_crown_radius_is_said(value):
    for name in ("TRAIL", "CAMBER_GAIN", "CHECK"):
        found = call(name, crowned(0, value))
        assert found.startswith("#") and "rown radius" in found
