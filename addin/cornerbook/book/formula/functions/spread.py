"""How numbers lie: medians, variances, ranks and quantiles.

Where no number answers, Calc says #VALUE!, where Excel has #NUM! or #N/A.
"""

import math

from ...file.cell_error import CellError
from .. import near
from .entry import function
from .totals import mean_of, numbers, numbers_or_texts


def _some(arguments):
    found = numbers(arguments)
    if not found:
        raise CellError("#VALUE!")
    return found


def squares_about_mean(found):
    """The sum of squared distances from the mean."""
    middle = math.fsum(found) / len(found)
    return math.fsum((number - middle) ** 2 for number in found)


def _variance(found, fewer):
    return squares_about_mean(found) / (len(found) - fewer) if found else mean_of(found)


@function("MEDIAN", "cells", "cells?...")
def median(*arguments):
    return _quantile(sorted(_some(arguments)), 0.5)


@function("VAR VAR.S", "cells", "cells?...")
def variance(*arguments):
    """Of a sample."""
    return _variance(numbers(arguments), 1)


@function("VARP VAR.P", "cells", "cells?...")
def variance_of_all(*arguments):
    return _variance(numbers(arguments), 0)


@function("STDEV STDEV.S", "cells", "cells?...")
def deviation(*arguments):
    """Of a sample."""
    return math.sqrt(_variance(numbers(arguments), 1))


@function("STDEVP STDEV.P", "cells", "cells?...")
def deviation_of_all(*arguments):
    return math.sqrt(_variance(numbers(arguments), 0))


@function("STDEVA", "cells", "cells?...")
def deviation_with_texts(*arguments):
    return math.sqrt(_variance(numbers_or_texts(arguments), 1))


@function("AVEDEV", "cells", "cells?...")
def mean_distance(*arguments):
    found = _some(arguments)
    middle = mean_of(found)
    return mean_of([abs(number - middle) for number in found])


@function("DEVSQ", "cells", "cells?...")
def squares(*arguments):
    return squares_about_mean(_some(arguments))


@function("GEOMEAN", "cells", "cells?...")
def geometric_mean(*arguments):
    found = _some(arguments)
    if min(found) <= 0.0:
        raise CellError("#NUM!")
    return math.exp(mean_of([math.log(number) for number in found]))


@function("HARMEAN", "cells", "cells?...")
def harmonic_mean(*arguments):
    found = _some(arguments)
    if min(found) <= 0.0:
        raise CellError("#NUM!")
    return 1.0 / mean_of([1.0 / number for number in found])


@function("LARGE", "cells", "number")
def largest_but(cells, place):
    return _by_place(sorted(numbers([cells]), reverse=True), place)


@function("SMALL", "cells", "number")
def smallest_but(cells, place):
    return _by_place(sorted(numbers([cells])), place)


def _by_place(found, place):
    number = int(near.floor(place))
    if not 1 <= number <= len(found):
        raise CellError("#VALUE!")
    return found[number - 1]


@function("RANK RANK.EQ", "number", "cells", "number?")
def rank(number, cells, upwards=0.0):
    """1 for the largest, or for the smallest where a third argument is given."""
    found = numbers([cells])
    if number not in found:
        raise CellError("#VALUE!")
    before = (other < number if upwards else other > number for other in found)
    return 1.0 + sum(before)


@function("RANK.AVG", "number", "cells", "number?")
def mean_rank(number, cells, upwards=0.0):
    """Equals share the mean of their ranks."""
    same = numbers([cells]).count(number)
    return rank(number, cells, upwards) + (same - 1) / 2.0


@function("PERCENTILE PERCENTILE.INC", "cells", "number")
def percentile(cells, share):
    return _share_of(cells, share)


@function("QUARTILE QUARTILE.INC", "cells", "whole")
def quartile(cells, quarter):
    return _share_of(cells, quarter / 4.0)


def _share_of(cells, share):
    found = sorted(_some([cells]))
    if not 0.0 <= share <= 1.0:
        raise CellError("#NUM!")
    return _quantile(found, share)


def _quantile(found, share):
    """Between the sorted numbers, which stand at even shares from 0 to 1."""
    place = share * (len(found) - 1)
    below = int(near.floor(place))
    if below >= len(found) - 1:
        return found[-1]
    return found[below] + (place - below) * (found[below + 1] - found[below])


@function("PERCENTILE.EXC", "cells", "number")
def inner_percentile(cells, share):
    return _inner_share_of(cells, share)


@function("QUARTILE.EXC", "cells", "whole")
def inner_quartile(cells, quarter):
    return _inner_share_of(cells, quarter / 4.0)


def _inner_share_of(cells, share):
    """Between the sorted numbers, which stand at even shares with a step left at both ends."""
    found = sorted(_some([cells]))
    place = share * (len(found) + 1) - 1.0
    if not 0.0 <= place <= len(found) - 1:
        raise CellError("#NUM!")
    below = int(near.floor(place))
    if below >= len(found) - 1:
        return found[-1]
    return found[below] + (place - below) * (found[below + 1] - found[below])


@function("MODE MODE.SNGL", "array", "array?...")
def commonest(*arguments):
    """The number that is there most often; of several, the smallest that comes first."""
    found = numbers(arguments)
    counts = {number: found.count(number) for number in found}
    most = max(counts.values(), default=0)
    if most < 2:
        raise CellError("#VALUE!")
    return next(number for number in found if counts[number] == most)


@function("STANDARDIZE", "number", "number", "number")
def standardized(x, middle, deviation):
    if deviation <= 0.0:
        raise CellError("#NUM!")
    return (x - middle) / deviation


@function("NORMSDIST", "number")
def below_of_normal(x):
    """The share of a normal law below x standard deviations."""
    return 0.5 * math.erfc(-x / math.sqrt(2.0))
