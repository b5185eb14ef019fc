"""A short seeded run of the fuzzers, and every fault that they have found, kept as a case.

The long run is made by hand: `python -m tests.fuzz.formulas --calls 1000000`.
"""

import decimal
import math

import cornerbook
import numpy as np
import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.inputs import corner_of
from cornerbook.cells.whole_steps import Band, Steps
from cornerbook.geometry import numbers

from tests.catalogue.test_bad_input import _good, arguments_for, block, said
from tests.fuzz.formulas import Run, fault_of, forget
from tests.fuzz.generate import KINDS, Generator
from tests.fuzz.relations import agree, relations
from tests.support.each import each

EACH = 4
"""Calls of each kind of each formula in the short run."""


@pytest.fixture(scope="module")
def run():
    return Run(841)


@pytest.mark.parametrize("kind", KINDS)
def test_random_calls(run, kind):
    for name in FORMULAS:
        for _ in range(EACH):
            run.call(name, kind)
    assert not run.faults, run.faults[0]


@pytest.mark.parametrize("relation", relations(None))
def test_calls_told_otherwise(run, relation):
    for name in FORMULAS:
        run.relation(name, relation)
    assert not run.faults, run.faults[0]
    assert run.made[relation] > len(FORMULAS) // 2


def test_good_calls_are_mostly_good():
    """Else the runs above would look at one sentence over and over."""
    generator = Generator(842)
    shown = 0
    for name in FORMULAS:
        result = call(name, *generator.good_call_of(name).values())
        shown += not isinstance(result, str) or result.startswith("ok")
    assert shown > 0.85 * len(FORMULAS)


def test_a_fault_would_be_seen(monkeypatch):
    def broken(*_):
        raise LookupError("within")

    run = Run(843)
    monkeypatch.setattr(FORMULAS["RIDE_RATE"], "function", broken)
    run.call("RIDE_RATE", "near")
    (fault,) = run.faults
    assert fault[2] == "'failed inside' in a sentence"
    assert fault_of("TRAIL", (), math.nan) == "the number nan"
    assert fault_of("TRAIL", (), np.float32(2.0)) == "a float32"
    assert fault_of("TRAIL", (), None)
    assert fault_of("AT", (), None) is None
    assert fault_of("TRAIL", (), "# more than inf was expected")
    assert not agree(1.0, 1.0 + 1e-5)
    assert not agree(((1.0, 2.0),), ((1.0, 2.1),))
    assert not agree("# a sentence", 1.0)


# ---------------------------------------------------------------- faults that were found


@each("name", FORMULAS)
@pytest.mark.parametrize("kind", [np.float64, np.float32, np.longdouble])
def test_a_number_of_numpy_is_a_number(name, kind):
    good = _good(FORMULAS[name])
    for i, argument in enumerate(FORMULAS[name].arguments):
        if argument.kind == "number":
            plain, other = list(good), list(good)
            other[i] = kind(good[i])
            plain[i] = float(other[i])
            assert call(name, *other) == call(name, *plain)


@pytest.mark.parametrize("kind", [np.int32, np.int64, np.uint8, np.float64])
def test_a_whole_number_of_numpy(kind):
    plain = call("SWEEP", EXAMPLE, "camber", "travel", -20, 20, 3)
    assert call("SWEEP", EXAMPLE, "camber", "travel", -20, 20, kind(3)) == plain
    said(
        call("SWEEP", EXAMPLE, "camber", "travel", -20, 20, kind(1)),
        "points",
        "between 1 and 10001",
    )


@pytest.mark.parametrize("kind", [np.float64, np.int32])
def test_a_block_of_numbers_of_numpy(kind):
    rows = tuple(
        tuple(kind(round(cell)) if isinstance(cell, float) else cell for cell in row)
        for row in EXAMPLE
    )
    plain = tuple(
        tuple(float(cell) if isinstance(cell, (kind, float)) else cell for cell in row)
        for row in rows
    )
    for name in ("TRAIL", "ACKERMANN", "MOTION_RATIO", "CHECK"):
        forget()
        found = call(name, *arguments_for(name, rows))
        forget()
        assert found == call(name, *arguments_for(name, plain))
    assert cornerbook.Corner(rows).at("trail") == cornerbook.Corner(plain).at("trail")


@each("name", [n for n, f in FORMULAS.items() if any(a.kind == "rows" for a in f.arguments)])
def test_an_array_in_place_of_rows(name):
    good = _good(FORMULAS[name])
    for i, argument in enumerate(FORMULAS[name].arguments):
        if argument.kind == "rows":
            raw = [*good[:i], np.array([1.0, 2.0]), *good[i + 1 :]]
            said(call(name, *raw), argument.name)


def test_steps_that_do_not_close_one_below_the_best():
    """The way back from there to the best rounded down, and so never came."""

    def change(steps):
        return None if steps[0] < 0 else (-float(steps[0]),)

    assert Steps(change, [(-6, 6)], [Band(0.5, 1.5)]).fewest() == (0,)


@pytest.mark.parametrize("kind", [float, int, np.float64, np.float32, np.int32])
def test_the_front_takes_a_wheelbase_of_numpy(kind):
    front = cornerbook.Corner(EXAMPLE)
    wanted = front.at("ackermann", rack=-20.0, wheelbase=1600.0)
    assert front.at("ackermann", rack=-20.0, wheelbase=kind(1600)) == wanted
    many = front.at("ackermann", rack=np.array([-20.0, -10.0]), wheelbase=kind(1600))
    assert many[0] == pytest.approx(wanted, rel=1e-12)


@each("name", FORMULAS)
@pytest.mark.parametrize("size", [10**400, -(10**400)])
def test_whole_numbers_beyond_all_floats(name, size):
    for i, argument in enumerate(FORMULAS[name].arguments):
        good = _good(FORMULAS[name])
        if argument.kind in ("number", "whole"):
            good[i] = size
            said(call(name, *good), argument.name, "no finite number")
        elif argument.kind == "text":
            good[i] = size
            said(call(name, *good), argument.name, "too large to show")


def test_a_cell_beyond_all_floats():
    corner = block(Upper_ball_joint=(-20.0, 10**400, 375.0))
    said(call("CASTER", corner), "Upper ball joint: y is a number too large to show")


def test_true_is_not_one_though_python_holds_them_equal():
    """A corner is kept by its cells, and True == 1 == 1.0 there."""
    number = block(Static_toe=(1.0, "", ""))
    truth = block(Static_toe=(True, "", ""))
    for first, second in ((number, truth), (truth, number)):
        forget()
        results = {rows is truth: call("TOE", rows) for rows in (first, second)}
        assert results[False] == pytest.approx(1.0)
        said(results[True], "Static toe: the value is TRUE", "a number alone")
    for other in (np.bool_(True), decimal.Decimal(1)):
        said(call("TOE", block(Static_toe=(other, "", ""))), "Static toe", "a number alone")


def test_what_cannot_be_kept_in_a_cell_is_named():
    for cell in ([1.0], (), {}, set(), np.array([1.0, 2.0]), np.array(3.0), object, 1 + 2j):
        said(call("CASTER", block(Upper_ball_joint=(-20.0, cell, 375.0))), "Upper ball joint: y")
    # In a row that is not needed nothing of it matters.
    for cell in ([1.0], np.array([1.0, 2.0]), {}):
        corner = (*EXAMPLE, ("My own row", cell, "", ""), (cell, 1.0, 2.0, 3.0), (), (None,))
        assert call("CASTER", corner) == call("CASTER", EXAMPLE)


def test_the_corners_that_are_kept_are_few_kinds_of_cells():
    forget()
    call("CASTER", block(Upper_ball_joint=(-20.0, np.float64(475.0), 375.0)))
    assert call("CASTER", EXAMPLE) == call("CASTER", block(Upper_ball_joint=(-20, 475, 375)))
    assert corner_of.cache_info().currsize == 1


@pytest.mark.parametrize("radius", [5e-324, 1e-310])
def test_a_radius_next_to_nothing(radius):
    """The limits are those of the linkage, whatever the radius."""
    corner = block(Tyre_radius=(radius, "", ""))
    said(call("TRACK_CHANGE", corner, 300.0, 0.0), "travel")
    said(call("CAMBER", corner, 0.0, 200.0), "rack")


def test_an_angle_beyond_all_numbers_has_no_sine():
    car = ("rear", 4000.0, 320.0, 0.45, 30.0, 90.0, 150000.0, 180000.0, 1100.0, 1e308, 250.0, 450.0)
    said(call("LIFT_ACCELERATION", *car, 260.0))
    assert math.isnan(numbers.sin(math.inf))
    assert math.isnan(numbers.cos(-math.inf))
    assert math.isnan(numbers.tan(math.nan))


def test_a_limit_too_large_to_show():
    result = call("ROLL_GRADIENT", 8.4e306, 90.0, 54.0, 183000.0, 144000.0)
    said(result, "more than a number too large to show per degree was expected")
    assert "inf" not in result


def test_a_number_too_large_on_the_way_is_said_to_be_too_large():
    said(call("BEAM_CAMBER_GAIN", 5e-324), "too large")


def test_zero_has_no_sign():
    """-0.0 and 0.0 are one number to what is kept, and so must they be to a formula."""
    for name in ("TOE", "CASTER", "STEER_LEFT", "RIM_POINT"):
        raw = arguments_for(name, EXAMPLE, 0.0, 0.0)
        mirrored = [-0.0 if one == 0.0 else one for one in raw]
        forget()
        first = call(name, *mirrored)
        forget()
        assert call(name, *raw) == first
    assert math.copysign(1.0, call("OUTER_FROM_INNER", -0.0, 1120.0, 1580.0)) == 1.0


def test_a_decimal_comma_in_an_argument():
    said(call("TRAIL", EXAMPLE, "2,5"), 'travel: "2,5" given', "is its comma a decimal point?")
    assert "comma" not in call("TRAIL", EXAMPLE, "2.5 mm")


def test_a_long_text_is_not_shown_whole():
    result = call("TRAIL", EXAMPLE, "x" * 3000)
    said(result, "travel", "...")
    assert len(result) < 200


def test_odd_shapes_are_named():
    for raw in ((((1.0,),),), ((),), ([],), ((), ()), ((("a",), 1.0),)):
        said(call("TRAIL", raw))
        said(call("TRAIL", EXAMPLE, raw), "travel")
        said(call("ADJUSTER_TURNS", raw, 1.0), "effects")
    said(call("SWEEP", EXAMPLE, (np.array(3.0),), "travel", -20, 20, 3), "quantities")
