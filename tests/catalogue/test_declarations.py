"""Every formula declares what a host, a page and a reader need."""

import inspect
import math
import re

from cornerbook.catalogue import FORMULAS
from cornerbook.cells.example import NAME

from tests.calc.examples import raw_arguments
from tests.support.each import each

KINDS = {"block", "number", "whole", "text", "names", "cells", "gaps", "labels", "any", "rows"}
SHAPES = {"number", "text", "table"}
UNITS = {
    "of the input", "mass", "inertia", "speed", "time", "rotation",
    "force per speed squared",
    "length", "angle", "count", "share", "force", "g", "force per length", "moment per degree",
    "degrees per g", "ratio", "force per speed", "acceleration",
    "moment", "force per degree", "degrees per length", "percent", "pressure",
}  # fmt: skip

# A radius, a length or a stiffness has no sign to explain.
UNSIGNED = {
    "TURNING_RADIUS", "SPRING_LENGTH", "SPRING_LENGTH_AT_REST", "SPRING_FREE_LENGTH", "PRELOAD",
    "SPRING_LOAD", "RIDE_RATE", "RIDE_FREQUENCY", "STATIC_DEFLECTION", "DAMPING_RATIO",
    "ROLL_STIFFNESS", "ANTI_ROLL_RATE", "ANTI_ROLL_END_RATE", "ROLL_STIFFNESS_WITH_FRAME",
    "PITCH_BOUNCE_FREQUENCY",
    "LOWER_BALL_JOINT_ANGLE", "UPPER_BALL_JOINT_ANGLE", "TIE_ROD_OUTER_ANGLE",
    "TIE_ROD_INNER_ANGLE", "TOGGLE_MARGIN", "UJOINT_SPEED_RATIO", "UJOINT_RIPPLE",
    "COLUMN_SPEED_RATIO", "COLUMN_RIPPLE", "COLUMN_JOINT_ANGLE", "COLUMN_LENGTH",
    "STOPPING_DISTANCE", "LINE_PRESSURE", "PEDAL_FORCE",
    "PARTS_MASS", "PARTS_INERTIA", "UNSPRUNG_MASS", "DYNAMIC_INDEX",
    "KERB_TO_KERB", "WALL_TO_WALL", "LOCKED_AXLE_RADIUS_TO_SLIDE", "MEMBER_LENGTH",
}  # fmt: skip

formulas = each("formula", FORMULAS.values())


def _one_sentence(text):
    """Whether a text starts with a capital, ends with a full stop, and has no other one."""
    return re.fullmatch(r"[A-Z#][^.!?]*\.", text) is not None


@formulas
def test_name(formula):
    assert re.fullmatch(r"[A-Z][A-Z0-9_]*", formula.name)
    # Longer ones do not fit the columns and the names of hosts.
    assert len(formula.name) <= 31


@formulas
def test_help_is_one_sentence(formula):
    assert _one_sentence(formula.help), formula.help


@formulas
def test_source_and_group(formula):
    assert len(formula.source) > 10
    assert formula.source.endswith(".")
    assert formula.group


@formulas
def test_unit_and_sign(formula):
    assert formula.shape in SHAPES
    # The unit of these is their quantity's.
    if formula.shape == "number" and formula.name not in ("AT", "IN_ROLL"):
        assert formula.unit
    if formula.unit and formula.name not in UNSIGNED:
        assert formula.positive, "say when the result is positive, or name it in UNSIGNED"


@formulas
def test_arguments_are_described(formula):
    names = [argument.name for argument in formula.arguments]
    assert len(set(names)) == len(names)
    for argument in formula.arguments:
        assert re.fullmatch(r"[a-z][a-z_]*", argument.name)
        assert argument.kind in KINDS
        assert argument.help.endswith(".")
        # A capital, unless the help begins with the words to choose from.
        assert argument.help[0].isupper() or argument.help.startswith(argument.choices)


@formulas
def test_optional_arguments_come_last(formula):
    required = [argument.required for argument in formula.arguments]
    assert required == sorted(required, reverse=True)


@formulas
def test_numbers_have_units(formula):
    for argument in formula.arguments:
        if argument.kind in ("number", "whole"):
            assert argument.unit in UNITS


@formulas
def test_the_function_takes_the_arguments_in_order(formula):
    parameters = inspect.signature(formula.function).parameters.values()
    assert len(parameters) == len(formula.arguments)
    assert all(p.kind is p.POSITIONAL_OR_KEYWORD for p in parameters)
    if formula.why is not None:
        inspect.signature(formula.why).bind(*formula.arguments)


@formulas
def test_example_is_a_call_of_the_formula(formula):
    assert formula.example.startswith(f"=CORNER.{formula.name}(")
    given = raw_arguments(formula)
    required = sum(argument.required for argument in formula.arguments)
    assert required <= len(given) <= len(formula.arguments)
    has_block = any(argument.kind == "block" for argument in formula.arguments)
    assert has_block == (NAME in formula.example)


@formulas
def test_check_value_suits_the_shape(formula):
    if formula.shape == "text":
        assert isinstance(formula.check, str)
    elif isinstance(formula.check, tuple):
        assert formula.shape == "table"
        assert formula.check
        assert len({len(row) for row in formula.check}) == 1
    else:
        assert type(formula.check) is float
        assert math.isfinite(formula.check)


@formulas
def test_function_list_says_unit_and_sign(formula):
    assert formula.sentence.startswith(formula.help)
    if formula.positive:
        assert formula.positive in formula.sentence
    assert formula.signature.startswith(f"CORNER.{formula.name}(")


def test_the_formulas_that_the_car_needs_are_there():
    """Names as the user types them; to lose one breaks workbooks."""
    assert set(FORMULAS) >= {
        "CASTER", "KPI", "TRAIL", "SCRUB", "CAMBER", "TOE", "POINT",
        "CAMBER_GAIN", "BUMP_STEER", "CAMBER_GAIN_AVERAGE", "BUMP_STEER_AVERAGE",
        "STEER_LEFT", "STEER_RIGHT", "IDEAL_OUTER", "ACKERMANN", "TURNING_RADIUS",
        "TRAIL_FROM_CASTER", "SCRUB_FROM_INCLINATION", "OUTER_FROM_INNER",
        "CAMBER_AT_STEER", "RISE_AT_STEER", "AT", "SWEEP", "CHECK",
    }  # fmt: skip
