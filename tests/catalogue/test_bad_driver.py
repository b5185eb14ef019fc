"""What a driver that cannot be gives: a sentence with what is wrong, and by how much."""

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import FIGURE

from tests.calc.examples import raw_arguments
from tests.catalogue.test_bad_input import said


def ask(name, **changes):
    """The example's call with some arguments changed."""
    formula = FORMULAS[name]
    raw = list(raw_arguments(formula))
    raw += [None] * (len(formula.arguments) - len(raw))
    for place, argument in enumerate(formula.arguments):
        raw[place] = changes.pop(argument.name, raw[place])
    assert not changes
    return call(name, *raw)


def test_a_person_who_cannot_be():
    said(ask("PERSON_MASS", body_mass=-3.0), "body_mass", "above 0")
    said(ask("PERSON_LENGTH", stature=0.0), "stature", "above 0")
    said(ask("PERSON_LENGTH", length_of="tail"), "length_of", "upper arm, forearm")
    said(ask("PERSON_MASS", sex="child"), "sex", "woman, man")


def test_a_leg_that_does_not_reach_says_by_how_much():
    spare = ask("LEG_SPARE", heel_x=50.0, pedal_x=120.0)
    assert spare < 0.0
    for name in ("LEG_POINT", "LEG_ANGLE"):
        said(ask(name, heel_x=50.0, pedal_x=120.0), f"the leg is {-spare:.6g} too short")
        said(ask(name, thigh=1200.0), "the knee cannot bend so far")
        said(ask(name, heel_x=-80.0, heel_z=230.0), "two points in one place")
    said(ask("PEDAL_BOX_END", heel_z=1500.0, pedal_z=1640.0, pressed_z=1625.0), "does not reach")


def test_an_arm_that_does_not_reach_says_by_how_much():
    said(ask("ELBOW_ANGLE", hand_distance=700.0), "the arm is 21 too short")
    said(ask("ELBOW_ANGLE", upper_arm=900.0), "the elbow cannot bend so far")
    for name in ("ELBOW_POINT", "SHOULDER_ANGLE"):
        said(ask(name, hand_x=-300.0), "too short; bring the steering wheel nearer")
    said(ask("STEERING_WHEEL_SHIFT", shoulder_z=2000.0), "at no place along its axis")


def test_a_figure_with_rows_missing():
    for name in ("FIGURE_CENTRE", "FIGURE_INERTIA"):
        said(ask(name, figure=FIGURE[:-1]), "9 rows given, 10 were expected", "heel, toe")
        blank = (*FIGURE[:6], ("Knee", "", "", ""), *FIGURE[7:])
        said(ask(name, figure=blank), "the row for the knee is empty")
        half = (*FIGURE[:6], ("Knee", 1.0, "", 2.0), *FIGURE[7:])
        said(ask(name, figure=half), "the y of Knee is missing")
        assert ask(name, figure=(*FIGURE, ("", "", "", ""))) == pytest.approx(ask(name))


def test_eyes_and_hoops_that_cannot_be():
    said(ask("ROAD_SEEN", eye_z=600.0), "not above the cowl: no road is seen")
    said(ask("ROAD_SEEN", eye_x=-500.0), "ahead of the eye")
    said(ask("ROAD_SEEN", cowl_z=-5.0), "above the ground")
    said(ask("HOOP_CLEARANCE", front_x=-1400.0), "ahead of the main hoop")
