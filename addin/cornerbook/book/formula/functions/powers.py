"""Powers, roots, logarithms and angles."""

import math

from ...file.cell_error import CellError
from .. import near
from .entry import function
from .operators import power

function("POWER", "number", "number", arrays=True)(power)


def _of(name):
    """The function of this name, of `math` or of the arrays' own module."""

    def work(x):
        try:
            return getattr(near.functions(x), name)(x)
        except ValueError:
            raise CellError("#NUM!") from None

    return work


for _excel, _python in (
    ("EXP", "exp"), ("LN", "log"), ("LOG10", "log10"), ("SQRT", "sqrt"), ("SIN", "sin"),
    ("COS", "cos"), ("TAN", "tan"), ("ASIN", "asin"), ("ACOS", "acos"), ("ATAN", "atan"),
    ("SINH", "sinh"), ("COSH", "cosh"), ("TANH", "tanh"), ("ASINH", "asinh"),
    ("ACOSH", "acosh"), ("ATANH", "atanh"),
):  # fmt: skip
    function(_excel, "number", arrays=True)(_of(_python))


@function("LOG", "number", "number?")
def logarithm(x, base=10.0):
    if x <= 0.0 or base <= 0.0 or base == 1.0:
        raise CellError("#NUM!")
    if base == 10.0:
        return math.log10(x)
    return math.log2(x) if base == 2.0 else math.log(x) / math.log(base)


@function("SQRTPI", "number")
def root_of_pi_times(x):
    if x < 0.0:
        raise CellError("#NUM!")
    return math.sqrt(x * math.pi)


@function("ABS", "number", arrays=True)
def size(x):
    return abs(x)


@function("SIGN", "number", arrays=True)
def sign(x):
    return near.where(x > 0.0, 1.0, near.where(x < 0.0, -1.0, 0.0))


@function("PI")
def pi():
    return math.pi


@function("DEGREES", "number", arrays=True)
def in_degrees(x):
    return x / math.pi * 180.0


@function("RADIANS", "number", arrays=True)
def in_radians(x):
    return x * (math.pi / 180.0)


@function("ATAN2", "number", "number", arrays=True)
def angle_of(x, y):
    """The angle of the point (x, y); x comes first in a spreadsheet.

    0 for the point (0, 0), as in Calc; Excel says #DIV/0!.
    """
    return near.functions(x, y).atan2(y, x)


@function("COT", "number", arrays=True)
def cotangent(x):
    return 1.0 / near.functions(x).tan(x)


@function("SEC", "number", arrays=True)
def secant(x):
    return 1.0 / near.functions(x).cos(x)


@function("CSC", "number", arrays=True)
def cosecant(x):
    return 1.0 / near.functions(x).sin(x)


@function("ACOT", "number", arrays=True)
def angle_of_cotangent(x):
    return math.pi / 2.0 - near.functions(x).atan(x)
