"""What wrong numbers for a turn, a locked axle or a beam give: a sentence on what to mend."""

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.arguments import AXLE
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.test_bad_input import block, said

TURNS = {
    "KERB_TO_KERB": (165.0,), "WALL_TO_WALL": (700.0, 400.0),
    "MID_REAR_RADIUS": (), "SLIP_LEFT": (), "SLIP_RIGHT": (),
}  # fmt: skip
"""What each formula of a turn takes besides."""

SHAFT = [
    "LOCKED_AXLE_INNER_FORCE",
    "LOCKED_AXLE_OUTER_FORCE",
    "LOCKED_AXLE_MOMENT",
]


def _call(name, corner, wheelbase, rack):
    besides = TURNS[name]
    if name == "KERB_TO_KERB":
        besides = (0.0, *besides)
    return call(name, corner, wheelbase, rack, *besides)


@pytest.mark.parametrize("name", TURNS)
def test_a_rack_that_makes_no_turn(name):
    assert isinstance(_call(name, EXAMPLE, 1600.0, -30.0), float)
    said(_call(name, EXAMPLE, 1600.0, 0.0), "straight ahead", "rack")
    said(_call(name, EXAMPLE, 1600.0, 0.1), "straight ahead", "rack")
    for rack in (-200.0, 200.0):
        said(_call(name, EXAMPLE, 1600.0, rack), f"rack {rack:g}", "lock")
    said(_call(name, EXAMPLE, 0.0, -30.0), "wheelbase", "above 0")


@pytest.mark.parametrize("name", TURNS)
def test_a_right_hand_corner(name):
    mirrored = block(Wheel_centre=(0.0, -550.0, 260.0))
    said(_call(name, mirrored, 1600.0, -30.0), "wheel centre", "left-hand")


def test_sizes_of_no_body():
    said(call("KERB_TO_KERB", EXAMPLE, 1600.0, -30.0, 0.0, -165.0), "tyre_width", "0 or more")
    said(call("WALL_TO_WALL", EXAMPLE, 1600.0, -30.0, 700.0, 0.0), "half_width", "above 0")
    said(call("WALL_TO_WALL", EXAMPLE, 1600.0, -30.0, -1600.0, 400.0), "overhang", "-1600")
    assert isinstance(call("WALL_TO_WALL", EXAMPLE, 1600.0, -30.0, -1599.0, 400.0), float)


@pytest.mark.parametrize("name", ["MID_REAR_RADIUS", "SLIP_LEFT", "SLIP_RIGHT"])
def test_a_table_shows_them_by_name(name):
    assert FORMULAS[name].arguments is AXLE
    plain = name.lower().replace("_", " ")
    assert call("AT", EXAMPLE, plain, 0.0, -30.0, 1600.0) == call(name, EXAMPLE, 1600.0, -30.0)
    table = call("SWEEP", EXAMPLE, plain, "rack", -200.0, -30.0, 2, 0.0, 1600.0)
    assert table[0][1] is None
    assert table[1][1] == call(name, EXAMPLE, 1600.0, -30.0)


@pytest.mark.parametrize("name", SHAFT)
def test_a_locked_axle_that_cannot_be(name):
    def of(inner=650.0, outer=1250.0, radius=5000.0, drive=150.0):
        return call(name, inner, outer, radius, 1080.0, 1.1, 12.0, drive)

    assert isinstance(of(), float)
    said(of(drive=2091.0), "drive", "2091", "2090", "slide")
    said(of(drive=-2091.0), "drive", "-2091")
    said(of(radius=0.0), "radius", "above 0")
    shaft = (650.0, 1250.0, 5000.0, 1080.0, 1.1, 12.0, 0.0)
    said(call(name, *shaft, 1.1), "lateral_acceleration", "friction 1.1", "sideways")
    assert abs(call(name, *shaft, -0.9)) < abs(call(name, *shaft, 0.2))
    # Wheels in the air are no mistake, but there is no drive on them.
    assert of(inner=-300.0, drive=0.0) == 0.0
    assert of(inner=-300.0, outer=-5.0, drive=0.0) == 0.0
    said(of(inner=-300.0, outer=-5.0, drive=1.0), "drive", "at most 0")


def test_a_locked_axle_without_load_or_tyres():
    said(call("LOCKED_AXLE_RADIUS_TO_SLIDE", -20.0, 0.0, 1080.0, 1.1, 12.0), "load_inner", "load")
    assert call("LOCKED_AXLE_RADIUS_TO_SLIDE", 0.0, 900.0, 1080.0, 1.1, 12.0) > 0.0
    said(call("LOCKED_AXLE_EXTRA_STEER", 297e3, 1600.0, 0.0), "cornering_stiffness", "above 0")
    said(call("LOCKED_AXLE_EXTRA_STEER", 297e3, 1600.0, 300.0, -1.0), "cornering_stiffness_rear")
    front = call("LOCKED_AXLE_EXTRA_STEER", 297e3, 1600.0, 300.0)
    assert front == call("LOCKED_AXLE_FRONT_FORCE", 297e3, 1600.0) / 300.0


@pytest.mark.parametrize("rise", [1120.0, -1500.0])
def test_a_rise_past_the_track(rise):
    said(call("BEAM_CAMBER_IN_BUMP", 1120.0, rise), "rise", "track", "1120")


def test_a_beam_corner_needs_no_pickups():
    """The kingpin's ends stand for the ball joints; TRAIL and the like work on those rows."""
    names = ("Wheel centre", "Tyre radius", "Static camber", "Static toe",
             "Lower ball joint", "Upper ball joint")  # fmt: skip
    corner = tuple(row for row in EXAMPLE if row[0] in names)
    assert len(corner) == 6
    for name in ("TRAIL", "SCRUB", "CASTER", "KPI", "CAMBER", "TOE"):
        assert call(name, corner) == call(name, EXAMPLE)
        said(call(name, corner, 10.0), "lower front pickup", "missing")
