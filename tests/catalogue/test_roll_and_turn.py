"""Formulas for roll, turning, tipping and the rear axle: names, sentences, and kept poses."""

import math

import numpy as np
import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.catalogue.front_axle.roll import IN_ROLL as OF_BOTH_WHEELS
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.inputs import corner_of
from cornerbook.geometry.corner.linkage import Linkage

from tests.catalogue.independent_turn import in_roll
from tests.catalogue.test_bad_input import said

OF_BOTH = [name for name in FORMULAS if FORMULAS[name].arguments is OF_BOTH_WHEELS]
ONE_WHEEL = ["caster", "kpi", "trail", "scrub", "camber", "toe", "wheel travel"]
CAR = (4000.0, 320.0, 0.45, 30.0, 90.0, 150e3, 180e3, 1100.0, 1080.0, 250.0, 450.0, 260.0)


def car(**changes):
    """The arguments of the whole car with some changed by name."""
    names = [argument.name for argument in FORMULAS["TURN_CHECK"].arguments[1:]]
    given = dict(zip(names, CAR, strict=True))
    assert set(changes) <= set(given)
    return tuple({**given, **changes}.values())


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("quantity", ONE_WHEEL)
def test_each_quantity_of_one_wheel(quantity, side):
    value = call("IN_ROLL", EXAMPLE, quantity, side, -3.0, 8.0, 12.0)
    expected = in_roll(EXAMPLE, quantity, side, -3.0, 8.0, 12.0)
    assert value == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("name", OF_BOTH)
@pytest.mark.parametrize("side", ["left", "Right "])
def test_quantities_of_both_wheels_by_their_name(name, side):
    quantity = name[: -len("_IN_ROLL")].replace("_", " ").lower()
    assert call("IN_ROLL", EXAMPLE, quantity, side, 2.0, 5.0, 10.0) == call(
        name, EXAMPLE, 2.0, 5.0, 10.0
    )


def test_without_roll_both_wheels_are_as_the_corner():
    for quantity in ("camber", "trail", "scrub", "kpi"):
        formula = quantity.upper()
        for side in ("left", "right"):
            assert call("IN_ROLL", EXAMPLE, quantity, side, 0.0) == call(formula, EXAMPLE)
    track = 2.0 * call("POINT", EXAMPLE, "contact centre", 0.0, 0.0, "y")
    assert call("TRACK_IN_ROLL", EXAMPLE, 0.0) == pytest.approx(track)
    centre = call("ROLL_CENTRE_HEIGHT_IN_ROLL", EXAMPLE, 0.0)
    assert centre == pytest.approx(call("ROLL_CENTRE", EXAMPLE))
    by_force = call("ROLL_CENTRE_BY_FORCE_IN_ROLL", EXAMPLE, 0.0)
    assert by_force == pytest.approx(call("ROLL_CENTRE_BY_FORCE", EXAMPLE))
    assert call("ROLL_CENTRE_LATERAL_IN_ROLL", EXAMPLE, 0.0) == pytest.approx(0.0, abs=1e-9)


def test_out_of_reach_a_table_shows_not_available_and_a_cell_says_why():
    assert call("IN_ROLL", EXAMPLE, "camber", "left", 40.0) is None
    assert call("IN_ROLL", EXAMPLE, "roll centre height", "left", 40.0) is None
    said(call("TRACK_IN_ROLL", EXAMPLE, 40.0), "roll 40", "left wheel", "travel some", "arms end")
    said(call("TRACK_IN_ROLL", EXAMPLE, -40.0), "roll -40", "some 465.3", "arms end at 266")
    said(call("WHEEL_TRAVEL_IN_ROLL", EXAMPLE, "right", 0.0, -600.0), "heave -600", "right wheel")
    said(call("TRACK_IN_ROLL", EXAMPLE, 2.0, 0.0, -200.0), "rack -200", "lock of the left wheel")
    said(call("TRACK_IN_ROLL", EXAMPLE, 2.0, 0.0, 200.0), "rack 200", "lock")


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("rack", [-200.0, 200.0])
def test_past_lock_in_roll_says_where_lock_is(side, rack):
    result = call("WHEEL_TRAVEL_IN_ROLL", EXAMPLE, side, 2.0, -5.0, rack)
    said(result, f"rack {rack:g} is past the lock of the {side} wheel", "roll 2, heave -5")
    end = float(result.rsplit(" ", 1)[1])
    outward = math.copysign(0.001, rack)
    assert isinstance(call("WHEEL_TRAVEL_IN_ROLL", EXAMPLE, side, 2.0, -5.0, end), float)
    beyond = call("WHEEL_TRAVEL_IN_ROLL", EXAMPLE, side, 2.0, -5.0, end + outward)
    said(beyond, "past the lock", f"only to {end:g}")


def test_in_roll_the_travel_ends_where_it_does_at_the_rack_that_was_asked():
    result = call("WHEEL_TRAVEL_IN_ROLL", EXAMPLE, "left", -40.0, 0.0, 20.0)
    said(result, "travel some 465.3", "at rack 20")
    plain = call("CAMBER", EXAMPLE, 465.3, 20.0)
    ends = [text.split("arms end at ")[1].split(" ")[0] for text in (result, plain)]
    assert ends[0] == ends[1] != call("CAMBER", EXAMPLE, 465.3).rsplit(" ", 1)[1]


@pytest.mark.parametrize("name", ["IN_ROLL", "WHEEL_TRAVEL_IN_ROLL", *OF_BOTH])
def test_a_right_hand_corner(name):
    mirrored = tuple((row[0], row[1], -row[2], row[3]) if row[2] else row for row in EXAMPLE)
    given = {"IN_ROLL": ("camber", "left"), "WHEEL_TRAVEL_IN_ROLL": ("left",)}.get(name, ())
    said(call(name, mirrored, *given, 2.0), "wheel centre", "left-hand")


def test_parallel_lines_have_no_roll_centre():
    level = {
        "Lower ball joint": (0.0, 500.0, 150.0), "Upper ball joint": (0.0, 500.0, 380.0),
        "Lower front pickup": (120.0, 200.0, 150.0), "Lower rear pickup": (-120.0, 200.0, 150.0),
        "Upper front pickup": (120.0, 200.0, 380.0), "Upper rear pickup": (-120.0, 200.0, 380.0),
        "Tie rod outer": (-90.0, 500.0, 260.0), "Tie rod inner": (-90.0, 200.0, 260.0),
        "Static camber": (0.0, "", ""), "Static toe": (0.0, "", ""),
    }  # fmt: skip
    flat = tuple((row[0], *level.get(row[0], row[1:])) for row in EXAMPLE)
    # Level arms: the lines lie in the road. Rolled, they are parallel or cross far away.
    assert call("ROLL_CENTRE_HEIGHT_IN_ROLL", flat, 0.0) == 0.0
    result = call("ROLL_CENTRE_LATERAL_IN_ROLL", flat, 2.0)
    if isinstance(result, str):
        said(result, "parallel")
    else:
        assert abs(result) > 1e5


def test_unknown_words():
    said(
        call("IN_ROLL", EXAMPLE, "colour", "left", 2.0), "colour", "camber", "roll centre by force"
    )
    said(call("IN_ROLL", EXAMPLE, "camber", "port", 2.0), "side", "left", "right")
    said(call("IN_ROLL", EXAMPLE, "camber", "left", 50.0), "roll", "between -45 and 45")
    said(call("WHEEL_LOAD", "middle", "left", 0.5, *CAR), "axle", "front", "rear")


def test_a_wheel_on_the_road_is_solved_once(monkeypatch):
    asked = []
    solve = Linkage.pose_where

    def counted(self, first, missed, rack):
        asked.append(rack)
        return solve(self, first, missed, rack)

    monkeypatch.setattr(Linkage, "pose_where", counted)
    own = tuple((row[0], *row[1:3], row[3] + 0.0625) if row[3] != "" else row for row in EXAMPLE)
    for quantity in ONE_WHEEL:
        for side in ("left", "right"):
            call("IN_ROLL", own, quantity, side, 2.0, 3.0, 10.0)
    for name in OF_BOTH:
        call(name, own, 2.0, 3.0, 10.0)
    assert sorted(asked) == [-10.0, 10.0]
    # Arrays: once for each wheel of a formula.
    roll = np.linspace(-3.0, 3.0, 7)
    corner, formula = corner_of(own), FORMULAS["ROLL_CENTRE_HEIGHT_IN_ROLL"].function
    with np.errstate(all="ignore"):
        many = formula(corner, roll, 3.0, 10.0)
    assert len(asked) == 4
    for i, each in enumerate(roll.tolist()):
        assert many[i] == pytest.approx(formula(corner, each, 3.0, 10.0), rel=1e-9)


def test_bad_cars():
    for name, lead in (("TURN_CHECK", (1.2,)), ("LIFT_ACCELERATION", ("front",))):
        said(call(name, *lead, *car(cg_height=-320.0)), "cg_height", "above 0")
        said(call(name, *lead, *car(weight=-1.0)), "weight", "above 0")
        said(call(name, *lead, *car(track_rear=-1.0)), "track_rear", "above 0")
        said(call(name, *lead, *car(front_share=45.0)), "front_share", "between 0 and 1")
        said(call(name, *lead, *car(unsprung_rear=-450.0)), "unsprung_rear", "0 or more")
        said(call(name, *lead, *car(unsprung_height=0.0)), "unsprung_height", "above 0")
        said(call(name, *lead, *car(roll_stiffness_rear=-1.0)), "roll_stiffness_rear", "0 or more")
        none = car(roll_stiffness_front=0.0, roll_stiffness_rear=0.0)
        said(call(name, *lead, *none), "no roll stiffness at either end")
        soft = car(roll_stiffness_front=5e3, roll_stiffness_rear=5e3)
        said(call(name, *lead, *soft), "tips the body over")
    said(call("ROLL_STIFFNESS_SHARE", 0.0, 0.0), "no roll stiffness at either end")
    said(call("ROLL_ANGLE", 0.5, 4000.0, 320.0, 63.0, 0.0, 0.0), "no roll stiffness")
    said(call("ROLL_ANGLE", 5.0, 4000.0, 320.0, 63.0, 15e3, 15e3), "45 degrees", "5 g")
    said(call("ROLLOVER_WITH_ROLL", 1100.0, 320.0, 400.0, 3.0), "roll_axis_height", "cg_height")
    said(call("ROLL_STIFFNESS_ON_TYRES", -1.0, 120.0, 1100.0), "axle_roll_stiffness")
    said(call("ELASTIC_LOAD_TRANSFER", 2.0, -1.0, 1100.0), "axle_roll_stiffness")


def test_the_sentence_that_states_the_lift_is_true():
    result = call("WHEEL_LOAD", "front", "left", 1.7, *CAR)
    said(result, "rear wheel lifts at 1.58 g")
    lift = call("LIFT_ACCELERATION", "rear", *CAR)
    assert call("WHEEL_LOAD", "rear", "left", lift - 1e-9, *CAR) == pytest.approx(0.0, abs=1e-4)
    assert isinstance(call("WHEEL_LOAD", "rear", "left", lift + 1e-6, *CAR), str)
    # A turn to the right unloads the other wheel alike.
    assert call("WHEEL_LOAD", "rear", "right", 1e-9 - lift, *CAR) == pytest.approx(0.0, abs=1e-4)


def test_springs_too_soft_to_lift_a_wheel():
    soft = car(roll_stiffness_front=12e3, roll_stiffness_rear=12e3)
    said(call("LIFT_ACCELERATION", "rear", *soft), "inner rear wheel does not lift")
    said(call("WHEEL_LOAD", "rear", "left", 2.0, *soft), "45 degrees")


def test_one_end_alone_holds_the_body_until_it_lifts():
    none = car(roll_stiffness_rear=0.0, roll_centre_rear=0.0, unsprung_rear=0.0)
    front, rear = (call("LIFT_ACCELERATION", axle, *none) for axle in ("front", "rear"))
    assert front == rear
    said(call("TURN_CHECK", 1.2, *none), f"tips at {front:.2f} g")


def test_the_flag_says_what_comes_first():
    first, second = sorted(call("LIFT_ACCELERATION", axle, *CAR) for axle in ("front", "rear"))
    assert call("TURN_CHECK", first - 0.01, *CAR) == "ok"
    said(call("TURN_CHECK", first + 0.01, *CAR), "inner rear wheel lifts at 1.58 g", "slide at")
    said(call("TURN_CHECK", second + 0.01, *CAR), "car tips at 1.68 g")
    nose = car(roll_stiffness_front=300e3, roll_stiffness_rear=60e3)
    said(call("TURN_CHECK", 1.5, *nose), "inner front wheel lifts")


def test_rear_axles_that_are_none():
    said(call("PANHARD_ROLL_CENTRE", 300.0, 200.0, 300.0, 250.0), "across the car")
    said(call("ROLL_STEER", 0.0, -400.0, 200.0, 450.0, -360.0, 215.0, 240.0), "left link")
    said(call("ROLL_STEER", 200.0, 400.0, 200.0, 100.0, 200.0, 210.0, 240.0), "middle of the axle")
    assert call("WATT_ROLL_CENTRE", 240.0, "axle", -12.0) == 240.0
