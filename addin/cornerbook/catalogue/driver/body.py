"""Formulas for a body scaled onto a car's wheels, and what fits into it."""

from ...cells.declare import Argument, formula
from ...cells.rows import Column
from ...geometry.driver import body
from ...geometry.numbers import where

GROUP = "Body"

DIMENSIONS = Argument(
    "dimensions", "rows",
    "Rows of dimensions: name, the example's, the car's, and, if wanted, how much it weighs; 1 "
    "if blank.",
    named=True,
    columns=(
        Column("example's", "length", needed=True, above=0.0),
        Column("car's", "length", needed=True, above=0.0),
        Column("weight", "ratio", least=0.0),
    ),
)  # fmt: skip
STATIONS = Argument(
    "stations", "rows",
    "Rows of the example's stations from the rear forward: x from its front axle line, half of "
    "its width, height of its underside and of its top.",
    columns=(
        Column("x", "length", needed=True, rising=True),
        Column("half width", "length", needed=True, least=0.0),
        Column("underside", "length", needed=True),
        Column("top", "length", needed=True),
    ),
)  # fmt: skip
SCALE = Argument(
    "scale", "number", "The scale of the body: the car's over the example's.", unit="ratio",
    above=0.0,
)  # fmt: skip
BODY_X = Argument("body_x", "number", "The place: x forward of the front axle line.", unit="length")
MEASURE = Argument(
    "measure", "text", "Which measure: half width, underside or top.",
    choices=("half width", "underside", "top"),
)  # fmt: skip


def _why_nothing(dimensions):
    return "dimensions: none weighs anything; a weight above 0 was expected in one row at least"


@formula(
    name="BODY_SCALE",
    group=GROUP,
    arguments=(DIMENSIONS,),
    unit="ratio",
    positive="it has a value",
    help="The one scale of an example body that comes nearest to a car's dimensions.",
    source="Weighted least squares of a straight line through nought (Gauss): scaled example less "
    "car, squared.",
    example="=CORNER.BODY_SCALE(SomeDimensions)",
    check=0.910949091218,
    why=_why_nothing,
    beyond="dimensions: none weighs anything; a weight above 0 was expected in one row at least",
)
def body_scale(dimensions):
    rows = []
    for row in dimensions:
        example, ours, weight = row.numbers
        rows.append((example, ours, where(row.has[2], weight, where(row.given, 1.0, 0.0))))
    return body.best_scale(rows)


@formula(
    name="BODY_AT",
    group=GROUP,
    arguments=(MEASURE, BODY_X, STATIONS, SCALE),
    unit="length",
    positive="above the ground, or out from the middle",
    help="Half width, underside or top of a scaled body at a place, on straight lines between its "
    "stations; 0 ahead of the first and behind the last.",
    source="Straight lines between points.",
    example='=CORNER.BODY_AT("half width", -700, SomeStations, 0.93)',
    check=314.171428571,
)
def body_at(measure, body_x, stations, scale):
    place = 1 + MEASURE.choices.index(measure)
    rows = [(row.numbers[0], row.numbers[place], row.given) for row in stations]
    return scale * body.at_station(rows, body_x / scale)
