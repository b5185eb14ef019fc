"""Run a formula for a host: raw cell values in, a cell value out, never an exception."""

import math

from .declare import FORMULAS
from .inputs import value_of
from .mend import Mend

_NO_VALUE = "these inputs give no real number; are two points in one place?"
_TOO_LARGE = "these inputs give a number too large to show; is one of them in another unit?"


def call(name, *raw):
    """What the cell shows for `CORNER.name(raw...)`.

    raw: each argument as a host gives it: a number, a text, None when it is left
    out, or a tuple of row tuples for cells ('' or None for an empty cell).
    Returns a float, a text (one that begins with '#' says what to mend), None for a
    point that cannot be had (#N/A), or for a table a tuple of row tuples of these.
    """
    formula = FORMULAS[name]
    try:
        return run(formula, raw)
    except Mend as mend:
        return mend.sentence
    except ZeroDivisionError:
        return Mend(_NO_VALUE).sentence
    except OverflowError:
        return Mend(_TOO_LARGE).sentence
    except Exception as error:  # a host must never see one
        return Mend(f"{name} failed inside: {error!r}; please report it").sentence


def run(formula, raw):
    """The formula's value; raises `Mend` where an input is wrong."""
    arguments = formula.arguments
    if len(raw) > len(arguments):
        raise Mend(
            f"{len(raw)} arguments given, at most {len(arguments)} were expected: "
            f"{formula.signature}"
        )
    given = len(raw)
    values = [
        value_of(argument, raw[i] if i < given else None) for i, argument in enumerate(arguments)
    ]
    result = formula.function(*values)
    if isinstance(result, float):
        if math.isnan(result):
            raise Mend(formula.why(*values) if formula.why else _NO_VALUE)
        if math.isinf(result):
            raise Mend(_TOO_LARGE)
    elif isinstance(result, tuple):
        return tuple(tuple(map(_in_table, row)) for row in result)
    return result


def _in_table(value):
    """A cell of a table; None for a number that is none."""
    return None if isinstance(value, float) and not math.isfinite(value) else value
