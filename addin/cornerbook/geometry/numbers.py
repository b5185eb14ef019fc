"""The operations that the geometry is written in, for every kind of number.

The geometry is written once and evaluated with more than one kind of number. A
Python float goes to ``math``. Anything else is asked for its own functions, as
the Python array API standard has it (``x.__array_namespace__()``), so NumPy
arrays are served without importing NumPy here, and so is any other kind of
number that answers that call, such as one that records what was done to it.

Two habits keep one text good for all of them. Values are chosen with `where`,
never with ``if``. What has no real answer (the square root of a negative number,
a circle that does not reach a sphere) is NaN and passes through what follows.
"""

import math

PI = math.pi
NAN = math.nan
INFINITY = math.inf

_DEGREE = math.pi / 180.0


def sqrt(x):
    """Square root; NaN for a negative number."""
    if isinstance(x, float):
        return math.sqrt(x) if x >= 0.0 else NAN
    return x.__array_namespace__().sqrt(x)


def sin(x):
    """Sine of an angle in radians; NaN for one that is beyond all numbers."""
    if isinstance(x, float):
        return math.sin(x) if -INFINITY < x < INFINITY else NAN
    return x.__array_namespace__().sin(x)


def cos(x):
    """Cosine of an angle in radians; NaN for one that is beyond all numbers."""
    if isinstance(x, float):
        return math.cos(x) if -INFINITY < x < INFINITY else NAN
    return x.__array_namespace__().cos(x)


def tan(x):
    """Tangent of an angle in radians; NaN for one that is beyond all numbers."""
    if isinstance(x, float):
        return math.tan(x) if -INFINITY < x < INFINITY else NAN
    return x.__array_namespace__().tan(x)


def atan2(y, x):
    """Angle in radians of the point (x, y), from -pi to pi."""
    if isinstance(y, float) and isinstance(x, float):
        return math.atan2(y, x)
    return _namespace(y, x).atan2(y, x)


def absolute(x):
    """The size of a number, without its sign."""
    if isinstance(x, float):
        return abs(x)
    return x.__array_namespace__().abs(x)


def larger(x, floor):
    """The larger of a number and a plain float; a NaN stays NaN."""
    if isinstance(x, float):
        # Written so that a NaN is returned: every comparison with it is false.
        return floor if x < floor else x
    return x.__array_namespace__().maximum(x, floor)


def where(condition, if_true, if_false):
    """Choose by a condition; both choices are evaluated, whichever is taken."""
    if isinstance(condition, bool):
        return if_true if condition else if_false
    return condition.__array_namespace__().where(condition, if_true, if_false)


def ratio(numerator, denominator, otherwise):
    """The quotient, or a stand-in where the denominator is zero."""
    if isinstance(denominator, float):
        return numerator / denominator if denominator else otherwise
    nothing = denominator == 0.0
    if isinstance(nothing, bool):
        # A number made of floats (a dual): its division by zero would be an error.
        return otherwise if nothing else numerator / denominator
    return where(nothing, otherwise, numerator / denominator)


def sign(x):
    """1.0 for zero or more, -1.0 below it."""
    return where(x >= 0.0, 1.0, -1.0)


def degrees(x):
    """An angle in radians, in degrees."""
    return x / _DEGREE


def radians(x):
    """An angle in degrees, in radians."""
    return x * _DEGREE


def _namespace(*values):
    for value in values:
        if not isinstance(value, float):
            return value.__array_namespace__()
    raise TypeError("expected a float or a number with an array namespace")
