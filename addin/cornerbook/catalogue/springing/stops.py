"""Bump and droop stops beside a spring: the arguments, and travel by length and load."""

from ...cells.declare import Argument, formula
from ...cells.mend import hold, hold_not_negative, rounded
from ...cells.rows import Column
from ...geometry.numbers import where
from ...geometry.springing import stroke
from ...geometry.springing.springs import Actuators
from .springs import FREE_LENGTH, GROUP, SPRING_RATE

STOPS = (
    Argument(
        "bump_stop_length", "number",
        "Length between the spring's ends at which the bump stop touches; 0 for none.",
        unit="length", default=0.0,
    ),
    Argument(
        "bump_stop_rate", "number", "Force per length of the bump stop; 0 for none.",
        unit="force per length", default=0.0,
    ),
    Argument(
        "droop_stop_length", "number",
        "Length between the spring's ends at which the droop stop touches; 0 for none.",
        unit="length", default=0.0,
    ),
    Argument(
        "droop_stop_rate", "number", "Force per length of the droop stop; 0 for none.",
        unit="force per length", default=0.0,
    ),
)  # fmt: skip
"""Arguments of a spring's two stops, which may be left out."""

STROKE = Argument(
    "stroke", "rows",
    "Rows of travel, spring length and motion ratio, such as a table over the damper's travel has; "
    "what stands right of them is left out.",
    columns=(
        Column("travel", "length", needed=True, rising=True),
        Column("spring length", "length", needed=True, above=0.0),
        Column("motion ratio", "ratio", needed=True),
    ),
)  # fmt: skip

PATH = "Between the rows a cubic that has their lengths and motion ratios; Newton's steps on it"


def actuators_of(
    spring_rate, free_length, bump_stop_length, bump_stop_rate, droop_stop_length, droop_stop_rate
):  # fmt: skip
    """The `Actuators` of a spring and its stops."""
    stops = (
        ("bump_stop", bump_stop_length, bump_stop_rate),
        ("droop_stop", droop_stop_length, droop_stop_rate),
    )
    for name, length, rate in stops:
        hold_not_negative(rate, name + "_rate")
        hold_not_negative(length, name + "_length")
        hold(
            where(rate > 0.0, length > 0.0, True),
            name + "_length: %s given, the length at which it touches was expected with its rate",
            length,
        )
    return Actuators(
        spring_rate, free_length, bump_stop_length, bump_stop_rate, droop_stop_length,
        droop_stop_rate,
    )  # fmt: skip


def _rows(stroke_rows):
    for row in stroke_rows:
        hold(row.given, "stroke: a row of it is blank; every row was expected to have numbers")
    hold(len(stroke_rows) > 1, "stroke: one row given; two at least were expected")
    return [stroke.Row(*row.numbers) for row in stroke_rows]


@formula(
    name="TRAVEL_AT_LENGTH",
    group=GROUP,
    arguments=(
        STROKE,
        Argument("spring_length", "number", "Length between the spring's ends.",
                 unit="length", above=0.0),
    ),
    unit="length",
    positive="the wheel has risen from the drawn height",
    help="Travel at which the spring has a length, by a table over the travel.",
    source=PATH + ".",
    example="=CORNER.TRAVEL_AT_LENGTH(SomeStroke, 204)",
    check=21.164178226,
)  # fmt: skip
def travel_at_length(stroke_rows, spring_length):
    rows = _rows(stroke_rows)
    found, travel = stroke.travel_at_length(rows, spring_length)
    hold(
        found,
        "spring_length: %s given; the rows of stroke go from %s to %s",
        rounded(spring_length, 2), rounded(rows[0].length, 2), rounded(rows[-1].length, 2),
    )  # fmt: skip
    return travel


@formula(
    name="TRAVEL_AT_LOAD",
    group=GROUP,
    arguments=(
        STROKE.but(
            help="Rows of travel, spring length and motion ratio over the damper's travel, from "
            "its longest; what stands right of them is left out."
        ),
        SPRING_RATE, FREE_LENGTH,
        Argument("wheel_load", "number", "Force at the wheel that spring and stops are to hold.",
                 unit="force"),
        *STOPS,
    ),
    unit="length",
    positive="the wheel has risen from the drawn height, and the body stands lower",
    help="Travel at which a spring and its stops hold a load at the wheel, by a table over the "
    "damper's travel; that of its first row where they hold more even there.",
    source="Force balance, spring and stops x motion ratio. " + PATH + ".",
    example="=CORNER.TRAVEL_AT_LOAD(SomeStroke, 25, 256, 1150, 205, 60, 235, 80)",
    check=24.8995034189,
)  # fmt: skip
def travel_at_load(
    stroke_rows, spring_rate, free_length, wheel_load, bump_stop_length, bump_stop_rate,
    droop_stop_length, droop_stop_rate,
):  # fmt: skip
    rows = _rows(stroke_rows)
    actuators = actuators_of(
        spring_rate, free_length, bump_stop_length, bump_stop_rate, droop_stop_length,
        droop_stop_rate,
    )  # fmt: skip
    found, travel = stroke.travel_at_load(rows, wheel_load, actuators)
    last = rows[-1]
    hold(
        found,
        "wheel_load: %s given, more than spring and stops hold over these rows; at travel %s they "
        "hold %s: a stiffer spring or more preload was expected",
        rounded(wheel_load, 1), rounded(last.travel, 2),
        rounded(actuators.force(last.length) * last.ratio, 1),
    )  # fmt: skip
    return travel
