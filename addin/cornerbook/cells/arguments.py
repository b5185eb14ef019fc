"""The arguments that formulas share, described once."""

from .declare import Argument

CORNER = Argument(
    "corner", "block",
    "The labelled block of a left-hand corner: a name in the first column, "
    "then x, y, z or a single value; its name or its rows, never a whole sheet.",
)  # fmt: skip
TRAVEL = Argument(
    "travel", "number",
    "How far the wheel centre has risen against the body (bump positive); 0 if left out.",
    unit="length", default=0.0,
)  # fmt: skip
RACK = Argument(
    "rack", "number",
    "How far the rack has moved to the left; 0 if left out.",
    unit="length", default=0.0,
)  # fmt: skip
WHEELBASE = Argument(
    "wheelbase", "number",
    "Distance from the front to the rear axle line.",
    unit="length", above=0.0,
)  # fmt: skip
RACK_TURNED = Argument(
    "rack", "number",
    "How far the rack has moved to the left.",
    unit="length",
)  # fmt: skip
FROM_TRAVEL = Argument("from_travel", "number", "Travel at the range's start.", unit="length")
TO_TRAVEL = Argument("to_travel", "number", "Travel at the range's end.", unit="length")

POSE = (CORNER, TRAVEL, RACK)
"""Arguments of a corner function."""

AXLE = (CORNER, WHEELBASE, RACK_TURNED, TRAVEL)
"""Arguments of a steered-axle function."""
