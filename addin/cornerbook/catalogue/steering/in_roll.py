"""Formulas for both wheels steered under a body that rolls and heaves: angles, moments, jacking."""

from ...cells.arguments import CORNER, RACK, WHEELBASE
from ...cells.corner import upright_carries_spring
from ...cells.declare import formula
from ...geometry.corner import instant
from ...geometry.front_axle import road
from ...geometry.front_axle.axle import Axle
from ...geometry.steering import hands, moments
from ..front_axle.axle import NO_INNER_WHEEL
from ..front_axle.roll import (
    BEYOND,
    GROUP,
    HEAVE,
    ONE_WHEEL,
    ROLL,
    SIDE,
    place_of,
    reaches,
    wheel_on_road,
    why_both,
    why_wheel,
)
from .hands import MOMENT_LEFT, MOMENT_RIGHT
from .moments import (
    DEAD,
    DEAD_THERE,
    LATERAL,
    LONGITUDINAL,
    PNEUMATIC_TRAIL,
    REACTED,
    STATICS,
    TOWARD_TOE_IN,
    UNSPRUNG_WEIGHT,
    VERTICAL,
    hold_rod,
)

AXLE_IN_ROLL = (CORNER, WHEELBASE, ROLL, HEAVE, RACK)

NO_TURN = BEYOND + ", or the wheels are straight ahead"


def _both(corner, roll, heave, rack):
    return [wheel_on_road(corner, side, roll, heave, rack) for side in ("left", "right")]


def _axle(corner, wheelbase, roll, heave, rack):
    left, right = _both(corner, roll, heave, rack)
    return Axle(left, right, corner.drawn.wheel_centre.x - wheelbase)


def _why_no_turn(corner, wheelbase, roll, heave, rack):
    if not _stand(corner, roll, heave, rack):
        return why_both(corner, roll, heave, rack)
    return NO_INNER_WHEEL


def _stand(corner, roll, heave, rack):
    return all(reaches(corner, side, roll, heave, rack) for side in ("left", "right"))


@formula(
    name="STEER_IN_ROLL",
    group=GROUP,
    arguments=ONE_WHEEL,
    unit="degrees",
    positive="the wheel turns to the left",
    help="Steer angle of a wheel on a level road while the body rolls and heaves.",
    source="ISO 8855:2011, steer angle; the linkage solved with the wheel on the road.",
    example='=CORNER.STEER_IN_ROLL(Example, "right", 2, -5, 30)',
    check=-18.2018015152,
    why=why_wheel,
    beyond=BEYOND,
)
def steer_in_roll(corner, side, roll, heave, rack):
    toe = wheel_on_road(corner, side, roll, heave, rack).toe()
    return -toe if side == "left" else toe


@formula(
    name="IDEAL_OUTER_IN_ROLL",
    group=GROUP,
    arguments=AXLE_IN_ROLL,
    unit="degrees",
    positive="in the direction of the turn",
    help="Angle at which the outer wheel would be square to the turn centre of the inner one, "
    "both on a level road while the body rolls and heaves.",
    source="As IDEAL_OUTER, of the contact centres and angles on the road.",
    example="=CORNER.IDEAL_OUTER_IN_ROLL(Example, 1600, 2, -5, -30)",
    check=15.512442073,
    why=_why_no_turn,
    beyond=NO_TURN,
)
def ideal_outer_in_roll(corner, wheelbase, roll, heave, rack):
    return _axle(corner, wheelbase, roll, heave, rack).ideal_outer()


@formula(
    name="ACKERMANN_IN_ROLL",
    group=GROUP,
    arguments=AXLE_IN_ROLL,
    unit="percent",
    positive="the inner wheel turns more than the outer one",
    help="Ackermann percentage on a level road while the body rolls and heaves: 100 x (inner - "
    "outer) / (inner - ideal outer), with the ideal outer angle taken from the inner wheel's "
    "actual angle.",
    source="One of several definitions in use; this one is stated in the help.",
    example="=CORNER.ACKERMANN_IN_ROLL(Example, 1600, 2, -5, -30)",
    check=26.6809882836,
    why=_why_no_turn,
    beyond=NO_TURN,
)
def ackermann_in_roll(corner, wheelbase, roll, heave, rack):
    return _axle(corner, wheelbase, roll, heave, rack).ackermann()


def _why_moment(corner, side, longitudinal, lateral, vertical, roll, heave, rack, *others):
    if upright_carries_spring(corner.block) and reaches(corner, side, roll, heave, rack):
        return "the rod does not reach the rocker there; less roll, heave or rack was expected"
    return why_wheel(corner, side, roll, heave, rack)


@formula(
    name="STEERING_MOMENT_IN_ROLL",
    group=GROUP,
    arguments=(
        CORNER, SIDE, LONGITUDINAL, LATERAL, VERTICAL, ROLL, HEAVE, RACK, REACTED,
        PNEUMATIC_TRAIL, UNSPRUNG_WEIGHT,
    ),
    unit="force x length",
    positive=TOWARD_TOE_IN,
    help="Moment about a wheel's steering axis of the road's forces at its contact centre while "
    "the body rolls and heaves, and, where the row rod mount says upright, of the spring's force.",
    source=STATICS + "as STEERING_MOMENT, in the road's axes.",
    example='=CORNER.STEERING_MOMENT_IN_ROLL(Example, "right", -60, -650, 1100, 2, -5, 30, '
    '"upright", 15, 120)',
    check=-26124.9874038,
    why=_why_moment,
    beyond=BEYOND,
)  # fmt: skip
def steering_moment_in_roll(
    corner, side, longitudinal, lateral, vertical, roll, heave, rack, reacted, pneumatic_trail,
    unsprung_weight,
):  # fmt: skip
    pose = wheel_on_road(corner, side, roll, heave, rack)
    wrench = moments.Wrench(
        longitudinal, lateral, vertical, reacted == "inboard", pneumatic_trail, unsprung_weight
    )
    moment = moments.steering_moment(pose, wrench)
    if not upright_carries_spring(corner.block):
        return moment
    corner.hold_actuation()
    at, own_rack = place_of(side, roll, rack)
    motion = corner.on_road_motion(at, heave, own_rack)
    stance = road.Stance(at, heave, corner.drawn.contact_centre().z)
    actuated = corner.actuation.at(
        corner.linkage, stance.pose_back(pose), stance.motion_back(motion)
    )
    return moment + moments.spring_moment(pose, motion, actuated, wrench)


def _why_rack(corner, moment_left, moment_right, roll, heave, rack):
    if not _stand(corner, roll, heave, rack):
        return why_both(corner, roll, heave, rack)
    return DEAD_THERE


@formula(
    name="RACK_FORCE_IN_ROLL",
    group=GROUP,
    arguments=(CORNER, MOMENT_LEFT, MOMENT_RIGHT, ROLL, HEAVE, RACK),
    unit="force",
    positive="the wheels push the rack to the left",
    help="Force of both wheels along the rack, through the tie rods as they lie while the body "
    "rolls and heaves.",
    source="Statics: each moment over the rack's lever there; the rack moves in the body's axes.",
    example="=CORNER.RACK_FORCE_IN_ROLL(Example, 16000, -9000, 2, -5, 10)",
    check=262.931687937,
    why=_why_rack,
    beyond=BEYOND + ", or " + DEAD,
)
def rack_force_in_roll(corner, moment_left, moment_right, roll, heave, rack):
    hold_rod(corner)
    ground = corner.drawn.contact_centre().z
    poses = []
    for side, pose in zip(("left", "right"), _both(corner, roll, heave, rack)):  # noqa: B905
        stance = road.Stance(place_of(side, roll, rack)[0], heave, ground)
        poses.append(stance.pose_back(pose))
    return hands.rack_force(*poses, moment_left, moment_right)


@formula(
    name="JACKING_FORCE",
    group=GROUP,
    arguments=(CORNER, SIDE, LATERAL, ROLL, HEAVE, RACK),
    unit="force",
    positive="the links lift the body",
    help="Upward force of a wheel's links on the body by a lateral force at its contact centre: "
    "the force times the slope of the way that the contact takes as the wheel rises.",
    source="Virtual work with the spring's force held (jacking of Milliken & Milliken 1995, "
    "suspension geometry; Dixon, Tires, Suspension and Handling; Reimpell et al.; from memory).",
    example='=CORNER.JACKING_FORCE(Example, "right", -900, 2, -5, 10)',
    check=92.9970149261,
    why=lambda corner, side, lateral, *place: why_wheel(corner, side, *place),
    beyond=BEYOND,
)
def jacking_force(corner, side, lateral, roll, heave, rack):
    pose = wheel_on_road(corner, side, roll, heave, rack)
    at, own_rack = place_of(side, roll, rack)
    return instant.jacking(corner.on_road_motion(at, heave, own_rack), pose, lateral)
