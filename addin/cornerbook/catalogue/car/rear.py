"""Formulas for a rear solid axle: roll centre, roll stiffness on its tyres, steering in roll."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative
from ...geometry.car import rear
from ...geometry.numbers import absolute
from ...geometry.vec import Vec

GROUP = "Rear solid axle"

TYRE_RATE = Argument(
    "tyre_rate", "number", "Vertical rate of one tyre: force per length.",
    unit="force per length", above=0.0,
)  # fmt: skip
TRACK = Argument("track", "number", "Track of the axle.", unit="length", above=0.0)
ROLL_CENTRE = Argument(
    "roll_centre_height", "number",
    "Height above ground at which the axle is held sideways: its roll centre.", unit="length",
)  # fmt: skip
SLOPE = Argument(
    "link_slope", "number",
    "Slope of the trailing links seen from the side, positive when they rise forward.",
    unit="angle", default=0.0, above=-80.0, below=80.0,
)  # fmt: skip

POINTS_MID_AXLE = (
    "seen from above the link points at the middle of the axle and does not keep it from "
    "turning; a link along the car was expected"
)


def _height(name, of):
    return Argument(name, "number", f"Height above ground of {of}.", unit="length")


def _lateral(name, of):
    return Argument(
        name, "number", f"Lateral place of {of}, from the car's middle, positive to the left.",
        unit="length",
    )  # fmt: skip


def _ahead(name, of):
    return Argument(
        name, "number", f"How far {of} lies ahead of the axle line, behind it negative.",
        unit="length",
    )  # fmt: skip


@formula(
    name="PANHARD_ROLL_CENTRE",
    group=GROUP,
    arguments=(
        _lateral("axle_end_lateral", "the rod's end on the axle"),
        _height("axle_end_height", "the rod's end on the axle"),
        _lateral("body_end_lateral", "the rod's end on the body"),
        _height("body_end_height", "the rod's end on the body"),
    ),
    unit="length",
    positive="above the ground",
    help="Roll centre height of a solid axle held by a Panhard rod: where the rod crosses the "
    "car's middle.",
    source="Statics: the rod's force and a lateral force in the car's middle plane leave no roll "
    "moment only where the two lines cross; springs alike on both sides.",
    example="=CORNER.PANHARD_ROLL_CENTRE(-380, 210, 360, 250)",
    check=230.540540541,
)
def panhard_roll_centre(axle_end_lateral, axle_end_height, body_end_lateral, body_end_height):
    hold(
        absolute(body_end_lateral - axle_end_lateral) > 0.0,
        "axle_end_lateral and body_end_lateral are the same: the rod must run across the car",
    )
    return rear.height_mid_car(axle_end_lateral, axle_end_height, body_end_lateral, body_end_height)


@formula(
    name="WATT_ROLL_CENTRE",
    group=GROUP,
    arguments=(
        _height("pivot_height", "the pivot of the linkage's middle lever, as drawn"),
        Argument(
            "pivot_on", "text", "What carries the pivot: axle or body.", choices=("axle", "body")
        ),
        Argument(
            "heave", "number",
            "How far the body has risen over the road as drawn; 0 if left out.",
            unit="length", default=0.0,
        ),
    ),
    unit="length",
    positive="above the ground",
    help="Roll centre height of a solid axle held by a Watt linkage: its pivot, which rises with "
    "the body only if the body carries it.",
    source="Statics: two equal rods that pull alike at the lever's ends leave one lateral force, "
    "at the pivot.",
    example='=CORNER.WATT_ROLL_CENTRE(240, "body", -12)',
    check=228.0,
)  # fmt: skip
def watt_roll_centre(pivot_height, pivot_on, heave):
    return pivot_height + heave if pivot_on == "body" else pivot_height


@formula(
    name="A_ARM_ROLL_CENTRE",
    group=GROUP,
    arguments=(
        _height("apex_height", "the arm's apex, the joint in the car's middle"),
        _ahead("apex_ahead", "the apex").but(default=0.0),
        SLOPE,
    ),
    unit="length",
    positive="above the ground",
    help="Roll centre height at the axle line of a solid axle held by an A-arm's apex, or by "
    "another pivot in the car's middle, and by two trailing links that run parallel in plan.",
    source="Freedom of a rigid body held at the apex and by both links: it turns about the line "
    "through the apex that is parallel to the links.",
    example="=CORNER.A_ARM_ROLL_CENTRE(300, 60, 4)",
    check=295.804391283,
)  # fmt: skip
def a_arm_roll_centre(apex_height, apex_ahead, link_slope):
    return rear.height_on_axis(apex_height, apex_ahead, link_slope)


@formula(
    name="ROLL_STEER",
    group=GROUP,
    arguments=(
        _ahead("axle_end_ahead", "the left link's end on the axle"),
        _lateral("axle_end_lateral", "the left link's end on the axle"),
        _height("axle_end_height", "the left link's end on the axle"),
        _ahead("body_end_ahead", "the left link's end on the body"),
        _lateral("body_end_lateral", "the left link's end on the body"),
        _height("body_end_height", "the left link's end on the body"),
        ROLL_CENTRE,
    ),
    unit="degrees per degree of roll",
    positive="the axle turns into the turn (roll understeer); a negative one is roll oversteer",
    help="Turn of a solid axle on its trailing links for each degree of roll, to the left as the "
    "left side rises; links that rise forward from the axle give roll oversteer.",
    source="Rigid-body velocity of the axle against the body, the links keeping their lengths; "
    "roll steer of a solid axle (Gillespie 1992, steady-state cornering).",
    example="=CORNER.ROLL_STEER(0, 400, 200, 450, 360, 215, 240)",
    check=-0.0244444444444,
    why=lambda *ends: POINTS_MID_AXLE,
    beyond=POINTS_MID_AXLE,
)
def roll_steer(
    axle_end_ahead, axle_end_lateral, axle_end_height,
    body_end_ahead, body_end_lateral, body_end_height, roll_centre_height,
):  # fmt: skip
    axle_end = Vec(axle_end_ahead, axle_end_lateral, axle_end_height)
    body_end = Vec(body_end_ahead, body_end_lateral, body_end_height)
    hold(
        axle_end_lateral > 0.0,
        "axle_end_lateral: %s given, the left link's, above 0, was expected",
        axle_end_lateral,
    )
    return rear.roll_steer(axle_end, body_end, roll_centre_height)


@formula(
    name="BOLTED_AXLE_ROLL_STIFFNESS",
    group=GROUP,
    arguments=(TYRE_RATE, TRACK),
    unit="moment per degree",
    positive="it has a value",
    help="Roll stiffness of an axle bolted to the frame in bearings, without springs: its tyres "
    "are all there is, and its roll centre is on the ground.",
    source="Statics: half the tyre rate times the track squared, for each radian.",
    example="=CORNER.BOLTED_AXLE_ROLL_STIFFNESS(120, 1080)",
    check=1221451.22372,
)
def bolted_axle_roll_stiffness(tyre_rate, track):
    return rear.roll_stiffness_of_tyres(tyre_rate, track)


@formula(
    name="ROLL_STIFFNESS_ON_TYRES",
    group=GROUP,
    arguments=(
        Argument(
            "axle_roll_stiffness", "number",
            "Roll stiffness of the axle's springs and bar: moment per degree, 0 or more.",
            unit="moment per degree",
        ),
        TYRE_RATE,
        TRACK,
    ),
    unit="moment per degree",
    positive="it has a value",
    help="Roll stiffness of an axle with the give of its tyres, on which its springs stand.",
    source="Springs in series: the same moment rolls the body on its springs and the axle on "
    "its tyres.",
    example="=CORNER.ROLL_STIFFNESS_ON_TYRES(150000, 120, 1080)",
    check=133594.020982,
)  # fmt: skip
def roll_stiffness_on_tyres(axle_roll_stiffness, tyre_rate, track):
    hold_not_negative(axle_roll_stiffness, "axle_roll_stiffness")
    return rear.in_series(axle_roll_stiffness, rear.roll_stiffness_of_tyres(tyre_rate, track))
