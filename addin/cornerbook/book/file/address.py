"""Names of cells: B7 for a row and a column that count from zero."""

import re
from functools import lru_cache

ROWS, COLUMNS = 1048576, 16384
"""The size of a sheet."""

_KEPT = 65_536
"""So many addresses are remembered: most sheets have the same ones."""

_PLACE = re.compile(r"([A-Za-z]{1,3})([0-9]+)$")
_CORNER = r"(?:\$?([A-Za-z]{1,3}))?(?:\$?([0-9]+))?"
_RANGE = re.compile(rf"{_CORNER}(?::{_CORNER})?$")
_ADDRESS = re.compile(r"\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})$")


@lru_cache(maxsize=COLUMNS)
def column_letters(column):
    """The letters of a column: 0 is A."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


@lru_cache(maxsize=COLUMNS)
def column_number(letters):
    """The number of a column: A is 0."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number - 1


@lru_cache(maxsize=_KEPT)
def cell_name(row, column, fixed=False):
    """A cell's address, such as B7 or $B$7."""
    mark = "$" if fixed else ""
    return f"{mark}{column_letters(column)}{mark}{row + 1}"


@lru_cache(maxsize=_KEPT)
def row_and_column(address):
    """The row and the column of an address such as B7, from 1; ValueError for what is none."""
    match = _PLACE.match(address)
    if match is None:
        raise ValueError(f"{address!r} is no cell")
    return int(match[2]), column_number(match[1]) + 1


def boundaries(ref):
    """(left, top, right, bottom) of a range such as A8:H28, from 1; ValueError for what is none.

    Whole columns and rows have None for what they leave open.
    """
    match = _RANGE.match(ref)
    if match is None:
        raise ValueError(f"{ref!r} is no range")
    left, top, right, bottom = match.groups()
    if ":" in ref:
        columns, rows = (left and right), (top and bottom)
        if not (columns or rows) or (bool(left), bool(top)) != (bool(right), bool(bottom)):
            raise ValueError(f"{ref!r} is no range")
    left, right = (letters and column_number(letters) + 1 for letters in (left, right or left))
    top, bottom = (digits and int(digits) for digits in (top, bottom or top))
    return left, top, right, bottom


@lru_cache(maxsize=_KEPT)
def plain_address(text):
    """An address such as b$7 in capitals and without $ signs; ValueError for what is none."""
    match = _ADDRESS.match(text)
    if match is None:
        raise ValueError(f"{text!r} is no cell")
    address = match[1].upper() + match[2]
    if int(match[2]) > ROWS or column_number(match[1]) >= COLUMNS:
        raise ValueError(f"{address} is beyond the sheet")
    return address
