"""The numbers that a cell of a spreadsheet file takes, by its data validation."""

import math

from .address import boundaries, row_and_column
from .markup import MAIN

_LOW = {"between", "equal", "greaterThan", "greaterThanOrEqual"}
_HIGH = {"between", "equal", "lessThan", "lessThanOrEqual"}


def limits_of(root, address):
    """(low, high, whether whole numbers only) of a cell; None where nothing limits it.

    root: the worksheet's element. An end that is open, or a formula, is infinite.
    """
    row, column = row_and_column(address)
    for entry in root.iter(MAIN + "dataValidation"):
        if entry.get("type") not in ("decimal", "whole"):
            continue
        if any(_holds(part, row, column) for part in (entry.get("sqref") or "").split()):
            return _limits(entry)
    return None


def _holds(part, row, column):
    try:
        left, top, right, bottom = boundaries(part)
    except (ValueError, TypeError):
        return False
    return (left or 1) <= column <= (right or column) and (top or 1) <= row <= (bottom or row)


def _limits(entry):
    operator = entry.get("operator", "between")
    one, two = (_number(entry.findtext(MAIN + tag)) for tag in ("formula1", "formula2"))
    if operator != "between":
        two = one
    low = one if operator in _LOW and one is not None else -math.inf
    high = two if operator in _HIGH and two is not None else math.inf
    return low, high, entry.get("type") == "whole"


def _number(text):
    try:
        number = float(text)
    except (TypeError, ValueError):
        return None
    return number if math.isfinite(number) else None
