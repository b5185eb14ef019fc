"""Run a formula for a host: raw cell values in, a cell value out, never an exception."""

import math

from .declare import FORMULAS, REQUIRED


def call(name, *raw):
    """What the cell shows for `CORNER.name(raw...)`.

    raw: each argument as a host gives it: a float, a text, None when it is left
    out, or a tuple of row tuples for cells ('' or None for an empty cell).
    Returns a float, a text (one that begins with '#' says what to mend), or for a
    table a tuple of row tuples in which None is a value that cannot be had.
    """
    formula = FORMULAS[name]
    values = []
    for argument, value in zip(formula.arguments, raw + (None,) * len(formula.arguments)):
        if value is None:
            value = argument.default
        if value is REQUIRED:
            return "# %s is missing" % argument.name
        values.append(value)
    result = formula.function(*values)
    if isinstance(result, float) and math.isnan(result):
        return "# " + formula.hint
    return result
