"""What wrong joints, rims and columns give: a sentence on what to mend, never a number."""

import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.test_bad_input import block, said


@pytest.mark.parametrize("angle", [90.0, -90.0, 120.0])
def test_a_joint_at_or_past_a_right_angle(angle):
    words = (f"{angle:g} degrees", "at or past a right angle")
    said(call("UJOINT_ANGLE_OUT", 30.0, angle), "joint_angle", *words)
    said(call("UJOINT_SPEED_RATIO", 30.0, angle), "joint_angle", *words)
    said(call("UJOINT_RIPPLE", angle), "joint_angle", *words)
    said(call("COLUMN_SPEED_RATIO", 30.0, angle, 10.0), "upper_joint_angle", *words)
    said(call("COLUMN_SPEED_RATIO", 30.0, 10.0, angle), "lower_joint_angle", *words)
    said(call("COLUMN_RIPPLE", 10.0, angle, 5.0), "lower_joint_angle", *words)


def test_a_rim_of_no_size():
    said(call("RIM_CLEARANCE", EXAMPLE, "tie rod", 0.0, 150.0), "rim_radius", "above 0")
    said(call("RIM_CLEARANCE", EXAMPLE, "tie rod", -155.0, 150.0), "rim_radius", "above 0")
    said(call("RIM_CLEARANCE", EXAMPLE, "tie rod", 155.0, 0.0), "rim_width", "above 0")
    said(call("RIM_CLEARANCE", EXAMPLE, "drive shaft", 155.0, 150.0), "member", "lower front")
    rim = (EXAMPLE, "tie rod", 155.0, 150.0, 0.0, 0.0)
    said(call("RIM_CLEARANCE", *rim, -1.0), "member_radius", "0 or more")
    said(call("RIM_CLEARANCE", *rim, 8.0, 155.0), "flange_radius", "below rim_radius")


def test_past_reach():
    said(call("LOWER_BALL_JOINT_ANGLE", EXAMPLE, 300.0), "travel 300", "arms end")
    said(call("TOGGLE_MARGIN", EXAMPLE, 0.0, 300.0), "rack 300", "lock")
    said(call("RIM_CLEARANCE", EXAMPLE, "tie rod", 155.0, 150.0, 0.0, 300.0), "rack 300", "lock")


COLUMN = tuple(row for row in EXAMPLE if row[0] in (
    "Steering wheel", "Upper joint", "Lower joint", "Pinion"
))  # fmt: skip
ONE_JOINT = tuple(row for row in COLUMN if row[0] != "Lower joint")
ALL = [
    ("COLUMN_JOINT_ANGLE", "upper"), ("COLUMN_JOINT_ANGLE", "lower"), ("COLUMN_PHASE",),
    ("COLUMN_LENGTH", "upper"), ("COLUMN_LENGTH", "middle"), ("COLUMN_LENGTH", "lower"),
]  # fmt: skip


@pytest.mark.parametrize("name, words", [(name, words) for name, *words in ALL])
def test_a_column_alone_is_a_block(name, words):
    assert call(name, COLUMN, *words) == call(name, EXAMPLE, *words)
    assert isinstance(call(name, COLUMN, *words), float)


def test_a_column_of_one_joint():
    assert call("COLUMN_JOINT_ANGLE", ONE_JOINT, "upper") > 0.0
    whole = sum((a - b) ** 2 for a, b in zip(COLUMN[1][1:], COLUMN[3][1:], strict=True)) ** 0.5
    assert call("COLUMN_LENGTH", ONE_JOINT, "lower") == pytest.approx(whole)
    for name, *words in (ALL[1], ALL[2], ALL[4]):
        said(call(name, ONE_JOINT, *words), "lower joint", "missing", "one joint")


@pytest.mark.parametrize(
    "name, words", [(n, words) for n, *words in ALL if (n, *words) != ("COLUMN_LENGTH", "upper")]
)
def test_a_lower_joint_misspelt_is_not_taken_for_one_joint(name, words):
    said(call(name, block(Lower_joint="Lowr joint"), *words), "Lowr joint", "lower joint")


@pytest.mark.parametrize("row", ["Steering wheel", "Upper joint", "Pinion"])
def test_a_missing_row_is_named(row):
    said(call("COLUMN_PHASE", tuple(r for r in COLUMN if r[0] != row)), row, "missing")


def _moved(name, *place):
    return tuple((name, *place) if row[0] == name else row for row in COLUMN)


def test_two_points_in_one_place():
    corner = _moved("Upper joint", *COLUMN[0][1:])
    for name, *words in ALL[:4]:
        if words != ["lower"]:
            said(call(name, corner, *words), "steering wheel", "upper joint", "one point")
    corner = _moved("Pinion", *COLUMN[2][1:])
    for name, *words in (ALL[1], ALL[2], ALL[5]):
        said(call(name, corner, *words), "lower joint", "pinion", "one point")


def test_without_a_bend_there_is_no_phase():
    # In line with the two points before it.
    corner = _moved("Lower joint", -60.0, 0.0, 300.0)
    assert call("COLUMN_JOINT_ANGLE", corner, "upper") == pytest.approx(0.0, abs=1e-9)
    said(call("COLUMN_PHASE", corner), "in line at the upper joint")
