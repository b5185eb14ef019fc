"""The operators: + - * / ^ & %, a minus before a value, and comparisons."""

import math

from ...file.cell_error import CellError
from .. import near
from ..cell_values import compared
from .entry import Function

OPERATORS: dict = {}
"""Every operator by its sign; `minus` is the one before a value."""


def _operator(sign, *kinds, arrays=False):
    def declare(work):
        OPERATORS[sign] = Function(sign, work, kinds, arrays=arrays)
        return work

    return declare


_operator("+", "number", "number", arrays=True)(near.add)
_operator("-", "number", "number", arrays=True)(near.subtract)


@_operator("*", "number", "number", arrays=True)
def times(a, b):
    return a * b


@_operator("/", "number", "number", arrays=True)
def over(a, b):
    return a / b


@_operator("%", "number", arrays=True)
def percent(a):
    return a / 100.0


@_operator("minus", "number", arrays=True)
def opposite(a):
    return -a


@_operator("^", "number", "number", arrays=True)
def power(a, b):
    """A negative number has the root of an odd whole number, as in Calc; in Excel it has none."""
    if not isinstance(a, float) or not isinstance(b, float):
        maths = near.functions(a, b)
        size = abs(a) ** b
        odd = (a < 0.0) & (maths.round(b) != b) & _is_odd(1.0 / maths.where(b == 0.0, 1.0, b))
        return maths.where(odd, -size, a**b)
    if a == 0.0 and b < 0.0:
        raise CellError("#NUM!")
    if a < 0.0 and not b.is_integer():
        if _is_odd(1.0 / b):
            return -(abs(a) ** b)
        raise CellError("#NUM!")
    return a**b


def _is_odd(x):
    return near.equal(x % 2.0, 1.0)


@_operator("&", "text", "text")
def joined(a, b):
    return a + b


def _comparison(sign, among):
    """Declare a comparison. among: how its sides may stand to one another, as `compared` says."""

    @_operator(sign, "value", "value", arrays=True)
    def compare(a, b):
        if not (hasattr(a, "__array_namespace__") or hasattr(b, "__array_namespace__")):
            return compared(a, b) in among
        a, b = _to_compare(a), _to_compare(b)
        same = near.equal(a, b)
        found = same if 0 in among else same & False
        if -1 in among:
            found = found | (~same & (a < b))
        if 1 in among:
            found = found | (~same & (a > b))
        return found


def _to_compare(value):
    """A value to compare numbers with: any text comes after them."""
    if isinstance(value, str):
        return math.inf
    return 0.0 if value is None else value


for _sign, _among in (
    ("=", (0,)), ("<>", (-1, 1)), ("<", (-1,)), (">", (1,)), ("<=", (-1, 0)), (">=", (0, 1)),
):  # fmt: skip
    _comparison(_sign, _among)
