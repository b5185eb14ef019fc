"""A file's row held to the row of a block that it is for: so many numbers, in a unit that suits."""

import math

from ...cells.block import POINT_KEYS, VALUE_KEYS
from ...cells.mend import shown
from ..file.trouble import Trouble
from .row import MM, TEXT_KEYS, converted, of_known_length


def fitting(row, now, block, file):
    """A row's values in the block's unit; None for a row with nothing in it.

    row: the file's. now: the block's. file: its name, for messages. Raises `Trouble` where
    they do not fit.
    """
    values = list(row.values)
    while values and values[-1] in (None, ""):
        values.pop()
    if not values:
        return None
    name = f"{file}: {row.name}"
    if row.key in TEXT_KEYS or (now.values and isinstance(now.values[0], str)):
        if len(values) != 1 or not isinstance(values[0], str):
            raise Trouble(f"{name}: a word was expected, in the first column of numbers")
        return values
    _hold_numbers(values, _wanted(row, now), name)
    return _in_our_unit(values, row, block.unit_of(now), name)


def _wanted(row, now):
    """How many numbers the row has."""
    return 3 if row.key in POINT_KEYS or (now.is_triple and row.key not in VALUE_KEYS) else 1


def _hold_numbers(values, wanted, name):
    for number, value in enumerate(values):
        what = "xyz"[number] if wanted == 3 else "the value"
        if value in (None, ""):
            raise Trouble(f"{name}: {what} is empty; a number was expected")
        if not isinstance(value, float) or not math.isfinite(value):
            raise Trouble(f"{name}: {what} is {shown(value)}; a number alone was expected")
    if len(values) != wanted:
        raise Trouble(
            f"{name}: {len(values)} numbers; "
            f"{'x, y and z were' if wanted == 3 else 'one was'} expected"
        )


def _in_our_unit(values, row, ours, name):
    """The numbers converted to our unit. ours: '' where the workbook says none."""
    given = row.unit
    if not given or given == ours:
        return values
    if given not in MM and given != "deg" and (of_known_length(row.key) or ours):
        raise Trouble(
            f"{name}: the unit {shown(given)} is not known; {', '.join(MM)} or deg was expected"
        )
    if of_known_length(row.key) and not ours:
        raise Trouble(
            f"{name}: it is in {given}, and the workbook does not say its unit of "
            "length; give --unit"
        )
    if given in MM and ours in MM:
        return [converted(value, given, ours) for value in values]
    if ours:
        raise Trouble(f"{name}: it is in {given}, and {ours} was expected")
    return values
