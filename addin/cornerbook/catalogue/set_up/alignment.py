"""Formulas for toe, camber and caster as a builder measures them, and back."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.numbers import absolute
from ...geometry.set_up import alignment
from ..corner.layout import INCLINATION

GROUP = "Set-up: toe, camber, caster"

DIAMETER = Argument(
    "rim_diameter", "number", "Distance between the two places on the rim that were measured.",
    unit="length", above=0.0,
)  # fmt: skip
_TOE = Argument(
    "toe", "number", "Toe of one wheel, positive when its leading edge points inward.",
    unit="angle", above=-45.0, below=45.0,
)  # fmt: skip
_CAMBER = Argument(
    "camber", "number", "Camber, positive when the top of the wheel leans away from the car.",
    unit="angle", above=-45.0, below=45.0,
)  # fmt: skip
CAMBER_IN = _CAMBER.but(
    name="camber_in", help="Camber with the wheel's leading edge turned inward."
)
CAMBER_OUT = _CAMBER.but(
    name="camber_out", help="Camber with the wheel's leading edge turned outward."
)
CAMBER_STRAIGHT = _CAMBER.but(name="camber_straight", help="Camber with the wheel straight ahead.")
TURNED_IN = Argument(
    "turned_in", "number", "How far the leading edge was turned inward, from straight ahead.",
    unit="angle", above=0.0, below=60.0,
)  # fmt: skip
TURNED_OUT = TURNED_IN.but(
    name="turned_out", help="How far the leading edge was turned outward, from straight ahead."
)
SWING = (CAMBER_IN, CAMBER_OUT, TURNED_IN, TURNED_OUT)


def _gap(name, words):
    return Argument(name, "number", words, unit="length")


FRONT_GAP = _gap(
    "front_gap", "From the string, which runs outboard of the wheel, to the rim's front edge."
)
REAR_GAP = _gap("rear_gap", "From the string to the rim's rear edge, at hub height as well.")
UPPER_GAP = _gap(
    "upper_gap",
    "Level, from an upright rule outboard of the wheel to the rim's top edge.",
)
LOWER_GAP = _gap("lower_gap", "From the rule to the rim's bottom edge.")
FRONT_DISTANCE = _gap(
    "front_distance", "Between the rims' front edges at hub height, left to right wheel."
)
REAR_DISTANCE = _gap("rear_distance", "Between the rims' rear edges, the same places.")

_ALONG = "A level line along the heading of a rigid wheel; toe of ISO 8855:2011."
_TOE_IN = "the leading edge points inward"


def _hold_span(difference, most, names):
    hold(
        absolute(difference) < most,
        names + " differ by %s, less than %s was expected: no wheel turns so far",
        difference,
        most,
    )


@formula(
    name="TOE_FROM_RIMS",
    group=GROUP,
    arguments=(FRONT_DISTANCE, REAR_DISTANCE, DIAMETER),
    unit="degrees",
    positive=_TOE_IN,
    help="Toe of one wheel, both turned alike, from the distances between the two rims in front "
    "and behind at hub height.",
    source=_ALONG,
    example="=CORNER.TOE_FROM_RIMS(1058, 1062, 406)",
    check=0.282246360808,
)
def toe_from_rims(front_distance, rear_distance, rim_diameter):
    _hold_span(
        rear_distance - front_distance, 2.0 * rim_diameter, "front_distance and rear_distance"
    )
    return alignment.angle_of_gaps(rear_distance - front_distance, 2.0 * rim_diameter)


@formula(
    name="RIMS_FROM_TOE",
    group=GROUP,
    arguments=(_TOE, DIAMETER),
    unit="length",
    positive="the rims are farther apart behind than in front",
    help="Distance between the rims behind, less that in front, both wheels with the same toe.",
    source=_ALONG,
    example="=CORNER.RIMS_FROM_TOE(0.25, 406)",
    check=3.54300713921,
)
def rims_from_toe(toe, rim_diameter):
    return alignment.gaps_of_angle(toe, 2.0 * rim_diameter)


@formula(
    name="TOE_FROM_STRING",
    group=GROUP,
    arguments=(
        FRONT_GAP, REAR_GAP, DIAMETER,
        Argument(
            "string_angle", "number",
            "Angle of the string to the car's middle line, positive when its front end is "
            "farther out; 0 if left out.",
            unit="angle", default=0.0, above=-45.0, below=45.0,
        ),
    ),
    unit="degrees",
    positive=_TOE_IN,
    help="Toe of one wheel from a string stretched beside it, from which the gaps to the rim's "
    "front and rear edge are measured square to the string.",
    source=_ALONG,
    example="=CORNER.TOE_FROM_STRING(52.5, 50, 406, 0.1)",
    check=0.252808753663,
)  # fmt: skip
def toe_from_string(front_gap, rear_gap, rim_diameter, string_angle):
    _hold_span(front_gap - rear_gap, rim_diameter, "front_gap and rear_gap")
    return alignment.angle_of_gaps(front_gap - rear_gap, rim_diameter) - string_angle


@formula(
    name="STRING_FROM_TOE",
    group=GROUP,
    arguments=(_TOE, DIAMETER),
    unit="length",
    positive="the front edge is farther from the string than the rear edge",
    help="Gap to the rim's front edge less that to the rear edge, from a string beside the wheel "
    "along the car.",
    source=_ALONG,
    example="=CORNER.STRING_FROM_TOE(0.25, 406)",
    check=1.77150356961,
)
def string_from_toe(toe, rim_diameter):
    return alignment.gaps_of_angle(toe, rim_diameter)


@formula(
    name="CAMBER_FROM_RULE",
    group=GROUP,
    arguments=(UPPER_GAP, LOWER_GAP, DIAMETER),
    unit="degrees",
    positive="the top of the wheel leans away from the car",
    help="Camber from the gaps between an upright rule (a level, a plumb line) and the rim's top "
    "and bottom edge; the floor is level.",
    source="The slope of a rigid wheel, its rim's diameter measured along it; camber of ISO "
    "8855:2011.",
    example="=CORNER.CAMBER_FROM_RULE(61, 54, 406)",
    check=-0.987907216656,
)
def camber_from_rule(upper_gap, lower_gap, rim_diameter):
    _hold_span(lower_gap - upper_gap, rim_diameter, "upper_gap and lower_gap")
    return alignment.angle_of_gaps(lower_gap - upper_gap, rim_diameter)


@formula(
    name="RULE_FROM_CAMBER",
    group=GROUP,
    arguments=(_CAMBER, DIAMETER),
    unit="length",
    positive="the bottom edge is farther from the rule than the top edge",
    help="Gap to the rim's bottom edge less that to its top edge, from an upright rule outboard "
    "of the wheel.",
    source="The slope of a rigid wheel, its rim's diameter measured along it; camber of ISO "
    "8855:2011.",
    example="=CORNER.RULE_FROM_CAMBER(-1, 406)",
    check=-7.08567701354,
)
def rule_from_camber(camber, rim_diameter):
    return alignment.gaps_of_angle(camber, rim_diameter)


@formula(
    name="CASTER_FROM_SWING",
    group=GROUP,
    arguments=(*SWING, INCLINATION),
    unit="degrees",
    positive="the axis's top leans rearward",
    help="Caster from a camber gauge on the hub, the wheel turned inward and outward on a level "
    "floor, the body held still; exact, with the axis's inclination.",
    source="The spindle turns on a cone: the change between two of its places is square to the "
    "steering axis (Euler's rotation); caster of ISO 8855:2011.",
    example="=CORNER.CASTER_FROM_SWING(-2.6, 1.6, 20, 20, 9)",
    check=6.12725348733,
)
def caster_from_swing(camber_in, camber_out, turned_in, turned_out, inclination):
    return alignment.caster_by_swing(camber_in, camber_out, turned_in, turned_out, inclination)


@formula(
    name="CASTER_BY_SMALL_ANGLES",
    group=GROUP,
    arguments=SWING,
    unit="degrees",
    positive="the axis's top leans rearward",
    help="Caster by the workshop's rule for small angles, to show beside CASTER_FROM_SWING: the "
    "difference of camber over the sum of the sines of both turns; inclination is left out.",
    source="CASTER_FROM_SWING to first order in caster and camber. At 20 degrees each way that is "
    "1.46 times the difference.",
    example="=CORNER.CASTER_BY_SMALL_ANGLES(-2.6, 1.6, 20, 20)",
    check=6.13998924034,
)
def caster_by_small_angles(camber_in, camber_out, turned_in, turned_out):
    return alignment.caster_by_small_angles(camber_in, camber_out, turned_in, turned_out)


@formula(
    name="INCLINATION_FROM_SWING",
    group=GROUP,
    arguments=(CAMBER_IN, CAMBER_STRAIGHT, CAMBER_OUT, TURNED_IN, TURNED_OUT),
    unit="degrees",
    positive="the axis's top leans inward",
    help="Kingpin inclination from camber at both ends of a swing and straight ahead, where a "
    "misreading counts here about seventeen times with 20 degrees of turn.",
    source="The spindle turns on a cone: the changes between three of its places are square to "
    "the steering axis (Euler's rotation); kingpin inclination of ISO 8855:2011.",
    example="=CORNER.INCLINATION_FROM_SWING(-2.6, -1, 1.6, 20, 20)",
    check=8.15885254925,
)
def inclination_from_swing(camber_in, camber_straight, camber_out, turned_in, turned_out):
    return alignment.inclination_by_swing(
        camber_in, camber_straight, camber_out, turned_in, turned_out
    )
