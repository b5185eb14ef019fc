"""Quantities by their name: AT for one cell, SWEEP for a table over travel or rack."""

from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.declare import Argument, formula
from ...cells.quantity import WHEELBASE_OPTIONAL, chosen, value_at

MOST_POINTS = 10000


@formula(
    name="AT",
    group="Tables",
    arguments=(
        CORNER,
        Argument(
            "quantity", "text",
            "What to show: camber, toe, trail, steer left, ackermann and so on.",
        ),
        TRAVEL,
        RACK,
        WHEELBASE_OPTIONAL,
    ),
    help="One quantity by its name, for tables whose headings say what they show; "
    "#N/A where the linkage cannot reach, so that a chart skips the point.",
    source="The formula of the quantity.",
    example='=CORNER.AT(Example, "steer right", 0, -30, 1600)',
    check=17.9136878255,
)  # fmt: skip
def at(corner, quantity, travel, rack, wheelbase):
    (entry,) = chosen("quantity", (quantity,))
    return value_at(entry, corner, wheelbase, travel, rack)


@formula(
    name="SWEEP",
    group="Tables",
    arguments=(
        CORNER,
        Argument(
            "quantities", "names",
            "What to show, as a text with commas or as heading cells: "
            "camber, toe, trail, steer left, ackermann and so on.",
        ),
        Argument("over", "text", "What runs: travel or rack.", choices=("travel", "rack")),
        Argument("from", "number", "First value of what runs.", unit="length"),
        Argument("to", "number", "Last value of what runs.", unit="length"),
        Argument(
            "points", "whole", "How many rows, 2 at least.",
            unit="count", above=1, below=MOST_POINTS + 1,
        ),
        Argument(
            "held", "number",
            "The rack while travel runs, or the travel while the rack runs; 0 if left out.",
            unit="length", default=0.0,
        ),
        WHEELBASE_OPTIONAL,
    ),
    help="Table with what runs in the first column and one column for each quantity; "
    "#N/A where the linkage cannot reach.",
    source="The formula of each quantity, row by row.",
    example='=CORNER.SWEEP(Example, "camber, toe", "travel", -20, 20, 3)',
    check=(
        (-20.0, -0.364898682497, 0.227341809212),
        (0.0, -1.0, 0.25),
        (20.0, -1.73660276432, 0.251622505925),
    ),
    shape="table",
)  # fmt: skip
def sweep(corner, quantities, over, start, end, points, held, wheelbase):
    wanted = chosen("quantities", quantities)
    corner.hold_linkage()  # a wrong block is said once, in words, not row by row
    rows = []
    for i in range(points):
        at = start + (end - start) * i / (points - 1)
        travel, rack = (at, held) if over == "travel" else (held, at)
        row = [at]
        for entry in wanted:
            row.append(value_at(entry, corner, wheelbase, travel, rack))
        rows.append(tuple(row))
    return tuple(rows)
