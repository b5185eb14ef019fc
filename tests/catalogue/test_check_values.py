"""Every formula's check value, against an authority outside and against the formula itself."""

import pytest
from cornerbook.catalogue import FORMULAS, call

from tests.calc.examples import raw_arguments
from tests.catalogue import (  # noqa: F401 (they register)
    independent_bearings,
    independent_body,
    independent_brakes,
    independent_compliance,
    independent_drive,
    independent_driver,
    independent_joints,
    independent_loads,
    independent_masses,
    independent_outline,
    independent_placing,
    independent_sensitivity,
    independent_set_up,
    independent_springs,
    independent_steering,
    independent_torsion,
    independent_turn,
    independent_turning,
    independent_tyre,
    independent_understeer,
)
from tests.catalogue.independent import VALUE
from tests.support.each import each

NEAR = 1e-9


def assert_same(value, expected):
    """Numbers to a part in 1e9, texts as they are, tables cell by cell."""
    if isinstance(expected, tuple):
        assert isinstance(value, tuple)
        assert len(value) == len(expected)
        for one, other in zip(value, expected, strict=True):
            assert_same(one, other)
    elif isinstance(expected, str):
        assert value == expected
    else:
        assert value == pytest.approx(expected, rel=NEAR, abs=1e-12)


@each("name", FORMULAS)
def test_check_value_is_what_an_outside_authority_gives(name):
    if name not in VALUE:
        pytest.fail(
            f"{name} has no outside authority: write how its value is found without the "
            "package in tests/catalogue/independent.py"
        )
    formula = FORMULAS[name]
    assert_same(formula.check, VALUE[name](*raw_arguments(formula)))


@each("name", FORMULAS)
def test_the_formula_gives_its_check_value(name):
    formula = FORMULAS[name]
    assert_same(call(name, *raw_arguments(formula)), formula.check)


def test_no_authority_is_left_over():
    assert set(VALUE) <= set(FORMULAS)


def test_a_wrong_check_value_would_be_seen():
    with pytest.raises(AssertionError):
        assert_same(1.0, 1.0 + 1e-8)
    with pytest.raises(AssertionError):
        assert_same(((0.0, 1.0),), ((0.0, 1.0 + 1e-8),))
    with pytest.raises(AssertionError):
        assert_same("# text", 1.0)
