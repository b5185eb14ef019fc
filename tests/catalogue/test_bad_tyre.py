"""What a tyre that cannot be gives: a sentence on what to mend, never a number."""

import pytest
from cornerbook.catalogue import FORMULAS, call

from tests.catalogue.test_bad_input import said

GOOD = {
    "slip": 4.0, "load": 900.0, "friction": 1.3, "peak_slip": 8.0, "residual": 0.8,
    "reference_load": 800.0, "sensitivity": 0.1, "force": 600.0, "trail_at_zero": 22.0,
    "gone_at": 0.8, "front_weight": 1800.0, "transfer_per_g": 500.0, "mechanical_trail": 18.0,
    "pneumatic_trail_at_zero": 22.0, "camber": -2.0, "camber_coefficient": 0.008,
}  # fmt: skip
OURS = [name for name, f in FORMULAS.items() if f.group in ("A guessed tyre", "Feel")]


def ask(name, **changes):
    return call(name, *({**GOOD, **changes}[a.name] for a in FORMULAS[name].arguments))


def test_all_are_looked_at():
    assert len(OURS) == 9
    assert all(isinstance(ask(name), float) for name in OURS)


WRONG = {
    "friction": [-1.0, 0.0],
    "peak_slip": [0.0, -8.0, 90.0],
    "residual": [0.0, 1.0, 1.4, -0.2, 0.9995],
    "gone_at": [0.0, 1.01, -0.5],
    "sensitivity": [-0.1, 1.0],
    "trail_at_zero": [-1.0],
    "pneumatic_trail_at_zero": [-1.0],
    "transfer_per_g": [-1.0],
    "front_weight": [0.0],
}


@pytest.mark.parametrize("argument", WRONG)
@pytest.mark.parametrize("name", OURS)
def test_a_number_that_cannot_be(name, argument):
    if argument in (a.name for a in FORMULAS[name].arguments):
        for value in WRONG[argument]:
            said(ask(name, **{argument: value}), argument, "%.6g" % value, "expected")


def test_the_sentences_say_what_is_meant():
    said(ask("TYRE_FORCE", residual=1.0), "a tyre whose peak is nowhere")
    said(ask("TYRE_SLIP", force=1300.0), "the tyre slides")
    said(ask("TYRE_SLIP", force=-1300.0), "the tyre slides")
    said(ask("TYRE_SLIP", load=-5.0), "the tyre slides")
    said(ask("TYRE_FORCE", reference_load=0.0), "reference_load", "with a sensitivity")
    said(ask("FRONT_LATERAL_ACCELERATION", transfer_per_g=900.0), "inner front wheel lifts at 1 g")
    for name in ("FEEL_WARNING", "FEEL_LIGHTENING", "MECHANICAL_SHARE"):
        for trail in (-22.0, -30.0):
            said(ask(name, mechanical_trail=trail), "mechanical_trail", "more than 0 was expected")


def test_a_wheel_in_the_air_gives_no_force():
    for load in (0.0, -200.0):
        assert ask("TYRE_FORCE", load=load) == 0.0
        assert ask("TYRE_CORNERING_STIFFNESS", load=load) == 0.0
        assert ask("TYRE_SLIP", load=load, force=0.0) == 0.0


def test_without_sensitivity_the_reference_is_not_needed():
    assert call("TYRE_FORCE", -8.0, 900.0, 1.3, 8.0, 0.8) == pytest.approx(1.3 * 900.0)


def test_left_and_right_are_alike():
    for name in ("TYRE_FORCE", "FRONT_LATERAL_ACCELERATION"):
        assert ask(name, slip=-4.0) == pytest.approx(-ask(name))
        # Slip to the left, force to the right (ISO 8855).
        assert ask(name, slip=4.0) < 0.0
    assert ask("TYRE_SLIP", force=-600.0) == pytest.approx(-ask("TYRE_SLIP"))
    assert ask("TYRE_FORCE", slip=ask("TYRE_SLIP")) == pytest.approx(600.0)
    assert ask("TYRE_SLIP", force=600.0) < 0.0
    assert ask("PNEUMATIC_TRAIL", slip=-3.0) == ask("PNEUMATIC_TRAIL", slip=3.0) > 0.0
    assert ask("PNEUMATIC_TRAIL", slip=7.0) == 0.0


def test_a_negative_mechanical_trail_pulls_the_other_way():
    assert ask("FEEL_LIGHTENING", mechanical_trail=-5.0) > 100.0
    assert ask("MECHANICAL_SHARE", mechanical_trail=-5.0) < 0.0
