"""Formulas for the car in a steady turn: roll, load transfer, wheel loads.

Forces are in any one unit, lengths in any one; a roll stiffness is a moment (force times
length) per degree. Lateral acceleration is in g.
"""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, shown
from ...geometry.car import turn
from ...geometry.numbers import degrees, radians, where

GROUP = "The car in a turn"

LATERAL_ACCELERATION = Argument(
    "lateral_acceleration", "number",
    "Lateral acceleration in g, positive in a left turn.",
    unit="g", above=-10.0, below=10.0,
)  # fmt: skip
WEIGHT = Argument(
    "weight", "number", "Weight (a force) of all that the springs carry: the rolled weight.",
    unit="force", above=0.0,
)  # fmt: skip
CG_HEIGHT = Argument(
    "cg_height", "number", "Height of the rolled weight's centre of gravity above ground.",
    unit="length", above=0.0,
)  # fmt: skip
AXIS_HEIGHT = Argument(
    "roll_axis_height", "number",
    "Height of the roll axis under the centre of gravity, as ROLL_AXIS_HEIGHT gives it.",
    unit="length",
)  # fmt: skip
FRONT_SHARE = Argument(
    "front_share", "number", "Share of the rolled weight on the front axle, between 0 and 1.",
    unit="share", above=0.0, below=1.0,
)  # fmt: skip
ROLL_CENTRE_FRONT = Argument(
    "roll_centre_front", "number", "Height of the front roll centre above ground.", unit="length"
)
ROLL_CENTRE_REAR = Argument(
    "roll_centre_rear", "number",
    "Height of the rear roll centre above ground; 0 for an axle bolted to the frame.",
    unit="length",
)  # fmt: skip
STIFFNESS_FRONT = Argument(
    "roll_stiffness_front", "number",
    "Roll stiffness of the front axle: moment per degree, 0 or more.",
    unit="moment per degree",
)  # fmt: skip
STIFFNESS_REAR = Argument(
    "roll_stiffness_rear", "number",
    "Roll stiffness of the rear axle: moment per degree, 0 or more; that of the tyres for an "
    "axle bolted to the frame.",
    unit="moment per degree",
)  # fmt: skip
TRACK = Argument("track", "number", "Track of the axle.", unit="length", above=0.0)
TRACK_FRONT = Argument("track_front", "number", "Front track.", unit="length", above=0.0)
TRACK_REAR = Argument("track_rear", "number", "Rear track.", unit="length", above=0.0)
UNSPRUNG_FRONT = Argument(
    "unsprung_front", "number",
    "Weight at the front that does not roll, both wheels with hubs and brakes; 0 if left out.",
    unit="force", default=0.0,
)  # fmt: skip
UNSPRUNG_REAR = Argument(
    "unsprung_rear", "number",
    "Weight at the rear that does not roll, wheels and axle; 0 if left out.",
    unit="force", default=0.0,
)  # fmt: skip
UNSPRUNG_HEIGHT = Argument(
    "unsprung_height", "number",
    "Height above ground of the weights that do not roll, about that of the wheel centres.",
    unit="length", default=0.0,
)  # fmt: skip
AXLE = Argument("axle", "text", "Which axle: front or rear.", choices=("front", "rear"))
SIDE = Argument("side", "text", "Which wheel: left or right.", choices=("left", "right"))
STIFFNESSES = (STIFFNESS_FRONT, STIFFNESS_REAR)
BODY = (WEIGHT, CG_HEIGHT, AXIS_HEIGHT, *STIFFNESSES)
CAR = (
    WEIGHT, CG_HEIGHT, FRONT_SHARE, ROLL_CENTRE_FRONT, ROLL_CENTRE_REAR, *STIFFNESSES,
    TRACK_FRONT, TRACK_REAR, UNSPRUNG_FRONT, UNSPRUNG_REAR, UNSPRUNG_HEIGHT,
)  # fmt: skip
"""Arguments of a formula of the whole car."""

TOO_FAR = "the body would roll past 45 degrees"
STATICS = "Statics of a rigid body on roll springs, its own lean kept"


def hold_stiffness(front, rear, lever=None):
    hold_not_negative(front, STIFFNESS_FRONT.name)
    hold_not_negative(rear, STIFFNESS_REAR.name)
    hold(
        front + rear > 0.0,
        "roll_stiffness_front and roll_stiffness_rear are both 0: no roll stiffness at either "
        "end, nothing holds the body up",
    )
    if lever is not None:
        hold(
            degrees(front + rear) > lever,
            "roll_stiffness_front and roll_stiffness_rear together are %s, more than %s per "
            "degree was expected: on softer springs the weight tips the body over",
            front + rear,
            radians(lever),
        )


def _lever(weight, cg_height, roll_axis_height, front, rear):
    """The rolled weight times its height over the roll axis, stiff enough ends held."""
    lever = weight * (cg_height - roll_axis_height)
    hold_stiffness(front, rear, lever)
    return lever


def car_of(
    weight, cg_height, front_share, roll_centre_front, roll_centre_rear,
    roll_stiffness_front, roll_stiffness_rear, track_front, track_rear,
    unsprung_front, unsprung_rear, unsprung_height,
):  # fmt: skip
    """The `Car` of the arguments of `CAR`."""
    hold_not_negative(unsprung_front, UNSPRUNG_FRONT.name)
    hold_not_negative(unsprung_rear, UNSPRUNG_REAR.name)
    hold(
        where(unsprung_front + unsprung_rear > 0.0, unsprung_height > 0.0, True),
        "unsprung_height: %s given, a height above 0 was expected for the unsprung weights",
        unsprung_height,
    )
    axis = turn.roll_axis_height(roll_centre_front, roll_centre_rear, front_share)
    lever = _lever(weight, cg_height, axis, roll_stiffness_front, roll_stiffness_rear)
    front = turn.End(
        weight * front_share, roll_centre_front, unsprung_front, unsprung_height,
        degrees(roll_stiffness_front), track_front,
    )  # fmt: skip
    rear = turn.End(
        weight * (1.0 - front_share), roll_centre_rear, unsprung_rear, unsprung_height,
        degrees(roll_stiffness_rear), track_rear,
    )  # fmt: skip
    return turn.Car(lever, front, rear)


@formula(
    name="ROLL_AXIS_HEIGHT",
    group=GROUP,
    arguments=(ROLL_CENTRE_FRONT, ROLL_CENTRE_REAR, FRONT_SHARE),
    unit="length",
    positive="above the ground",
    help="Height of the roll axis under the centre of gravity, on the line through both roll "
    "centres.",
    source="Plane geometry: the share of weight in front places the centre of gravity between "
    "the axles (Gillespie 1992, suspensions).",
    example="=CORNER.ROLL_AXIS_HEIGHT(30, 90, 0.45)",
    check=63.0,
)
def roll_axis_height(roll_centre_front, roll_centre_rear, front_share):
    return turn.roll_axis_height(roll_centre_front, roll_centre_rear, front_share)


@formula(
    name="ROLL_STIFFNESS_SHARE",
    group=GROUP,
    arguments=STIFFNESSES,
    unit="percent",
    positive="the front axle has roll stiffness",
    help="Roll stiffness distribution: the front axle's share of the whole.",
    source="Roll stiffness distribution (Milliken & Milliken 1995, suspension springs).",
    example="=CORNER.ROLL_STIFFNESS_SHARE(150000, 180000)",
    check=45.4545454545,
)
def roll_stiffness_share(roll_stiffness_front, roll_stiffness_rear):
    hold_stiffness(roll_stiffness_front, roll_stiffness_rear)
    return 100.0 * roll_stiffness_front / (roll_stiffness_front + roll_stiffness_rear)


def _why_roll(lateral, weight, cg_height, roll_axis_height, front, rear):
    return TOO_FAR + (
        f" at {shown(lateral)} g; stiffer springs or less lateral acceleration were expected"
    )


@formula(
    name="ROLL_ANGLE",
    group=GROUP,
    arguments=(LATERAL_ACCELERATION, *BODY),
    unit="degrees",
    positive="the body's left side rises, as in a left turn",
    help="Roll of the body in a steady turn, with the moment of the weight that leans out as it "
    "rolls.",
    source=STATICS + ", in exact form; for small angles Gillespie 1992, steady-state cornering.",
    example="=CORNER.ROLL_ANGLE(0.8, 4000, 320, 63, 150000, 180000)",
    check=2.63257278168,
    why=_why_roll,
    beyond=TOO_FAR,
)
def roll_angle(
    lateral_acceleration, weight, cg_height, roll_axis_height,
    roll_stiffness_front, roll_stiffness_rear,
):  # fmt: skip
    stiffness = roll_stiffness_front + roll_stiffness_rear
    lever = _lever(weight, cg_height, roll_axis_height, roll_stiffness_front, roll_stiffness_rear)
    return degrees(turn.roll_angle(lateral_acceleration, lever, degrees(stiffness)))


@formula(
    name="ROLL_GRADIENT",
    group=GROUP,
    arguments=BODY,
    unit="degrees per g",
    positive="the body leans out of the turn",
    help="Roll for each g of lateral acceleration, near straight ahead.",
    source="Roll angle gradient, weight x height over the roll axis against roll stiffness less "
    "the same (Gillespie 1992, steady-state cornering).",
    example="=CORNER.ROLL_GRADIENT(4000, 320, 63, 150000, 180000)",
    check=3.29425923909,
)
def roll_gradient(weight, cg_height, roll_axis_height, roll_stiffness_front, roll_stiffness_rear):
    lever = _lever(weight, cg_height, roll_axis_height, roll_stiffness_front, roll_stiffness_rear)
    stiffness = roll_stiffness_front + roll_stiffness_rear
    return degrees(turn.roll_gradient(lever, degrees(stiffness)))


@formula(
    name="GEOMETRIC_LOAD_TRANSFER",
    group=GROUP,
    arguments=(
        LATERAL_ACCELERATION,
        Argument(
            "axle_weight", "number", "Rolled weight on this axle, on both wheels.",
            unit="force", above=0.0,
        ),
        Argument(
            "roll_centre_height", "number",
            "Height of the axle's roll centre; for its unsprung weight, that weight's height.",
            unit="length",
        ),
        TRACK,
    ),
    unit="force",
    positive="load moves to the right wheel, as in a left turn",
    help="Part of an axle's lateral load transfer that the links carry, without any roll.",
    source="Statics: lateral force at the roll centre against the track (Gillespie 1992, "
    "steady-state cornering).",
    example="=CORNER.GEOMETRIC_LOAD_TRANSFER(0.8, 1800, 30, 1100)",
    check=39.2727272727,
)  # fmt: skip
def geometric_load_transfer(lateral_acceleration, axle_weight, roll_centre_height, track):
    return lateral_acceleration * axle_weight * roll_centre_height / track


@formula(
    name="ELASTIC_LOAD_TRANSFER",
    group=GROUP,
    arguments=(
        Argument(
            "roll", "number", "Roll of the body, as ROLL_ANGLE gives it.",
            unit="angle", above=-45.0, below=45.0,
        ),
        Argument(
            "axle_roll_stiffness", "number",
            "Roll stiffness of this axle: moment per degree, 0 or more.",
            unit="moment per degree",
        ),
        TRACK,
    ),
    unit="force",
    positive="load moves to the right wheel, as in a left turn",
    help="Part of an axle's lateral load transfer that its springs and bar carry as the body "
    "rolls.",
    source="Statics: roll moment of the axle against the track (Gillespie 1992, steady-state "
    "cornering).",
    example="=CORNER.ELASTIC_LOAD_TRANSFER(2.63, 150000, 1100)",
    check=358.636363636,
)  # fmt: skip
def elastic_load_transfer(roll, axle_roll_stiffness, track):
    hold_not_negative(axle_roll_stiffness, "axle_roll_stiffness")
    return roll * axle_roll_stiffness / track


def _why_load(axle, side, lateral, *car):
    front, rear = car_of(*car).lifts()
    first = min(front, rear)
    if abs(lateral) <= first:
        return TOO_FAR + f" at {shown(lateral)} g"
    return (
        f"the inner {'front' if front <= rear else 'rear'} wheel lifts at "
        f"{shown(round(first, 3))} g; the loads past that are not known"
    )


@formula(
    name="WHEEL_LOAD",
    group=GROUP,
    arguments=(AXLE, SIDE, LATERAL_ACCELERATION, *CAR),
    unit="force",
    positive="the wheel presses on the road",
    help="Load on one wheel in a steady turn, at most up to the turn in which a wheel lifts.",
    source=STATICS + "; geometric and elastic load transfer of both axles (Milliken & Milliken "
    "1995, wheel loads).",
    example='=CORNER.WHEEL_LOAD("rear", "left", 0.8, 4000, 320, 0.45, 30, 90, 150000, 180000, '
    "1100, 1080, 250, 450, 260)",
    check=652.904536387,
    why=_why_load,
    beyond="a wheel has lifted at this lateral acceleration; the loads past that are not known",
)
def wheel_load(
    axle, side, lateral_acceleration, weight, cg_height, front_share,
    roll_centre_front, roll_centre_rear, roll_stiffness_front, roll_stiffness_rear,
    track_front, track_rear, unsprung_front, unsprung_rear, unsprung_height,
):  # fmt: skip
    car = car_of(
        weight, cg_height, front_share, roll_centre_front, roll_centre_rear,
        roll_stiffness_front, roll_stiffness_rear, track_front, track_rear,
        unsprung_front, unsprung_rear, unsprung_height,
    )  # fmt: skip
    place = 2 * AXLE.choices.index(axle) + SIDE.choices.index(side)
    return car.wheel_loads(lateral_acceleration)[place]
