"""What a value is: a number, a text, an error, or nothing."""

from ...file.cell_error import CellError
from ..cell_values import ERRORS, Blank, Unseen
from ..ranges import Range, rows_of
from .entry import function


@function("ISNUMBER", "any")
def is_number(value):
    """A logical is one, too, as in Calc; in Excel it is not."""
    return isinstance(value, (float, int)) and type(value) is not Blank


@function("ISTEXT", "any")
def is_text(value):
    return isinstance(_seen(value), str)


@function("ISNONTEXT", "any")
def is_no_text(value):
    return not isinstance(_seen(value), str)


@function("ISBLANK", "any")
def is_empty(value):
    return value is None


@function("ISLOGICAL", "any")
def is_logical(value):
    return isinstance(value, bool)


@function("ISERROR", "any")
def is_error(value):
    return isinstance(_seen(value), CellError)


@function("ISERR", "any")
def is_error_but_not_available(value):
    return isinstance(_seen(value), CellError) and value.code != "#N/A"


@function("ISNA", "any")
def is_not_available(value):
    return isinstance(_seen(value), CellError) and value.code == "#N/A"


def _seen(value):
    """A value of which is known what it is."""
    if isinstance(value, Unseen):
        raise value
    return value


@function("NA")
def not_available():
    raise CellError("#N/A")


@function("ERROR.TYPE", "any")
def number_of_error(value):
    if not isinstance(_seen(value), CellError) or value.code not in ERRORS:
        raise CellError("#N/A")
    return float(ERRORS.index(value.code) + 1)


@function("N", "value")
def as_number(value):
    return float(value) if isinstance(value, (float, int)) else 0.0


@function("T", "value")
def as_text(value):
    return value if isinstance(value, str) else ""


@function("TYPE", "cells")
def kind(value):
    """1 for a number or a logical, 2 for a text, 16 for an error, 64 for an array.

    Excel gives 4 for a logical.
    """
    if isinstance(value, tuple) or (isinstance(value, Range) and not value.is_one):
        return 64.0
    value = rows_of(value)[0][0]
    if isinstance(_seen(value), CellError):
        return 16.0
    return 2.0 if isinstance(value, str) else 1.0


@function("ISREF", "place")
def is_reference(value):
    return isinstance(value, Range)


@function("HYPERLINK", "any", "any?")
def link(address, shown=None):
    """The text that the link shows."""
    value = address if shown is None else shown
    if isinstance(value, CellError):
        raise value
    return value
