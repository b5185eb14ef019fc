"""Names of cells: B7 for a row and a column that count from zero."""

import re

ROWS, COLUMNS = 1048576, 16384
"""The size of a sheet."""

_ADDRESS = re.compile(r"\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})$")


def column_letters(column):
    """The letters of a column: 0 is A."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def column_number(letters):
    """The number of a column: A is 0."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number - 1


def cell_name(row, column, fixed=False):
    """A cell's address, such as B7 or $B$7."""
    mark = "$" if fixed else ""
    return f"{mark}{column_letters(column)}{mark}{row + 1}"


def plain_address(text):
    """An address such as b$7 in capitals and without $ signs; ValueError for what is none."""
    match = _ADDRESS.match(text)
    if match is None:
        raise ValueError(f"{text!r} is no cell")
    address = match[1].upper() + match[2]
    if int(match[2]) > ROWS or column_number(match[1]) >= COLUMNS:
        raise ValueError(f"{address} is beyond the sheet")
    return address
