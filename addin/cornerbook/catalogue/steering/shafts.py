"""Formulas for the steering column: universal joints, and the shafts that bend at them."""

import difflib

from ...cells.block import COLUMN_POINTS, KNOWN, key_of
from ...cells.declare import Argument, formula
from ...cells.mend import Mend, hold, shown
from ...geometry.numbers import absolute, degrees, radians
from ...geometry.steering import shafts

GROUP = "Column and universal joints"

RELATION = (
    "Universal joint relation tan(out) = tan(in) / cos(bend): the pins of both forks stay square "
    "to each other"
)

COLUMN = Argument(
    "column", "block",
    "The labelled block of the steering column: a name in the first column, then x, y, z; rows "
    "steering wheel, upper joint, lower joint and pinion; no lower joint where there is only "
    "one.",
)  # fmt: skip
ANGLE_IN = Argument(
    "angle_in", "number",
    "Angle of the driving shaft in degrees, 0 where the pins of its fork lie in the plane of "
    "both shafts.",
    unit="angle",
)  # fmt: skip
JOINT_ANGLE = Argument(
    "joint_angle", "number",
    "Bend between the two shafts in degrees, 0 where they are in line; below 90.",
    unit="angle",
)  # fmt: skip
UPPER_JOINT_ANGLE = JOINT_ANGLE.but(
    name="upper_joint_angle", help="Bend at the upper joint in degrees, 0 where straight; below 90."
)
LOWER_JOINT_ANGLE = JOINT_ANGLE.but(
    name="lower_joint_angle", help="Bend at the lower joint in degrees, 0 where straight; below 90."
)
PHASE_ERROR = Argument(
    "phase_error", "number",
    "How far in degrees the lower fork of the middle shaft is turned on, the way in which "
    "angle_in grows, from where the joints cancel; 0 if left out.",
    unit="angle", default=0.0,
)  # fmt: skip


def _bend(angle, argument):
    """A joint's angle in radians; `Mend` where it cannot turn."""
    hold(
        absolute(angle) < 90.0,
        argument.name + ": %s degrees given, less than 90 was expected: bent at or past a right "
        "angle, a universal joint cannot turn",
        angle,
    )
    return radians(angle)


@formula(
    name="UJOINT_ANGLE_OUT",
    group=GROUP,
    arguments=(ANGLE_IN, JOINT_ANGLE),
    unit="degrees",
    positive="the driven shaft has turned the way in which angle_in grows",
    help="Angle through which a universal joint has turned the driven shaft, counted from "
    "where angle_in is 0.",
    source=RELATION + "; kept in the same turn as angle_in.",
    example="=CORNER.UJOINT_ANGLE_OUT(400, 25)",
    check=402.794874608,
)
def ujoint_angle_out(angle_in, joint_angle):
    return degrees(shafts.angle_out(radians(angle_in), _bend(joint_angle, JOINT_ANGLE)))


@formula(
    name="UJOINT_SPEED_RATIO",
    group=GROUP,
    arguments=(ANGLE_IN, JOINT_ANGLE),
    unit="ratio",
    help="Speed of a universal joint's driven shaft over that of the driving one, between the "
    "cosine of the bend and one over it.",
    source=RELATION + ", differentiated.",
    example="=CORNER.UJOINT_SPEED_RATIO(30, 25)",
    check=1.04648998258,
)
def ujoint_speed_ratio(angle_in, joint_angle):
    return shafts.speed_ratio(radians(angle_in), _bend(joint_angle, JOINT_ANGLE))


@formula(
    name="UJOINT_RIPPLE",
    group=GROUP,
    arguments=(JOINT_ANGLE,),
    unit="percent",
    help="Largest less smallest speed ratio of a single universal joint over a turn.",
    source=RELATION + "; its speed runs between cos(bend) and 1/cos(bend).",
    example="=CORNER.UJOINT_RIPPLE(25)",
    check=19.7070131926,
)
def ujoint_ripple(joint_angle):
    return 100.0 * shafts.ripple(_bend(joint_angle, JOINT_ANGLE))


@formula(
    name="COLUMN_SPEED_RATIO",
    group=GROUP,
    arguments=(
        ANGLE_IN.but(
            help="Angle of the steering wheel's shaft in degrees, 0 where the pins of its fork "
            "lie in the plane of the upper joint's two shafts."
        ),
        UPPER_JOINT_ANGLE,
        LOWER_JOINT_ANGLE,
        PHASE_ERROR,
    ),
    unit="ratio",
    help="Speed of the pinion over that of the steering wheel, with two universal joints "
    "between them; 1 at every angle where the bends are equal and the phase is right.",
    source=RELATION + ", both joints in series.",
    example="=CORNER.COLUMN_SPEED_RATIO(30, 25, 18, 10)",
    check=1.04062366673,
)
def column_speed_ratio(angle_in, upper_joint_angle, lower_joint_angle, phase_error):
    return shafts.column_speed_ratio(
        radians(angle_in),
        _bend(upper_joint_angle, UPPER_JOINT_ANGLE),
        _bend(lower_joint_angle, LOWER_JOINT_ANGLE),
        radians(phase_error),
    )


@formula(
    name="COLUMN_RIPPLE",
    group=GROUP,
    arguments=(UPPER_JOINT_ANGLE, LOWER_JOINT_ANGLE, PHASE_ERROR),
    unit="percent",
    help="Largest less smallest speed ratio over a turn of a column with two universal joints; "
    "0 where the bends are equal and the phase is right.",
    source=RELATION + ", both joints in series; exact, by the singular values of the product.",
    example="=CORNER.COLUMN_RIPPLE(25, 18, 10)",
    check=10.8109994478,
)
def column_ripple(upper_joint_angle, lower_joint_angle, phase_error):
    return 100.0 * shafts.column_ripple(
        _bend(upper_joint_angle, UPPER_JOINT_ANGLE),
        _bend(lower_joint_angle, LOWER_JOINT_ANGLE),
        radians(phase_error),
    )


WHEEL, UPPER, LOWER, PINION = COLUMN_POINTS


def _has_lower(block):
    """Whether there are two joints; `Mend` for a row whose name is nearly that of the second."""
    if block.has(LOWER):
        return True
    known = {*KNOWN, *map(key_of, COLUMN_POINTS)}
    others = {key: row[0] for key, row in block.rows.items() if key not in known}
    near = difflib.get_close_matches(key_of(LOWER), others, n=1, cutoff=0.75)
    if near:
        raise Mend(f"the row {shown(others[near[0]])} is not known; is {shown(LOWER)} meant?")
    return False


def _hold_lower(block, what):
    if not _has_lower(block):
        raise Mend(f"the row {shown(LOWER)} is missing: a column of one joint has no {what}")


def _shaft(block, start, end):
    """The way along a shaft; `Mend` where it has no length."""
    way = block.point(end) - block.point(start)
    hold(
        way.length() > 0.0,
        f"{start} and {end} are one point: the shaft between them has no length",
    )
    return way


@formula(
    name="COLUMN_JOINT_ANGLE",
    group=GROUP,
    arguments=(
        COLUMN,
        Argument("joint", "text", "Which joint: upper or lower.", choices=("upper", "lower")),
    ),
    unit="degrees",
    help="Bend between the two shafts that meet in a universal joint, 0 where they are in line.",
    source="Angle between two directions in space.",
    example='=CORNER.COLUMN_JOINT_ANGLE(Example, "lower")',
    check=9.47422916626,
)
def column_joint_angle(column, joint):
    block = column.block
    if joint == "upper":
        after = LOWER if _has_lower(block) else PINION
        ends = (WHEEL, UPPER, after)
    else:
        _hold_lower(block, "lower joint")
        ends = (UPPER, LOWER, PINION)
    one, other = _shaft(block, *ends[:2]), _shaft(block, *ends[1:])
    return degrees(shafts.bend_between(one, other))


# Sine of a bend that is taken for none: a thousandth of a degree has no plane to be set to.
_STRAIGHT = 1.7e-5


@formula(
    name="COLUMN_PHASE",
    group=GROUP,
    arguments=(COLUMN,),
    unit="degrees",
    positive="the middle shaft's lower fork must be turned clockwise against its upper fork, for "
    "one who looks from the steering wheel",
    help="Angle by which the forks of the middle shaft must be set from lying in one plane so "
    "that its two joints cancel: that between the planes of the two bends.",
    source="Angle between the planes of three shafts in space; the forks of the middle shaft "
    "must each lie square to its own bend at the same time.",
    example="=CORNER.COLUMN_PHASE(Example)",
    check=-26.5430220939,
)
def column_phase(column):
    block = column.block
    _hold_lower(block, "phase between two joints")
    upper = _shaft(block, WHEEL, UPPER)
    middle = _shaft(block, UPPER, LOWER)
    lower = _shaft(block, LOWER, PINION)
    for joint, one, other in ((UPPER, upper, middle), (LOWER, middle, lower)):
        hold(
            one.cross(other).length() > _STRAIGHT * one.length() * other.length(),
            "the shafts are in line at the " + joint + ": without a bend there is no plane to "
            "set the forks by, and any setting will do",
        )
    return degrees(shafts.phase(upper, middle, lower))


@formula(
    name="COLUMN_LENGTH",
    group=GROUP,
    arguments=(
        COLUMN,
        Argument(
            "part", "text",
            "Which shaft: upper, from the steering wheel; middle, between two joints; lower, to "
            "the pinion.",
            choices=("upper", "middle", "lower"),
        ),
    ),
    unit="length",
    help="Length of one shaft of the column, between the points at its ends.",
    source="Distance between two points.",
    example='=CORNER.COLUMN_LENGTH(Example, "middle")',
    check=236.061432682,
)  # fmt: skip
def column_length(column, part):
    block = column.block
    if part == "upper":
        return _shaft(block, WHEEL, UPPER).length()
    if part == "middle":
        _hold_lower(block, "middle shaft")
        return _shaft(block, UPPER, LOWER).length()
    return _shaft(block, LOWER if _has_lower(block) else UPPER, PINION).length()
