"""Formulas for pictures in a sheet's own charts: the wheel's rim, and points seen on the road."""

from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.declare import FORMULAS, Argument, formula
from ...cells.reach import why_not
from ...geometry.corner import outline
from ...geometry.front_axle import road
from ..corner.pose import point as point_of
from ..front_axle.axle import hold_left
from ..front_axle.roll import BEYOND, HEAVE, ROLL

GROUP = "Pictures"

ANGLE = Argument(
    "angle", "number",
    "Where on the rim: degrees from the level direction forward, turning upward; 90 is the top, "
    "-90 the contact centre.",
    unit="angle",
)  # fmt: skip
COORDINATE = Argument("coordinate", "text", "x, y or z.", choices=("x", "y", "z"))
SIDE = Argument(
    "side", "text", "Which wheel: left or right; left if it is left out.",
    default="left", choices=("left", "right"),
)  # fmt: skip
FORWARD = "forward (x), to the left (y), upward (z)"


def _of_side(value, coordinate, side):
    """A coordinate of a left-hand corner's point as it is on this side of the car."""
    return -value if side == "right" and coordinate == "y" else value


@formula(
    name="RIM_POINT",
    group=GROUP,
    arguments=(CORNER, ANGLE, COORDINATE, TRAVEL, RACK, SIDE),
    unit="length",
    positive=FORWARD,
    help="A point of the tyre's middle circle at its loaded radius, to draw the wheel in a chart, "
    "in the body's axes.",
    source="Circle square to the spindle about the wheel centre; axes of ISO 8855:2011. The "
    "right-hand wheel is the mirrored corner at the opposite rack.",
    example='=CORNER.RIM_POINT(Example, 30, "y", 25, 10, "right")',
    check=-567.82891888,
    why=lambda corner, angle, coordinate, travel, rack, side: why_not(
        corner, travel, rack if side == "left" else -rack
    ),
)
def rim_point(corner, angle, coordinate, travel, rack, side):
    corner.hold_linkage()
    hold_left(corner)
    pose = corner.pose(travel, rack) if side == "left" else corner.opposite(travel, rack)
    return _of_side(getattr(outline.rim_point(pose, angle), coordinate), coordinate, side)


class _OnTheRoad:
    """A corner whose body stands rolled and heaved over the road, for POINT to look at."""

    def __init__(self, corner, roll, heave, rack):
        self._asked = (corner, roll, heave, rack)
        self.block = self

    def pose(self, travel, rack):
        corner, *stance = self._asked
        return corner.on_road(*stance)

    def motion(self, travel, rack):
        corner, *stance = self._asked
        return corner.on_road_motion(*stance)

    def point(self, label):
        """A row of the block that is fixed to the body, in the road's axes."""
        corner, roll, heave, _ = self._asked
        stance = road.Stance(roll, heave, corner.drawn.contact_centre().z)
        return stance.place(corner.block.point(label))


def _why(corner, point, coordinate, roll, heave, rack, side):
    return FORMULAS["WHEEL_TRAVEL_IN_ROLL"].why(corner, side, roll, heave, rack)


@formula(
    name="VIEW_POINT",
    group=GROUP,
    arguments=(
        CORNER,
        Argument(
            "point", "text",
            "Name of the point: a row of the block, contact centre, axis at ground, instant "
            "centre or side instant centre.",
        ),
        COORDINATE,
        ROLL.but(
            help="Roll angle of the body, positive when its left side rises; 0 if left out.",
            default=0.0,
        ),
        HEAVE,
        RACK,
        SIDE,
    ),
    unit="length",
    positive=FORWARD,
    help="Where a named point of either wheel's corner is with the wheels on a level road under "
    "a rolled and heaved body, in the road's axes, to draw it in a chart.",
    source="Axes of ISO 8855:2011; the linkage solved with the disc's lowest point on the road. "
    "The right-hand corner is the mirrored one at the opposite roll and rack.",
    example='=CORNER.VIEW_POINT(Example, "instant centre", "z", 2, -5, 10, "right")',
    check=137.769193717,
    why=_why,
    beyond=BEYOND,
)  # fmt: skip
def view_point(corner, point, coordinate, roll, heave, rack, side):
    corner.hold_linkage()
    hold_left(corner)
    way = (roll, heave, rack) if side == "left" else (-roll, heave, -rack)
    seen = _OnTheRoad(corner, *way)
    return _of_side(point_of(seen, point, 0.0, 0.0, coordinate), coordinate, side)
