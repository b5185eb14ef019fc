"""Formulas for steered wheels: tie rod and rack by Ackermann, the rack of an inner angle."""

from ...cells.arguments import CORNER, RACK_TURNED, TRAVEL, WHEELBASE
from ...cells.declare import Argument, formula
from ...cells.mend import hold
from ...geometry.numbers import absolute
from ...geometry.placing.ackermann import rack_place_for, tie_rod_outer_for
from ...geometry.placing.held_toe import rack_for_inner_angle as rack_for
from ...geometry.vec import Vec
from ..front_axle.axle import hold_left
from .place import AXES, COORDINATE, GROUP, hold_place, shown
from .tie_rod import held_toe, points_of

# A tie rod's end farther than so many tyre radii from the car's middle is on no car.
_OFF_CAR = 10.0

# A tie rod whose outer end is nearer the steering axis than this part of the tyre's radius has
# next to no lever (our choice, no source).
_LEAST_LEVER = 0.1

ACKERMANN = Argument(
    "ackermann", "number", "Ackermann percentage that is wanted at this rack.", unit="percent"
)
BY_STEPS = (
    "ACKERMANN solved by interpolation with a quotient of straight lines (Jarratt and Nudds; from "
    "memory), each step with a linkage of its own."
)


def _for_ackermann(corner, what, kept, find, wheelbase, rack, ackermann):
    """The coordinate that a function of `placing` finds; `Mend` where it finds none."""
    corner.hold_linkage()
    hold_left(corner)
    hold(absolute(rack) > 0.0, "rack: 0 given, a rack that turns the wheels was expected")
    turned = corner.pose(0.0, rack), corner.opposite(0.0, rack)
    points, drawn = points_of(corner), corner.drawn
    # Read by every call, which so says what is wrong with them.
    _ = drawn.tie_outer, drawn.radius, drawn.spindle, drawn.crown

    def make(*numbers):
        return find(points, drawn, *numbers, turned)

    # Each coordinate of the place is a call of its own.
    found = corner.once(find, (wheelbase, rack, ackermann), make)
    hold(
        absolute(found) < _OFF_CAR * drawn.radius,
        "no place was found for the " + what + ", " + kept + " kept, that gives %s percent at "
        "rack %s; ask for something nearer to what the block has, or look at another rack",
        ackermann, rack,
    )  # fmt: skip
    return found


@formula(
    name="PLACE_TIE_ROD_OUTER",
    group=GROUP,
    arguments=(CORNER, WHEELBASE, RACK_TURNED, ACKERMANN, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where the tie rod's outer end must be, moved across the car alone, for an Ackermann "
    "percentage at a rack, both wheels at no travel.",
    source=BY_STEPS,
    example='=CORNER.PLACE_TIE_ROD_OUTER(Example, 1600, -30, 60, "y")',
    check=471.97156731,
    shape="table",
)
def place_tie_rod_outer(corner, wheelbase, rack, ackermann, coordinate):
    what, find = "tie rod's outer end", tie_rod_outer_for
    y = _for_ackermann(corner, what, "x and z", find, wheelbase, rack, ackermann)
    drawn = corner.drawn
    place = Vec(drawn.tie_outer.x, y, drawn.tie_outer.z)
    hold_place(corner, what, place)
    axis = drawn.upper - drawn.lower
    lever = axis.cross(place - drawn.lower).length() / axis.length()
    least = _LEAST_LEVER * drawn.radius
    hold(
        lever > least,
        "the tie rod's outer end would lie %s from the steering axis, where a lever above %s was "
        "expected; ask for another percentage",
        lever, least,
    )  # fmt: skip
    way = (y - drawn.tie_inner.y) * (drawn.tie_outer.y - drawn.tie_inner.y)
    hold(way > 0.0, "the tie rod's outer end would lie inboard of its inner end; ask for less")
    return shown(place, coordinate)


@formula(
    name="PLACE_RACK",
    group=GROUP,
    arguments=(CORNER, WHEELBASE, RACK_TURNED, ACKERMANN, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where the tie rod's inner end must be, the rack moved fore and aft alone, for an "
    "Ackermann percentage at a rack, both wheels at no travel.",
    source=BY_STEPS,
    example='=CORNER.PLACE_RACK(Example, 1600, -30, 60, "x")',
    check=-155.922911637,
    shape="table",
)
def place_rack(corner, wheelbase, rack, ackermann, coordinate):
    what, find = "tie rod's inner end", rack_place_for
    x = _for_ackermann(corner, what, "y and z", find, wheelbase, rack, ackermann)
    drawn = corner.drawn
    steep = absolute(x - drawn.tie_outer.x)
    across = absolute(drawn.tie_outer.y - drawn.tie_inner.y)
    hold(
        steep < across,
        "the rack would lie %s from the tie rod's outer end along the car, more than the %s "
        "across it, so that the rod would run along the car; ask for another percentage",
        steep, across,
    )  # fmt: skip
    place = Vec(x, drawn.tie_inner.y, drawn.tie_inner.z)
    hold_place(corner, what, place)
    return shown(place, coordinate)


TOO_FAR = (
    "the tie rod does not let the inner wheel turn to that angle; ask for less, or give it a "
    "shorter lever"
)


def _why_angle(*_):
    return TOO_FAR


@formula(
    name="RACK_FOR_INNER_ANGLE",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "angle", "number", "Angle of the inner wheel that is wanted, positive to the left.",
            unit="angle", above=-90.0, below=90.0,
        ),
        TRAVEL,
    ),
    unit="length",
    positive="the rack moves to the left",
    help="Rack at which the inner wheel of a turn stands at an angle.",
    source="The upright turned on its arms to that angle; the tie rod's length gives the rack.",
    example="=CORNER.RACK_FOR_INNER_ANGLE(Example, 30)",
    check=-45.9691260379,
    why=_why_angle,
    beyond=TOO_FAR,
)  # fmt: skip
def rack_for_inner_angle(corner, angle, travel):
    corner.hold_linkage()
    return rack_for(held_toe(corner), corner.drawn, angle, travel)
