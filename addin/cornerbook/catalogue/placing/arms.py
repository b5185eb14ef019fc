"""Formulas for the pickups of the arms, by camber gain and roll centre height."""

from ...cells.arguments import CORNER
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.placing import square
from ...geometry.vec import Vec
from ..front_axle.axle import hold_left
from .place import AXES, COORDINATE, GROUP, hold_place, shown

CAMBER_GAIN = Argument(
    "camber_gain", "number",
    "Change of camber with travel that is wanted as drawn, usually a little below zero.",
    unit="degrees per length",
)  # fmt: skip
ROLL_CENTRE = Argument(
    "roll_centre", "number",
    "Height of the roll centre above ground that is wanted as drawn.", unit="length",
)  # fmt: skip
END = Argument(
    "pickup_end", "text", "front or rear, for which of the upper arm's pickups.",
    choices=("front", "rear"),
)  # fmt: skip
TIE_ROD = Argument(
    "tie_rod", "text",
    "as drawn, if the tie rod stays as it is (so if left out), or no bump steer, if its inner end "
    "is then moved by PLACE_TIE_ROD_INNER.",
    default="as drawn", choices=("as drawn", "no bump steer"),
)  # fmt: skip

_ENDS = ("front", "rear")


def _pickup(corner, arm, end):
    return corner.block.point(f"{arm} {end} pickup")


def way_of_arm(corner, arm):
    ball = corner.drawn.lower if arm == "lower" else corner.drawn.upper
    return square.way_of(ball, *(_pickup(corner, arm, end) for end in _ENDS))


def _held(tie_rod):
    return "rod" if tie_rod == "as drawn" else "toe"


def _on_arm(corner, arm, end, velocity, coordinate):
    """A pickup's place, x and y kept, on an arm that gives its ball joint this velocity."""
    ball = corner.drawn.lower if arm == "lower" else corner.drawn.upper
    point = _pickup(corner, arm, end)
    name = f"{arm} {end} pickup"
    hold(
        point.y < ball.y,
        f"{name}: y is %s, outboard of the ball joint at %s; an arm that reaches outward from "
        "its "
        "pickups was expected",
        point.y,
        ball.y,
    )
    place = Vec(point.x, point.y, square.square_height(ball, point, velocity))
    hold_place(corner, name, place)
    return shown(place, coordinate)


@formula(
    name="PLACE_PICKUP",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "pickup", "text", "lower front, lower rear, upper front or upper rear.",
            choices=("lower front", "lower rear", "upper front", "upper rear"),
        ),
        CAMBER_GAIN, ROLL_CENTRE, TIE_ROD, COORDINATE,
    ),
    unit="length",
    positive=AXES,
    help="Where a pickup must be, moved up or down alone, for a camber gain and a roll centre "
    "height as drawn once all four are so placed, the side view of the corner kept.",
    source="Arms square to the motion of the upright that is wanted; the turn about the axis "
    "across the car and the slope of the contact's path in side view stay as drawn.",
    example='=CORNER.PLACE_PICKUP(Example, "upper front", -0.03, 45, "no bump steer", "z")',
    check=351.406760263,
    shape="table",
)  # fmt: skip
def place_pickup(corner, pickup, camber_gain, roll_centre, tie_rod, coordinate):
    corner.hold_linkage()
    hold_left(corner)
    motion = square.wanted_motion(
        corner.drawn, corner.motion(0.0, 0.0), camber_gain, roll_centre, _held(tie_rod)
    )
    arm, end = pickup.split()
    ball = corner.drawn.lower if arm == "lower" else corner.drawn.upper
    velocity = motion.velocity_of(ball)
    hold(
        velocity.z > 0.0,
        f"with this camber gain and roll centre the {arm} ball joint would have to go down as "
        "the "
        "wheel rises; ask for something nearer to what the block has",
    )
    return _on_arm(corner, arm, end, velocity, coordinate)


def _upper(corner, end, missed, tie_rod, coordinate):
    velocity = square.upper_velocity(
        corner.drawn,
        way_of_arm(corner, "lower"),
        way_of_arm(corner, "upper"),
        _held(tie_rod),
        missed,
    )
    return _on_arm(corner, "upper", end, velocity, coordinate)


@formula(
    name="PLACE_UPPER_PICKUP_FOR_CAMBER",
    group=GROUP,
    arguments=(CORNER, END, CAMBER_GAIN, TIE_ROD, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where a pickup of the upper arm must be, moved up or down alone, for a camber gain as "
    "drawn once both are so placed, the lower arm and the upper one's slope along the car kept.",
    source="Arms square to the motion of the upright that is wanted; with the lower arm given, "
    "the roll centre follows.",
    example='=CORNER.PLACE_UPPER_PICKUP_FOR_CAMBER(Example, "front", -0.03)',
    check=((90.0, 260.0, 358.733301713),),
    shape="table",
)
def place_upper_pickup_for_camber(corner, end, camber_gain, tie_rod, coordinate):
    corner.hold_linkage()
    missed = square.camber_missed(corner.drawn, camber_gain)
    return _upper(corner, end, missed, tie_rod, coordinate)


@formula(
    name="PLACE_UPPER_PICKUP_FOR_ROLL",
    group=GROUP,
    arguments=(CORNER, END, ROLL_CENTRE, TIE_ROD, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where a pickup of the upper arm must be, moved up or down alone, for a roll centre "
    "height as drawn once both are so placed, the lower arm and the upper one's slope along the "
    "car kept.",
    source="Arms square to the motion of the upright that is wanted; with the lower arm given, "
    "the camber gain follows.",
    example='=CORNER.PLACE_UPPER_PICKUP_FOR_ROLL(Example, "rear", 45, "as drawn", "z")',
    check=364.804916809,
    shape="table",
)
def place_upper_pickup_for_roll(corner, end, roll_centre, tie_rod, coordinate):
    corner.hold_linkage()
    hold_left(corner)
    missed = square.roll_centre_missed(corner.drawn, roll_centre)
    return _upper(corner, end, missed, tie_rod, coordinate)
