"""Formulas for how a corner moves: instant centres, roll centre, track, anti-dive."""

from ...cells.arguments import CORNER, POSE, RACK, TRAVEL, WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...cells.reach import why_not
from ...geometry.corner import instant
from ...geometry.numbers import where

GROUP = "Movement"

PARALLEL = "the arms are parallel there and have no instant centre, or no solution was found"

CG_HEIGHT = Argument(
    "cg_height", "number", "Height of the centre of gravity above ground.",
    unit="length", above=0.0,
)  # fmt: skip
BRAKE_SHARE = Argument(
    "brake_share", "number",
    "Share of the braking force at the front wheels, from 0 (only the rear axle is braked) to 1.",
    unit="share",
)  # fmt: skip


def _seen(measure, corner, travel, rack):
    return measure(corner.motion(travel, rack), corner.pose(travel, rack))


@formula(
    name="ROLL_CENTRE",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="above the ground",
    help="Height of the roll centre from the instant centres of both wheels, alike.",
    source="Kinematic roll centre (Reimpell et al., The Automotive Chassis, chapter on "
    "wheel suspensions); from the upright's velocity, so parallel arms have one too.",
    example="=CORNER.ROLL_CENTRE(Example, 25)",
    check=34.3700047592,
    why=why_not,
)
def roll_centre(corner, travel, rack):
    return _seen(instant.roll_centre, corner, travel, rack)


@formula(
    name="ROLL_CENTRE_BY_FORCE",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="above the ground",
    help="Height of the roll centre by the lateral force of a wheel free to roll, which lies "
    "across its heading; equal to ROLL_CENTRE, which a wheel held by its brake has at any rack, "
    "while the wheel is straight.",
    source="Virtual work of a force across the heading at the contact centre (Milliken & Milliken "
    "1995, suspension geometry, force-based view); statics of the upright.",
    example="=CORNER.ROLL_CENTRE_BY_FORCE(Example, 25, 20)",
    check=28.7078079314,
    why=why_not,
)
def roll_centre_by_force(corner, travel, rack):
    return _seen(instant.roll_centre_by_force, corner, travel, rack)


@formula(
    name="SWING_ARM_LENGTH",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the front-view instant centre lies inboard of the contact centre",
    help="Length of the virtual swing arm in front view, level, from contact to instant centre.",
    source="Instant centre of a rigid body's velocity; front-view swing arm of Milliken & "
    "Milliken 1995.",
    example="=CORNER.SWING_ARM_LENGTH(Example, 25)",
    check=1408.33450864,
    why=why_not,
    beyond=PARALLEL,
)
def swing_arm_length(corner, travel, rack):
    return _seen(instant.front_arm_length, corner, travel, rack)


@formula(
    name="SWING_ARM_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the line from the contact centre to the instant centre rises inboard",
    help="Angle of the virtual swing arm to the ground in front view.",
    source="Instant centre of a rigid body's velocity; front-view swing arm of Milliken & "
    "Milliken 1995.",
    example="=CORNER.SWING_ARM_ANGLE(Example, 25)",
    check=3.53182303062,
    why=why_not,
)
def swing_arm_angle(corner, travel, rack):
    return _seen(instant.front_arm_angle, corner, travel, rack)


@formula(
    name="SIDE_SWING_ARM_LENGTH",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the side-view instant centre lies behind the contact centre",
    help="Length of the virtual swing arm in side view, level, from contact to instant centre.",
    source="Instant centre of a rigid body's velocity; side-view swing arm of Milliken & "
    "Milliken 1995.",
    example="=CORNER.SIDE_SWING_ARM_LENGTH(Example, 25)",
    check=-11619.7716449,
    why=why_not,
    beyond=PARALLEL,
)
def side_swing_arm_length(corner, travel, rack):
    return _seen(instant.side_arm_length, corner, travel, rack)


@formula(
    name="SIDE_SWING_ARM_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the line from the contact centre to the instant centre rises rearward",
    help="Angle of the virtual swing arm to the ground in side view.",
    source="Instant centre of a rigid body's velocity; side-view swing arm of Milliken & "
    "Milliken 1995.",
    example="=CORNER.SIDE_SWING_ARM_ANGLE(Example, 25)",
    check=-2.86752406729,
    why=why_not,
)
def side_swing_arm_angle(corner, travel, rack):
    return _seen(instant.side_arm_angle, corner, travel, rack)


@formula(
    name="SCRUB_RATE",
    group=GROUP,
    arguments=POSE,
    unit="length per length of travel",
    positive="the contact centre moves outboard as the wheel rises",
    help="Sideways movement of the contact centre with travel, which drags the tyre over the road.",
    source="Exact derivative of the linkage's constraints and of the disc's lowest point.",
    example="=CORNER.SCRUB_RATE(Example, 25, 10)",
    check=0.0580674689985,
    why=why_not,
)
def scrub_rate(corner, travel, rack):
    return _seen(instant.contact_velocity, corner, travel, rack).y


@formula(
    name="TRACK_CHANGE",
    group=GROUP,
    arguments=POSE,
    unit="length",
    positive="the track is wider than as drawn",
    help="Change of the track against the drawing, both wheels moved alike.",
    source="Twice the change of the contact centre's y; track of ISO 8855:2011.",
    example="=CORNER.TRACK_CHANGE(Example, 25)",
    check=4.66204794679,
    why=why_not,
)
def track_change(corner, travel, rack):
    drawn = corner.drawn.contact_centre()
    return 2.0 * (corner.pose(travel, rack).contact_centre().y - drawn.y)


def hold_brake_share(brake_share):
    hold(
        where(brake_share >= 0.0, where(brake_share <= 1.0, True, False), False),
        "brake_share: %s given, a share from 0 to 1 was expected",
        brake_share,
    )


def _why_dive(corner, wheelbase, cg_height, brake_share, travel, rack):
    return why_not(corner, travel, rack)


@formula(
    name="ANTI_DIVE",
    group=GROUP,
    arguments=(CORNER, WHEELBASE, CG_HEIGHT, BRAKE_SHARE, TRAVEL, RACK),
    unit="percent",
    positive="the linkage holds the nose up in braking",
    help="Share of the front's dive in braking that the linkage itself holds up, for brakes on "
    "the uprights; with only the rear axle braked (share 0) it is 0, whatever the linkage.",
    source="Statics: brake force x side-view slope of the contact point against load transfer "
    "(Gillespie 1992, suspensions, anti-dive).",
    example="=CORNER.ANTI_DIVE(Example, 1600, 320, 0.6, 10)",
    check=-14.2647660247,
    why=_why_dive,
)
def anti_dive(corner, wheelbase, cg_height, brake_share, travel, rack):
    hold_brake_share(brake_share)
    return instant.anti_dive(
        corner.motion(travel, rack), corner.pose(travel, rack), wheelbase, cg_height, brake_share
    )


@formula(
    name="ANTI_LIFT",
    group=GROUP,
    arguments=(
        BRAKE_SHARE.but(
            help="Share of the braking force at the rear wheels, from 0 to 1 (only the rear axle "
            "is braked)."
        ),
        Argument(
            "centre_ahead", "number",
            "How far the side-view instant centre of the rear axle lies ahead of its contact.",
            unit="length", above=0.0,
        ),
        Argument(
            "centre_height", "number",
            "Height of that instant centre above ground.", unit="length",
        ),
        WHEELBASE,
        CG_HEIGHT,
    ),
    unit="percent",
    positive="the links hold the tail down in braking",
    help="Share of the rear's lift in braking that the links of the rear axle hold down, its "
    "brake reacted by the axle; an axle bolted to the frame has no such links.",
    source="Statics: brake force x slope to the instant centre against load transfer "
    "(Gillespie 1992, suspensions, anti-dive and anti-lift).",
    example="=CORNER.ANTI_LIFT(1, 900, 120, 1580, 310)",
    check=67.9569892473,
)  # fmt: skip
def anti_lift(brake_share, centre_ahead, centre_height, wheelbase, cg_height):
    hold_brake_share(brake_share)
    return instant.anti_lift(brake_share, centre_ahead, centre_height, wheelbase, cg_height)
