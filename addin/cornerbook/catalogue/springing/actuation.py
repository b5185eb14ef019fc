"""Formulas for the spring at a pose: motion ratio, rocker, wheel rate, force at the wheel."""

from ...cells.arguments import CORNER, FROM_TRAVEL, POSE, RACK, TO_TRAVEL, TRAVEL
from ...cells.corner import has_rocker
from ...cells.declare import formula
from ...cells.mend import Mend, hold, shown
from ...cells.reach import closes, why_not
from ...geometry.numbers import absolute, where
from ...geometry.springing import springs
from .stops import FREE_LENGTH, SPRING_RATE, STOPS, actuators_of

GROUP = "Springs"

SAMPLES = 5
"""At how many travels of a range OVER_CENTRE looks."""

BEYOND = "no solution was found for the linkage, or for rod and rocker, at this travel and rack"

SPRUNG = (
    CORNER,
    SPRING_RATE,
    FREE_LENGTH.but(
        help="Length between the spring's two ends at which it pushes nothing, such as "
        "SPRING_FREE_LENGTH gives."
    ),
    TRAVEL,
    RACK,
    *STOPS,
)


def why_no_spring(corner, travel, rack):
    """The sentence for a place that the linkage or the rod does not reach."""
    if not closes(corner, travel, rack):
        return why_not(corner, travel, rack)
    good, bad = 0.0, 1.0
    for _ in range(40):
        middle = 0.5 * (good + bad)
        if reaches(corner, middle * travel, middle * rack):
            good = middle
        else:
            bad = middle
    return (
        f"the rod does not reach the rocker at travel {shown(travel)}, rack {shown(rack)}: "
        f"the two come into line before that, at travel {shown(good * travel)}, rack "
        f"{shown(good * rack)}"
    )


def reaches(corner, travel, rack):
    """Whether rod, rocker and spring close there."""
    try:
        length = corner.actuated(travel, rack).spring_length
    except (ZeroDivisionError, OverflowError):
        return False
    return length == length


def _why_sprung(corner, spring_rate, free_length, travel, rack, *stops):
    return why_no_spring(corner, travel, rack)


def _at(corner, travel, rack, rocker=False):
    """The `Actuated` at a pose; `Mend` where a rocker is asked for and there is none."""
    found = corner.actuated(travel, rack)
    if rocker and not has_rocker(corner.block):
        raise Mend(
            "the block has no rocker: rows named rod inner, rocker pivot, rocker axis and "
            "spring rocker were expected"
        )
    return found


@formula(
    name="SPRING_LENGTH",
    group=GROUP,
    arguments=POSE,
    unit="length",
    help="Distance between the spring's two ends.",
    source="Closed form: rod's outer end with its mount, rocker by a circle and a sphere.",
    example="=CORNER.SPRING_LENGTH(Example, 25, 10)",
    check=201.595663668,
    why=why_no_spring,
    beyond=BEYOND,
)
def spring_length(corner, travel, rack):
    return _at(corner, travel, rack).spring_length


@formula(
    name="MOTION_RATIO",
    group=GROUP,
    arguments=POSE,
    unit="length per length of travel",
    positive="the spring shortens as the wheel rises",
    help="How much the spring shortens for each unit of travel of the wheel.",
    source="Exact derivative of the constraints of linkage, rod and rocker (Milliken & Milliken "
    "1995, installation ratio).",
    example="=CORNER.MOTION_RATIO(Example, 25, 10)",
    check=0.72395193311,
    why=why_no_spring,
    beyond=BEYOND,
)
def motion_ratio(corner, travel, rack):
    return _at(corner, travel, rack).motion_ratio


@formula(
    name="MOTION_RATIO_CHANGE",
    group=GROUP,
    arguments=POSE,
    unit="per length of travel",
    positive="the motion ratio grows as the wheel rises, which stiffens the wheel in bump",
    help="Change of the motion ratio for each unit of travel.",
    source="Exact second derivative of the spring's length, by dual numbers.",
    example="=CORNER.MOTION_RATIO_CHANGE(Example, 25, 10)",
    check=0.00322501882105,
    why=why_no_spring,
    beyond=BEYOND,
)
def motion_ratio_change(corner, travel, rack):
    return _at(corner, travel, rack).motion_ratio_change


@formula(
    name="ROCKER_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the rocker has turned the way that, as drawn, shortens the spring",
    help="How far the rocker has turned from where it is drawn.",
    source="Closed form: a circle about the rocker's axis meets the rod's sphere.",
    example="=CORNER.ROCKER_ANGLE(Example, 25, 10)",
    check=14.461380782,
    why=why_no_spring,
    beyond=BEYOND,
)
def rocker_angle(corner, travel, rack):
    return _at(corner, travel, rack, rocker=True).rocker_angle


@formula(
    name="ROCKER_MARGIN",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="rod and spring are both on the side of over centre on which they are drawn, or a "
    "spring without a rocker is shortened by bump",
    help="Angle by which the nearer one of rod and spring is off the line of its arm on the "
    "rocker, or a spring without a rocker off square to its end's movement, where it would be over "
    "centre; at most 90, and negative past over centre.",
    source="Statics: a force along the line of its arm has no moment about the rocker's axis, and "
    "one square to the movement of its end does no work.",
    example="=CORNER.ROCKER_MARGIN(Example, 25, 10)",
    check=78.9252087701,
    why=why_no_spring,
    beyond=BEYOND,
)
def rocker_margin(corner, travel, rack):
    found = _at(corner, travel, rack)
    if not has_rocker(corner.block):
        return found.spring_margin
    nearer = found.rod_margin < found.spring_margin
    return where(nearer, found.rod_margin, found.spring_margin)


@formula(
    name="OVER_CENTRE",
    group=GROUP,
    arguments=(CORNER, FROM_TRAVEL, TO_TRAVEL, RACK),
    help='Whether rod, rocker and spring go over centre within a range of travel: "ok", or a '
    "sentence on what does and where.",
    source=(
        f"Signs at {SAMPLES} poses of the range: rod and spring against their arms on the "
        "rocker, "
        "and the motion ratio against its drawn sign."
    ),
    example="=CORNER.OVER_CENTRE(Example, -50, 50)",
    check="ok",
    shape="text",
)
def over_centre(corner, from_travel, to_travel, rack):
    corner.hold_linkage()
    hold(
        absolute(to_travel - from_travel) > 0.0,
        "from_travel and to_travel are the same; a range was expected",
    )
    drawn = _at(corner, 0.0, 0.0).motion_ratio
    for i in range(SAMPLES):
        share = i / (SAMPLES - 1.0)
        travel = from_travel * (1.0 - share) + to_travel * share
        _hold_place(corner, travel, rack, drawn)
    return "ok"


def _hold_place(corner, travel, rack, drawn):
    """Raise `Mend` for a place out of reach or over centre; drawn: motion ratio as drawn."""
    # Where the linkage closes, the wheel is within a quarter turn; elsewhere this is NaN.
    hold(
        corner.pose(travel, rack).spindle.y > 0.0,
        "no solution was found for the linkage at travel %s, rack %s",
        travel,
        rack,
    )
    found = corner.actuated(travel, rack)
    if has_rocker(corner.block):
        hold(
            found.rod_margin > 0.0,
            "over centre at travel %s: the rod and its arm on the rocker come into line, "
            "and the rocker cannot follow",
            travel,
        )
        hold(
            found.spring_margin > 0.0,
            "over centre at travel %s: the spring has passed the line of its arm on the rocker, "
            "and more bump eases it",
            travel,
        )
    hold(
        found.motion_ratio * drawn > 0.0,
        "over centre at travel %s: the motion ratio has changed its sign",
        travel,
    )


@formula(
    name="WHEEL_FORCE",
    group=GROUP,
    arguments=SPRUNG,
    unit="force",
    positive="spring and stops push the wheel down, so that the road must push it up",
    help="Vertical force at the wheel centre that the spring and its stops balance; 0 where all "
    "are loose.",
    source="Virtual work: force between the spring's ends x motion ratio.",
    example="=CORNER.WHEEL_FORCE(Example, 25, 256, 25, 10, 205, 60)",
    check=1132.52766355,
    why=_why_sprung,
    beyond=BEYOND,
)
def wheel_force(
    corner, spring_rate, free_length, travel, rack, bump_stop_length, bump_stop_rate,
    droop_stop_length, droop_stop_rate,
):  # fmt: skip
    found = _at(corner, travel, rack)
    actuators = actuators_of(
        spring_rate, free_length, bump_stop_length, bump_stop_rate, droop_stop_length,
        droop_stop_rate,
    )  # fmt: skip
    return actuators.force(found.spring_length) * found.motion_ratio


@formula(
    name="WHEEL_RATE",
    group=GROUP,
    arguments=SPRUNG,
    unit="force per length",
    positive="the force at the wheel grows as the wheel rises",
    help="Change of the vertical force at the wheel for each unit of travel: the spring's part, "
    "rate of spring and stops x motion ratio squared, and the linkage's, their force x change of "
    "motion ratio; 0 where all are loose.",
    source="Second derivative of the spring's energy by travel (Milliken & Milliken 1995, "
    "wheel rate with a varying installation ratio).",
    example="=CORNER.WHEEL_RATE(Example, 25, 256, 25, 10, 205, 60)",
    check=49.5941622637,
    why=_why_sprung,
    beyond=BEYOND,
)
def wheel_rate(
    corner, spring_rate, free_length, travel, rack, bump_stop_length, bump_stop_rate,
    droop_stop_length, droop_stop_rate,
):  # fmt: skip
    found = _at(corner, travel, rack)
    length = found.spring_length
    actuators = actuators_of(
        spring_rate, free_length, bump_stop_length, bump_stop_rate, droop_stop_length,
        droop_stop_rate,
    )  # fmt: skip
    return springs.wheel_rate(
        actuators.rate(length), actuators.force(length),
        found.motion_ratio, found.motion_ratio_change,
    )  # fmt: skip
