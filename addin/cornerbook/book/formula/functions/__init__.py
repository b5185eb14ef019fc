"""The functions of a spreadsheet, one file a subject; `entry.py` says how one is written."""

import importlib

from . import choice, criteria, kinds, lookup, powers, rounding, totals
from .entry import FUNCTIONS, WHOLE, Function
from .operators import OPERATORS

VOLATILE = ("NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY")
"""Functions whose value is another whenever it is asked for."""

_RARER = ["dates", "fits", "formats", "matrices", "spread", "texts", "whole_numbers"]
"""Subjects that are read once a function is asked for that the others do not have."""


def function_named(name):
    """The `Function` of this name; None if it is not known."""
    found = FUNCTIONS.get(name)
    while found is None and _RARER:
        importlib.import_module(f".{_RARER.pop()}", __name__)
        found = FUNCTIONS.get(name)
    return found


def every_function():
    """{name: `Function`} of all that are known."""
    function_named("")
    return FUNCTIONS


__all__ = [
    "OPERATORS", "VOLATILE", "WHOLE", "Function", "choice", "criteria", "every_function",
    "function_named", "kinds", "lookup", "powers", "rounding", "totals",
]  # fmt: skip
