"""Formulas for what twists: the tube of an anti-roll bar, the frame between the axles."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative
from ...geometry.car import torsion
from ...geometry.numbers import degrees, where
from ..springing.springs import GROUP as SPRINGS
from .turn import (
    AXLE,
    CG_HEIGHT,
    FRONT_SHARE,
    GROUP,
    ROLL_CENTRE_FRONT,
    ROLL_CENTRE_REAR,
    STIFFNESSES,
    WEIGHT,
    hold_stiffness,
)


@formula(
    name="ANTI_ROLL_END_RATE",
    group=SPRINGS,
    arguments=(
        Argument(
            "shear_modulus", "number",
            "Shear modulus of the tube: force per length squared; about 80000 N per mm2 for steel.",
            unit="pressure", above=0.0,
        ),
        Argument("tube_outer", "number", "Outer diameter of the tube.", unit="length", above=0.0),
        Argument(
            "wall", "number", "Thickness of its wall; half the outer diameter for a solid bar.",
            unit="length", above=0.0,
        ),
        Argument(
            "arm", "number", "From the tube's axis to the link at the end, square to the axis.",
            unit="length", above=0.0,
        ),
        Argument("bar_length", "number", "Length of what twists, between the arms.",
                 unit="length", above=0.0),
    ),
    unit="force per length",
    help="Rate of an anti-roll bar of one tube, its arms rigid, as ANTI_ROLL_RATE asks for it: "
    "force at one end per length of that end, the other end held; where both ends move opposite "
    "ways the force at each is twice that for its own movement.",
    source="Torsion of a round tube, G J / (L a squared), with J of Shigley's Mechanical "
    "Engineering Design (from memory).",
    example="=CORNER.ANTI_ROLL_END_RATE(80000, 16, 2, 130, 520)",
    check=40.0385044609,
)  # fmt: skip
def anti_roll_end_rate(shear_modulus, tube_outer, wall, arm, bar_length):
    hold(
        wall <= 0.5 * tube_outer,
        "wall: %s given, no more than half the outer diameter %s was expected",
        wall,
        tube_outer,
    )
    return torsion.bar_end_rate(shear_modulus, tube_outer, wall, arm, bar_length)


@formula(
    name="ROLL_STIFFNESS_WITH_FRAME",
    group=GROUP,
    arguments=(
        AXLE, WEIGHT, CG_HEIGHT, FRONT_SHARE, ROLL_CENTRE_FRONT, ROLL_CENTRE_REAR, *STIFFNESSES,
        Argument(
            "frame_stiffness", "number",
            "Moment per degree that twists the frame between the axles; a rigid frame if 0 or "
            "left out.",
            unit="moment per degree", default=0.0,
        ),
    ),
    unit="moment per degree",
    help="Roll stiffness with which an axle acts on a frame that twists, for all formulas of the "
    "car in a turn: with it a rigid frame has the same load transfer, and the roll is the mean of "
    "both ends by their levers.",
    source="Statics of two ends on roll springs with the frame between them, each with its share "
    "of the weight at the height of the centre of gravity, small angles; past the first lifted "
    "wheel an approximation. Chassis torsion as in Milliken & Milliken 1995 (from memory).",
    example='=CORNER.ROLL_STIFFNESS_WITH_FRAME("front", 4000, 320, 0.45, 30, 90, 150000, 180000, '
    "400000)",
    check=152712.070816,
)  # fmt: skip
def roll_stiffness_with_frame(
    axle, weight, cg_height, front_share, roll_centre_front, roll_centre_rear,
    roll_stiffness_front, roll_stiffness_rear, frame_stiffness,
):  # fmt: skip
    hold_not_negative(frame_stiffness, "frame_stiffness")
    hold_stiffness(roll_stiffness_front, roll_stiffness_rear)
    levers = (
        weight * front_share * (cg_height - roll_centre_front),
        weight * (1.0 - front_share) * (cg_height - roll_centre_rear),
    )
    axles = (roll_stiffness_front, roll_stiffness_rear)
    frame = torsion.TwistedFrame(
        levers, (degrees(axles[0]), degrees(axles[1])), degrees(frame_stiffness)
    )  # fmt: skip
    rigid = frame_stiffness <= 0.0
    hold(
        where(rigid, True, frame.stands > 0.0),
        "frame_stiffness: %s given, too little to hold the weight of one end up on the springs of "
        "the other; a stiffer frame was expected",
        frame_stiffness,
    )
    alike = where(frame.front > 0.0, frame.rear > 0.0, False)
    hold(
        where(rigid, True, alike),
        "frame_stiffness: %s given; on so soft a frame both ends would roll opposite ways, one of "
        "its roll centres being above the centre of gravity: leave it out for a rigid frame",
        frame_stiffness,
    )
    place = AXLE.choices.index(axle)
    return where(rigid, axles[place], axles[place] * (frame.front, frame.rear)[place])
