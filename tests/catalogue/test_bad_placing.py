"""What places that cannot be give: a sentence on what to mend, never a number."""

import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.independent_placing import moved
from tests.catalogue.test_bad_input import block, said

WANTED = (6.0, 9.0, 20.0, 25.0)
WHEEL = tuple(row for row in EXAMPLE if row[0].lower() in (
    "wheel centre", "tyre radius", "static camber", "static toe",
))  # fmt: skip


@pytest.mark.parametrize("name", ["PLACE_LOWER_BALL_JOINT", "PLACE_UPPER_BALL_JOINT"])
def test_a_ball_joint_in_the_ground_or_over_the_wheel(name):
    joint = name[6:].lower().replace("_", " ")
    for height in (-1.0, 0.0, 521.0, 5000.0):
        said(call(name, EXAMPLE, *WANTED, height), joint, "height", "ground", "expected")
    # The wheel is all that is read.
    assert call(name, WHEEL, *WANTED, 150.0) == call(name, EXAMPLE, *WANTED, 150.0)
    said(call(name, WHEEL[:-1], *WANTED, 150.0), "static toe", "missing")
    said(call(name, EXAMPLE, *WANTED, 150.0, "w"), "coordinate", "x, y, z")


def test_an_angle_that_is_none():
    said(call("INCLINATION_FOR_SCRUB", -600.0, 262.0, 60.0), "inclination", "60", "hub")
    said(call("CASTER_FOR_TRAIL", 600.0, 262.0), "caster", "60", "hub")
    said(call("CASTER_FOR_TRAIL", 20.0, 0.0), "radius", "above 0")


@pytest.mark.parametrize("pickup", ["lower front", "upper rear"])
def test_pickups_that_no_frame_has(pickup):
    said(call("PLACE_PICKUP", EXAMPLE, pickup, 0.4, 900.0), pickup + " pickup", "ground")
    said(call("PLACE_PICKUP", EXAMPLE, pickup, -1.5, 30.0), "ball joint", "go down")
    said(call("PLACE_PICKUP", EXAMPLE, "middle", -0.03, 30.0), "pickup", "lower front")
    said(call("PLACE_PICKUP", EXAMPLE, pickup, -0.03, 30.0, "loose"), "tie_rod", "as drawn")


def test_upper_pickups_that_no_frame_has():
    said(call("PLACE_UPPER_PICKUP_FOR_CAMBER", EXAMPLE, "front", -0.8), "upper front", "wheel's")
    said(call("PLACE_UPPER_PICKUP_FOR_ROLL", EXAMPLE, "rear", 5000.0), "upper rear")
    said(call("PLACE_UPPER_PICKUP_FOR_ROLL", EXAMPLE, "top", 50.0), "pickup_end", "front, rear")


def test_a_pickup_beyond_its_ball_joint():
    corner = moved(EXAMPLE, upper_front_pickup=(90.0, 480.0, 355.0))
    name = "PLACE_UPPER_PICKUP_FOR_CAMBER"
    said(call(name, corner, "front", -0.03), "upper front pickup", "outboard", "480")


def test_an_arm_is_needed():
    for name, *arguments in (
        ("PLACE_TIE_ROD_INNER",), ("PLACE_TIE_ROD_INNER_FOR_RANGE", -20.0, 20.0),
        ("PLACE_PICKUP", "upper front", -0.03, 30.0), ("RACK_FOR_INNER_ANGLE", 20.0),
        ("PLACE_TIE_ROD_OUTER", 1600.0, -20.0, 50.0),
    ):  # fmt: skip
        said(call(name, block(Lower_rear_pickup=None), *arguments), "lower rear pickup", "missing")
        corner = moved(EXAMPLE, lower_front_pickup=(-150.0, 215.0, 155.0))
        said(call(name, corner, *arguments), "lower front pickup", "one point")


def test_a_range_out_of_reach_or_the_wrong_way_round():
    name = "PLACE_TIE_ROD_INNER_FOR_RANGE"
    said(call(name, EXAMPLE, -400.0, 20.0), "no place", "tie rod's inner end")
    said(call(name, EXAMPLE, 20.0, -20.0), "from_travel", "below 0")
    said(call(name, EXAMPLE, -20.0, 0.0), "to_travel", "above 0")


def test_arms_of_a_parallelogram_ask_for_no_inner_end_at_hand():
    # Equal and parallel arms carry the outer end on a circle as large as their own; the arms
    # here are longer than half the track, so that its centre lies past the car's middle.
    corner = moved(
        EXAMPLE,
        lower_ball_joint=(0.0, 510.0, 150.0), upper_ball_joint=(-20.0, 500.0, 375.0),
        lower_front_pickup=(120.0, -90.0, 150.0), lower_rear_pickup=(-120.0, -90.0, 150.0),
        upper_front_pickup=(120.0, -100.0, 375.0), upper_rear_pickup=(-120.0, -100.0, 375.0),
    )  # fmt: skip
    result = call("PLACE_TIE_ROD_INNER_FOR_RANGE", corner, -20.0, 20.0)
    said(result, "inner end", "car's middle")


def test_the_outer_end_has_no_place():
    name = "PLACE_TIE_ROD_OUTER"
    said(call(name, EXAMPLE, 1600.0, 0.0, 50.0), "rack", "0 given")
    said(call(name, EXAMPLE, 1600.0, 300.0, 50.0), "tie rod's outer end", "no place", "rack")
    said(call(name, EXAMPLE, 1600.0, -30.0, 5000.0), "tie rod's outer end")
    said(call(name, EXAMPLE, -1600.0, -30.0, 50.0), "wheelbase", "above 0")


def test_the_rack_has_no_place():
    name = "PLACE_RACK"
    said(call(name, EXAMPLE, 1600.0, 0.0, 50.0), "rack", "0 given")
    said(call(name, EXAMPLE, 1600.0, 300.0, 50.0), "tie rod's inner end", "no place", "rack")
    said(call(name, EXAMPLE, 1600.0, -30.0, 5000.0), "#")


def test_an_inner_angle_past_lock():
    said(call("RACK_FOR_INNER_ANGLE", EXAMPLE, 85.0), "tie rod", "angle", "lever")
    said(call("RACK_FOR_INNER_ANGLE", EXAMPLE, -85.0), "tie rod", "angle", "lever")
    said(call("RACK_FOR_INNER_ANGLE", EXAMPLE, 20.0, 400.0), "#")


def test_a_tie_rod_s_end_off_the_car_is_no_place():
    """Far out the percentage hardly changes with the place: what is found there is of no use."""
    block = tuple(
        (label, 1.0 if label == "Tyre radius" else cells[0], *cells[1:])
        for label, *cells in EXAMPLE
    )
    said(call("PLACE_TIE_ROD_OUTER", block, 1600.0, -30.0, 60.0), "no place")
