"""Sums, counts, means and extremes of ranges, and sums of products."""

from ...file.cell_error import CellError
from .. import near
from ..cell_values import SKIPPED, is_number, number_in, number_of
from ..ranges import cells_of, rows_of, size_of
from .entry import function


def numbers(arguments):
    """The numbers among arguments, as SUM and its like take them.

    In a range or an array: numbers and logicals; texts and empty cells are passed over. Given
    by themselves: what is left out is 0, and a text is #VALUE!, as in Calc. Excel takes a text
    such as "5" for a number there, and passes over logicals in a range.
    """
    found = []
    for value, inside in cells_of(arguments):
        if type(value) is float:
            found.append(value)
        elif isinstance(value, CellError):
            raise value
        elif is_number(value) or (value is None and not inside):
            found.append(number_of(value))
        elif not inside:
            raise CellError("#VALUE!")
    return found


def numbers_or_texts(arguments):
    """The same for the functions with an A at their end: a text of a range counts as 0."""
    found = []
    for value, inside in cells_of(arguments):
        if isinstance(value, str) and inside:
            found.append(0.0)
        elif not (value is None and inside):
            found.extend(numbers([value]))
    return found


@function("SUM", "cells?...", arrays=True)
def total(*arguments):
    return near.total(numbers(arguments))


@function("SUMSQ", "cells", "cells?...", arrays=True)
def total_of_squares(*arguments):
    return near.total([number * number for number in numbers(arguments)])


@function("PRODUCT", "cells", "cells?...", arrays=True)
def product(*arguments):
    found = numbers(arguments)
    result = 1.0 if found else 0.0
    for number in found:
        result = result * number
    return result


@function("AVERAGE", "cells", "cells?...", arrays=True)
def mean(*arguments):
    return mean_of(numbers(arguments))


@function("AVERAGEA", "cells", "cells?...")
def mean_with_texts(*arguments):
    return mean_of(numbers_or_texts(arguments))


def mean_of(found):
    """The mean of numbers; #DIV/0! of none."""
    return near.total(found) / float(len(found))


@function("MIN", "cells", "cells?...", arrays=True)
def smallest(*arguments):
    return _extreme(numbers(arguments), min, "minimum")


@function("MAX", "cells", "cells?...", arrays=True)
def largest(*arguments):
    return _extreme(numbers(arguments), max, "maximum")


@function("MINA", "cells", "cells?...")
def smallest_with_texts(*arguments):
    return min(numbers_or_texts(arguments), default=0.0)


@function("MAXA", "cells", "cells?...")
def largest_with_texts(*arguments):
    return max(numbers_or_texts(arguments), default=0.0)


def _extreme(found, plain, of_arrays):
    if all(isinstance(number, float) for number in found):
        return plain(found, default=0.0)
    choose = getattr(near.functions(*found), of_arrays)
    result = found[0]
    for number in found[1:]:
        result = choose(result, number)
    return result


@function("COUNT", "cells", "cells?...", arrays=True, blind=True)
def count(*arguments):
    found = 0.0
    for value, inside in cells_of(arguments):
        if hasattr(value, "__array_namespace__"):
            found = found + near.functions(value).isfinite(value)
        else:
            found = found + _counts(value, inside)
    return found


def _counts(value, inside):
    if isinstance(value, str) and not inside:
        try:
            number_in(value)
        except CellError:
            return False
        return True
    return is_number(value) or (value is None and not inside)


@function("COUNTA", "cells", "cells?...")
def count_filled(*arguments):
    empty = (None, SKIPPED)
    return float(sum(value not in empty or not inside for value, inside in cells_of(arguments)))


@function("COUNTBLANK", "cells")
def count_empty(cells):
    return float(sum(value is None or value == "" for value, _ in cells_of([cells], empty=True)))


@function("SUMPRODUCT", "array", "array?...", arrays=True)
def total_of_products(*arrays):
    """Texts and empty cells count as 0; arrays of other sizes are #VALUE!."""
    if len({size_of(array) for array in arrays}) > 1:
        raise CellError("#VALUE!")
    tables = [rows_of(array) for array in arrays]
    products = []
    for rows in zip(*tables, strict=True):
        for values in zip(*rows, strict=True):
            result = 1.0
            for value in values:
                if isinstance(value, CellError):
                    raise value
                result = result * (number_of(value) if is_number(value) else 0.0)
            products.append(result)
    return near.total(products)


def pairs(one, other, work):
    """`work` on each pair of numbers of two arrays of one size, added up."""
    return near.total([work(a, b) for a, b in pairs_of_numbers(one, other)])


def pairs_of_numbers(one, other):
    """Pairs of two arrays of one size, where both are numbers; #VALUE! for other sizes."""
    if size_of(one) != size_of(other):
        raise CellError("#VALUE!")
    found = []
    for (a, _), (b, _) in zip(
        cells_of([one], empty=True), cells_of([other], empty=True), strict=True
    ):
        for value in (a, b):
            if isinstance(value, CellError):
                raise value
        if is_number(a) and is_number(b):
            found.append((number_of(a), number_of(b)))
    return found


@function("SUMX2MY2", "array", "array")
def difference_of_squares(one, other):
    return pairs(one, other, lambda a, b: a * a - b * b)


@function("SUMX2PY2", "array", "array")
def sum_of_squares(one, other):
    return pairs(one, other, lambda a, b: a * a + b * b)


@function("SUMXMY2", "array", "array")
def squares_of_differences(one, other):
    return pairs(one, other, lambda a, b: (a - b) ** 2)
