"""Instant centres, roll centre and anti-dive, against constructions written apart and limits."""

import numpy as np
import pytest
from cornerbook.geometry.corner import instant, motion
from cornerbook.geometry.corner.linkage import Linkage
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.vec import Vec

from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.jacking_by_bars import across_heading, inner_ends, line_of_force
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.movement_by_rigid_body import Moving
from tests.authorities.rates_by_sympy import rates
from tests.support.corners import random_corners
from tests.support.sampling import STEER, random_poses

CORNERS = 150

# Parts of the value, or mm; some 130 poses agreed to 4e-9, where the centre is far away.
AGREED = 1e-7


@pytest.fixture(scope="module")
def compared():
    """(our pose, our motion, the authority's `Moving`)."""
    corners = random_corners(811, CORNERS)
    travels, racks = random_poses(812, corners, 1)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        travel, rack = float(travels[i, 0]), float(racks[i, 0])
        try:
            place = Closure(one).solve(travel, rack)
        except NotClosed:
            continue
        measured = Measured(one, *place)
        if abs(measured.toe) > STEER:
            continue
        drawn = Measured(one, one["wheel centre"], np.zeros(3))
        pose = linkage.pose(travel, rack)
        theirs = Moving(measured, rates(one, *place, rack, drawn.spindle))
        found.append((pose, motion.by_travel(linkage, pose), theirs))
    return found


def test_enough_are_compared(compared):
    assert len(compared) > 0.8 * CORNERS


def test_centres(compared):
    for pose, move, theirs in compared:
        for ours, plane in ((instant.front_centre, (1, 2)), (instant.side_centre, (0, 2))):
            centre = np.array(list(ours(move, pose)))
            assert centre == pytest.approx(theirs.instant_centre(plane), rel=AGREED, abs=AGREED)


def test_contact_path(compared):
    for pose, move, theirs in compared:
        path = np.array(list(instant.contact_velocity(move, pose)))
        assert path == pytest.approx(theirs.contact_velocity(), abs=1e-8)


def test_roll_centres_by_the_bars(compared):
    """By force with the wheel free to roll; from the instant centres with its brake held.

    A wheel that its brake holds takes any level force, one straight across the car too.
    """
    for pose, move, theirs in compared:
        at = theirs.measured
        bars = inner_ends(at.corner, pose.tie_inner.y - at.corner["tie rod inner"][1])
        for ours, force in (
            (instant.roll_centre_by_force, across_heading(at)),
            (instant.roll_centre, np.array([0.0, 1.0, 0.0])),
        ):
            across, up = line_of_force(at, bars, force)
            height = -at.contact_centre[1] * up / across
            assert ours(move, pose) == pytest.approx(height, rel=AGREED, abs=AGREED)


def test_contact_path_is_the_derivative_of_the_contact():
    """Along the travel itself, by differences of poses."""
    corners = random_corners(813, 20)
    for i in range(20):
        linkage = corners.linkage(i)
        pose = linkage.pose(10.0, 5.0)
        path = instant.contact_velocity(motion.by_travel(linkage, pose), pose)
        low, high = (linkage.pose(10.0 + d, 5.0).contact_centre() for d in (-0.01, 0.01))
        for axis in "xyz":
            slope = (getattr(high, axis) - getattr(low, axis)) / 0.02
            assert getattr(path, axis) == pytest.approx(slope, abs=1e-7)


def plane_corner(arm_heights=(150.0, 380.0), inner_heights=(150.0, 380.0)):
    """A corner plane in front view: equal arms, level and parallel unless asked otherwise."""
    (low, high), (low_inner, high_inner) = arm_heights, inner_heights
    return Linkage(
        lower_ball=Vec(0.0, 500.0, low),
        lower_front=Vec(120.0, 200.0, low_inner),
        lower_rear=Vec(-120.0, 200.0, low_inner),
        upper_ball=Vec(0.0, 500.0, high),
        upper_front=Vec(120.0, 200.0, high_inner),
        upper_rear=Vec(-120.0, 200.0, high_inner),
        tie_outer=Vec(-90.0, 500.0, 260.0),
        tie_inner=Vec(-90.0, 200.0, 260.0),
        wheel_centre=Vec(0.0, 560.0, 262.0),
        spindle=spindle_of(0.0, 0.0),
        radius=262.0,
    )


def test_parallel_equal_arms():
    """No camber change in heave, and a roll centre on the ground while the arms are level."""
    linkage = plane_corner()
    for travel in (-40.0, 0.0, 40.0):
        pose = linkage.pose(travel, 0.0)
        assert pose.camber() == pytest.approx(0.0, abs=1e-10)
        assert motion.by_travel(linkage, pose).camber_rate(pose.spindle) == pytest.approx(0.0)
    pose = linkage.pose(0.0, 0.0)
    assert instant.roll_centre(motion.by_travel(linkage, pose), pose) == pytest.approx(0.0)


def test_centre_is_where_the_arms_lines_cross():
    """The drawing-board construction, for a corner that is plane in front view."""
    linkage = plane_corner(inner_heights=(165.0, 350.0))
    pose = linkage.pose(0.0, 0.0)
    move = motion.by_travel(linkage, pose)
    centre = instant.front_centre(move, pose)
    # Lower line: 150 + d*15/300, upper: 380 - d*30/300, d inboard of y = 500.
    inboard = 230.0 / (45.0 / 300.0)
    assert centre.y == pytest.approx(500.0 - inboard)
    assert centre.z == pytest.approx(150.0 + inboard * 15.0 / 300.0)
    height = 560.0 * centre.z / (560.0 - centre.y)
    assert instant.roll_centre(move, pose) == pytest.approx(height)
    assert instant.roll_centre_by_force(move, pose) == pytest.approx(height)
    length = instant.front_arm_length(move, pose)
    assert length == pytest.approx(560.0 - centre.y)
    # Camber gain is one radian per swing arm's length.
    assert move.camber_rate(pose.spindle) == pytest.approx(-np.degrees(1.0 / length))


def test_anti_dive_by_virtual_work():
    """The force in the spring that brakes alone would call for, as a share of load transfer."""
    corners = random_corners(814, 30)
    wheelbase, height, share, force = 1600.0, 320.0, 0.6, 1000.0
    for i in range(30):
        linkage = corners.linkage(i)
        pose = linkage.pose(0.0, 0.0)
        move = motion.by_travel(linkage, pose)
        contact = move.velocity_of(pose.contact_centre())
        # Rearward brake force at a contact point that moves with the upright: its work for a
        # unit of travel is what the springs are spared, for one wheel of two.
        spared = 0.5 * share * force * contact.x / contact.z
        transfer = 0.5 * force * height / wheelbase
        percentage = instant.anti_dive(move, pose, wheelbase, height, share)
        assert percentage == pytest.approx(100.0 * spared / transfer)
        assert instant.anti_dive(move, pose, wheelbase, height, 0.0) == 0.0


def test_arrays_agree_with_floats():
    corners = random_corners(815, 1)
    linkage = corners.linkage(0)
    travel = np.linspace(-40.0, 40.0, 9)
    pose = linkage.pose(travel, 5.0)
    many = instant.roll_centre_by_force(motion.by_travel(linkage, pose), pose)
    for i, t in enumerate(travel.tolist()):
        one = linkage.pose(t, 5.0)
        alone = instant.roll_centre_by_force(motion.by_travel(linkage, one), one)
        assert many[i] == pytest.approx(alone, rel=1e-12)
