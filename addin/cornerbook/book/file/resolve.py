"""What range a reference or a defined name means."""

import re

from .address import COLUMNS, ROWS, column_number, row_and_column
from .trouble import Trouble

_SHEET = re.compile(r"(?:'((?:[^']|'')+)'|([^'!\s(){},;\"]+))!(.*)$", re.S)
_CELL = r"\$?[A-Za-z]{1,3}\$?[1-9][0-9]{0,6}"
_CELLS = re.compile(r"(%s)(?::(%s))?$" % (_CELL, _CELL))
_PARTS = r"\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})"
_PLAIN = re.compile(
    rf"(?:(?:'((?:[^'[]|'')+)'|([^'!\s(){{}},;\"[]+))!)?{_PARTS}(?::{_PARTS})?$", re.S
)
_WHOLE_COLUMNS = re.compile(r"(\$?)([A-Za-z]{1,3}):(\$?)([A-Za-z]{1,3})$")
_WHOLE_ROWS = re.compile(r"(\$?)([1-9][0-9]{0,6}):(\$?)([1-9][0-9]{0,6})$")
_NAME = re.compile(r"[^\W\d][\w.\\?]*$|[\\_][\w.\\?]*$")

_LONGEST = 80
"""Letters of a reference or a formula that a sentence shows."""


class Resolver:
    """Finds the range of cells that a reference or a defined name means.

    sheets: the names of the worksheets. names: as `Package.names`. used: a function from a
    sheet to its last used row and column, from 1.
    """

    def __init__(self, sheets, names, used):
        self._sheets = {name.lower(): name for name in sheets}
        self._names = {(name.lower(), scope and scope.lower()): text for name, scope, text in names}
        self._used = used
        self._plain = {}

    def resolve(self, text, sheet, at=None):
        """(sheet, top, left, bottom, right) from 0; see `Package.resolve`."""
        return self.fixed(text, sheet) or self._resolve(text, sheet, at, text, ())

    def fixed(self, text, sheet):
        """The same of what is seen to mean one range in all cells of a sheet; None for the rest."""
        key = text, sheet
        if key not in self._plain:
            self._plain[key] = self._plainly(text, sheet) or self._plainly_named(text, sheet)
        return self._plain[key]

    def _plainly(self, text, sheet):
        """The same for cells or a range of them, on this or another sheet; else None."""
        match = _PLAIN.match(text)
        if match is None:
            return None
        quoted, bare, left, top, right, bottom = match.groups()
        given = bare or (quoted and quoted.replace("''", "'"))
        if given is not None:
            sheet = self._sheets.get(given.lower())
        column, row = column_number(left), int(top) - 1
        column_2, row_2 = (column_number(right), int(bottom) - 1) if right else (column, row)
        if sheet is None or max(row, row_2) >= ROWS or max(column, column_2) >= COLUMNS:
            return None  # what is wrong with it, or what else it is, is found out the long way
        return sheet, min(row, row_2), min(column, column_2), max(row, row_2), max(column, column_2)

    def _plainly_named(self, name, sheet):
        """The same for a name of cells that are fixed with $ signs; else None."""
        for scope in (sheet and sheet.lower(), None):
            text = self._names.get((name.lower(), scope))
            if text is not None:
                is_fixed = text.partition("!")[2].count("$") == (4 if ":" in text else 2)
                return self._plainly(text, sheet) if is_fixed else None
        return None

    def _resolve(self, text, sheet, at, asked, through):
        text = text.strip().removeprefix("=").strip()
        if "#REF!" in text.upper():
            raise Trouble(f"{_said(asked, text)}: the cells that it stood for are gone")
        place, rest = sheet, text
        match = _SHEET.match(text)
        if match:
            given = match[1].replace("''", "'") if match[1] else match[2]
            if "[" in given and given != "[0]":  # that is the workbook itself
                raise Trouble(f"{_said(asked, text)} is in another workbook")
            rest = match[3].strip()
            place = sheet if given == "[0]" else self._sheets.get(given.lower())
            if place is None:
                raise Trouble(f"{_said(asked, text)}: there is no sheet {_shortened(given)}")
        whole = _WHOLE_COLUMNS.match(rest) or _WHOLE_ROWS.match(rest)
        if whole and (not through or (whole[1] and whole[3])):
            return self._whole(whole, place)
        cells = _CELLS.match(rest)
        if cells and _on_the_sheet(cells):
            corners = [_corner(part, at, bool(through)) for part in cells.groups() if part]
            if None in corners:
                raise Trouble(
                    f"{_said(asked, text)} means another range in each cell; fix it with $ signs"
                )
            rows, columns = zip(*corners, strict=True)
            return place, min(rows), min(columns), max(rows), max(columns)
        # A name of the sheet hides one of the workbook.
        for scope in (place and place.lower(), None):
            key = (rest.lower(), scope)
            if key in self._names and key not in through:
                return self._resolve(self._names[key], place, at, asked, (*through, key))
        if _NAME.match(rest) and not through:
            raise Trouble(f"there is no name {_shortened(rest)} in the workbook")
        raise Trouble(f"{_said(asked, text)} is no plain range of cells")

    def _whole(self, match, sheet):
        """Whole columns or rows, cut to what the sheet uses."""
        row, column = self._used(sheet)
        if match[2].isdigit():
            one, two = int(match[2]), int(match[4])
            return sheet, min(one, two) - 1, 0, max(one, two) - 1, column - 1
        one, two = (column_number(match[i]) for i in (2, 4))
        return sheet, 0, min(one, two), row - 1, max(one, two)


def _said(asked, text):
    asked, text = (_shortened(each.strip()) for each in (asked, text))
    return text if asked == text else f"{asked} ({text})"


def _shortened(text):
    return text if len(text) <= _LONGEST else text[:_LONGEST] + "..."


def _on_the_sheet(match):
    for part in filter(None, match.groups()):
        row, column = row_and_column(part.replace("$", "").upper())
        if row > ROWS or column > COLUMNS:
            return False
    return True


def _corner(part, at, of_name):
    """(row, column) from 0 of one corner; None if it moves with a cell that is not given.

    A name without $ signs is stored as it reads in A1, and moves with the cell that uses it.
    """
    row, column = row_and_column(part.replace("$", "").upper())
    row, column = row - 1, column - 1
    if of_name:
        fixed_column, fixed_row = part.startswith("$"), "$" in part[1:]
        if not (fixed_column and fixed_row):
            if at is None:
                return None
            down, across = row_and_column(at.replace("$", "").upper())
            row = row if fixed_row else (row + down - 1) % ROWS
            column = column if fixed_column else (column + across - 1) % COLUMNS
    return row, column
