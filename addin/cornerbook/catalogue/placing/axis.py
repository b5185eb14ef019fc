"""Formulas for the steering axis: ball joints, angles and hubs by caster, trail and scrub."""

from ...cells.arguments import CORNER
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.numbers import absolute
from ...geometry.placing import axis
from ..corner import layout
from .place import AXES, COORDINATE, GROUP, hold_place, shown

# An axis past this angle is none that the other formulas take.
_MOST_ANGLE = 60.0

TRAIL = Argument(
    "trail", "number",
    "Mechanical trail that is wanted, positive when the axis meets the ground ahead of the "
    "contact centre.",
    unit="length",
)  # fmt: skip
SCRUB = Argument(
    "scrub", "number",
    "Scrub radius that is wanted, positive when the axis meets the ground inboard of the "
    "contact centre.",
    unit="length",
)  # fmt: skip
HEIGHT = Argument(
    "height", "number", "Height at which the joint shall lie, its z in the block.", unit="length"
)

AXIS = (CORNER, layout.CASTER, layout.INCLINATION, TRAIL, SCRUB, HEIGHT, COORDINATE)


def _joint(corner, name, coordinate, *wanted):
    place = axis.on_axis(corner.drawn, *wanted)
    hold_place(corner, name, place)
    return shown(place, coordinate)


@formula(
    name="PLACE_LOWER_BALL_JOINT",
    group=GROUP,
    arguments=AXIS,
    unit="length",
    positive=AXES,
    help="Where the lower ball joint must be for a caster, kingpin inclination, trail and scrub "
    "radius as drawn, of which the block need have the wheel alone.",
    source="ISO 8855:2011, castor and kingpin angles and offsets at ground; a straight line.",
    example="=CORNER.PLACE_LOWER_BALL_JOINT(Example, 6, 9, 20, 25, 150)",
    check=((4.14905270655, 505.699160133, 150.0),),
    shape="table",
)
def place_lower_ball_joint(corner, caster, inclination, trail, scrub, height, coordinate):
    return _joint(corner, "lower ball joint", coordinate, caster, inclination, trail, scrub, height)


@formula(
    name="PLACE_UPPER_BALL_JOINT",
    group=GROUP,
    arguments=AXIS,
    unit="length",
    positive=AXES,
    help="Where the upper ball joint must be for a caster, kingpin inclination, trail and scrub "
    "radius as drawn, of which the block need have the wheel alone.",
    source="ISO 8855:2011, castor and kingpin angles and offsets at ground; a straight line.",
    example='=CORNER.PLACE_UPPER_BALL_JOINT(Example, 6, 9, 20, 25, 375, "y")',
    check=470.06266106,
    shape="table",
)
def place_upper_ball_joint(corner, caster, inclination, trail, scrub, height, coordinate):
    return _joint(corner, "upper ball joint", coordinate, caster, inclination, trail, scrub, height)


def _hold_angle(angle, name):
    hold(
        absolute(angle) < _MOST_ANGLE,
        name + " of %s degrees would be needed, where less than %s to either side was expected; "
        "move the hub or ask for less",
        angle, _MOST_ANGLE,
    )  # fmt: skip
    return angle


@formula(
    name="INCLINATION_FOR_SCRUB",
    group=GROUP,
    arguments=(SCRUB, layout.RADIUS, layout.OUTBOARD),
    unit="degrees",
    positive="the steering axis's top leans inward",
    help="Kingpin inclination that gives an upright wheel a scrub radius.",
    source="Front-view geometry, SCRUB_FROM_INCLINATION solved for the angle.",
    example="=CORNER.INCLINATION_FOR_SCRUB(18, 262, 60)",
    check=9.10733431225,
)
def inclination_for_scrub(scrub, radius, hub_outboard):
    angle = axis.inclination_for_scrub(scrub, radius, hub_outboard)
    return _hold_angle(angle, "a kingpin inclination")


@formula(
    name="CASTER_FOR_TRAIL",
    group=GROUP,
    arguments=(TRAIL, layout.RADIUS, layout.AHEAD),
    unit="degrees",
    positive="the steering axis's top leans rearward",
    help="Caster that gives an upright wheel a mechanical trail.",
    source="Side-view geometry, TRAIL_FROM_CASTER solved for the angle.",
    example="=CORNER.CASTER_FOR_TRAIL(22, 262, 5)",
    check=5.88375703644,
)
def caster_for_trail(trail, radius, hub_ahead):
    return _hold_angle(axis.caster_for_trail(trail, radius, hub_ahead), "a caster")


@formula(
    name="HUB_OUTBOARD_FOR_SCRUB",
    group=GROUP,
    arguments=(SCRUB, layout.INCLINATION, layout.RADIUS),
    unit="length",
    positive="the wheel centre is outboard of the steering axis",
    help="Level distance across the car from the steering axis to the wheel centre that gives an "
    "upright wheel a scrub radius.",
    source="Front-view geometry, SCRUB_FROM_INCLINATION solved for the hub's offset.",
    example="=CORNER.HUB_OUTBOARD_FOR_SCRUB(18, 9, 262)",
    check=59.496723365,
)
def hub_outboard_for_scrub(scrub, inclination, radius):
    return axis.hub_outboard_for_scrub(scrub, inclination, radius)


@formula(
    name="HUB_AHEAD_FOR_TRAIL",
    group=GROUP,
    arguments=(TRAIL, layout.CASTER, layout.RADIUS),
    unit="length",
    positive="the wheel centre is ahead of the steering axis",
    help="Level distance along the car from the steering axis to the wheel centre that gives an "
    "upright wheel a mechanical trail.",
    source="Side-view geometry, TRAIL_FROM_CASTER solved for the hub's offset.",
    example="=CORNER.HUB_AHEAD_FOR_TRAIL(22, 6, 262)",
    check=5.53730963961,
)
def hub_ahead_for_trail(trail, caster, radius):
    return axis.hub_ahead_for_trail(trail, caster, radius)
