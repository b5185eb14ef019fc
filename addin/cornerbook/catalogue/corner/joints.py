"""Formulas for how far the joints of a corner are tilted, and for room in the rim."""

from ...cells.arguments import CORNER, POSE, RACK, TRAVEL
from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative
from ...cells.reach import why_not
from ...geometry.corner import joints, rim
from ...geometry.numbers import where

GROUP = "Joints"

TILT = "the bolt is taken along the steering axis, and the housing turns with the arm"
ROTATION = "Rotation of the arm about its pickups and of the upright; " + TILT + "."


@formula(
    name="LOWER_BALL_JOINT_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    help="Tilt of the lower ball joint from its place as drawn, where it is taken to be set "
    "square in the arm; the joint must allow as much to either side.",
    source=ROTATION,
    example="=CORNER.LOWER_BALL_JOINT_ANGLE(Example, 25, 10)",
    check=3.67498552132,
    why=why_not,
)
def lower_ball_joint_angle(corner, travel, rack):
    return joints.lower_tilt(corner.linkage, corner.pose(travel, rack))


@formula(
    name="UPPER_BALL_JOINT_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    help="Tilt of the upper ball joint from its place as drawn, where it is taken to be set "
    "square in the arm; the joint must allow as much to either side.",
    source=ROTATION,
    example="=CORNER.UPPER_BALL_JOINT_ANGLE(Example, 25, 10)",
    check=5.25721786355,
    why=why_not,
)
def upper_ball_joint_angle(corner, travel, rack):
    return joints.upper_tilt(corner.linkage, corner.pose(travel, rack))


@formula(
    name="TIE_ROD_OUTER_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    help="Misalignment of the rod end at the tie rod's outer end, on a bolt that is fixed to "
    "the upright, square to the rod as drawn and as near to the steering axis as that allows.",
    source="Rotation of the upright; the rod's angle out of the plane square to the bolt.",
    example="=CORNER.TIE_ROD_OUTER_ANGLE(Example, 25, 10)",
    check=4.32901147557,
    why=why_not,
)
def tie_rod_outer_angle(corner, travel, rack):
    return joints.rod_end_tilt(corner.linkage, corner.pose(travel, rack), corner.drawn)


@formula(
    name="TIE_ROD_INNER_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    help="Angle between the tie rod and the rack, which an inline joint at the rack's end must "
    "allow; what is there as drawn counts.",
    source="Angle between two lines; the rack lies across the car.",
    example="=CORNER.TIE_ROD_INNER_ANGLE(Example, 25, 10)",
    check=4.28909802811,
    why=why_not,
)
def tie_rod_inner_angle(corner, travel, rack):
    return joints.rack_end_angle(corner.pose(travel, rack))


@formula(
    name="TIE_ROD_PLAN_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the rod's outer end lies forward of its inner end",
    help="Angle of the tie rod to the rack's line, seen from above.",
    source="Axes of ISO 8855:2011; the rack lies across the car.",
    example="=CORNER.TIE_ROD_PLAN_ANGLE(Example, 25, 10)",
    check=0.655046773394,
    why=why_not,
)
def tie_rod_plan_angle(corner, travel, rack):
    return joints.plan_angle(corner.pose(travel, rack))


@formula(
    name="TIE_ROD_FRONT_ANGLE",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    positive="the rod's outer end lies higher than its inner end",
    help="Angle of the tie rod to the rack's line, seen from the front.",
    source="Axes of ISO 8855:2011; the rack lies across the car.",
    example="=CORNER.TIE_ROD_FRONT_ANGLE(Example, 25, 10)",
    check=4.23915073565,
    why=why_not,
)
def tie_rod_front_angle(corner, travel, rack):
    return joints.front_angle(corner.pose(travel, rack))


@formula(
    name="TOGGLE_MARGIN",
    group=GROUP,
    arguments=POSE,
    unit="degrees",
    help="Angle between tie rod and steering arm, seen along the steering axis, off the one line "
    "in which they are at toggle (dead centre); 90 at best.",
    source="Statics: a pull along the line of the steering arm has no moment about the axis.",
    example="=CORNER.TOGGLE_MARGIN(Example, 25, 10)",
    check=86.9764443391,
    why=why_not,
)
def toggle_margin(corner, travel, rack):
    return joints.toggle_margin(corner.pose(travel, rack))


_MEMBERS = {
    "tie rod": None,
    "lower front": ("lower", "lower front pickup"),
    "lower rear": ("lower", "lower rear pickup"),
    "upper front": ("upper", "upper front pickup"),
    "upper rear": ("upper", "upper rear pickup"),
}
"""A member's outer end, a field of a pose, and its inner one, a row of the block."""


def _why_clearance(corner, member, rim_radius, rim_width, travel, rack, *others):
    return why_not(corner, travel, rack)


@formula(
    name="RIM_CLEARANCE",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "member", "text",
            "Which member: tie rod, or the leg of an arm from its ball joint to a pickup: "
            "lower front, lower rear, upper front or upper rear.",
            choices=tuple(_MEMBERS),
        ),
        Argument(
            "rim_radius", "number",
            "Radius of the rim's inside, all along its width.",
            unit="length", above=0.0,
        ),
        Argument(
            "rim_width", "number",
            "Width of the rim between its edges, in the middle of the wheel.",
            unit="length", above=0.0,
        ),
        TRAVEL,
        RACK,
        Argument(
            "member_radius", "number",
            "Radius of the member's tube, or of the housing of its joint; 0 if left out.",
            unit="length", default=0.0,
        ),
        Argument(
            "flange_radius", "number",
            "Radius of the hub's flange in which the spokes begin; 0, for no spokes, if left out.",
            unit="length", default=0.0,
        ),
        Argument(
            "flange_inboard", "number",
            "How far inboard of the rim's middle that flange is; 0 if left out.",
            unit="length", default=0.0,
        ),
    ),
    unit="length",
    positive="the member is clear of the rim and the spokes",
    help="Smallest distance from a member, a round bar, to the inside of the rim, to the rim's "
    "inboard edge and to the cone of the spokes, which meets the rim in its middle.",
    source="Distance of a line from a cylinder, a circle and a cone about the spindle; outboard "
    "the rim is counted as if it went on.",
    example='=CORNER.RIM_CLEARANCE(Example, "lower rear", 175, 60, 25, 10, 10, 30, 12)',
    check=26.3388776428,
    why=_why_clearance,
)  # fmt: skip
def rim_clearance(
    corner, member, rim_radius, rim_width, travel, rack, member_radius, flange_radius,
    flange_inboard,
):  # fmt: skip
    hold_not_negative(member_radius, "member_radius")
    hold(
        where(flange_radius >= 0.0, flange_radius < rim_radius, False),
        "flange_radius: %s given, from 0 to below rim_radius %s was expected",
        flange_radius,
        rim_radius,
    )
    corner.hold_linkage()
    pose = corner.pose(travel, rack)
    if _MEMBERS[member] is None:
        outer, inner = pose.tie_outer, pose.tie_inner
    else:
        joint, pickup = _MEMBERS[member]
        outer, inner = getattr(pose, joint), corner.block.point(pickup)
    wheel = rim.Wheel(rim_radius, rim_width, flange_radius, flange_inboard)
    return wheel.clearance(pose, outer, inner, member_radius)
