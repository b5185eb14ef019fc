"""Moments about the steering axis against statics, virtual work and facts of the trade."""

import math

import numpy as np
import pytest
from cornerbook.geometry.corner import layout, motion
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.steering import hands, moments
from cornerbook.geometry.vec import Vec
from scipy.spatial.transform import Rotation

from tests.authorities.actuation_by_mpmath import Actuated
from tests.authorities.actuation_by_mpmath import NotClosed as NotThere
from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.turn_by_scipy_rotation import axis_of
from tests.authorities.upright_by_statics import Upright
from tests.support.actuations import actuation_of, random_actuation
from tests.support.corners import random_corners
from tests.support.sampling import STEER, random_poses

CORNERS = 150
ARMS = {
    "longitudinal": (moments.longitudinal_force_arm, (1.0, 0.0, 0.0)),
    "lateral": (moments.lateral_force_arm, (0.0, 1.0, 0.0)),
    "vertical": (moments.vertical_load_arm, (0.0, 0.0, 1.0)),
    "at the wheel centre": (moments.wheel_centre_force_arm, (1.0, 0.0, 0.0, "inboard")),
}


@pytest.fixture(scope="module")
def compared():
    """(pose, motion by travel, motion by rack, the upright of the authority)."""
    corners = random_corners(4101, CORNERS)
    travels, racks = random_poses(4102, corners, 2)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        for travel, rack in zip(travels[i].tolist(), racks[i].tolist(), strict=True):
            try:
                measured = Measured(one, *Closure(one).solve(travel, rack))
            except NotClosed:
                continue
            if abs(measured.toe) > STEER:
                continue
            pose = linkage.pose(travel, rack)
            moves = motion.by_travel(linkage, pose), motion.by_rack(linkage, pose)
            found.append((pose, *moves, Upright(one, measured, rack)))
    assert len(found) > 0.85 * CORNERS * 2
    return found


@pytest.mark.parametrize("which", ARMS)
def test_arms_against_the_six_equations_of_the_upright(compared, which):
    arm, forces = ARMS[which]
    for pose, _, _, upright in compared:
        assert arm(pose) == pytest.approx(upright.moment(*forces), abs=1e-7)


def test_the_whole_moment_and_what_it_pushes_on_the_rack(compared):
    draw = np.random.default_rng(4103)
    for pose, _, _, upright in compared:
        forces = draw.uniform(-1000.0, 1000.0, 3).tolist()
        for reacted in ("upright", "inboard"):
            beside = (18.0, 140.0)
            wrench = moments.Wrench(*forces, reacted == "inboard", *beside)
            moment = moments.steering_moment(pose, wrench)
            theirs = (*forces, reacted, *beside)
            assert moment == pytest.approx(upright.moment(*theirs), abs=1e-4)
            push = moment / moments.rack_lever(pose)
            assert push == pytest.approx(upright.push_on_rack(*theirs), rel=1e-7, abs=1e-6)


@pytest.mark.parametrize("rocker", [True, False])
def test_what_a_spring_on_the_upright_pushes_on_the_rack(rocker):
    """Six equations of an upright that a rod holds up in place of an arm, by numpy."""
    draw = np.random.default_rng(4104)
    corners = random_corners(4105, 40)
    seen = 0
    for i in range(40):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points = random_actuation(draw, one, rocker=rocker)
        travel, rack = float(draw.uniform(-20, 20)), float(draw.uniform(-15, 15))
        theirs = Actuated({**one, **points}, mount)
        try:
            unknown = [float(x) for x in theirs.solve(travel, rack)]
        except NotThere:
            continue
        pose = linkage.pose(travel, rack)
        by_travel = motion.by_travel(linkage, pose)
        actuated = actuation_of(one, linkage, mount, points).at(linkage, pose, by_travel)
        forces = draw.uniform(-1000.0, 1000.0, 3).tolist()
        if mount != "upright":
            assert actuated.turn_ratio == 0.0
            continue
        outer = np.array(theirs.carried("rod outer", mount, unknown, math), dtype=float)
        end = theirs.on_rocker("rod inner", unknown, math) if rocker else points["spring frame"]
        inner = np.array(end, dtype=float)
        upright = Upright(one, Measured(one, *Closure(one).solve(travel, rack)), rack)
        for reacted in ("upright", "inboard"):
            beside = (18.0, 140.0)
            wrench = moments.Wrench(*forces, reacted == "inboard", *beside)
            moment = moments.steering_moment(pose, wrench)
            moment += moments.spring_moment(pose, by_travel, actuated, wrench)
            push = upright.push_on_rack_beside_a_spring(outer, inner, *forces, reacted, *beside)
            assert moment / moments.rack_lever(pose) == pytest.approx(push, rel=1e-7, abs=1e-5)
            seen += 1
    assert seen > 10


@pytest.mark.parametrize("which", ["longitudinal", "lateral", "vertical"])
def test_arms_by_virtual_work_of_finite_turns(compared, which):
    arm, (ahead, aside, up) = ARMS[which]
    for pose, _, _, upright in compared:
        force = ahead * upright.heading + aside * upright.outboard + np.array([0.0, 0.0, up])
        work = upright.work_slope(upright.at.contact_centre, force)
        assert arm(pose) == pytest.approx(work, abs=1e-6)


def test_the_moment_of_a_load_is_the_fall_of_the_wheel_times_the_load(compared):
    """The lowest point of the turned disc, not a point fixed to it: self-centring by lift."""
    for pose, _, _, upright in compared:
        at, heights = upright.at, []
        for turn in (-2e-3, -1e-3, 1e-3, 2e-3):
            turned = upright.rotated(turn)
            centre = turned.apply(at.centre - at.lower)
            spindle = turned.apply(at.spindle)
            heights.append(centre[2] - at.corner["tyre radius"] * np.hypot(*spindle[:2]))
        slope = (heights[0] - 8.0 * heights[1] + 8.0 * heights[2] - heights[3]) / 12e-3
        assert moments.vertical_load_arm(pose) == pytest.approx(slope, abs=1e-6)


def test_arms_are_trail_and_scrub_and_hub_by_the_axis(compared):
    for pose, _, _, upright in compared:
        up = upright.axis[2]
        assert moments.lateral_force_arm(pose) == pytest.approx(upright.at.trail * up, abs=1e-7)
        assert moments.longitudinal_force_arm(pose) == pytest.approx(
            upright.at.scrub * up, abs=1e-7
        )
        parts = moments.caster_load_arm(pose) + moments.inclination_load_arm(pose)
        assert moments.vertical_load_arm(pose) == parts


def test_toe_by_rack_is_the_motion_by_rack_and_near_the_lever(compared):
    for pose, by_travel, by_rack, _ in compared:
        rate = moments.toe_by_rack(pose, by_travel)
        assert rate == pytest.approx(by_rack.toe_rate(pose.spindle), abs=1e-11)
        assert rate * moments.rack_lever(pose) > 0.0


def _pose(caster, inclination, outboard, ahead, camber=0.0, steer=0.0, radius=262.0):
    """A wheel whose axis passes beside its centre, turned about it; the rod is none."""
    axis = axis_of(caster, inclination)
    hub = np.array([-ahead, 600.0 - outboard, radius])
    lower, upper = hub - 110.0 * axis, hub + 100.0 * axis
    turned = Rotation.from_rotvec(np.radians(steer) * axis)
    centre = lower + turned.apply(np.array([0.0, 600.0, radius]) - lower)
    spindle = turned.apply(np.array([*spindle_of(camber, 0.0)]))
    vec = [Vec(*p.tolist()) for p in (lower, upper, centre, spindle)]
    return Pose(vec[0], vec[1], None, None, vec[2], vec[3], radius)


def test_with_neither_caster_nor_trail_a_load_gives_no_moment_whatever_the_scrub():
    """Common practice, no source; the signs come from statics."""
    for outboard in (-20.0, 0.0, 70.0):
        pose = _pose(0.0, 9.0, outboard, 0.0)
        assert moments.vertical_load_arm(pose) == pytest.approx(0.0, abs=1e-10)
        assert moments.vertical_load_arm(_pose(5.0, 9.0, outboard, 0.0)) != 0.0 or outboard == 0.0


def test_an_axis_nearly_laid_flat_fore_and_aft_gives_load_times_scrub():
    axis = Vec(-1.0, 0.0, 1e-9)  # its upper end points rearward: caster past all reason
    lower = Vec(0.0, 540.0, 0.0)
    pose = Pose(lower, lower + axis * 200.0, None, None,
                Vec(0.0, 600.0, 262.0), spindle_of(0.0, 0.0), 262.0)  # fmt: skip
    assert pose.scrub() == pytest.approx(60.0)
    assert moments.vertical_load_arm(pose) == pytest.approx(60.0, rel=1e-7)


def test_braking_at_a_contact_outboard_of_the_axis_turns_toward_toe_out():
    """By hand: axis upright, force rearward 40 outboard of it: the left wheel turns left."""
    pose = _pose(0.0, 0.0, 40.0, 0.0)
    braking = moments.Wrench(-100.0, 0.0, 0.0)
    assert moments.steering_moment(pose, braking) == pytest.approx(-4000.0)
    assert moments.steering_moment(_pose(0.0, 0.0, -40.0, 0.0), braking) > 0.0


def test_lateral_moment_is_as_force_and_trail():
    one, two = _pose(0.0, 8.0, 50.0, -10.0), _pose(0.0, 8.0, 50.0, -20.0)
    assert two.trail() == pytest.approx(2.0 * one.trail())
    arm = moments.lateral_force_arm(one)
    assert arm > 0.0
    assert moments.lateral_force_arm(two) == pytest.approx(2.0 * arm)
    lateral = moments.Wrench(0.0, 300.0, 0.0)
    assert moments.steering_moment(one, lateral) == pytest.approx(300.0 * arm)


@pytest.mark.parametrize("steer", [-25.0, -10.0, 10.0, 25.0])
def test_the_weight_centres_by_inclination_and_scrub(steer):
    """Both wheels alike loaded turn back: the sum of the moments to the left is against steer."""
    left = moments.vertical_load_arm(_pose(0.0, 10.0, 70.0, 0.0, steer=steer))
    right = moments.vertical_load_arm(_pose(0.0, 10.0, 70.0, 0.0, steer=-steer))
    to_left = -left + right
    assert to_left * steer < 0.0


def test_the_outer_contact_moves_forward_in_a_turn_where_the_scrub_is_positive():
    """Common practice, no source: a right turn, the left wheel is the outer one."""
    pose = _pose(3.0, 8.0, 70.0, 0.0, steer=-20.0)
    straight = _pose(3.0, 8.0, 70.0, 0.0)
    assert straight.scrub() > 0.0
    assert pose.contact_centre().x > straight.contact_centre().x


@pytest.mark.parametrize("seed", range(40))
def test_rise_at_steer_with_the_hub_offsets_is_that_of_the_corner_with_arms_held(seed):
    corners = random_corners(4200 + seed, 1)
    corners.values["static toe"][:] = 0.0
    one = corners.one(0)
    drawn = Measured(one, one["wheel centre"], np.zeros(3))
    pose = corners.linkage(0).pose(0.0, 0.0)
    outboard, ahead = moments.hub_outboard(pose), moments.hub_ahead(pose)
    upright = Upright(one, drawn, 0.0)
    for turn in (-0.4, 0.3):
        turned = upright.rotated(turn)
        centre = drawn.lower + turned.apply(drawn.centre - drawn.lower)
        there = Measured(one, centre, turned)
        wheel = layout.TurnedWheel(
            -there.toe, pose.caster(), pose.inclination(), one["static camber"]
        )
        rise = wheel.rise(one["tyre radius"], outboard, ahead)
        expected = there.contact_centre[2] - drawn.contact_centre[2]
        assert rise == pytest.approx(expected, abs=1e-8)


def test_arrays_are_as_floats():
    corners = random_corners(4301, 25)
    travel, rack = random_poses(4302, corners, 3)
    rack = 0.5 * rack
    many = corners.linkages()
    pose = many.pose(travel, rack)
    by_travel = motion.by_travel(many, pose)
    measures = [
        *(arm for arm, _ in ARMS.values()), moments.caster_load_arm,
        moments.inclination_load_arm, moments.hub_outboard, moments.hub_ahead,
        moments.rack_lever,
    ]  # fmt: skip
    arrays = [measure(pose) for measure in measures] + [moments.toe_by_rack(pose, by_travel)]
    opposite = many.pose(travel, -rack)
    force = hands.rack_force(pose, opposite, 9000.0, -4000.0)
    for i in range(25):
        linkage = corners.linkage(i)
        for j in range(3):
            at = float(travel[i, j]), float(rack[i, j])
            one = linkage.pose(*at)
            floats = [measure(one) for measure in measures]
            floats.append(moments.toe_by_rack(one, motion.by_travel(linkage, one)))
            assert floats == pytest.approx([a[i, j] for a in arrays], rel=1e-9, abs=1e-9)
            other = linkage.pose(at[0], -at[1])
            assert hands.rack_force(one, other, 9000.0, -4000.0) == pytest.approx(
                force[i, j], rel=1e-9
            )


def test_drop_link_lever_is_the_slope_of_its_travel_and_ends_at_the_toggle():
    angles = np.linspace(-70.0, 60.0, 40)
    h = 1e-4
    for angle in angles.tolist():
        ahead, behind = (hands.DropLink(angle + s * h, 60.0, 220.0).travel for s in (1.0, -1.0))
        slope = (ahead - behind) / np.radians(2.0 * h)
        assert hands.DropLink(angle, 60.0, 220.0).lever == pytest.approx(slope, rel=1e-7)
    # In one line, lever and link reach 280 from the column, whose slide runs 60 beside it.
    toggle = np.degrees(np.arccos(60.0 / 280.0))
    assert hands.DropLink(float(toggle) - 1e-4, 60.0, 220.0).lever > 0.0
    assert np.isnan(hands.DropLink(float(toggle) + 1e-4, 60.0, 220.0).lever)
    many = hands.DropLink(angles, 60.0, 220.0)
    ones = [hands.DropLink(angle, 60.0, 220.0).travel for angle in angles.tolist()]
    assert many.travel == pytest.approx(ones, rel=1e-13)
