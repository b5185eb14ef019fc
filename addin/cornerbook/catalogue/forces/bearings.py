"""Formulas for the two bearings of a rear solid axle that is bolted to the frame."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.forces.bearings import Axle, Pull
from .loads import CAUTION, COMPONENT, SIZE

GROUP = "Rear solid axle"

SIDES = ("left", "right")
BEARING = Argument("bearing", "text", "Which of the two bearings: left or right.", choices=SIDES)


def _up(side):
    return Argument(
        "up_" + side, "number", f"Load of the road on the {side} wheel, upward.", unit="force"
    )


def _place(side):
    return Argument(
        side + "_bearing", "number",
        f"Lateral place of the {side} bearing, from the car's middle, positive to the left.",
        unit="length",
    )  # fmt: skip


ON_AXLE = (
    _up("left"),
    _up("right"),
    Argument(
        "forward", "number",
        "Force of the road on both tyres together, forward; braking is negative.",
        unit="force",
    ),
    Argument(
        "sideways", "number", "Force of the road on both tyres together, to the left.",
        unit="force",
    ),
    Argument("track", "number", "Track of the axle.", unit="length", above=0.0),
    Argument(
        "wheel_radius", "number", "Radius of the wheels under load.", unit="length", above=0.0
    ),
    _place("left"),
    _place("right"),
    Argument(
        "holds", "text", "Which bearing holds the axle sideways: left or right.", choices=SIDES
    ),
    Argument(
        "pull_lateral", "number",
        "Lateral place of what drives or brakes the axle, the sprocket or the disc, positive to "
        "the left.",
        unit="length",
    ),
    Argument(
        "pull_radius", "number",
        "Radius at which it pulls: the pitch radius of the sprocket, or where the pads rub.",
        unit="length", above=0.0,
    ),
    Argument(
        "pull_angle", "number",
        "Which way it pulls the axle, in side view: 0 forward, 90 up, 180 rearward. A chain pulls "
        "toward the driving sprocket; pads that brake push it 90 on from where they stand.",
        unit="angle", above=-720.0, below=720.0,
    ),
)  # fmt: skip

STATICS = (
    "Statics: the axle as one rigid body without weight in two bearings that let it tilt, one of "
    "which holds it sideways; both tyres share what is along and across the car as their loads"
)


def _axle(*loaded):
    up_left, up_right, forward, sideways, track, radius, left, right, _, *pull = loaded
    hold(
        left > right,
        "left_bearing: %s given, which is not to the left of the right one; positive to the left "
        "was expected",
        left,
    )
    return Axle(up_left, up_right, forward, sideways, track, radius, Pull(*pull))


@formula(
    name="BEARING_FORCE",
    group=GROUP,
    arguments=(BEARING, COMPONENT, *ON_AXLE),
    unit="force",
    positive="it points forward (x), to the left (y) or up (z)",
    help="Force of a rear solid axle on the frame at one of its two bearings; no moment goes "
    "through them, and " + CAUTION + ".",
    source=STATICS + ".",
    example='=CORNER.BEARING_FORCE("left", "z", 500, 900, -600, 700, 1080, 262, 300, -260, '
    '"right", 150, 90, 200)',
    check=154.407097666,
)
def bearing_force(
    bearing, component, up_left, up_right, forward, sideways, track, wheel_radius, left_bearing,
    right_bearing, holds, pull_lateral, pull_radius, pull_angle,
):  # fmt: skip
    axle = _axle(up_left, up_right, forward, sideways, track, wheel_radius, left_bearing,
                 right_bearing, holds, pull_lateral, pull_radius, pull_angle)  # fmt: skip
    places = (left_bearing, right_bearing)
    at, other = places if bearing == "left" else places[::-1]
    found = axle.on_bearing(at, other, 1.0 if holds == bearing else 0.0)
    return found.length() if component == SIZE else getattr(found, component)


@formula(
    name="AXLE_BENDING",
    group=GROUP,
    arguments=(BEARING, *ON_AXLE),
    unit="force x length",
    positive="it has a value",
    help="Bending moment of a rear solid axle at one of its two bearings, any way round, by the "
    "wheel outboard of it, and by a sprocket or disc that is; " + CAUTION + ".",
    source=STATICS + "; moment of what is outboard of the bearing.",
    example='=CORNER.AXLE_BENDING("left", 500, 900, -600, 700, 1080, 262, 300, -260, "right", '
    "350, 90, 200)",
    check=205040.734938,
)
def axle_bending(
    bearing, up_left, up_right, forward, sideways, track, wheel_radius, left_bearing,
    right_bearing, holds, pull_lateral, pull_radius, pull_angle,
):  # fmt: skip
    axle = _axle(up_left, up_right, forward, sideways, track, wheel_radius, left_bearing,
                 right_bearing, holds, pull_lateral, pull_radius, pull_angle)  # fmt: skip
    return axle.bending(left_bearing if bearing == "left" else right_bearing, bearing == "left")
