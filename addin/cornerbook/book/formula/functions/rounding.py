"""Rounding, and division without its rest.

Rounded is the decimal number that a cell shows, not the binary one behind it: ROUND(1.005,2) is
1.01, and CEILING, INT, MOD and the others count 2.9999999999999996 as 3 (see `near.py`).
"""

import math

from ...file.cell_error import CellError
from .. import near
from .entry import function

_EXACT = 2.0**52
"""From here on every float is a whole number."""


@function("ROUND", "number", "whole?", arrays=True)
def rounded(x, digits=0):
    """To so many digits, half away from zero; digits below 0 are before the point."""
    return _scaled(x, digits, _half_up)


@function("ROUNDUP", "number", "whole?", arrays=True)
def rounded_up(x, digits=0):
    """Away from zero."""
    return _scaled(x, digits, near.ceiling)


@function("ROUNDDOWN TRUNC", "number", "whole?", arrays=True)
def rounded_down(x, digits=0):
    """Towards zero."""
    return _scaled(x, digits, near.floor)


def _half_up(size):
    return near.floor(size + 0.5)


def _scaled(x, digits, work):
    """Work on a number's size with its digits before the point; what needs none stays."""
    digits = int(digits)
    size = abs(x)
    if digits == 0 and work is _half_up:
        # Without a factor there is nothing to mend: 0.49999999999999994 is no half.
        below = near.whole_below(size)
        found = near.where(size - below >= 0.5, below + 1.0, below)
    elif digits > 0:
        scale = 10.0 ** min(digits, 300)
        found = work(size * scale) / scale
        found = near.where(size * scale < _EXACT, found, size)
    else:
        scale = 10.0 ** min(-digits, 300)
        found = work(size / scale) * scale
    found = near.where(size < _EXACT, found, size) if digits >= 0 else found
    return near.where(x < 0.0, -found, found)


@function("INT", "number", arrays=True)
def whole_below(x):
    return near.floor(x)


@function("CEILING", "number", "number?", arrays=True)
def multiple_above(x, step=1.0):
    """The multiple of a step; below 0 with a step above it, towards zero, as Excel has it."""
    return _multiple(x, step, near.ceiling)


@function("FLOOR", "number", "number?", arrays=True)
def multiple_below(x, step=1.0):
    if isinstance(x, float) and isinstance(step, float) and step == 0.0 and x != 0.0:
        raise CellError("#DIV/0!")
    return _multiple(x, step, near.floor)


def _multiple(x, step, work):
    if isinstance(x, float) and isinstance(step, float):
        if x == 0.0 or step == 0.0:
            return 0.0
        if x > 0.0 > step:
            raise CellError("#NUM!")
        return work(x / step) * step
    wrong = near.functions(x, step).where((x > 0.0) & (step < 0.0), math.nan, 0.0)
    return work(x / step) * step + wrong


@function("CEILING.MATH", "number", "number?", "number?")
def ceiling_by_mode(x, step=1.0, mode=0.0):
    """Upwards; below 0 away from zero where a mode is given."""
    return _by_mode(x, step, near.floor if x < 0.0 and mode else near.ceiling)


@function("FLOOR.MATH", "number", "number?", "number?")
def floor_by_mode(x, step=1.0, mode=0.0):
    """Downwards; below 0 towards zero where a mode is given."""
    return _by_mode(x, step, near.ceiling if x < 0.0 and mode else near.floor)


def _by_mode(x, step, work):
    step = abs(step)
    return work(x / step) * step if x and step else 0.0


@function("MROUND", "number", "number")
def nearest_multiple(x, step):
    """Half away from zero. Excel refuses a number and a step of different signs."""
    if step == 0.0:
        return 0.0
    return rounded(x / step) * step


@function("EVEN", "number")
def even_above(x):
    """The even number next to it, away from zero."""
    return math.copysign(near.ceiling(abs(x) / 2.0) * 2.0, x)


@function("ODD", "number")
def odd_above(x):
    """The odd number next to it, away from zero."""
    size = near.ceiling((abs(x) - 1.0) / 2.0) * 2.0 + 1.0
    return math.copysign(max(size, 1.0), x)


@function("MOD", "number", "number", arrays=True)
def rest(x, divisor):
    """What a division leaves; of the divisor's sign."""
    return near.subtract(x, near.floor(x / divisor) * divisor)


@function("QUOTIENT", "number", "number", arrays=True)
def whole_quotient(x, divisor):
    return near.truncated(x / divisor)
