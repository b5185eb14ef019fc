"""Formulas for what forces at a tyre do about its steering axis."""

from ...cells.arguments import CORNER, POSE, RACK, TRAVEL
from ...cells.corner import upright_carries_spring
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...cells.reach import closes, why_not
from ...geometry.numbers import absolute
from ...geometry.steering import moments
from ..springing.actuation import why_no_spring

GROUP = "Moments about the steering axis"

TOWARD_TOE_IN = "it turns the wheel toward toe-in"

STATICS = "Statics: the force's moment about the line through both ball joints; "

DEAD = "the tie rod of a wheel points at its steering axis"
DEAD_THERE = DEAD + " there and cannot turn it; a smaller rack or another rod was expected"


def _force(name, help):
    return Argument(name, "number", help, unit="force")


LONGITUDINAL = _force("longitudinal", "Force of the road on the tyre, forward along its heading.")
LATERAL = _force("lateral", "Force of the road on the tyre, outboard across its heading.")
VERTICAL = _force("vertical", "Load: force of the road on the tyre, upward positive.")
REACTED = Argument(
    "reacted", "text",
    "What takes the longitudinal force's torque: upright, as by a brake in the wheel, "
    "or inboard, through a shaft or not at all; upright if left out.",
    default="upright", choices=("upright", "inboard"),
)  # fmt: skip
PNEUMATIC_TRAIL = Argument(
    "pneumatic_trail", "number",
    "How far behind the contact centre the lateral force acts, along the heading; 0 if left out.",
    unit="length", default=0.0,
)  # fmt: skip
UNSPRUNG_WEIGHT = Argument(
    "unsprung_weight", "number",
    "Weight of the wheel and its upright, at the wheel centre, which the spring does not "
    "carry; 0 if left out.",
    unit="force", default=0.0,
)  # fmt: skip


def hold_rod(corner):
    """Raise `Mend` where a rack cannot turn the wheel by the tie rod as drawn."""
    drawn = corner.drawn
    rod = drawn.tie_outer - drawn.tie_inner
    hold(
        absolute(rod.y) > 0.0,
        "tie rod outer and tie rod inner have the same y: a rack that moves sideways cannot "
        "push this rod",
    )
    swing = (drawn.upper - drawn.lower).cross(drawn.tie_outer - drawn.lower)
    hold(
        absolute(rod.dot(swing)) > 0.0,
        "tie rod outer, tie rod inner and the steering axis lie in one plane as drawn: the tie "
        "rod points at the axis and cannot turn the wheel",
    )


@formula(
    name="LATERAL_FORCE_ARM",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="a force outboard turns the wheel toward toe-in",
    help="Moment about the steering axis for each unit of lateral force at the contact centre, "
    "across the wheel's heading.",
    source=STATICS + "it is the trail times the axis's upright part.",
    example="=CORNER.LATERAL_FORCE_ARM(Example, 25, 10)",
    check=17.7390676523,
    why=why_not,
)
def lateral_force_arm(corner, travel, rack):
    return moments.lateral_force_arm(corner.pose(travel, rack))


@formula(
    name="LONGITUDINAL_FORCE_ARM",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="a forward force turns the wheel toward toe-in, and braking toward toe-out",
    help="Moment about the steering axis for each unit of longitudinal force at the contact "
    "centre, with its torque taken by the upright as by a brake in the wheel.",
    source=STATICS + "it is the scrub radius times the axis's upright part.",
    example="=CORNER.LONGITUDINAL_FORCE_ARM(Example, 25, 10)",
    check=20.8230454091,
    why=why_not,
)
def longitudinal_force_arm(corner, travel, rack):
    return moments.longitudinal_force_arm(corner.pose(travel, rack))


@formula(
    name="WHEEL_CENTRE_FORCE_ARM",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="a forward force turns the wheel toward toe-in",
    help="Moment about the steering axis for each unit of longitudinal force that the upright "
    "takes at the wheel centre, as of a wheel that rolls freely or is driven or braked through "
    "a shaft whose torque lies along the spindle.",
    source=STATICS + "about the wheel centre, the force at the ground leaves a torque along the "
    "spindle only, which the shaft takes.",
    example="=CORNER.WHEEL_CENTRE_FORCE_ARM(Example, 25, 10)",
    check=56.1963679227,
    why=why_not,
)
def wheel_centre_force_arm(corner, travel, rack):
    return moments.wheel_centre_force_arm(corner.pose(travel, rack))


@formula(
    name="VERTICAL_LOAD_ARM",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the load turns the wheel toward toe-in",
    help="Moment about the steering axis for each unit of vertical load at the contact centre.",
    source=STATICS + "it is the sum of CASTER_LOAD_ARM and INCLINATION_LOAD_ARM.",
    example="=CORNER.VERTICAL_LOAD_ARM(Example, 25, 10)",
    check=5.22638597515,
    why=why_not,
)
def vertical_load_arm(corner, travel, rack):
    return moments.vertical_load_arm(corner.pose(travel, rack))


@formula(
    name="CASTER_LOAD_ARM",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the load turns the wheel toward toe-in",
    help="Part of VERTICAL_LOAD_ARM that comes of the steering axis's lean along the wheel's "
    "heading, as caster gives it, with the scrub radius.",
    source=STATICS + "the axis's part along the wheel's own heading, rearward, times the scrub "
    "radius.",
    example="=CORNER.CASTER_LOAD_ARM(Example, 25, 10)",
    check=1.97889978368,
    why=why_not,
)
def caster_load_arm(corner, travel, rack):
    return moments.caster_load_arm(corner.pose(travel, rack))


@formula(
    name="INCLINATION_LOAD_ARM",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the load turns the wheel toward toe-in",
    help="Part of VERTICAL_LOAD_ARM that comes of the steering axis's lean across the wheel's "
    "heading, as kingpin inclination gives it, with the trail.",
    source=STATICS + "the axis's part across the wheel's own heading, inboard, times the trail.",
    example="=CORNER.INCLINATION_LOAD_ARM(Example, 25, 10)",
    check=3.24748619149,
    why=why_not,
)
def inclination_load_arm(corner, travel, rack):
    return moments.inclination_load_arm(corner.pose(travel, rack))


@formula(
    name="HUB_OUTBOARD",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the wheel centre is outboard of the axis",
    help="Level distance from the steering axis to the wheel centre across the wheel's heading, "
    "which RISE_AT_STEER and SCRUB_FROM_INCLINATION take.",
    source="ISO 8855:2011, kingpin offset at wheel centre.",
    example="=CORNER.HUB_OUTBOARD(Example, 25, 10)",
    check=57.3793813995,
    why=why_not,
)
def hub_outboard(corner, travel, rack):
    return moments.hub_outboard(corner.pose(travel, rack))


@formula(
    name="HUB_AHEAD",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the wheel centre is ahead of the axis",
    help="Level distance from the steering axis to the wheel centre along the wheel's heading, "
    "which RISE_AT_STEER and TRAIL_FROM_CASTER take.",
    source="ISO 8855:2011, castor offset at wheel centre; its sign here is that of the wheel "
    "centre's place.",
    example="=CORNER.HUB_AHEAD(Example, 25, 10)",
    check=6.5724657129,
    why=why_not,
)
def hub_ahead(corner, travel, rack):
    return moments.hub_ahead(corner.pose(travel, rack))


@formula(
    name="RACK_LEVER",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="a rack that pushes to the left turns the wheel toward toe-in",
    help="Moment about the steering axis for each unit of force along the rack, through the tie "
    "rod as it lies at the pose.",
    source="Virtual work: rack moved for each radian of turn about the axis, the arms held and "
    "the rod's length kept.",
    example="=CORNER.RACK_LEVER(Example, 25, 10)",
    check=97.494537567,
    why=why_not,
)
def rack_lever(corner, travel, rack):
    hold_rod(corner)
    return moments.rack_lever(corner.pose(travel, rack))


def _why_rate(corner, travel, rack):
    return DEAD_THERE if closes(corner, travel, rack) else why_not(corner, travel, rack)


@formula(
    name="STEER_RATE",
    group=GROUP,
    arguments=POSE,
    unit="degrees per length of rack",
    positive="the wheel turns toward toe-in as the rack moves to the left",
    help="Change of toe with the rack, the travel held; with the arms held instead the turn "
    "about the axis is 1 / RACK_LEVER, a little different.",
    source="Exact derivative of the linkage's constraints; toe of ISO 8855:2011.",
    example="=CORNER.STEER_RATE(Example, 25, 10)",
    check=0.580346474478,
    why=_why_rate,
    beyond="no solution was found at this travel and rack, or " + DEAD,
)
def steer_rate(corner, travel, rack):
    hold_rod(corner)
    return moments.toe_by_rack(corner.pose(travel, rack), corner.motion(travel, rack))


def _why_moment(corner, longitudinal, lateral, vertical, travel, rack, *others):
    if upright_carries_spring(corner.block) and closes(corner, travel, rack):
        return why_no_spring(corner, travel, rack)
    return why_not(corner, travel, rack)


@formula(
    name="STEERING_MOMENT",
    group=GROUP,
    arguments=(
        CORNER, LONGITUDINAL, LATERAL, VERTICAL, TRAVEL, RACK, REACTED, PNEUMATIC_TRAIL,
        UNSPRUNG_WEIGHT,
    ),
    unit="force x length",
    positive=TOWARD_TOE_IN,
    help="Moment about the steering axis of the road's forces at one contact centre, and, where "
    "the row rod mount says upright, of the spring's force that holds them at the pose.",
    source=STATICS + "the tyre's own aligning torque is lateral force x pneumatic trail; the "
    "spring's force by virtual work over the travel.",
    example='=CORNER.STEERING_MOMENT(Example, -400, 650, 1100, 25, 10, "upright", 15, 120)',
    check=17999.7215496,
    why=_why_moment,
)  # fmt: skip
def steering_moment(
    corner, longitudinal, lateral, vertical, travel, rack, reacted, pneumatic_trail,
    unsprung_weight,
):  # fmt: skip
    corner.hold_linkage()
    pose = corner.pose(travel, rack)
    wrench = moments.Wrench(
        longitudinal, lateral, vertical, reacted == "inboard", pneumatic_trail, unsprung_weight
    )
    moment = moments.steering_moment(pose, wrench)
    if not upright_carries_spring(corner.block):
        return moment
    motion, actuated = corner.motion(travel, rack), corner.actuated(travel, rack)
    return moment + moments.spring_moment(pose, motion, actuated, wrench)
