"""How two rows of numbers go together, and the straight line through them."""

import math

from ...file.cell_error import CellError
from ..cell_values import is_number, number_of
from ..ranges import cells_of, rows_of, size_of
from .entry import function
from .totals import pairs_of_numbers


class _Line:
    """Sums about the means of pairs (y, x). least: how many pairs are needed at least."""

    def __init__(self, ys, xs, least=2):
        pairs = pairs_of_numbers(ys, xs)
        if len(pairs) < least:
            raise CellError("#DIV/0!")
        self.count = len(pairs)
        self.y = math.fsum(y for y, _ in pairs) / self.count
        self.x = math.fsum(x for _, x in pairs) / self.count
        self.yy = math.fsum((y - self.y) ** 2 for y, _ in pairs)
        self.xx = math.fsum((x - self.x) ** 2 for _, x in pairs)
        self.xy = math.fsum((y - self.y) * (x - self.x) for y, x in pairs)

    @property
    def slope(self):
        return self.xy / self.xx

    @property
    def intercept(self):
        return self.y - self.slope * self.x


@function("CORREL PEARSON", "array", "array")
def correlation(one, other):
    line = _Line(one, other)
    return line.xy / math.sqrt(line.xx * line.yy)


@function("RSQ", "array", "array")
def correlation_squared(ys, xs):
    return correlation(ys, xs) ** 2


@function("COVAR COVARIANCE.P", "array", "array")
def covariance_of_all(one, other):
    line = _Line(one, other, 1)
    return line.xy / line.count


@function("COVARIANCE.S", "array", "array")
def covariance(one, other):
    line = _Line(one, other)
    return line.xy / (line.count - 1)


@function("SLOPE", "array", "array")
def slope(ys, xs):
    return _Line(ys, xs).slope


@function("INTERCEPT", "array", "array")
def intercept(ys, xs):
    return _Line(ys, xs).intercept


@function("STEYX", "array", "array")
def scatter(ys, xs):
    """The standard deviation of y about the line."""
    line = _Line(ys, xs, 3)
    return math.sqrt((line.yy - line.xy**2 / line.xx) / (line.count - 2))


@function("FORECAST FORECAST.LINEAR", "number", "array", "array")
def on_line(x, ys, xs):
    line = _Line(ys, xs)
    return line.y + line.slope * (x - line.x)


@function("TREND", "cells", "cells?", "cells?")
def trend(ys, xs=None, wanted=None):
    """The line through one column or row of x (1, 2, 3, ... where none is given).

    A table, as large as the x that are wanted.
    """
    if xs is None:
        height, width = size_of(ys)
        xs = tuple(tuple(float(r * width + c + 1) for c in range(width)) for r in range(height))
    if wanted is None:
        wanted = xs
    if min(size_of(xs)) > 1 or any(
        not is_number(v) for v, _ in cells_of([ys, xs, wanted], empty=True)
    ):
        raise CellError("#VALUE!")
    line = _Line(ys, xs)
    return tuple(
        tuple(line.y + line.slope * (number_of(x) - line.x) for x in row) for row in rows_of(wanted)
    )
