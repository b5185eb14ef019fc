"""TWO_WAY: a table of a quantity against two inputs, each a movement or part of the drawing."""

from ...cells.arguments import CORNER, RACK, TRAVEL
from ...cells.block import key_of
from ...cells.changed import MOVEMENTS, ChangedCorners
from ...cells.declare import Argument, formula
from ...cells.mend import Mend
from ...cells.moved import coordinate_named
from ...cells.quantity import QUANTITY, WHEELBASE_OPTIONAL, chosen, name_of, value_at

MOST = 200
"""Rows or columns of a table."""


_OVER = 'travel, rack, or a row with its coordinate such as "upper ball joint z".'


def input_named(argument, text):
    """The word "travel" or "rack", or the `Coordinate` of a name."""
    key = key_of(text)
    return key if key in MOVEMENTS else coordinate_named(argument, text)


def _values(first, last, count):
    return [first + (last - first) * i / (count - 1) for i in range(count)]


@formula(
    name="TWO_WAY",
    group="What-if",
    arguments=(
        CORNER,
        QUANTITY,
        Argument("over_rows", "text", "What changes from row to row: " + _OVER),
        Argument("rows_from", "number", "Its value in the first row.", unit="of the input"),
        Argument("rows_to", "number", "Its value in the last row.", unit="of the input"),
        Argument(
            "rows", "whole", "How many rows, 2 to 200.", unit="count", above=1, below=MOST + 1
        ),
        Argument("over_columns", "text", "What changes from column to column, likewise."),
        Argument("columns_from", "number", "Its value in the first column.", unit="of the input"),
        Argument("columns_to", "number", "Its value in the last column.", unit="of the input"),
        Argument(
            "columns", "whole", "How many columns, 2 to 200.",
            unit="count", above=1, below=MOST + 1,
        ),
        TRAVEL,
        RACK,
        WHEELBASE_OPTIONAL,
    ),
    help="Table of a quantity against two inputs, whose values stand in the first column and in "
    "the first row; #N/A where the linkage cannot be made or cannot reach.",
    source="The formula of the quantity, cell by cell.",
    example='=CORNER.TWO_WAY(Example, "camber", "upper ball joint z", 365, 385, 3, '
    '"travel", -20, 20, 3)',
    check=(
        ("camber", -20.0, 0.0, 20.0),
        (365.0, -0.575107298589, -1.0, -1.53625409397),
        (375.0, -0.364898682497, -1.0, -1.73660276432),
        (385.0, -0.179364639992, -1.0, -1.91548815484),
    ),
    shape="table",
    plain=False,
)  # fmt: skip
def two_way(
    corner, quantity, over_rows, rows_from, rows_to, rows, over_columns, columns_from,
    columns_to, columns, travel, rack, wheelbase,
):  # fmt: skip
    (entry,) = chosen("quantity", (quantity,))
    over = (
        input_named("over_rows", over_rows),
        input_named("over_columns", over_columns),
    )
    if over[0] is over[1] or over[0] == over[1]:
        raise Mend("over_rows and over_columns are the same; two inputs were expected")
    corner.hold_linkage()
    for one in over:
        if one not in MOVEMENTS:
            one.of(corner.block)
    # What is wrong whatever the two inputs are is said once, in words.
    value_at(entry, corner, wheelbase, travel, rack)
    corners = ChangedCorners(corner, over)
    across = _values(columns_from, columns_to, columns)
    table = [(name_of(entry), *across)]
    for down in _values(rows_from, rows_to, rows):
        line = [down]
        for along in across:
            pair = (down, along)
            moved = {over[0]: down, over[1]: along}
            at = moved.get("travel", travel), moved.get("rack", rack)
            line.append(_cell(entry, corners, pair, wheelbase, *at))
        table.append(tuple(line))
    return tuple(table)


def _cell(entry, corners, pair, wheelbase, travel, rack):
    """The quantity, or None where the points make no corner or it does not reach."""
    try:
        return value_at(entry, corners.at(pair), wheelbase, travel, rack)
    except (Mend, ZeroDivisionError, OverflowError):
        return None
