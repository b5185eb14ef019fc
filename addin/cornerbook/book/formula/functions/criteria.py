"""Conditions written as values, such as ">3" or "north*", and the functions that count by them."""

from functools import lru_cache

from ...file.cell_error import CellError
from ...file.trouble import Trouble
from .. import near
from ..cell_values import collated, is_number, number_in, number_of, text_of
from ..ranges import Range, cells_of, size_of
from .entry import function
from .totals import mean_of
from .wildcards import wildcards

_SIGNS = ("<=", ">=", "<>", "<", ">", "=")


def condition(wanted):
    """A function that tells whether a cell's value meets a condition.

    wanted: a value to equal, or a text with a sign before it; an empty cell counts as 0. A
    text may have wildcards: * for any letters, ? for one, ~ before either for itself. Numbers
    written in a text count as numbers, and equal the same text, too.
    """
    if isinstance(wanted, CellError):
        raise wanted
    if not isinstance(wanted, str):
        number = number_of(wanted)
        return lambda value: is_number(value) and near.equal(number_of(value), number)
    return _text_condition(wanted)


@lru_cache(maxsize=64)
def _text_condition(wanted):
    sign = next((s for s in _SIGNS if wanted.startswith(s)), "")
    text = wanted[len(sign) :]
    if text == "":
        if sign == "=":
            return lambda value: value is None
        if sign == "<>":
            return lambda value: value is not None
        if sign == "":
            return lambda value: value is None or value == ""
    number = _number(text)
    if sign in ("", "=", "<>"):
        same = _same_as(text, number)
        return same if sign != "<>" else lambda value: not same(value)
    if number is not None:
        return lambda value: is_number(value) and _stands(sign, number_of(value), number)
    key = collated(text)
    return lambda value: isinstance(value, str) and _in_order(sign, collated(value), key)


def _number(text):
    try:
        return number_in(text)
    except CellError:
        return None


def _same_as(text, number):
    pattern = wildcards(text)

    def same(value):
        if isinstance(value, CellError):
            return value.code == text
        if is_number(value):
            if number is not None:
                return near.equal(number_of(value), number)
            # Calc looks at what such a cell shows; Excel at texts alone.
            return pattern is not None and bool(pattern.fullmatch(text_of(value)))
        if not isinstance(value, str):
            return False
        if pattern is not None:
            return bool(pattern.fullmatch(value))
        return collated(value) == collated(text)

    return same


def _stands(sign, value, number):
    if near.equal(value, number):
        return "=" in sign
    return value < number if "<" in sign else value > number


def _in_order(sign, one, other):
    if one == other:
        return "=" in sign
    return one < other if "<" in sign else one > other


# Counting


def _met(pairs):
    """Places (from 0, row by row) at which all of the pairs of cells and conditions are met."""
    if len({size_of(cells) for cells in pairs[::2]}) > 1:
        raise CellError("#VALUE!")
    met = None
    for cells, wanted in zip(pairs[::2], pairs[1::2], strict=True):
        if isinstance(cells, CellError):
            raise cells
        if not isinstance(cells, (Range, tuple)):
            raise CellError("#VALUE!")
        meets = condition(wanted)
        values = cells_of([cells], empty=True)
        here = {place for place, (value, _) in enumerate(values) if meets(value)}
        met = here if met is None else met & here
    return sorted(met)


def _numbers_at(cells, places):
    """The numbers of a range at places; an error there ends the formula."""
    values = [value for value, _ in cells_of([cells], empty=True)]
    found = []
    for place in places:
        value = values[place]
        if isinstance(value, CellError):
            raise value
        if is_number(value):
            found.append(number_of(value))
    return found


@function("COUNTIF", "cells", "value")
def count(cells, wanted):
    return float(len(_met([cells, wanted])))


@function("COUNTIFS", "cells", "value", "cells?", "value?...", again=2)
def count_by_all(*pairs):
    if len(pairs) % 2:
        raise CellError("#VALUE!")
    return float(len(_met(pairs)))


def _beside(cells, wanted, summed):
    """Numbers of `summed`, taken to be of the size of `cells`, where a condition is met."""
    if not isinstance(cells, Range) or not isinstance(summed, (Range, type(None))):
        raise Trouble("SUMIF and AVERAGEIF are worked out here for ranges of cells alone")
    if summed is None:
        summed = cells
    elif size_of(summed) != size_of(cells):
        height, width = size_of(cells)
        summed = summed.part(0, 0, height - 1, width - 1)
    return _numbers_at(summed, _met([cells, wanted]))


@function("SUMIF", "cells", "value", "cells?")
def total(cells, wanted, summed=None):
    return near.total(_beside(cells, wanted, summed))


@function("AVERAGEIF", "cells", "value", "cells?")
def mean(cells, wanted, summed=None):
    return mean_of(_beside(cells, wanted, summed))


def _by_all(summed, pairs):
    if len(pairs) % 2:
        raise CellError("#VALUE!")
    if size_of(summed) != size_of(pairs[0]):
        raise CellError("#VALUE!")
    return _numbers_at(summed, _met(pairs))


@function("SUMIFS", "cells", "cells", "value...", again=2)
def total_by_all(summed, *pairs):
    return near.total(_by_all(summed, pairs))


@function("AVERAGEIFS", "cells", "cells", "value...", again=2)
def mean_by_all(summed, *pairs):
    return mean_of(_by_all(summed, pairs))


@function("MAXIFS", "cells", "cells", "value...", again=2)
def largest_by_all(summed, *pairs):
    return max(_by_all(summed, pairs), default=0.0)


@function("MINIFS", "cells", "cells", "value...", again=2)
def smallest_by_all(summed, *pairs):
    return min(_by_all(summed, pairs), default=0.0)
