"""Formulas for whoever builds: lengths and angles between points, and how far off they may be."""

from ...cells.arguments import CORNER
from ...cells.declare import Argument, formula
from ...cells.mend import hold, rounded
from ...cells.moved import AXES, coordinate_of
from ...cells.quantity import QUANTITY, chosen, number_at
from ...cells.sloped import slope_at, sloped
from ...geometry.numbers import absolute, atan2, cos, degrees, radians, sin, where
from ...geometry.vec import Vec

GROUP = "Building"

BLOCK = CORNER.but(
    name="block",
    help="A labelled block of points: a name in the first column, then x, y, z.",
)
FROM_POINT = Argument("from_point", "text", "A row of the block: lower front pickup and so on.")
TO_POINT = Argument("to_point", "text", "Another row of the block.")
TURNED = Argument(
    "turned", "number",
    "How far the builder's x and y are turned to the left, seen from above; 0 if left out.",
    unit="angle", default=0.0,
)  # fmt: skip
RAISED = Argument(
    "raised", "number",
    "How far the front of the builder's x is then raised, about its y; 0 if left out.",
    unit="angle", default=0.0,
)  # fmt: skip
_WAY = {"x": Vec(1.0, 0.0, 0.0), "y": Vec(0.0, 1.0, 0.0), "z": Vec(0.0, 0.0, 1.0)}


def _line(block, one, other):
    """From one point to another, which must be apart."""
    way = block.point(other) - block.point(one)
    hold(way.length() > 0.0, "two of the points are in one place: no line joins them")
    return way


def _angle(one, other):
    return degrees(atan2(one.cross(other).length(), one.dot(other)))


@formula(
    name="POINT_DISTANCE",
    group=GROUP,
    arguments=(
        BLOCK, FROM_POINT, TO_POINT,
        Argument(
            "to_side", "text",
            "same, or other for the second point on the other side of the car; same if left out.",
            choices=("same", "other"), default="same",
        ),
    ),
    unit="length",
    positive="it has a value",
    help="Distance between two points as drawn, centre to centre, on one side or across the car.",
    source="Distance between two points; the other side is the mirror.",
    example='=CORNER.POINT_DISTANCE(Example, "upper front pickup", "lower rear pickup", "other")',
    check=568.52880314,
)  # fmt: skip
def point_distance(block, from_point, to_point, to_side):
    one, other = block.block.point(from_point), block.block.point(to_point)
    if to_side == "other":
        other = Vec(other.x, -other.y, other.z)
    return (other - one).length()


@formula(
    name="ANGLE_AT_POINT",
    group=GROUP,
    arguments=(
        BLOCK,
        Argument("point", "text", "A row of the block, at which the angle is."),
        FROM_POINT, TO_POINT,
    ),
    unit="degrees",
    positive="it has a value",
    help="Angle at a point between the lines to two others, as between the legs of an arm.",
    source="Angle between two vectors, by their products.",
    example='=CORNER.ANGLE_AT_POINT(Example, "lower ball joint", "lower front pickup", '
    '"lower rear pickup")',
    check=48.6845021224,
)  # fmt: skip
def angle_at_point(block, point, from_point, to_point):
    rows = block.block
    return _angle(_line(rows, point, from_point), _line(rows, point, to_point))


@formula(
    name="LINE_ANGLE",
    group=GROUP,
    arguments=(
        BLOCK, FROM_POINT, TO_POINT,
        Argument("axis", "text", "x, y or z: along the car, across it, or up.", choices=AXES),
        TURNED, RAISED,
    ),
    unit="degrees",
    positive="it has a value",
    help="Angle of the line from one point to another with an axis of the car, or of the builder "
    "as POINT_FROM_DATUM has it, from 0 to 180.",
    source="Angle between two vectors, by their products; change of axes by two turns.",
    example='=CORNER.LINE_ANGLE(Example, "upper rear pickup", "upper front pickup", "x", 10, 3)',
    check=8.85597030196,
)  # fmt: skip
def line_angle(block, from_point, to_point, axis, turned, raised):
    way = Vec(*_along(_line(block.block, from_point, to_point), turned, raised))
    return _angle(way, _WAY[axis])


@formula(
    name="DISTANCE_LEEWAY",
    group=GROUP,
    arguments=(
        CORNER, FROM_POINT, TO_POINT, QUANTITY,
        Argument("band_from", "number", "The least that the quantity may be.",
                 unit="of the input"),
        Argument("band_to", "number", "The most that it may be.", unit="of the input"),
    ),
    unit="length",
    positive="it has a value",
    help="How far a distance between two points may be off, one of the two being out of place "
    "along it and all else true, until a quantity leaves its band as drawn.",
    source="The room to the nearer end of the band over the larger of the quantity's two slopes "
    "along the line, which are exact derivatives as SENSITIVITY has them; first order.",
    example='=CORNER.DISTANCE_LEEWAY(Example, "upper ball joint", "tie rod inner", "caster", '
    "5, 7.5)",
    check=11.7645635494,
)  # fmt: skip
def distance_leeway(corner, from_point, to_point, quantity, band_from, band_to):
    (entry,) = chosen("quantity", (quantity,))
    corner.hold_linkage()
    _line(corner.block, from_point, to_point)
    now = number_at(entry, corner, 0.0, 0.0, 0.0)
    slopes = [
        Vec(*(slope_at(entry, sloped(corner, coordinate_of(point, axis)), 0.0, 0.0, 0.0)
              for axis in AXES))
        for point in (from_point, to_point)
    ]  # fmt: skip
    return leeway(corner.block, (from_point, to_point), now, slopes, (band_from, band_to))


def leeway(block, points, now, slopes, band):
    """`distance_leeway` of a quantity that is `now`, by its slopes (`Vec`) at both points."""
    way = _line(block, *points).unit()
    low, high = band
    hold(
        where(now >= low, now <= high, False),
        "the quantity is %s as drawn, which is outside its band already", rounded(now, 4),
    )  # fmt: skip
    one, other = (absolute(slope.dot(way)) for slope in slopes)
    largest = where(one > other, one, other)
    hold(largest > 1e-12, "the quantity does not depend on that distance")
    above, below = high - now, now - low
    return where(above < below, above, below) / largest


@formula(
    name="POINT_FROM_DATUM",
    group=GROUP,
    arguments=(
        BLOCK,
        Argument("point", "text", "A row of the block: lower front pickup and so on."),
        Argument("axis", "text", "x, y or z of the builder's own axes.", choices=AXES),
        *(
            Argument(f"datum_{axis}", "number", f"The datum's {axis} in the axes of the block.",
                     unit="length")
            for axis in AXES
        ),
        TURNED, RAISED,
        Argument(
            "to_side", "text",
            "same, or other for the point on the other side of the car; same if left out.",
            choices=("same", "other"), default="same",
        ),
    ),
    unit="length",
    positive="the point lies along the axis from the datum",
    help="A coordinate of a point from a datum and along axes of the builder's choice: a table "
    "top, a bulkhead, a frame that stands turned on the bench.",
    source="Change of axes: two turns, the first about the block's z, the second about the y so "
    "turned.",
    example='=CORNER.POINT_FROM_DATUM(Example, "upper rear pickup", "x", 150, 0, 60, 10, 3)',
    check=-215.971242276,
)  # fmt: skip
def point_from_datum(
    block, point, axis, datum_x, datum_y, datum_z, turned, raised, to_side
):  # fmt: skip
    at = block.block.point(point)
    if to_side == "other":
        at = Vec(at.x, -at.y, at.z)
    way = at - Vec(datum_x, datum_y, datum_z)
    return _along(way, turned, raised)[AXES.index(axis)]


def _along(way, turned, raised):
    """Parts of a way along the builder's x, y and z."""
    left, up = radians(turned), radians(raised)
    level = way.x * cos(left) + way.y * sin(left)
    return (
        level * cos(up) + way.z * sin(up),
        way.y * cos(left) - way.x * sin(left),
        way.z * cos(up) - level * sin(up),
    )
