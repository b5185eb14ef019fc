"""What recorded steps come to: the work of each kind on values, as a spreadsheet does it.

Values are floats (NaN for an error), texts, truths, or None for an empty cell.
"""

import math
import operator
from array import array

from ....geometry.numbers import NAN
from ...formula.functions.rounding import rounded
from .steps import parts_first
from .words import IN_WORDS, in_words

_DEGREE = math.pi / 180.0

_ERRORS = (ZeroDivisionError, ValueError, OverflowError, TypeError)


def evaluated(step, inputs, known):
    """The value of a step.

    inputs: a function from an input's key to its value. known: values by step; what is worked
    out is added.
    """
    for part in parts_first([step], lambda step: () if step in known else step.parts):
        if part not in known:
            known[part] = _value(part, inputs, known)
    return known[step]


def _value(step, inputs, known):
    if step.kind == "constant":
        return step.what
    if step.kind == "input":
        return inputs(step.what)
    return worker(step)(*[known[part] for part in step.parts])


def worker(step):
    """A function from the values of a step's parts to its own; None for an input or constant."""
    return _WORK.get(step.kind)


def _number(value):
    if isinstance(value, (bool, float)):
        return float(value)
    if value is None:
        return 0.0
    raise TypeError


def _compared(compare):
    def work(a, b):
        if a.__class__ is float and b.__class__ is float:
            return NAN if a != a or b != b else compare(a, b)
        # A comparison with an error is that error; NaN stands for it.
        if _is_error(a) or _is_error(b):
            return NAN
        if isinstance(a, str) != isinstance(b, str):
            # In a spreadsheet any text comes after any number; an empty cell is like either.
            a, b = ("" if a is None else a), ("" if b is None else b)
            if isinstance(a, str) and isinstance(b, str):
                return compare(a.lower(), b.lower())
            return compare(1 if isinstance(a, str) else 0, 1 if isinstance(b, str) else 0)
        if isinstance(a, str):
            return compare(a.lower(), b.lower())
        return compare(_number(a), _number(b))

    return work


def _is_error(value):
    return isinstance(value, float) and math.isnan(value)


def _chosen(condition, if_true, if_false):
    if _is_error(condition):
        return NAN
    return if_true if condition else if_false


def _joined(a, b):
    if _is_error(a) or _is_error(b):
        return NAN
    return _as_text(a) + _as_text(b)


def _as_text(value):
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    return f"{value:.15g}" if isinstance(value, float) else value


def _of_one(work):
    def done(x):
        try:
            return work(x if x.__class__ is float else _number(x))
        except _ERRORS:
            return NAN

    return done


def _of_two(work):
    def done(x, y):
        try:
            if x.__class__ is float and y.__class__ is float:
                return work(x, y)
            return work(_number(x), _number(y))
        except _ERRORS:
            return NAN

    return done


def _tried(work):
    def done(*values):
        try:
            return work(*values)
        except _ERRORS:
            return NAN

    return done


def _largest(a, b):
    return NAN if math.isnan(a) or math.isnan(b) else max(a, b)


_WORK = {
    "+": _of_two(operator.add),
    "-": _of_two(operator.sub),
    "*": _of_two(operator.mul),
    "/": _of_two(operator.truediv),
    "^": _of_two(operator.pow),
    "minus": _of_one(operator.neg),
    "&": _joined,
    "=": _compared(operator.eq),
    "<": _compared(operator.lt),
    ">": _compared(operator.gt),
    "<=": _compared(operator.le),
    ">=": _compared(operator.ge),
    "IF": _chosen,
    "NA": lambda: NAN,
    "ISNUMBER": lambda x: isinstance(x, float) and not math.isnan(x),
    "SQRT": _of_one(math.sqrt),
    "SIN": _of_one(math.sin),
    "COS": _of_one(math.cos),
    "TAN": _of_one(math.tan),
    "LN": _of_one(math.log),
    "ABS": _of_one(abs),
    "MAX": _of_two(_largest),
    "ATAN2": _of_two(lambda x, y: math.atan2(y, x)),
    "DEGREES": _of_one(lambda x: x / _DEGREE),
    "RADIANS": _of_one(lambda x: x * _DEGREE),
    "ROUND": _of_two(rounded),
    IN_WORDS: _of_two(in_words),
    "LEFT": _tried(lambda text, count: _as_text(text)[: int(count)]),
    "LEN": _tried(lambda text: float(len(_as_text(text)))),
    "MID": _tried(
        lambda text, start, count: _as_text(text)[int(start) - 1 : int(start + count) - 1]
    ),
}

_OF_NUMBERS = {
    "+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv,
}  # fmt: skip


def of_numbers(kind, columns):
    """What work of a kind makes of columns of numbers alone, all rows at once; else None.

    columns: of each part an array, NaN for an error, or a list, where there is anything else.
    """
    work = _OF_NUMBERS.get(kind)
    if work is None or not all(isinstance(column, array) for column in columns):
        return None
    try:
        return array("d", map(work, *columns))
    except ZeroDivisionError:
        return None


FUNCTIONS = sorted(kind for kind in _WORK if kind.isupper() or kind == "ATAN2")
"""The spreadsheet functions that recorded formulas use."""
