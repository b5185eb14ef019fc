"""Formulas for lifting a wheel and tipping over in a steady turn."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, rounded
from ...geometry.car import turn
from ...geometry.numbers import where
from .turn import AXIS_HEIGHT, AXLE, CAR, CG_HEIGHT, STATICS, TRACK, car_of

GROUP = "Lifting and tipping"

FRICTION = Argument(
    "friction", "number",
    "Lateral acceleration in g at which the tyres slide: their friction coefficient.",
    unit="g", above=0.0,
)  # fmt: skip


def _why_lift(axle, *car):
    return f"the inner {axle} wheel does not lift before the body has rolled 45 degrees"


@formula(
    name="LIFT_ACCELERATION",
    group=GROUP,
    arguments=(AXLE, *CAR),
    unit="g",
    positive="it has a value; turns to either side are alike",
    help="Lateral acceleration at which an axle's inner wheel lifts; that of the axle that lifts "
    "last is where the car tips, its roll reckoned with.",
    source=STATICS + ", all load of the axle on one wheel; after the first axle its springs "
    "take no more moment.",
    example='=CORNER.LIFT_ACCELERATION("rear", 4000, 320, 0.45, 30, 90, 150000, 180000, '
    "1100, 1080, 250, 450, 260)",
    check=1.58035183919,
    why=_why_lift,
    beyond="the inner wheel does not lift before the body has rolled 45 degrees",
)
def lift_acceleration(
    axle, weight, cg_height, front_share,
    roll_centre_front, roll_centre_rear, roll_stiffness_front, roll_stiffness_rear,
    track_front, track_rear, unsprung_front, unsprung_rear, unsprung_height,
):  # fmt: skip
    car = car_of(
        weight, cg_height, front_share, roll_centre_front, roll_centre_rear,
        roll_stiffness_front, roll_stiffness_rear, track_front, track_rear,
        unsprung_front, unsprung_rear, unsprung_height,
    )  # fmt: skip
    return turn.if_ever(car.lifts()[AXLE.choices.index(axle)])


WHOLE_CG = CG_HEIGHT.but(help="Height of the whole car's centre of gravity above ground.")


@formula(
    name="ROLLOVER_THRESHOLD",
    group=GROUP,
    arguments=(TRACK.but(help="Track; the mean one where front and rear differ."), WHOLE_CG),
    unit="g",
    positive="it has a value; turns to either side are alike",
    help="Lateral acceleration that would tip the car were it rigid: the static stability "
    "factor, track over twice the height of the centre of gravity.",
    source="Statics: moments about the outer wheels of a rigid car; T/2h is the static stability "
    "factor of the United States' NHTSA, 49 CFR 575.",
    example="=CORNER.ROLLOVER_THRESHOLD(1090, 320)",
    check=1.703125,
)
def rollover_threshold(track, cg_height):
    return turn.rollover_threshold(track, cg_height)


@formula(
    name="ROLLOVER_WITH_ROLL",
    group=GROUP,
    arguments=(
        TRACK.but(help="Track; the mean one where front and rear differ."),
        WHOLE_CG,
        AXIS_HEIGHT,
        Argument(
            "roll_gradient", "number", "Roll for each g, as ROLL_GRADIENT gives it, 0 or more.",
            unit="degrees per g",
        ),
    ),
    unit="g",
    positive="it has a value; turns to either side are alike",
    help="Lateral acceleration that tips the car when the outward lean of its body is reckoned "
    "with, in the quasi-static manner.",
    source="Statics: moments about the outer wheels of a car whose body leans out by the roll "
    "gradient; quasi-static rollover of a suspended vehicle (Gillespie 1992, rollover).",
    example="=CORNER.ROLLOVER_WITH_ROLL(1090, 320, 63, 3.3)",
    check=1.62782712277,
)  # fmt: skip
def rollover_with_roll(track, cg_height, roll_axis_height, roll_gradient):
    hold_not_negative(roll_gradient, "roll_gradient")
    hold(
        roll_axis_height <= cg_height,
        "roll_axis_height: %s given, a height not above cg_height was expected",
        roll_axis_height,
    )
    return turn.rollover_with_roll(track, cg_height, roll_axis_height, roll_gradient)


@formula(
    name="TURN_CHECK",
    group=GROUP,
    arguments=(FRICTION, *CAR),
    help='Whether the car would lift a wheel or tip before its tyres slide, in words, or "ok".',
    source=STATICS + "; tyres that slide at one lateral acceleration whatever their load.",
    example="=CORNER.TURN_CHECK(1.2, 4000, 320, 0.45, 30, 90, 150000, 180000, 1100, 1080, "
    "250, 450, 260)",
    check="ok",
    shape="text",
)
def turn_check(
    friction, weight, cg_height, front_share,
    roll_centre_front, roll_centre_rear, roll_stiffness_front, roll_stiffness_rear,
    track_front, track_rear, unsprung_front, unsprung_rear, unsprung_height,
):  # fmt: skip
    car = car_of(
        weight, cg_height, front_share, roll_centre_front, roll_centre_rear,
        roll_stiffness_front, roll_stiffness_rear, track_front, track_rear,
        unsprung_front, unsprung_rear, unsprung_height,
    )  # fmt: skip
    front, rear = car.lifts()
    slides = "before its tyres would slide at %s g"
    hold(
        where(front > friction, True, rear > friction),
        "the car tips at %s g, " + slides,
        rounded(where(front > rear, front, rear), 2),
        friction,
    )
    for lift, name in ((front, "front"), (rear, "rear")):
        hold(
            lift > friction,
            "the inner " + name + " wheel lifts at %s g, " + slides,
            rounded(lift, 2),
            friction,
        )
    return "ok"
