"""Formulas for turning at a crawl: the room that it takes, and what the front wheels slip."""

from ...cells.arguments import AXLE, CORNER, RACK_TURNED, TRAVEL, WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.front_axle import turning
from .axle import BEYOND, axle_of, why_no_turn

GROUP = "Turning"

ABOUT = (
    "Plane geometry about the turn centre that TURNING_RADIUS has: on the rear axle line, midway "
    "between where the two front wheels' normals meet it"
)
SLIP = (
    ABOUT + "; slip angle of ISO 8855:2011: from the wheel's heading to the way its contact centre "
    "goes, anticlockwise from above."
)
TO_THE_LEFT = "the wheel moves to the left of its heading, so that its tyre pushes to the right"


TYRE_WIDTH = Argument(
    "tyre_width", "number",
    "Width of the front tyre's tread; 0 if left out, for the middle of the tread.",
    unit="length", default=0.0,
)  # fmt: skip


def _hold_width(tyre_width):
    hold(tyre_width >= 0.0, "tyre_width: %s given, a width of 0 or more was expected", tyre_width)


@formula(
    name="KERB_TO_KERB",
    group=GROUP,
    arguments=(
        *AXLE,
        TYRE_WIDTH,
    ),
    unit="length",
    help="Turning circle between kerbs: diameter on which the outer front tyre's outer edge runs "
    "at a crawl, 2 x TURNING_RADIUS and a tyre width.",
    source=ABOUT + ".",
    example="=CORNER.KERB_TO_KERB(Example, 1600, -30, 0, 165)",
    check=11514.3015893,
    why=lambda corner, wheelbase, rack, travel, tyre_width: why_no_turn(
        corner, wheelbase, rack, travel
    ),
    beyond=BEYOND,
)  # fmt: skip
def kerb_to_kerb(corner, wheelbase, rack, travel, tyre_width):
    axle = axle_of(corner, wheelbase, rack, travel)
    _hold_width(tyre_width)
    return turning.kerb_to_kerb(axle, tyre_width)


@formula(
    name="WALL_TO_WALL",
    group=GROUP,
    arguments=(
        CORNER, WHEELBASE, RACK_TURNED,
        Argument(
            "overhang", "number",
            "How far the body's front corner lies ahead of the front axle line, behind it "
            "negative.",
            unit="length",
        ),
        Argument(
            "half_width", "number",
            "How far that corner lies from the car's middle: half the body's width there.",
            unit="length", above=0.0,
        ),
        TRAVEL,
        TYRE_WIDTH,
    ),
    unit="length",
    help="Turning circle between walls: diameter that the body's outer front corner sweeps at a "
    "crawl, or the outer front tyre, whichever is the larger.",
    source=ABOUT + "; the tyre a cylinder of its loaded radius.",
    example="=CORNER.WALL_TO_WALL(Example, 1600, -30, 300, 400, 0, 165)",
    check=11521.8892717,
    why=lambda corner, wheelbase, rack, overhang, half_width, travel, tyre_width: why_no_turn(
        corner, wheelbase, rack, travel
    ),
    beyond=BEYOND,
)  # fmt: skip
def wall_to_wall(corner, wheelbase, rack, overhang, half_width, travel, tyre_width):
    axle = axle_of(corner, wheelbase, rack, travel)
    _hold_width(tyre_width)
    hold(
        overhang > -wheelbase,
        "overhang: %s given, more than %s was expected: the front corner lies ahead of the rear "
        "axle line",
        overhang,
        -wheelbase,
    )
    return turning.wall_to_wall(axle, wheelbase, overhang, half_width, tyre_width)


@formula(
    name="MID_REAR_RADIUS",
    group=GROUP,
    arguments=AXLE,
    unit="length",
    positive="the turn centre lies to the inside of the turn, as on any car that steers",
    help="Radius on which the middle of the rear axle line runs at a crawl, as the formulas for "
    "a locked rear axle ask for it.",
    source=ABOUT + ".",
    example="=CORNER.MID_REAR_RADIUS(Example, 1600, -30)",
    check=4882.10925793,
    why=why_no_turn,
    beyond=BEYOND,
)
def mid_rear_radius(corner, wheelbase, rack, travel):
    return axle_of(corner, wheelbase, rack, travel).mid_rear_radius()


@formula(
    name="SLIP_LEFT",
    group=GROUP,
    arguments=AXLE,
    unit="degrees",
    positive=TO_THE_LEFT,
    help="Slip angle that the left front wheel is forced to at a crawl because the two wheels' "
    "normals do not meet in one place; 0 at 100 percent Ackermann.",
    source=SLIP,
    example="=CORNER.SLIP_LEFT(Example, 1600, -30)",
    check=1.66361942235,
    why=why_no_turn,
    beyond=BEYOND,
)
def slip_left(corner, wheelbase, rack, travel):
    return turning.slip_angles(axle_of(corner, wheelbase, rack, travel))[0]


@formula(
    name="SLIP_RIGHT",
    group=GROUP,
    arguments=AXLE,
    unit="degrees",
    positive=TO_THE_LEFT,
    help="Slip angle that the right front wheel is forced to at a crawl because the two wheels' "
    "normals do not meet in one place; 0 at 100 percent Ackermann.",
    source=SLIP,
    example="=CORNER.SLIP_RIGHT(Example, 1600, -30)",
    check=-1.32070238965,
    why=why_no_turn,
    beyond=BEYOND,
)
def slip_right(corner, wheelbase, rack, travel):
    return turning.slip_angles(axle_of(corner, wheelbase, rack, travel))[1]
