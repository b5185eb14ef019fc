"""Formulas for the steered axle: both front wheels on one rack."""

from ...cells.arguments import AXLE
from ...cells.declare import formula
from ...cells.mend import hold
from ...cells.reach import closes, why_not
from ...geometry.front_axle.axle import Axle

GROUP = "The steered axle"


def hold_left(corner):
    """Raise `Mend` unless the corner is a left-hand one, with y from the car's middle."""
    y = corner.drawn.wheel_centre.y
    hold(
        y > 0.0,
        "wheel centre: y is %s; a left-hand corner was expected, "
        "with y from the car's middle line, above 0",
        y,
    )


def axle_of(corner, wheelbase, rack, travel):
    """The `Axle` at a rack, both wheels at the same travel."""
    corner.hold_linkage()
    hold_left(corner)
    rear_line = corner.drawn.wheel_centre.x - wheelbase
    return Axle(corner.pose(travel, rack), corner.opposite(travel, rack), rear_line)


BEYOND = "no solution was found at this rack, or the wheels are straight ahead"


NO_INNER_WHEEL = (
    "the wheels are straight ahead, or nearly so, and do not both turn to one side: "
    "there is no inner wheel; move the rack further"
)


def why_no_turn(corner, wheelbase, rack, travel):
    """Why an axle has no turn there, in a sentence."""
    if not closes(corner, travel, rack):
        return why_not(corner, travel, rack)
    if not closes(corner, travel, -rack):
        return why_not(corner, travel, rack, opposite=True)
    return NO_INNER_WHEEL


@formula(
    name="STEER_LEFT",
    group=GROUP,
    arguments=AXLE,
    unit="degrees",
    positive="the wheel turns to the left",
    help="Steer angle of the left wheel.",
    source="ISO 8855:2011, steer angle.",
    example="=CORNER.STEER_LEFT(Example, 1600, -30)",
    check=18.383881099,
    why=why_no_turn,
    beyond=BEYOND,
)
def steer_left(corner, wheelbase, rack, travel):
    return axle_of(corner, wheelbase, rack, travel).steer_left


@formula(
    name="STEER_RIGHT",
    group=GROUP,
    arguments=AXLE,
    unit="degrees",
    positive="the wheel turns to the left",
    help="Steer angle of the right wheel.",
    source="ISO 8855:2011, steer angle; the mirrored corner at the opposite rack.",
    example="=CORNER.STEER_RIGHT(Example, 1600, -30)",
    check=17.9136878255,
    why=why_no_turn,
    beyond=BEYOND,
)
def steer_right(corner, wheelbase, rack, travel):
    return axle_of(corner, wheelbase, rack, travel).steer_right


@formula(
    name="IDEAL_OUTER",
    group=GROUP,
    arguments=AXLE,
    unit="degrees",
    positive="in the direction of the turn",
    help="Angle at which the outer wheel would be square to the turn centre of the "
    "inner one, where that one's normal meets the rear axle line.",
    source="Plane geometry of the contact centres at the pose; for equal contact centres "
    "cot(outer) - cot(inner) = track / wheelbase (Gillespie 1992, steering systems).",
    example="=CORNER.IDEAL_OUTER(Example, 1600, -30)",
    check=15.4492120742,
    why=why_no_turn,
    beyond=BEYOND,
)
def ideal_outer(corner, wheelbase, rack, travel):
    return axle_of(corner, wheelbase, rack, travel).ideal_outer()


@formula(
    name="ACKERMANN",
    group=GROUP,
    arguments=AXLE,
    unit="percent",
    positive="the inner wheel turns more than the outer one",
    help="Ackermann percentage: 100 x (inner - outer) / (inner - ideal outer), with the "
    "ideal outer angle taken from the inner wheel's actual angle.",
    source="One of several definitions in use; this one is stated in the help.",
    example="=CORNER.ACKERMANN(Example, 1600, -30)",
    check=16.0220205249,
    why=why_no_turn,
    beyond=BEYOND,
)
def ackermann(corner, wheelbase, rack, travel):
    return axle_of(corner, wheelbase, rack, travel).ackermann()


@formula(
    name="TURNING_RADIUS",
    group=GROUP,
    arguments=AXLE,
    unit="length",
    help="Radius of the outer front wheel's path at a crawl, about the place on the rear "
    "axle line midway between where the two front wheels' normals meet it.",
    source="Plane geometry without slip; with full Ackermann both normals meet in one place.",
    example="=CORNER.TURNING_RADIUS(Example, 1600, -30)",
    check=5674.65079464,
    why=why_no_turn,
    beyond=BEYOND,
)
def turning_radius(corner, wheelbase, rack, travel):
    return axle_of(corner, wheelbase, rack, travel).turning_radius()
