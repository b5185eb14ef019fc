"""What a wrong spring, rod or rocker gives: a sentence on what to mend, never a number."""

import math

import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.test_bad_input import block, said
from tests.support.each import each

OF_A_POSE = [
    "SPRING_LENGTH",
    "MOTION_RATIO",
    "MOTION_RATIO_CHANGE",
    "ROCKER_ANGLE",
    "ROCKER_MARGIN",
]
ROWS = ["Rod outer", "Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker", "Spring frame"]
ROCKER = ["Rod_inner", "Rocker_pivot", "Rocker_axis", "Spring_rocker"]

WRONG = {
    "a rocker axis of no direction": (
        {"Rocker_axis": (-8.0, 205.0, 412.0)}, "rocker axis", "no direction"
    ),
    "a rod of no length": ({"Rod_inner": (2.0, 470.0, 172.0)}, "rod outer", "no length"),
    "a rod on the rocker's axis": ({"Rod_inner": (42.0, 211.0, 418.0)}, "rod inner", "axis"),
    "a spring on the rocker's axis": (
        {"Spring_rocker": (42.0, 211.0, 418.0)}, "spring rocker", "axis"
    ),
    "a spring of no length": ({"Spring_frame": (-10.0, 232.0, 478.0)}, "spring", "no length"),
    # In line with the pivot: a rod from (2, 470, 172) through the pivot and on.
    "a rod over centre as drawn": (
        {"Rod_inner": (-3.0, 337.5, 292.0)}, "rod inner", "over centre"
    ),
    "a mount of another name": ({"Rod_mount": ("chassis", "", "")}, "Rod mount", "upright"),
    "a mount that is a number": ({"Rod_mount": (3.0, "", "")}, "Rod mount", "lower arm"),
    "a mount left empty": ({"Rod_mount": ("", "", "")}, "Rod mount", "empty"),
}  # fmt: skip


@each("name", OF_A_POSE)
@pytest.mark.parametrize("case", WRONG)
def test_an_actuation_that_is_none(name, case):
    changes, *words = WRONG[case]
    for travel in (0.0, 10.0):
        said(call(name, block(**changes), travel), *words)


@pytest.mark.parametrize("row", ROWS)
def test_a_missing_row_is_named(row):
    said(call("MOTION_RATIO", block(**{row.replace(" ", "_"): None})), row, "missing")
    said(call("WHEEL_RATE", block(**{row: None}), 25.0, 256.0), row, "missing")


@pytest.mark.parametrize("row", ROWS)
def test_an_empty_cell_is_named(row):
    said(call("MOTION_RATIO", block(**{row: (1.0, "", 3.0)})), row, "y", "empty")


def test_without_any_row_of_a_rocker_the_spring_stands_on_the_rods_outer_point():
    direct = block(**dict.fromkeys(ROCKER))
    length = call("SPRING_LENGTH", direct)
    assert length == pytest.approx(math.dist((2.0, 470.0, 172.0), (-20.0, 14.0, 470.0)))
    assert 0.0 < call("MOTION_RATIO", direct, 20.0) < 1.0
    assert call("OVER_CENTRE", direct, -40.0, 40.0) == "ok"
    said(call("ROCKER_ANGLE", direct, 20.0), "no rocker", "rocker pivot")
    assert 20.0 < call("ROCKER_MARGIN", direct, 20.0) < 90.0


@pytest.mark.parametrize("cell", ["", None, " "])
def test_blank_rows_of_a_rocker_are_as_good_as_none(cell):
    absent = block(**dict.fromkeys(ROCKER))
    blank = block(**dict.fromkeys(ROCKER, (cell, cell, cell)))
    assert call("CHECK", blank, "mm") == call("CHECK", absent, "mm")
    for name in ("SPRING_LENGTH", "MOTION_RATIO", "ROCKER_MARGIN"):
        assert call(name, blank, 20.0, 5.0) == call(name, absent, 20.0, 5.0)
    load = ("spring", -400.0, 650.0, 1100.0, 20.0)
    assert call("MEMBER_FORCE", blank, *load) == call("MEMBER_FORCE", absent, *load)
    assert call("SENSITIVITIES", blank, "motion ratio") == call(
        "SENSITIVITIES", absent, "motion ratio"
    )
    half = block(**{**dict.fromkeys(ROCKER, (cell, cell, cell)), "Rod_inner": (1.0, 2.0, 3.0)})
    assert "rocker pivot" in call("MOTION_RATIO", half).lower()


def test_a_direct_spring_is_over_centre_where_bump_no_longer_shortens_it():
    """Its foot on the arm, its head straight inboard of the arm's hinge: bump swings it past."""
    direct = block(**{**dict.fromkeys(ROCKER), "Spring_frame": (-14.0, 20.0, 168.0)})
    margins = [call("ROCKER_MARGIN", direct, travel) for travel in (-30.0, 30.0)]
    ratios = [call("MOTION_RATIO", direct, travel) for travel in (-30.0, 30.0)]
    assert margins[0] * margins[1] < 0.0
    assert [margin * ratio > 0.0 for margin, ratio in zip(margins, ratios, strict=True)] == [1, 1]
    said(call("OVER_CENTRE", direct, -30.0, 30.0), "over centre", "motion ratio")


def test_the_lower_arm_carries_the_rod_unless_another_is_named():
    assert call("MOTION_RATIO", block(Rod_mount=None), 20.0) == call("MOTION_RATIO", EXAMPLE, 20.0)
    other = call("MOTION_RATIO", block(Rod_mount=("Upright", "", "")), 20.0)
    assert other != call("MOTION_RATIO", EXAMPLE, 20.0)


# The rocker of the example with its rod's end so far round that it ends early in bump.
SHORT = {"Rod_inner": (-10.0, 226.0, 452.0)}


@each("name", OF_A_POSE)
def test_a_rod_that_does_not_reach_says_where_it_ends(name):
    corner = block(**SHORT)
    result = call(name, corner, 120.0)
    said(result, "rod does not reach", "travel 120", "travel")
    end = float(result.rsplit("travel ", 1)[1].split(",")[0])
    assert 20.0 < end < 120.0
    assert isinstance(call("SPRING_LENGTH", corner, end - 0.01), float)
    said(call("SPRING_LENGTH", corner, end + 0.01), "rod does not reach")
    said(call("WHEEL_RATE", corner, 25.0, 256.0, 120.0), "rod does not reach")
    said(call("OVER_CENTRE", corner, 0.0, 120.0), "over centre at travel", "rod")


def test_a_travel_past_the_linkage_says_so():
    said(call("MOTION_RATIO", EXAMPLE, 300.0), "travel 300", "arms end")
    said(call("OVER_CENTRE", EXAMPLE, 300.0, 0.0), "travel 300", "no solution was found")
    said(call("OVER_CENTRE", EXAMPLE, 20.0, 20.0), "from_travel", "range")


def test_a_spring_past_the_line_of_its_arm_is_a_warning():
    # The spring lies low, and the rocker turns its end past it within the travel.
    corner = block(Spring_rocker=(-10.0, 178.0, 474.0), Spring_frame=(-20.0, -40.0, 500.0))
    assert call("OVER_CENTRE", corner, -40.0, 40.0) == "ok"
    result = call("OVER_CENTRE", corner, -40.0, 80.0)
    said(result, "over centre", "spring")
    place = float(result.split("travel ")[1].split(":")[0])
    assert call("MOTION_RATIO", corner, place) < 0.0 < call("MOTION_RATIO", corner)
    assert call("ROCKER_MARGIN", corner, place) < 0.0 < call("ROCKER_MARGIN", corner)


@pytest.mark.parametrize(
    "name, arguments, words",
    [
        ("WHEEL_RATE", (EXAMPLE, -25.0, 256.0), ("spring_rate", "above 0")),
        ("WHEEL_FORCE", (EXAMPLE, 25.0, 0.0), ("free_length", "above 0")),
        ("RIDE_RATE", (-14.0, 120.0), ("wheel_rate", "above 0")),
        ("RIDE_FREQUENCY", (12.5, -900.0, 9806.65), ("load", "above 0")),
        ("DAMPING_RATIO", (-2.0, 0.65, 12.5, 900.0, 9806.65), ("damper_rate", "0 or more")),
        ("DAMPING_RATIO", (2.0, 0.65, 12.5, 900.0, 9806.65, -1.0), ("tyre_rate", "0 or more")),
        ("DAMPING_RATIO", (2.0, 0.65, 12.5, 900.0, 9806.65, 120.0), ("unsprung_weight", "above 0")),
        ("PRELOAD", (200.0, 204.0, 25.0), ("installed_length", "loose")),
        ("SPRING_FREE_LENGTH", (250.0, -1.0, 25.0), ("preload_force", "0 or more")),
        ("SPRING_LENGTH_AT_REST", (256.0, 150.0, 25.0, -3.0), ("spring_load", "0 or more")),
        ("SPRING_LENGTH_AT_REST", (256.0, 150.0, 25.0, 7000.0), ("spring_load", "7000")),
        ("DROOP_TRAVEL", (251.0, 250.0, 0.6), ("rest_length", "open length")),
        ("BUMP_TRAVEL", (169.0, 165.0, 170.0, 0.7), ("rest_length", "solid length 170")),
        ("BUMP_TRAVEL", (169.0, 172.0, 160.0, 0.7), ("rest_length", "shortest length 172")),
    ],
)
def test_numbers_of_no_spring(name, arguments, words):
    said(call(name, *arguments), *words)


def test_a_loose_spring_carries_nothing():
    length = call("SPRING_LENGTH", EXAMPLE, -30.0)
    assert call("WHEEL_FORCE", EXAMPLE, 25.0, length - 1.0, -30.0) == 0.0
    assert call("WHEEL_RATE", EXAMPLE, 25.0, length - 1.0, -30.0) == 0.0
    assert call("WHEEL_FORCE", EXAMPLE, 25.0, length + 1.0, -30.0) > 0.0


def test_a_row_of_the_users_own_is_no_misspelt_one():
    extra = (*block(**dict.fromkeys(ROCKER)), ("Spring rate", 25.0, "", ""))
    assert call("CHECK", extra) == "ok"
    said(call("CHECK", block(Rocker_pivot="Rocker pivt")), "Rocker pivt", "rocker pivot")


def test_no_row_of_the_actuation_is_needed_by_others():
    bare = tuple(row for row in EXAMPLE if row[0] not in (*ROWS, "Rod mount"))
    assert call("CHECK", bare, "mm") == "ok"
    assert call("CAMBER", bare, 20.0) == call("CAMBER", EXAMPLE, 20.0)
    said(call("MOTION_RATIO", bare), "rod outer", "missing")
