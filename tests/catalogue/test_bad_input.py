"""What a wrong input gives: a sentence that begins with '#' and names what to mend."""

import math

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import (
    CHANGES,
    DIMENSIONS,
    EXAMPLE,
    FIGURE,
    GEARS,
    PARTS,
    PULLS,
    STATIONS,
    STIFFNESS,
    STROKE,
    TORQUES,
)  # fmt: skip
from cornerbook.cells.example import STEPS as STEPS_LOGGED

from tests.support.each import each

WITH_CORNER = [name for name, formula in FORMULAS.items() if formula.arguments[0].name == "corner"]
# Those two look for the joints, and read the rows of the wheel alone.
WITH_LINKAGE = [
    name for name in WITH_CORNER if name not in ("PLACE_LOWER_BALL_JOINT", "PLACE_UPPER_BALL_JOINT")
]
OF_A_POSE = ["CASTER", "KPI", "TRAIL", "SCRUB", "CAMBER", "TOE", "CAMBER_GAIN", "BUMP_STEER"]
OF_AN_AXLE = ["STEER_LEFT", "STEER_RIGHT", "IDEAL_OUTER", "ACKERMANN", "TURNING_RADIUS"]


STOPS = {
    "bump_stop_length": 205.0, "bump_stop_rate": 60.0,
    "droop_stop_length": 235.0, "droop_stop_rate": 80.0,
}  # fmt: skip
"""Good values for the stops beside a spring."""

SPRINGS = {
    "wheel_rate": 14.0, "tyre_rate": 120.0, "rate": 12.5, "load": 900.0, "gravity": 9806.65,
    "damper_rate": 2.4, "motion_ratio": 0.65, "free_length": 256.0, "installed_length": 250.0,
    "spring_rate": 25.0, "open_length": 250.0, "preload_force": 150.0, "spring_load": 1200.0,
    "rest_length": 208.0, "shortest_length": 165.0, "solid_length": 170.0,
    "drawn_length": 218.0, "bar_end_rate": 12.0, "base": 1120.0, "unsprung_weight": 110.0,
    "shear_modulus": 80000.0, "tube_outer": 16.0, "wall": 2.0, "arm": 130.0, "bar_length": 520.0,
    "spring_length": 204.0, "wheel_load": 900.0, "mode": "pitch", "pitch_radius": 520.0,
    **STOPS,
}  # fmt: skip
"""Good values for the formulas of plain numbers about springs."""

TURN = {
    "lateral_acceleration": 0.8, "weight": 4000.0, "cg_height": 320.0, "front_share": 0.45,
    "roll_axis_height": 63.0, "roll_centre_front": 30.0, "roll_centre_rear": 90.0,
    "roll_stiffness_front": 150000.0, "roll_stiffness_rear": 180000.0,
    "track_front": 1100.0, "track_rear": 1080.0, "unsprung_front": 250.0,
    "unsprung_rear": 450.0, "unsprung_height": 260.0, "axle": "rear", "side": "left",
    "friction": 1.2, "roll_gradient": 3.3, "axle_weight": 1800.0, "roll": 2.6,
    "roll_centre_height": 240.0, "axle_roll_stiffness": 150000.0, "tyre_rate": 120.0,
    "axle_end_ahead": 0.0, "axle_end_lateral": 400.0, "axle_end_height": 200.0,
    "body_end_ahead": 450.0, "body_end_lateral": 360.0, "body_end_height": 215.0,
    "pivot_height": 240.0, "pivot_on": "body", "heave": -12.0, "apex_height": 300.0,
    "apex_ahead": 60.0, "link_slope": 4.0,
    "bearing": "right", "component": "z", "up_left": 500.0, "up_right": 900.0,
    "forward": -600.0, "sideways": 700.0, "left_bearing": 300.0, "right_bearing": -260.0,
    "holds": "right", "pull_lateral": 350.0, "pull_radius": 90.0, "pull_angle": 200.0,
    "load_inner": 650.0, "load_outer": 1250.0, "slip_stiffness": 12.0, "drive": 150.0,
    "moment": 297000.0, "cornering_stiffness": 300.0, "cornering_stiffness_rear": 420.0,
    "rise": 60.0, "camber": -2.5, "camber_coefficient": 0.008,
    "axle_load": 430.0, "anti": 22.0, "wheel_rate": 14.0, "sink_front": 13.8, "sink_rear": -1.8,
    "rack_force": 350.0, "pinion_radius": 7.0, "efficiency": 0.9, "rack_per_turn": 44.0,
    "angle": 35.0, "lever_length": 60.0, "link_length": 220.0,
    "patch_length": 120.0, "patch_width": 70.0,
    "torque": 2700.0, "wheel_radius": 140.0, "rack_lock": 55.0,
    "slip": 4.0, "peak_slip": 8.0, "residual": 0.8, "reference_load": 800.0, "sensitivity": 0.1,
    "force": 600.0, "trail_at_zero": 22.0, "gone_at": 0.8, "front_weight": 1800.0,
    "transfer_per_g": 500.0, "mechanical_trail": 18.0, "pneumatic_trail_at_zero": 22.0,
    "extra_force": 60.0, "bump_steer": 0.004, "camber_gain": -0.035, "frame_stiffness": 400000.0,
}  # fmt: skip
"""Good values for the formulas of plain numbers about a turn and the rear axle."""

SET_UP = {
    "front_distance": 1058.0, "rear_distance": 1062.0, "rim_diameter": 406.0, "toe": 0.25,
    "front_gap": 52.5, "rear_gap": 50.0, "string_angle": 0.1, "upper_gap": 61.0,
    "lower_gap": 54.0, "camber_in": -2.6, "camber_straight": -1.0, "camber_out": 1.6,
    "turned_in": 20.0, "turned_out": 19.0, "front_left": 620.0, "front_right": 640.0,
    "rear_left": 760.0, "rear_right": 740.0, "wheel": "front right", "perch": "front left",
    "perch_rise": 2.0, "rate_front": 12.0, "rate_rear": 140.0, "cross_change": -0.5,
    "load_level": 1800.0, "load_lifted": 1850.0, "lift": 400.0, "radius_lifted": 250.0,
    "free_radius": 270.0, "loaded_radius": 262.0, "distance": 4950.0, "revolutions": 3.0,
    "steps_turned": STEPS_LOGGED, "change_measured": CHANGES,
}  # fmt: skip
"""Good values for the formulas of what is measured on a finished car."""


STEPS = {
    "adjusters": (("upper arm",), ("",), ("tie rod",)), "dx": ((0.0,), ("",), (0.5,)),
    "dy": ((0.7,), ("",), (0.0,)), "dz": ((0.0,), ("",), ("",)), "steps": ((2.0,), ("",), (-1.0,)),
    "quantities": "camber, toe", "change_from": ((-0.6, 0.3), (-0.2, "")),
    "change_to": ((-0.2, ""), (0.2, 0.25)), "least": ((-6.0,), ("",), (-9.0,)),
    "most": ((6.0,), ("",), (9.0,)), "sides": (("each",), ("",), ("",)), "more": (),
    "adjuster_names": (("arm",), ("",), ("rod",)), "log_adjusters": (("arm",), ("",), ("rod",)),
    "log_quantities": (("camber",), ("",), ("toe",)), "log_steps": ((2.0,), ("",), (-3.0,)),
    "log_among": "camber, toe",
}  # fmt: skip
"""Good values for the formulas of several adjusters."""


SURVEY = {
    "what": (("distance",), ("",), ("height",)),
    "from_points": (("upper ball joint",), ("right tie rod inner",), ("left wheel centre",)),
    "to_points": (("right lower front pickup",), ("tie rod inner",), ("",)),
    "measured": ((760.0,), ("",), (261.0,)),
}  # fmt: skip
"""Good values for a survey: across the car, one not read yet, a height."""


DRIVER = {
    "length_of": "thigh", "stature": 1760.0, "segment": "shank", "body_mass": 78.0, "sex": "woman",
    "gyration_axis": "sagittal", "figure": FIGURE, "thigh": 431.0, "shank": 433.0, "foot": 268.0,
    "ankle_height": 69.0, "hip_x": -900.0, "hip_z": 170.0, "heel_x": -150.0, "heel_z": 90.0,
    "pedal_x": -80.0, "pedal_z": 230.0, "pressed_x": -40.0, "pressed_z": 215.0,
    "back_angle": 30.0, "leg_point": "knee", "leg_axis": "x", "leg_joint": "hip",
    "which_end": "least",
    "hip_limit": 95.0, "knee_limit": 95.0, "ankle_limit": 90.0, "upper_arm": 327.0,
    "forearm": 352.0, "shoulder_x": -1150.0, "shoulder_y": 180.0, "shoulder_z": 610.0,
    "hand_x": -650.0, "hand_y": 130.0, "hand_z": 500.0, "elbow_out": 12.0,
    "hand_distance": 515.0, "wheel_x": -650.0, "wheel_y": 0.0, "wheel_z": 500.0, "tilt": 20.0,
    "hold": 80.0, "wheel_turned": 60.0, "rim_end": "least", "elbow_wanted": 100.0,
    "eye_x": -1060.0, "eye_z": 760.0, "cowl_x": -560.0, "cowl_z": 640.0, "helmet_x": -1120.0,
    "helmet_z": 700.0, "helmet_radius": 150.0, "front_x": -560.0, "front_z": 640.0,
    "rear_x": -1330.0, "rear_z": 1060.0, "knee_x": -560.0, "knee_y": 100.0, "knee_z": 380.0,
    "upper_x": -560.0, "upper_z": 370.0, "lower_x": -160.0, "lower_z": 190.0, "limb_radius": 50.0,
    "limb_y": 110.0, "box_x": -650.0, "box_y": 20.0, "box_z": 165.0, "box_long": 270.0,
    "box_wide": 380.0, "box_high": 160.0, "bar_x": -100.0, "bar_z": 240.0, "bar_radius": 20.0,
    "knee_radius": 65.0,
    "dimensions": DIMENSIONS, "stations": STATIONS, "scale": 0.93,
    "body_x": -700.0, "measure": "top",
}  # fmt: skip
"""Good values for the formulas of a driver and a body."""


def block(**changes):
    """The example block with rows changed; underscores stand for spaces, None drops a row."""
    rows = {row[0]: row for row in EXAMPLE}
    for name, cells in changes.items():
        label = name.replace("_", " ")
        assert label in rows
        if cells is None:
            del rows[label]
        elif isinstance(cells, str):
            rows[label] = (cells, *rows[label][1:])
        else:
            rows[label] = (label, *cells)
    return tuple(rows.values())


def arguments_for(name, corner, travel=25.0, rack=10.0):
    """Arguments for any formula of a corner, in its own order."""
    known = {
        "corner": corner, "travel": travel, "rack": rack, "wheelbase": 1600.0,
        "cg_height": 320.0, "brake_share": 0.6,
        "point": "wheel centre", "coordinate": "y", "from_travel": -20.0, "to_travel": 20.0,
        "quantities": "camber, toe", "over": "travel", "from": -20.0, "to": 20.0, "points": 3,
        "held": 0.0, "quantity": "camber", "unit": "mm",
        "side": "right", "roll": 2.0, "heave": -5.0,
        "spring_rate": 25.0, "free_length": 256.0, **STOPS,
        "longitudinal": -400.0, "lateral": 650.0, "vertical": 1100.0, "reacted": "inboard",
        "pneumatic_trail": 15.0, "unsprung_weight": 120.0,
        "acts": "brake", "joint": "upper rear pickup", "component": "y",
        "stiffness": STIFFNESS, "part": "all",
        "moment_left": 16000.0, "moment_right": -9000.0, "pinion_radius": 7.0,
        "member": "tie rod", "rim_radius": 155.0, "rim_width": 150.0,
        "member_radius": 8.0, "flange_radius": 30.0, "flange_inboard": 12.0,
        "over_rows": "upper ball joint z", "rows_from": 370.0, "rows_to": 380.0, "rows": 3,
        "over_columns": "travel", "columns_from": -20.0, "columns_to": 20.0, "columns": 3,
        "adjuster": "upper arm", "dx": 0.0, "dy": 1.5, "dz": 0.0, "turns": 2.0,
        "tyre_width": 165.0, "overhang": 700.0, "half_width": 400.0,
        "caster": 6.0, "inclination": 9.0, "trail": 20.0, "scrub": 25.0, "height": 150.0,
        "pickup": "upper front", "pickup_end": "front", "camber_gain": -0.035, "roll_centre": 30.0,
        "tie_rod": "as drawn", "ackermann": 60.0, "angle": 20.0,
        "from_point": "upper ball joint", "to_point": "lower front pickup", "band_from": -90.0,
        "band_to": 90.0, **({"quantity": "bump steer"} if name == "DISTANCE_LEEWAY" else {}),
        **({"quantity": "toe"} if name == "COMPLIANCE" else {}),
        **(STEPS if "adjusters" in [a.name for a in FORMULAS[name].arguments] else {}),
    }  # fmt: skip
    return [known[argument.name] for argument in FORMULAS[name].arguments]


def said(result, *words):
    """The result is a sentence for the user that has these words, ignoring case."""
    assert isinstance(result, str), result
    assert result.startswith("# "), result
    for word in ("failed inside", "Error", "Traceback", "nan", "None"):
        assert word not in result
    for word in words:
        assert word.lower() in result.lower(), result


@each("name", WITH_CORNER)
def test_these_arguments_are_good_ones(name):
    """Without this, the tests below could be looking at another mistake."""
    result = call(name, *arguments_for(name, EXAMPLE))
    assert result == "ok" or not isinstance(result, str)


@each("name", WITH_LINKAGE)
@pytest.mark.parametrize(
    "row", ["Wheel centre", "Lower ball joint", "Upper rear pickup", "Tie rod inner"]
)
def test_a_missing_row_is_named(name, row):
    said(call(name, *arguments_for(name, block(**{row: None}))), row, "missing")


def test_a_misspelt_row_is_named_with_what_was_expected():
    corner = block(Lower_ball_joint="Lower bal joint")
    for name in WITH_LINKAGE:
        said(call(name, *arguments_for(name, corner)), "lower ball joint", "Lower bal joint")


@each("name", WITH_LINKAGE)
def test_a_row_that_stands_twice_is_named(name):
    corner = (*EXAMPLE, ("upper-BALL joint", 0.0, 1.0, 2.0))
    said(call(name, *arguments_for(name, corner)), "upper-BALL joint", "more than once")


@each("name", WITH_LINKAGE)
@pytest.mark.parametrize("cell", ["wide", "1,5", "12 mm", True, "=A1", "#REF!"])
def test_text_in_a_number_is_named(name, cell):
    corner = block(Upper_front_pickup=(90.0, cell, 355.0))
    said(call(name, *arguments_for(name, corner)), "Upper front pickup", "y")


@each("name", WITH_LINKAGE)
@pytest.mark.parametrize("cell", ["", None])
def test_an_empty_cell_is_named(name, cell):
    corner = block(Tie_rod_outer=(-95.0, 490.0, cell))
    said(call(name, *arguments_for(name, corner)), "Tie rod outer", "z", "empty")


@each("name", WITH_CORNER)
def test_an_empty_value_is_named(name):
    said(call(name, *arguments_for(name, block(Tyre_radius=("", "", "")))), "tyre radius", "empty")


@each("name", WITH_CORNER)
@pytest.mark.parametrize("radius", [0.0, -260.0])
def test_a_radius_of_nothing_or_less_is_named(name, radius):
    corner = block(Tyre_radius=(radius, "", ""))
    said(call(name, *arguments_for(name, corner)), "tyre radius", "above 0")


COLLINEAR = {
    "lower ball joint in line with its pickups": (
        {"Lower_ball_joint": (255.0, 207.5, 170.0)}, "lower ball joint"
    ),
    "both lower pickups in one place": (
        {"Lower_rear_pickup": (120.0, 210.0, 165.0)}, "lower front pickup"
    ),
    "both upper pickups in one place": (
        {"Upper_rear_pickup": (90.0, 260.0, 355.0)}, "upper front pickup"
    ),
    "an upper arm of no length": (
        {"Upper_ball_joint": (90.0, 260.0, 355.0)}, "upper ball joint"
    ),
    "an arm's pickups one above the other": (
        {"Upper_rear_pickup": (90.0, 260.0, 300.0)}, "upper front pickup"
    ),
    "a tie rod of no length": ({"Tie_rod_inner": (-95.0, 490.0, 180.0)}, "tie rod"),
    "a tie rod's end on the steering axis": (
        {"Tie_rod_outer": (-7.0, 492.5, 262.5)}, "tie rod outer"
    ),
    "the ball joints in one place": (
        {"Upper_ball_joint": (6.0, 510.0, 150.0)}, "upper ball joint"
    ),
    "the ball joints upside down": (
        {"Upper_ball_joint": (6.0, 500.0, 120.0)}, "upper ball joint"
    ),
}  # fmt: skip


@each("name", WITH_LINKAGE)
@pytest.mark.parametrize("case", COLLINEAR)
def test_points_that_make_no_linkage_are_named(name, case):
    changes, word = COLLINEAR[case]
    said(call(name, *arguments_for(name, block(**changes))), word)


@each("name", OF_A_POSE)
def test_a_travel_past_reach_says_how_far_it_goes(name):
    result = call(name, EXAMPLE, 300.0, 0.0)
    said(result, "travel 300", "at ")
    limit = float(result.rsplit(" ", 1)[1])
    # The limit that it states is true: shown with six digits, a little less can be reached.
    assert isinstance(call(name, EXAMPLE, limit - 0.01, 0.0), float)
    said(call(name, EXAMPLE, limit + 0.01, 0.0), "travel")


@each("name", OF_A_POSE)
@pytest.mark.parametrize("rack", [-200.0, 200.0])
def test_a_rack_past_lock_says_where_lock_is(name, rack):
    result = call(name, EXAMPLE, 0.0, rack)
    said(result, "rack", "lock")
    limit = float(result.rsplit(" ", 1)[1])
    inward = math.copysign(0.01, rack)
    assert isinstance(call(name, EXAMPLE, 0.0, limit - inward), float)
    said(call(name, EXAMPLE, 0.0, limit + inward), "rack", "lock")


@each("name", OF_AN_AXLE)
@pytest.mark.parametrize("rack", [-200.0, 200.0])
def test_a_rack_past_lock_of_an_axle(name, rack):
    said(call(name, EXAMPLE, 1600.0, rack), f"rack {rack:g}", "lock")


def _lock(rack):
    """Where the sentence says that the left-hand wheel's lock is."""
    return float(call("TOE", EXAMPLE, 0.0, rack).rsplit(" ", 1)[1])


def test_a_rack_past_the_lock_of_the_other_wheel_alone():
    """The sentence speaks of the rack as it was given, not of its mirror."""
    to_left, to_right = _lock(200.0), _lock(-200.0)
    assert abs(to_left + to_right) > 1.0  # the two wheels do not reach lock together
    nearer, farther = sorted((to_left, to_right), key=abs)
    rack = -0.5 * (nearer - farther)
    assert isinstance(call("TOE", EXAMPLE, 0.0, rack), float)
    result = call("STEER_RIGHT", EXAMPLE, 1600.0, rack)
    said(result, f"rack {rack:g}", "lock")
    assert float(result.rsplit(" ", 1)[1]) == pytest.approx(-nearer)


@pytest.mark.parametrize("name", ["IDEAL_OUTER", "ACKERMANN", "TURNING_RADIUS"])
def test_straight_ahead_there_is_no_inner_wheel(name):
    said(call(name, EXAMPLE, 1600.0, 0.0), "straight ahead")
    # Static toe turns the wheels to opposite sides until the rack has moved enough.
    said(call(name, EXAMPLE, 1600.0, 0.1), "straight ahead")


@each("name", OF_AN_AXLE)
@pytest.mark.parametrize("wheelbase", [-1600.0, 0.0])
def test_a_wheelbase_of_nothing_or_less(name, wheelbase):
    said(call(name, EXAMPLE, wheelbase, -20.0), "wheelbase", "above 0")


@each("name", OF_AN_AXLE)
def test_a_right_hand_corner_where_a_left_hand_one_belongs(name):
    mirrored = tuple((row[0], row[1], -row[2], row[3]) if row[2] else row for row in EXAMPLE)
    mirrored = tuple((*row[:1], *row[1:]) for row in mirrored)
    said(call(name, mirrored, 1600.0, -20.0), "wheel centre", "left-hand")


@each("name", WITH_CORNER)
def test_a_block_one_column_short(name):
    short = tuple(row[:3] for row in EXAMPLE)
    said(call(name, *arguments_for(name, short)), "column")


@each("name", WITH_CORNER)
def test_a_block_without_its_column_of_names(name):
    nameless = tuple(row[1:] for row in EXAMPLE)
    said(call(name, *arguments_for(name, nameless)))


@each("name", WITH_CORNER)
@pytest.mark.parametrize("raw", [((12.0,),), 12.0, "Front", (("Front",),), None, (("",),), ()])
def test_one_cell_where_a_block_belongs(name, raw):
    said(call(name, *arguments_for(name, raw)), "block")


@each("name", FORMULAS)
def test_text_where_a_number_belongs(name):
    formula = FORMULAS[name]
    for i, argument in enumerate(formula.arguments):
        if argument.kind in ("number", "whole"):
            raw = _good(formula)
            raw[i] = "far"
            said(call(name, *raw), argument.name, "far", "number was expected")


@each("name", FORMULAS)
def test_several_cells_where_one_belongs(name):
    formula = FORMULAS[name]
    for i, argument in enumerate(formula.arguments):
        if argument.kind in ("number", "whole", "text"):
            raw = _good(formula)
            raw[i] = ((1.0, 2.0), (3.0, 4.0))
            said(call(name, *raw), argument.name, "4 cells")


@each("name", FORMULAS)
def test_a_required_argument_left_out(name):
    formula = FORMULAS[name]
    for i, argument in enumerate(formula.arguments):
        if argument.required:
            raw = _good(formula)
            raw[i] = None
            said(call(name, *raw), argument.name)


@each("name", FORMULAS)
def test_numbers_past_their_limits(name):
    formula = FORMULAS[name]
    for i, argument in enumerate(formula.arguments):
        for limit in (argument.above, argument.below):
            if limit is not None:
                raw = _good(formula)
                raw[i] = limit
                said(call(name, *raw), argument.name)


@each("name", FORMULAS)
def test_too_many_arguments(name):
    formula = FORMULAS[name]
    said(call(name, *_good(formula), 1.0), "at most", name)


@each("name", FORMULAS)
@pytest.mark.parametrize("number", [math.inf, -math.inf, math.nan])
def test_numbers_that_are_none(name, number):
    formula = FORMULAS[name]
    for i, argument in enumerate(formula.arguments):
        if argument.kind in ("number", "whole"):
            raw = _good(formula)
            raw[i] = number
            said(call(name, *raw), argument.name)


def _good(formula):
    if formula.name in WITH_CORNER:
        return arguments_for(formula.name, EXAMPLE)
    known = {
        "caster": 6.0, "radius": 262.0, "hub_ahead": 5.0, "inclination": 9.0,
        "hub_outboard": 60.0, "centre_ahead": 900.0, "centre_height": 120.0,
        "cg_height": 310.0, "brake_share": 0.6, "inner": 30.0, "track": 1120.0, "wheelbase": 1580.0,
        "angle_in": 30.0, "joint_angle": 25.0, "upper_joint_angle": 25.0,
        "lower_joint_angle": 18.0, "phase_error": 10.0, "column": EXAMPLE, "joint": "upper",
        "part": "middle",
        "effects": ((0.5, 0.1), (-0.2, 0.4)), "wanted": ((0.1,), (0.2,)),
        "steer": 20.0, "camber": -1.0, "trail": 20.0, "scrub": 25.0, **SPRINGS, **TURN,
        **SET_UP, **SURVEY, **DRIVER,
        "parts": PARTS, "of": "all", "about": "yaw", "coordinate": "x", "mass": 260.0,
        "stroke": STROKE, "torques": TORQUES, "gears": GEARS, "pulls": PULLS, "road_speed": 9000.0,
        "final_ratio": 3.0, "low_ratio": 3.0, "high_ratio": 0.8, "engages": 1500.0,
        "shifts": 3200.0, "driven": "rear", "rolling": 0.02, "drag": 4e-7, "pull": 1400.0,
        "mass_factor": 1.3,
        "slope": 4.0, "deceleration": 0.7, "speed": 14000.0, "delay": 0.4, "pedal_force": 300.0,
        "pedal_ratio": 5.0, "master_diameter": 15.9, "slave_diameter": 31.8, "pistons": 1.0,
        "brake_factor": 0.8, "brake_radius": 95.0, "bar_share": 0.5, "brake_force": 900.0,
        "yaw_inertia": 9e7, "cg_lateral": 15.0,
        "left_corner": EXAMPLE, "right_corner": EXAMPLE, "quantity": "ackermann", "rack": -30.0,
        "travel": 0.0, "datum_x": 150.0, "datum_y": 20.0, "datum_z": 60.0, "turned": 10.0,
        "raised": 3.0, "block": EXAMPLE, "from_point": "lower front pickup", "axis": "y",
        "to_point": "tie rod inner", "to_side": "other", "point": "lower ball joint",
    }  # fmt: skip
    return [known[argument.name] for argument in formula.arguments]


def test_results_too_large_to_show():
    said(call("TRAIL_FROM_CASTER", 59.0, 1.7e308, -1e308), "too large")
    said(call("TURNING_RADIUS", EXAMPLE, 1e308, -30.0), "too large")
    table = call("SWEEP", EXAMPLE, "camber", "travel", -1.7e308, 1.7e308, 3)
    assert all(cell is None for row in table for cell in row)


@pytest.mark.parametrize("row", ["Static camber", "Static toe"])
@pytest.mark.parametrize("angle", [45.0, -95.0, 179.0, 1e20])
def test_angles_of_no_wheel(row, angle):
    corner = block(**{row: (angle, "", "")})
    for name in ("TRAIL", "SCRUB", "CAMBER", "TOE", "ACKERMANN", "SWEEP", "CHECK"):
        said(call(name, *arguments_for(name, corner)), row, f"{angle:g} degrees")


@pytest.mark.parametrize("rows", [((1, 2), [3, 4]), (1, 2), [1, 2], ([], []), [("a",), ("b",)]])
def test_ranges_of_another_make(rows):
    """Lists, single columns and uneven rows, as hosts other than Calc may pass them."""
    for name in WITH_CORNER:
        said(call(name, *arguments_for(name, rows)))


def test_a_block_of_lists_is_a_block():
    assert call("TRAIL", [list(row) for row in EXAMPLE]) == call("TRAIL", EXAMPLE)
    assert call("TRAIL", tuple(list(row) for row in EXAMPLE)) == call("TRAIL", EXAMPLE)


def test_an_unknown_point_names_the_known_ones():
    said(call("POINT", EXAMPLE, "hub"), "hub", "contact centre", "tie rod inner")


def test_an_unknown_quantity_names_the_known_ones():
    said(call("SWEEP", EXAMPLE, "camber, colour", "travel", -20, 20, 3), "colour", "ackermann")
    said(call("AT", EXAMPLE, "colour", 0.0), "colour", "ackermann")


def test_a_sweep_of_axle_quantities_needs_the_wheelbase():
    said(call("SWEEP", EXAMPLE, "ackermann", "rack", -20, 20, 3), "wheelbase")


def test_a_sweep_that_runs_over_something_else():
    said(call("SWEEP", EXAMPLE, "camber", "speed", -20, 20, 3), "over", "travel", "rack")


@pytest.mark.parametrize("points", [1, 0, -3, 2.5, 1e9])
def test_a_sweep_of_too_few_or_too_many_points(points):
    said(call("SWEEP", EXAMPLE, "camber", "travel", -20, 20, points), "points")


def test_a_sweep_shows_places_out_of_reach_as_not_available():
    table = call("SWEEP", EXAMPLE, "camber, toe", "travel", -300, 300, 5)
    assert [row[1] is None for row in table] == [True, False, False, False, True]
    assert [row[2] is None for row in table] == [True, False, False, False, True]
    assert [row[0] for row in table] == [-300.0, -150.0, 0.0, 150.0, 300.0]


def test_one_quantity_out_of_reach_is_not_available():
    assert call("AT", EXAMPLE, "camber", 300.0, 0.0) is None
    assert isinstance(call("AT", EXAMPLE, "camber", 30.0, 0.0), float)


def test_a_point_out_of_reach():
    for name in ("wheel centre", "tie rod inner", "lower ball joint", "contact centre"):
        for coordinate in (None, "z"):
            said(call("POINT", EXAMPLE, name, 0.0, -200.0, coordinate), "rack")


def test_an_average_over_no_range():
    said(call("CAMBER_GAIN_AVERAGE", EXAMPLE, 10.0, 10.0), "from_travel", "to_travel")
    said(call("BUMP_STEER_AVERAGE", EXAMPLE, -10.0, 400.0), "travel 400")
    said(call("BUMP_STEER_AVERAGE", EXAMPLE, -400.0, 10.0), "travel -400")


def _in_inches():
    return tuple(
        (row[0], *(cell / 25.4 if isinstance(cell, float) else cell for cell in row[1:]))
        if "Static" not in row[0] else row
        for row in EXAMPLE
    )  # fmt: skip


def test_inches_in_a_millimetre_sheet():
    said(call("CHECK", _in_inches(), "mm"), "tyre radius", "inches", "millimetres")
    assert call("CHECK", _in_inches(), "in") == "ok"
    said(call("CHECK", EXAMPLE, "in"), "tyre radius", "millimetres", "inches")


def test_one_number_in_inches_among_millimetres():
    corner = block(Lower_front_pickup=(120.0 * 25.4, 210.0 * 25.4, 165.0 * 25.4))
    said(call("CHECK", corner), "lower front pickup", "another unit")


def test_check_says_all_that_is_wrong_at_once():
    corner = block(Tie_rod_inner=None, Upper_ball_joint=(1.0, "", 3.0), Static_toe=("a", "", ""))
    said(call("CHECK", corner), "tie rod inner", "Upper ball joint", "Static toe")


def test_check_of_angles_and_sides():
    said(call("CHECK", block(Static_camber=(40.0, "", ""))), "static camber")
    said(call("CHECK", block(Static_toe=(-20.0, "", ""))), "static toe")


@pytest.mark.parametrize(
    "label", ["WHEEL CENTRE", " wheel-centre ", "Wheel center", "Wheel centre (mm)", "wheelcentre"]
)
def test_rows_are_found_whatever_their_spelling(label):
    corner = tuple(reversed(block(Wheel_centre=label)))
    assert call("TRAIL", corner, 5.0, 3.0) == call("TRAIL", EXAMPLE, 5.0, 3.0)
    assert call("CHECK", corner) == "ok"


def test_a_mistake_of_ours_is_a_sentence_too(monkeypatch):
    def broken(*_):
        raise LookupError("within")

    monkeypatch.setattr(FORMULAS["TRAIL"], "function", broken)
    result = call("TRAIL", EXAMPLE)
    assert result.startswith("# TRAIL failed inside")
    assert "please report" in result
