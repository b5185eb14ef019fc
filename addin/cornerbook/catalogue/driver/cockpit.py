"""Formulas for what a driver sees, and what is free about head and knees."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.driver import cockpit
from ...geometry.vec import Vec
from .posture import TILT, WHEEL, WHEEL_RADIUS, places

GROUP = "Driver: cockpit"


@formula(
    name="ROAD_SEEN",
    group=GROUP,
    arguments=(
        *places("eye", "Eye", "xz"), *places("cowl", "The edge that hides the road", "xz"),
    ),
    unit="length",
    positive="it lies forward of the front axle line",
    help="Where along x the nearest point of the road lies that the eye sees over the cowl.",
    source="A straight line of sight to a level road.",
    example="=CORNER.ROAD_SEEN(-1060, 760, -560, 640)",
    check=2106.66666667,
)  # fmt: skip
def road_seen(eye_x, eye_z, cowl_x, cowl_z):
    hold(cowl_x > eye_x, "cowl_x: %s given, a place ahead of the eye was expected", cowl_x)
    hold(
        eye_z > cowl_z,
        "eye_z: %s given, which is not above the cowl: no road is seen over it",
        eye_z,
    )
    hold(cowl_z >= 0.0, "cowl_z: %s given, a height above the ground was expected", cowl_z)
    return cockpit.road_seen(eye_x, eye_z, cowl_x, cowl_z)


@formula(
    name="HOOP_CLEARANCE",
    group=GROUP,
    arguments=(
        *places("helmet", "Middle of the helmet", "xz"),
        Argument("helmet_radius", "number", "Radius of the helmet.", unit="length", above=0.0),
        *places("front", "Top of the front hoop", "xz"),
        *places("rear", "Top of the main hoop", "xz"),
    ),
    unit="length",
    positive="the helmet stays below the line",
    help="How far the helmet stays below the line through the tops of the front and main hoops, "
    "in side view, square to that line.",
    source="Distance of a point from a line.",
    example="=CORNER.HOOP_CLEARANCE(-1120, 800, 150, -560, 640, -1330, 1060)",
    check=-22.3060984852,
)
def hoop_clearance(helmet_x, helmet_z, helmet_radius, front_x, front_z, rear_x, rear_z):
    hold(
        front_x > rear_x,
        "front_x: %s given, a place ahead of the main hoop was expected",
        front_x,
    )
    return cockpit.under_line(helmet_x, helmet_z, helmet_radius, front_x, front_z, rear_x, rear_z)


@formula(
    name="KNEE_CLEARANCE",
    group=GROUP,
    arguments=(
        *places("knee", "Knee joint"),
        Argument("knee_radius", "number", "How far flesh and trousers stand out from the joint.",
                 unit="length", above=0.0),
        *WHEEL, TILT, WHEEL_RADIUS,
    ),
    unit="length",
    positive="there is room",
    help="Room between a knee, taken as a ball about its joint, and the steering wheel, taken as "
    "a disc as far as the middle of its rim.",
    source="Distance of a point from a disc in space.",
    example="=CORNER.KNEE_CLEARANCE(-560, 100, 400, 65, -650, 0, 500, 20, 130)",
    check=53.7743502033,
)  # fmt: skip
def knee_clearance(
    knee_x, knee_y, knee_z, knee_radius, wheel_x, wheel_y, wheel_z, tilt, wheel_radius
):  # fmt: skip
    knee, wheel = Vec(knee_x, knee_y, knee_z), Vec(wheel_x, wheel_y, wheel_z)
    return cockpit.knee_to_wheel(knee, knee_radius, wheel, tilt, wheel_radius)


@formula(
    name="LIMB_CLEARANCE",
    group=GROUP,
    arguments=(
        *places("upper", "Upper end of the limb, such as the knee", "xz"),
        *places("lower", "Lower end of the limb, such as the ankle", "xz"),
        Argument("limb_radius", "number", "How far flesh and clothes stand out from that line.",
                 unit="length", above=0.0),
        *places("bar", "The bar's middle", "xz"),
        Argument("bar_radius", "number", "Radius of the bar.", unit="length", above=0.0),
    ),
    unit="length",
    positive="there is room",
    help="Room between a limb in an upright plane along the car and a round bar that runs across "
    "the car, such as the steering rack's tube.",
    source="Distance of a point from a line between two ends, in side view.",
    example="=CORNER.LIMB_CLEARANCE(-560, 370, -160, 190, 50, -100, 240, 20)",
    check=8.10249675907,
)  # fmt: skip
def limb_clearance(
    upper_x, upper_z, lower_x, lower_z, limb_radius, bar_x, bar_z, bar_radius
):  # fmt: skip
    return cockpit.limb_to_bar(
        (upper_x, upper_z), (lower_x, lower_z), limb_radius, bar_x, bar_z, bar_radius
    )


@formula(
    name="LIMB_TO_BOX",
    group=GROUP,
    arguments=(
        *places("upper", "Upper end of the limb, such as the hip", "xz"),
        *places("lower", "Lower end of the limb, such as the knee", "xz"),
        Argument("limb_y", "number", "How far to the left the limb's upright plane stands.",
                 unit="length"),
        Argument("limb_radius", "number", "How far flesh and clothes stand out from that line.",
                 unit="length", above=0.0),
        *places("box", "Middle of the box"),
        *(
            Argument(f"box_{name}", "number", f"Size of the box {way}.", unit="length", above=0.0)
            for name, way in (("long", "along x"), ("wide", "along y"), ("high", "along z"))
        ),
    ),
    unit="length",
    positive="there is room",
    help="Room between a limb in an upright plane along the car and a box along the car's axes, "
    "such as a battery between or below the legs; below 0 they meet.",
    source="Distance between a line with two ends and a box.",
    example="=CORNER.LIMB_TO_BOX(-1020, 150, -640, 390, 110, 70, -650, 20, 165, 270, 380, 160)",
    check=-24.8330928118,
)  # fmt: skip
def limb_to_box(
    upper_x, upper_z, lower_x, lower_z, limb_y, limb_radius, box_x, box_y, box_z, box_long,
    box_wide, box_high,
):  # fmt: skip
    return cockpit.limb_to_box(
        (upper_x, upper_z), (lower_x, lower_z), limb_y, limb_radius, Vec(box_x, box_y, box_z),
        Vec(box_long, box_wide, box_high),
    )  # fmt: skip
