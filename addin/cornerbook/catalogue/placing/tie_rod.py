"""Formulas for the tie rod's inner end: no bump steer as drawn, or over a range of travel."""

from ...cells.arguments import CORNER, FROM_TRAVEL, TO_TRAVEL
from ...cells.declare import formula
from ...cells.mend import hold
from ...geometry.numbers import where
from ...geometry.placing import held_toe as toe
from ...geometry.placing import square
from ...geometry.placing.ackermann import with_tie_outer
from ...geometry.vec import Vec
from .arms import way_of_arm
from .place import AXES, COORDINATE, GROUP, hold_place, shown


@formula(
    name="PLACE_TIE_ROD_INNER",
    group=GROUP,
    arguments=(CORNER, COORDINATE),
    unit="length",
    positive=AXES,
    help="Where the tie rod's inner end must be, moved up or down alone, for no bump steer as "
    "drawn.",
    source="Exact derivative of the arms' constraints, the toe held; a rod square to the way that "
    "its outer end goes.",
    example='=CORNER.PLACE_TIE_ROD_INNER(Example, "z")',
    check=184.720972432,
    shape="table",
)
def place_tie_rod_inner(corner, coordinate):
    corner.hold_linkage()
    inner = corner.drawn.tie_inner
    height = square.tie_rod_inner_height(
        corner.drawn, way_of_arm(corner, "lower"), way_of_arm(corner, "upper")
    )
    place = Vec(inner.x, inner.y, height)
    hold_place(corner, "tie rod's inner end", place)
    return shown(place, coordinate)


_POINTS = {
    "lower_front": "lower front pickup",
    "lower_rear": "lower rear pickup",
    "upper_front": "upper front pickup",
    "upper_rear": "upper rear pickup",
}


def points_of(corner):
    """The linkage's points by the names of its arguments, but the tie rod's outer end."""
    points = {name: corner.block.point(label) for name, label in _POINTS.items()}
    drawn = corner.drawn
    points.update(
        lower_ball=drawn.lower, upper_ball=drawn.upper,
        tie_inner=drawn.tie_inner, wheel_centre=drawn.wheel_centre,
    )  # fmt: skip
    return points


def held_toe(corner):
    # Made here from the points: in cells, a formula of more numbers has no other linkage.
    drawn = corner.drawn
    linkage = with_tie_outer(points_of(corner), drawn, drawn.tie_outer)
    return toe.HeldToe(linkage, drawn)


@formula(
    name="PLACE_TIE_ROD_INNER_FOR_RANGE",
    group=GROUP,
    arguments=(
        CORNER,
        FROM_TRAVEL.but(help="Travel at the range's start, in droop.", below=0.0),
        TO_TRAVEL.but(help="Travel at the range's end, in bump.", above=0.0),
        COORDINATE,
    ),
    unit="length",
    positive=AXES,
    help="Where the tie rod's inner end must be, moved up or down and across the car, for the toe "
    "as drawn at both ends of a range of travel, which keeps it small between them.",
    source="The inner end as far from three places of the outer end, which the arms give with the "
    "toe held (centre of a circle through three points).",
    example="=CORNER.PLACE_TIE_ROD_INNER_FOR_RANGE(Example, -30, 30)",
    check=((-100.0, 207.838024702, 184.831571051),),
    shape="table",
)
def place_tie_rod_inner_for_range(corner, from_travel, to_travel, coordinate):
    corner.hold_linkage()
    held = held_toe(corner)
    y, z = toe.inner_for_range(held, corner.drawn, from_travel, to_travel)
    place = Vec(corner.drawn.tie_inner.x, y, z)
    hold_place(corner, "tie rod's inner end", place)
    outer = corner.drawn.tie_outer.y
    hold(
        where(y > 0.0, y < outer, False),
        "the tie rod's inner end would lie at y %s, where a place between the car's middle and "
        "the outer end at %s was expected; move the outer end or change an arm",
        y, outer,
    )  # fmt: skip
    return shown(place, coordinate)
