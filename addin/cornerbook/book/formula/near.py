"""Arithmetic as spreadsheets do it: numbers that differ by their last digits count as one.

0.1+0.2-0.3 is 0 there, 0.1+0.2=0.3 is true, and 0.29*100 cut to a whole number is 29. How near
is near enough is Calc's (2 to the power of -48, and 15 digits before a number is cut); Excel's
own rule differs in the last digits and is not published.

Every function takes floats, or arrays that bring their own functions along
(`x.__array_namespace__()`, as in `geometry/numbers.py`), so that one text serves one car and
many at once.
"""

import math

_NEAR = 2.0**-48
_FAR = 2.0**-44
_WHOLE = 2.0**53
_DIGITS = 5e-15
"""Half a unit in the fifteenth digit, of a number that begins before the point."""


def functions(*numbers):
    """The module of functions for numbers: `math`, or that of the first array among them."""
    for number in numbers:
        if hasattr(number, "__array_namespace__"):
            return number.__array_namespace__()
    return math


def where(condition, one, other):
    """Choose by a truth, or by an array of truths."""
    if isinstance(condition, bool):
        return one if condition else other
    return condition.__array_namespace__().where(condition, one, other)


def equal(a, b):
    """Whether two numbers are the same but for their last digits."""
    if isinstance(a, float) and isinstance(b, float):
        if a == b:
            return True
        apart = abs(a - b)
        limit = _NEAR * min(abs(a), abs(b))
        # Whole numbers are exact, so that no two of them are one.
        return apart < limit and not (a.is_integer() and b.is_integer() and abs(a) < _WHOLE)
    maths = functions(a, b)
    apart = abs(a - b)
    near = (apart < _NEAR * abs(a)) & (apart < _NEAR * abs(b))
    if near.any():
        whole = (maths.floor(a) == a) & (maths.floor(b) == b) & (abs(a) < _WHOLE)
        near = near & ~whole
    return near | (a == b)


def add(a, b):
    """The sum; 0 where one is the other's opposite but for the last digits."""
    total = a + b
    if isinstance(total, float):
        if abs(total) < _FAR * abs(a) and equal(a, -b):
            return 0.0
        return total
    small = abs(total) < _FAR * abs(a)
    if small.any():
        total = where(small & equal(a, -b), 0.0, total)
    return total


def subtract(a, b):
    """The difference; 0 where both are one but for the last digits."""
    return add(a, -b)


def total(numbers):
    """The sum of a list of numbers: exact but for one rounding.

    0 where the last is the others' opposite but for its last digits (Calc carries the digits
    that it loses along, and comes to the same).
    """
    if not numbers:
        return 0.0
    if all(isinstance(number, float) for number in numbers):
        exact = math.fsum(numbers)
        if abs(exact) < _FAR * abs(numbers[-1]) and equal(exact - numbers[-1], -numbers[-1]):
            return 0.0
        return exact
    result = numbers[0]
    for number in numbers[1:]:
        result = add(result, number)
    return result


def floor(x):
    """The whole number below; one that x misses by less than 15 digits show counts as reached."""
    if isinstance(x, float):
        nearest = float(round(x)) if abs(x) < _WHOLE else x
        return nearest if abs(x - nearest) <= _DIGITS * _power_of_ten(x) else float(math.floor(x))
    maths = functions(x)
    nearest = maths.round(x)
    size = maths.where(x == 0.0, 1.0, abs(x))
    digit = _DIGITS * 10.0 ** maths.floor(maths.log10(size))
    return maths.where(abs(x - nearest) <= digit, nearest, maths.floor(x))


def _power_of_ten(x):
    return 10.0 ** math.floor(math.log10(abs(x))) if x else 1.0


def ceiling(x):
    """The whole number above, as `floor` below."""
    return -floor(-x)


def truncated(x):
    """The whole part, towards zero, as `floor`."""
    return where(x >= 0.0, floor(x), -floor(-x))


def whole_below(x):
    """The whole number below, to the last digit."""
    return float(math.floor(x)) if isinstance(x, float) else functions(x).floor(x)
