"""What each yellow cell of a copy held when the copy was made, beside what it holds now."""

from ..file.address import cell_name, row_and_column
from ..file.cell_error import CellError
from ..file.new_sheet import free_name
from ..file.trouble import Trouble
from ..file.words import words_of
from ..formula.ranges import said_place, single
from ..formula.rewrite import quoted, taken_apart
from ..formula.values import Unknown
from .added_sheet import AddedSheet
from .held import NOTHING, alike, same, shown
from .reading.elsewhere import Elsewhere, as_written

TITLE = "As shared"
_NOTE = (
    "Every yellow cell: what it held when the copy was made (of a formula, what that gives now), "
    "and what it holds now. Cells side by side in which nothing stood are one row. The last column "
    "counts the rows that were edited, down to its own."
)
_HEADINGS = ("yellow cell", "what it is", "when shared", "now", "edited so far")
_WIDTHS = [30, 46, 22, 22, 14]

WHERE, WHAT, THEN, NOW, _EDITED = range(5)
"""Its columns, from zero."""

_FIRST = 4
"""The row of the first yellow cell, from zero."""


def held_rows(package):
    """(where, the `CellContent` of when it was shared) of each row of the sheet in a copy.

    where: such as "Car!B5" or "Survey!A12:E71". None if the package has no such sheet.
    """
    # It was added last, behind sheets that take long to read.
    for sheet in reversed(package.sheets):
        cells = package.cells(sheet)
        heads = [cells.get(cell_name(_FIRST - 1, column)) for column in range(len(_HEADINGS))]
        if [head and head.value for head in heads] == list(_HEADINGS):
            break
    else:
        return None
    rows, at = [], _FIRST
    while (where := cells.get(cell_name(at, WHERE))) is not None:
        rows.append((where.value, cells.get(cell_name(at, THEN))))
        at += 1
    return rows


class AsShared:
    """The sheet of that.

    package: the copy, with all its own cells; sheets that have been added would be read for
    nothing. values: the `Values` of the workbook that it is made of.
    """

    def __init__(self, package, values):
        self._package = package
        self._values = values
        self._elsewhere = Elsewhere(package)
        self._name = free_name(TITLE, package.sheets)
        self._rows = [row for sheet in package.sheets for row in self._rows_of(sheet)]

    def _rows_of(self, sheet):
        """(place, what it is, formula, value) of each row that a sheet's yellow cells come to.

        place: (sheet, top, left, bottom, right), from zero. formula: of a cell that had one, as
        another sheet needs it.
        """
        inputs = self._package.inputs(sheet)
        if not inputs:
            return []
        cells = self._package.cells(sheet)
        words = words_of(cells, inputs)
        rows, blank = [], []
        for address in inputs:
            row, column = (number - 1 for number in row_and_column(address))
            content = cells.get(address)
            if content is None or (content.formula is None and content.value in (None, "")):
                blank.append((row, column))
                continue
            place = sheet, row, column, row, column
            value = self._values.seen((sheet, address))
            # What is not known here is what the file has of it; its formula is live all the same.
            value = content.value if isinstance(value, Unknown) else single(value)
            formula = self._formula(sheet, address, content)
            rows.append((place, words.of(row, column), formula, value))
        for top, left, bottom, right in _areas(blank):
            said = words.of(top, left) if (top, left) == (bottom, right) else "empty cells"
            rows.append(((sheet, top, left, bottom, right), said, None, NOTHING))
        return sorted(rows, key=lambda row: row[0][1:])

    def _formula(self, sheet, address, content):
        """What a cell's formula is on another sheet; None if it has none, or it means nothing
        there."""
        if content.formula is None or content.array is not None:
            return None
        try:
            parts = taken_apart(content.formula)
            return "=" + self._elsewhere.text(parts, as_written, sheet, address)
        except Trouble:
            return None

    @property
    def edits(self):
        """The reference to the cell that counts the rows that were edited; 0 without any rows."""
        if not self._rows:
            return "0"
        last = _FIRST + len(self._rows) - 1
        return f"{quoted(self._name)}!{cell_name(last, _EDITED, True)}"

    def edited(self, number, column):
        """The formula, without '=', for one column of the first, the second ... edited row."""
        return f"INDEX({self._column(column)},MATCH({number},{self._column(_EDITED)},0))"

    def _column(self, column):
        first = cell_name(_FIRST, column, True)
        last = cell_name(_FIRST + max(len(self._rows), 1) - 1, column, True)
        return f"{quoted(self._name)}!{first}:{last}"

    def add_sheet(self):
        """Add the sheet to the copy."""
        sheet = AddedSheet(TITLE, _NOTE, "E", _WIDTHS)
        sheet.head(_FIRST - 1, _HEADINGS)
        for at, (place, what, formula, value) in enumerate(self._rows, _FIRST):
            where, *corners = place
            first, last = cell_name(*corners[:2]), cell_name(*corners[2:])
            cell = f"{quoted(where)}!{first}" + (f":{last}" if value is NOTHING else "")
            now, now_value = _now(cell, value)
            then = cell_name(at, THEN)
            if formula:
                is_same = alike(cell, then)
            else:
                is_same = f"IFERROR({same(cell, value, then)},FALSE)"
            so_far = f"{cell_name(at - 1, _EDITED)}+" if at > _FIRST else ""
            sheet.cells += [
                (at, WHERE, None, said_place(place), "label"),
                (at, WHAT, None, what, "label"),
                (at, THEN, formula, value if formula else shown(value), "label"),
                (at, NOW, now, now_value, "label"),
                (at, _EDITED, f"={so_far}IF({is_same},0,1)", 0, "label"),
            ]
        sheet.add_to(self._package, self._name)


def _now(cell, value):
    """The formula for what a cell or a range holds now, and what it gives while that is `value`."""
    if value is NOTHING:
        return f'=COUNTA({cell})&" filled"', "0 filled"
    formula = f'=IFERROR(IF({cell}="","nothing",{cell}),"an error")'
    if isinstance(value, CellError):
        return formula, "an error"
    return formula, "nothing" if value in (None, "") else value


def _areas(cells):
    """(top, left, bottom, right) of the rectangles that some cells make, (row, column) each.

    Cells side by side in a row go together, and then rows of one width below each other.
    """
    runs = []
    for row, column in sorted(cells):
        if runs and runs[-1][0] == row and runs[-1][2] == column - 1:
            runs[-1][2] = column
        else:
            runs.append([row, column, column])
    areas, open_ = [], {}
    for row, left, right in runs:
        area = open_.get((left, right))
        if area is not None and area[2] == row - 1:
            area[2] = row
            continue
        open_[left, right] = area = [row, left, row, right]
        areas.append(area)
    return areas
