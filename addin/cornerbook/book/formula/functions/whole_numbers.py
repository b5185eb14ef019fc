"""Divisors, multiples, factorials and ways to choose."""

import math

from ...file.cell_error import CellError
from .entry import function
from .totals import numbers

_MOST = 1023
"""2 to a power beyond it is beyond every float."""


def _whole(number):
    if number < 0.0:
        raise CellError("#NUM!")
    return math.floor(number)


@function("GCD", "cells", "cells?...")
def greatest_divisor(*arguments):
    return float(math.gcd(*map(_whole, numbers(arguments))))


@function("LCM", "cells", "cells?...")
def least_multiple(*arguments):
    result = 1
    for number in map(_whole, numbers(arguments)):
        result = result * number // math.gcd(result, number) if number else 0
    return float(result)


@function("FACT", "whole")
def factorial(n):
    if n < 0:
        raise CellError("#NUM!")
    if n > 170:
        raise CellError("#VALUE!")  # beyond every float; Excel says #NUM!
    return float(math.factorial(n))


@function("FACTDOUBLE", "whole")
def double_factorial(n):
    if n < 0 or n > 300:
        raise CellError("#NUM!")
    return float(math.prod(range(n, 0, -2)))


@function("COMBIN", "whole", "whole")
def combinations(n, k):
    if n < 0 or not 0 <= k <= n:
        raise CellError("#NUM!")
    k = min(k, n - k)
    if k > _MOST:
        raise OverflowError  # 2 ** k at least
    return float(math.comb(n, k))


@function("PERMUT", "whole", "whole")
def permutations(n, k):
    if n < 0 or not 0 <= k <= n:
        raise CellError("#NUM!")
    if k > _MOST:
        raise OverflowError  # k! at least
    return float(math.perm(n, k))


@function("ISEVEN", "whole")
def is_even(n):
    return n % 2 == 0


@function("ISODD", "whole")
def is_odd(n):
    return n % 2 == 1
