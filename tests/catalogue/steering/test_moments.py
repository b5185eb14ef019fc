"""Moments and forces of the steering as cells see them: relations, signs, bad input."""

import math

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.block import ACTUATION_POINTS
from cornerbook.cells.example import EXAMPLE

from tests.authorities.actuation_by_mpmath import Actuated
from tests.authorities.closure_by_scipy import Closure
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.upright_by_statics import Upright
from tests.catalogue.independent_steering import upright
from tests.catalogue.test_bad_input import block, said
from tests.support.corners import Corners


def test_reacted_is_upright_unless_said_and_the_arms_add_up():
    forces = (-400.0, 650.0, 1100.0)
    at = (25.0, 10.0)
    whole = call("STEERING_MOMENT", EXAMPLE, *forces, *at)
    assert whole == call("STEERING_MOMENT", EXAMPLE, *forces, *at, "Upright")
    names = ("LONGITUDINAL_FORCE_ARM", "LATERAL_FORCE_ARM", "VERTICAL_LOAD_ARM")
    parts = [f * call(n, EXAMPLE, *at) for f, n in zip(forces, names, strict=True)]
    assert whole == pytest.approx(sum(parts), rel=1e-12)
    inboard = call("STEERING_MOMENT", EXAMPLE, *forces, *at, "inboard")
    assert inboard == pytest.approx(upright(EXAMPLE, *at).moment(*forces, "inboard"), rel=1e-10)
    assert inboard != pytest.approx(whole, rel=0.1)


@pytest.mark.parametrize("rack", [-25.0, 0.0, 25.0])
def test_rack_force_of_both_wheels_by_statics(rack):
    left, right = (-300.0, 500.0, 1300.0), (-200.0, -700.0, 600.0)
    moments = (
        call("STEERING_MOMENT", EXAMPLE, *left, 15.0, rack),
        call("STEERING_MOMENT", EXAMPLE, *right, 15.0, -rack),
    )
    expected = upright(EXAMPLE, 15.0, rack).push_on_rack(*left)
    expected -= upright(EXAMPLE, 15.0, -rack).push_on_rack(*right)
    assert call("RACK_FORCE", EXAMPLE, *moments, 15.0, rack) == pytest.approx(expected, rel=1e-8)


def test_like_moments_straight_ahead_leave_the_rack_alone():
    assert call("RACK_FORCE", EXAMPLE, 5000.0, 5000.0) == pytest.approx(0.0, abs=1e-12)
    # The example's rod lies behind the axis: toe-in of the left wheel carries the rack left.
    assert call("RACK_FORCE", EXAMPLE, 5000.0, 0.0) > 0.0
    assert call("RACK_LEVER", EXAMPLE) > 0.0
    assert call("TOE", EXAMPLE, 0.0, 5.0) > call("TOE", EXAMPLE)


def test_a_rod_ahead_of_the_axis_turns_the_sign_of_the_lever():
    ahead = block(Tie_rod_outer=(105.0, 490.0, 180.0), Tie_rod_inner=(100.0, 215.0, 185.0))
    assert call("RACK_LEVER", ahead) < 0.0
    assert call("STEER_RATE", ahead) < 0.0
    assert call("STEERING_RATIO", ahead, 7.0) > 0.0


def test_cornering_pulls_the_steering_straight():
    """A left turn: the road pushes both tyres left, the wheels must be held to the left."""
    left = call("STEERING_MOMENT", EXAMPLE, 0.0, 400.0, 0.0)
    right = call("STEERING_MOMENT", EXAMPLE, 0.0, -900.0, 0.0)
    # Rack right is steer left here, so the road pushes the rack to the left.
    assert call("STEER_LEFT", EXAMPLE, 1600.0, -30.0) > 0.0
    assert call("RACK_FORCE", EXAMPLE, left, right) > 0.0


def test_steering_ratio_is_the_slope_of_the_wheels_angles():
    def mean(rack):
        names = ("STEER_LEFT", "STEER_RIGHT")
        return sum(call(name, EXAMPLE, 1600.0, rack, 10.0) for name in names) / 2.0

    h = 1e-3
    slope = abs(mean(-20.0 + h) - mean(-20.0 - h)) / (2.0 * h)
    ratio = call("STEERING_RATIO", EXAMPLE, 7.0, -20.0, 10.0)
    assert ratio == pytest.approx(57.29577951308232 / 7.0 / slope, rel=1e-7)
    assert call("STEERING_RATIO", EXAMPLE, 14.0, -20.0, 10.0) == pytest.approx(ratio / 2.0)


def test_a_pinion_of_the_same_travel_has_the_same_turns():
    radius = call("PINION_RADIUS_FROM_TRAVEL", 44.0)
    assert call("TURNS_LOCK_TO_LOCK", 55.0, radius) == pytest.approx(110.0 / 44.0)
    assert call("DROP_LINK_LEVER", 0.0, 60.0, 220.0) == pytest.approx(60.0)
    assert call("DROP_LINK_TRAVEL", 0.0, 60.0, 220.0) == pytest.approx(0.0, abs=1e-12)


def test_only_the_rows_of_axis_and_rod_are_needed_as_drawn():
    rows = ("Lower ball joint", "Upper ball joint", "Tie rod outer", "Tie rod inner")
    few = tuple(row for row in EXAMPLE if row[0] in rows)
    assert call("RACK_LEVER", few) == call("RACK_LEVER", EXAMPLE)
    said(call("HUB_AHEAD", few), "wheel centre", "missing")
    said(call("STEER_RATE", few), "missing")


def test_poses_that_cannot_be():
    for name in ("LATERAL_FORCE_ARM", "RACK_LEVER", "STEER_RATE", "HUB_OUTBOARD"):
        said(call(name, EXAMPLE, 300.0), "travel 300", "arms end")
        said(call(name, EXAMPLE, 0.0, 200.0), "rack 200", "past lock")
    said(call("STEERING_MOMENT", EXAMPLE, 0.0, 1.0, 0.0, 300.0), "travel 300")
    said(call("RACK_FORCE", EXAMPLE, 1.0, 1.0, 0.0, 200.0), "rack 200", "past lock")
    said(call("STEERING_RATIO", EXAMPLE, 7.0, 200.0), "rack 200", "past lock")


def test_a_rod_that_points_at_the_axis_has_no_lever():
    # Ball joints one above the other, and the rod in the plane across the car through both.
    dead = block(
        Lower_ball_joint=(0.0, 510.0, 150.0), Upper_ball_joint=(0.0, 475.0, 375.0),
        Tie_rod_outer=(0.0, 440.0, 180.0), Tie_rod_inner=(0.0, 215.0, 185.0),
    )  # fmt: skip
    said(call("RACK_LEVER", dead), "tie rod", "points at")
    said(call("STEER_RATE", dead), "tie rod", "points at")
    said(call("RACK_FORCE", dead, 100.0, 50.0), "tie rod", "points at")
    said(call("STEERING_RATIO", dead, 7.0), "tie rod", "points at")


def test_a_rod_along_the_car():
    along = block(Tie_rod_inner=(-300.0, 490.0, 185.0))
    for name, rest in (
        ("RACK_LEVER", ()), ("STEER_RATE", ()), ("RACK_FORCE", (1.0, 1.0)),
        ("STEERING_RATIO", (7.0,)),
    ):  # fmt: skip
        said(call(name, along, *rest), "tie rod outer", "tie rod inner", "same y")


@pytest.mark.parametrize(
    "name, arguments, words",
    [
        ("STEERING_MOMENT", (EXAMPLE, 1.0, 1.0, 1.0, 0.0, 0.0, "hub"), ("reacted", "inboard")),
        ("PINION_TORQUE", (350.0, 0.0), ("pinion_radius", "above 0")),
        ("PINION_TORQUE", (350.0, 7.0, 0.0), ("efficiency", "above 0")),
        ("PINION_TORQUE", (350.0, 7.0, 1.2), ("efficiency", "1.2", "at most 1")),
        ("PINION_RADIUS_FROM_TRAVEL", (-44.0,), ("rack_per_turn", "above 0")),
        ("DROP_LINK_LEVER", (85.0, 60.0, 220.0), ("angle", "85", "toggle")),
        ("DROP_LINK_TRAVEL", (-80.0, 60.0, 40.0), ("angle", "-80", "too short")),
        ("DROP_LINK_LEVER", (10.0, 0.0, 220.0), ("lever_length", "above 0")),
        ("PARKING_MOMENT", (1100.0, -0.9, 120.0, 70.0), ("friction", "-0.9", "0 or more")),
        ("PARKING_MOMENT", (1100.0, 0.9, 0.0, 70.0), ("patch_length", "above 0")),
        ("RIM_FORCE", (2700.0, 0.0), ("wheel_radius", "above 0")),
        ("TURNS_LOCK_TO_LOCK", (0.0, 7.0), ("rack_lock", "above 0")),
        ("STEERING_RATIO", (EXAMPLE, -7.0), ("pinion_radius", "above 0")),
    ],
)
def test_numbers_that_make_no_sense(name, arguments, words):
    said(call(name, *arguments), *words)


def test_a_rod_on_the_upright_turns_the_wheel_as_its_statics_say():
    """The example's rod stood on the upright, at both locks; an arm's rod would give another."""
    raised = tuple((r[0], "upright", "", "") if r[0] == "Rod mount" else r for r in EXAMPLE)
    one = Corners.of_rows(EXAMPLE).one(0)
    cells = {row[0].lower(): row[1:] for row in EXAMPLE}
    points = {name: np.array(cells[name], dtype=float) for name in ACTUATION_POINTS}
    theirs = Actuated({**one, **points}, "upright")
    for rack in (-20.0, 20.0):
        forces = (-300.0, 500.0, 700.0)
        moment = call("STEERING_MOMENT", raised, *forces, 10.0, rack, "upright", 15.0, 120.0)
        unknown = [float(x) for x in theirs.solve(10.0, rack)]
        outer = np.array(theirs.carried("rod outer", "upright", unknown, math), dtype=float)
        inner = np.array(theirs.on_rocker("rod inner", unknown, math), dtype=float)
        upright = Upright(one, Measured(one, *Closure(one).solve(10.0, rack, stages=8)), rack)
        push = upright.push_on_rack_beside_a_spring(
            outer, inner, *forces, "upright", 15.0, 120.0
        )  # fmt: skip
        assert moment / call("RACK_LEVER", raised, 10.0, rack) == pytest.approx(push, rel=1e-8)
        other = call("STEERING_MOMENT", EXAMPLE, *forces, 10.0, rack, "upright", 15.0, 120.0)
        assert abs(moment - other) > 1000.0
    unfinished = tuple(row for row in raised if row[0] != "Rocker pivot")
    said(call("STEERING_MOMENT", unfinished, *forces), "rocker pivot")
    assert isinstance(call("STEERING_MOMENT", unfinished[:12], *forces), float)
