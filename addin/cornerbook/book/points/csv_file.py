"""A block's rows as a CSV file, written and read.

A line is a name, x, y, z and the unit; a single number or a word stands under x. Numbers
are written so that they read back to the last digit.
"""

import csv
import io
import math
import re

from ...cells.block import key_of
from ...cells.mend import shown
from ..file.save import hold_possible
from ..file.trouble import Trouble
from .row import ANGLE_KEYS, MM, Row, converted, of_known_length, unit_named

MOST = 5_000_000
"""Bytes of the largest file that is read."""

HEADING = ("name", "x", "y", "z", "unit")

_NAMED = {"name", "row", "point", "label"}
_NUMBERS = {"x": 0, "y": 1, "z": 2, "value": 0}


def csv_of(rows):
    """The file of `Row`s, as bytes: UTF-8, commas, points in the numbers."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEADING)
    for row in rows:
        cells = [_written(value) for value in row.values]
        writer.writerow([in_a_line(row.name), *cells, *[""] * (3 - len(cells)), row.unit])
    return text.getvalue().encode("utf-8")


_FORMULA = ("=", "+", "-", "@")
"""What a cell begins with that a spreadsheet program would take for a formula."""


def in_a_line(text):
    """A name or a word in one line, and so that no program works it out as a formula."""
    text = " ".join(text.split())
    return "'" + text if text.startswith(_FORMULA) else text


def _as_typed(text):
    """The same as it was before `in_a_line`."""
    return text[1:] if text[:1] == "'" and text[1:].startswith(_FORMULA) else text


def _written(value):
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        if value is None or isinstance(value, str):
            return in_a_line(value or "")
        raise Trouble(f"{shown(value)} stands where a number or a word was expected")
    return repr(float(value))


def rows_of_csv(path):
    """The `Row`s of a file.

    Commas between cells; or semicolons or tabs, with commas or points in the numbers. A
    heading may give the order of the columns, and the unit as in "x (mm)"; without one the
    order is name, x, y, z, unit. Raises `Trouble` for a file that cannot be read.
    """
    hold_possible(path)
    try:
        with open(path, "rb") as file:
            content = file.read(MOST + 1)
        if len(content) > MOST:
            raise Trouble(
                f"{path} has more than {MOST // 1000000} MB, and a file of points has some kB; "
                "save the points alone"
            )
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Trouble(f"{path} is no text file") from error
    except FileNotFoundError as error:
        raise Trouble(f"there is no file {path}") from error
    except OSError as error:
        raise Trouble(f"{path} cannot be read: {error.strerror}") from error
    mark = _mark(text)
    try:
        found = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
        lines = [line for line in found if any(line)]
    except csv.Error as error:
        raise Trouble(f"{path} cannot be read as CSV: {error}") from error
    columns, unit = _columns(lines[0], path) if lines else (None, "")
    if columns is not None:
        lines = lines[1:]
    else:
        columns = {"name": 0, 0: 1, 1: 2, 2: 3, "unit": 4}
    found = [_row(line, columns, unit, mark != ",") for line in lines]
    return [row for row in found if row is not None]


def _mark(text):
    """What stands between the cells, by the first line; within quotation marks nothing counts."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    bare = re.sub(r'"[^"]*"', "", first)
    return ";" if ";" in bare else "\t" if "\t" in bare else ","


def _columns(line, path):
    """(columns, unit) that a heading gives; (None, '') if the line is none."""
    found, unit = {}, ""
    if key_of(line[0]) not in _NAMED and not any(key_of(cell) in _NAMED for cell in line):
        return None, ""
    for column, cell in enumerate(line):
        key = key_of(cell)
        if key in _NAMED:
            found.setdefault("name", column)
        elif key in ("unit", "units"):
            found["unit"] = column
        elif key in _NUMBERS:
            found.setdefault(_NUMBERS[key], column)
            said = cell.partition("(")[2].partition(")")[0]
            unit = unit_named(said) if said.strip() else unit
    if found["name"] and not found.keys() & {0, 1, 2}:
        return None, ""
    missing = ["xyz"[axis] for axis in (0, 1, 2) if axis not in found]
    if missing:
        raise Trouble(
            f"{path}: its heading has no column {missing[0]}; name, x, y, z and unit were expected"
        )
    return found, unit


def _row(line, columns, unit, decimal_comma):
    def cell(what):
        column = columns.get(what)
        if column is None or column >= len(line):
            return ""
        return _as_typed(line[column].strip())

    name = cell("name")
    if not name or isinstance(_number(name, decimal_comma), float):
        return None
    values = [_number(cell(axis), decimal_comma) for axis in (0, 1, 2)]
    while values and values[-1] == "":
        values.pop()
    own = unit_named(cell("unit"))
    is_length = key_of(name) not in ANGLE_KEYS and values and isinstance(values[0], float)
    if not own and is_length:
        own = unit
    return Row(name, tuple(values), own)


def _number(text, decimal_comma):
    try:
        number = float(text.replace(",", ".") if decimal_comma else text)
    except ValueError:
        return text
    # Python reads 1_000, which nobody means as a number in such a file.
    return number if math.isfinite(number) and "_" not in text else text


def cells_in(rows, unit):
    """The rows as cells of a block, lengths converted to the unit where a row says its own."""
    found = []
    for row in rows:
        values = row.values
        if row.unit in MM and unit in MM and (of_known_length(row.key) or len(values) == 3):
            values = [converted(v, row.unit, unit) if isinstance(v, float) else v for v in values]
        found.append([row.name, *values, *[""] * (3 - len(values))])
    return found
