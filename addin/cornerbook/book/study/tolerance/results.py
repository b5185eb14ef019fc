"""The results of a workbook that a tolerance study looks at, with what they are wanted to be."""

import math

from ...file.address import cell_name, row_and_column
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ...file.values import CellContent
from ...formula.values import Unknown

# How far above a result its columns' headings are looked for.
_FARTHEST = 200


class Result:
    """A number that a cell works out.

    name: the cell's name in the workbook, or its row's label. cell: (sheet, address). place:
    its row and column from 0. unit: as it stands beside it, '' where none does.
    low, high: the band that is wanted, infinite at an end that is blank, both None where the row
    has none. drawn: its value.
    """

    def __init__(self, name, label, cell, place, unit, low, high, drawn):
        self.name = name
        self.label = label
        self.cell = cell
        self.place = place
        self.unit = unit
        self.low = low
        self.high = high
        self.drawn = drawn

    @property
    def is_banded(self):
        """Whether its row says what is wanted."""
        return self.low is not None

    @property
    def fails(self):
        """Whether it is outside its band as drawn: no jig can mend that."""
        return self.is_banded and not self.low <= self.drawn <= self.high

    @property
    def shown(self):
        """What it is called on its sheet, and which sheet that is."""
        return f"{self.label}, {self.cell[0]}" if self.label else self.name

    @property
    def band(self):
        """The band in words."""
        if math.isinf(self.low):
            return f"up to {self.high:g}"
        if math.isinf(self.high):
            return f"from {self.low:g}"
        return f"{self.low:g} to {self.high:g}"


class Results:
    """Finds them: cells with a name and a formula, and first formulas of rows with a band.

    package: the `Package`. values: its `Values`. `left_out` is a list of (name, why).
    """

    def __init__(self, package, values):
        self.package = package
        self.values = values
        self.left_out = []
        self._grids = {}
        self._titles = {}

    def find(self):
        """Every `Result`, in the order of the workbook's sheets and of their rows."""
        found, seen = [], set()
        for name, scope, text in self.package.names:
            try:
                place = self.package.resolve(text, scope or self.package.sheets[0])
            except Trouble:
                continue
            sheet, top, left, bottom, right = place
            if (top, left) != (bottom, right) or (sheet, top, left) in seen:
                continue
            if self._formula(sheet, top, left):
                seen.add((sheet, top, left))
                self._add(found, name, sheet, top, left)
        for sheet in self.package.sheets:
            for row, column in self._rows_with_band(sheet):
                if (sheet, row, column) not in seen:
                    seen.add((sheet, row, column))
                    self._add(found, None, sheet, row, column)
        order = {name: number for number, name in enumerate(self.package.sheets)}
        found.sort(key=lambda result: (order[result.cell[0]], *result.place))
        return found

    def _add(self, found, name, sheet, row, column):
        label = self._label(sheet, row, column)
        name = name or f"{label or cell_name(row, column)}, {sheet}"
        drawn = self.values.seen((sheet, cell_name(row, column)))
        if isinstance(drawn, tuple):
            drawn = drawn[0][0]
        if isinstance(drawn, bool) or not isinstance(drawn, (int, float)):
            self.left_out.append((name, (sheet, cell_name(row, column)), _said(drawn)))
            return
        unit, low, high = self._beside(sheet, row, column)
        cell = (sheet, cell_name(row, column))
        found.append(Result(name, label, cell, (row, column), unit, low, high, drawn))

    # Looking at the sheet

    def _cell(self, sheet, row, column) -> CellContent | None:
        return self.values.cells[sheet].get(cell_name(row, column))

    def _formula(self, sheet, row, column):
        cell = self._cell(sheet, row, column)
        return cell is not None and cell.formula is not None

    def _text(self, sheet, row, column):
        cell = self._cell(sheet, row, column)
        value = None if cell is None else cell.value
        return value.strip() if isinstance(value, str) else ""

    def _grid(self, sheet):
        """{row: sorted columns that hold something}."""
        if sheet not in self._grids:
            rows: dict = {}
            for address in self.values.cells[sheet]:
                row, column = row_and_column(address)
                rows.setdefault(row - 1, []).append(column - 1)
            self._grids[sheet] = {row: sorted(columns) for row, columns in rows.items()}
        return self._grids[sheet]

    def _label(self, sheet, row, column):
        for left in range(column - 1, -1, -1):
            text = self._text(sheet, row, left)
            if text and not self._formula(sheet, row, left):
                return text
        return ""

    def _headings(self, sheet, row):
        """{heading in lower case: column} above a row, None where its table has none."""
        grid = self._grid(sheet)
        for above in range(row - 1, max(row - _FARTHEST, -1), -1):
            if above not in grid:
                return None
            titles = self._titles_of(sheet, above)
            if "unit" in titles:
                return titles
        return None

    def _titles_of(self, sheet, row):
        """{text in lower case: the first column that has it} of a row."""
        if (sheet, row) not in self._titles:
            found: dict = {}
            for column in self._grid(sheet)[row]:
                found.setdefault(self._text(sheet, row, column).lower(), column)
            self._titles[sheet, row] = found
        return self._titles[sheet, row]

    def _beside(self, sheet, row, column):
        """(unit, low, high) of a result."""
        titles = self._headings(sheet, row)
        if titles is None:
            return "", None, None
        unit = self._text(sheet, row, titles["unit"])
        band = self._band(sheet, row, titles)
        if band is None or self._first_formula(sheet, row, titles["unit"]) != column:
            return unit, None, None
        return unit, *band

    def _band(self, sheet, row, titles):
        start = titles.get("wanted from")
        if start is None or titles.get("to") != start + 1:
            return None
        ends = [self.values.seen((sheet, cell_name(row, start + i))) for i in (0, 1)]
        given = [isinstance(end, (int, float)) and not isinstance(end, bool) for end in ends]
        blank = [end is None or end == "" for end in ends]
        if not any(given) or not all(g or b for g, b in zip(given, blank, strict=True)):
            return None
        open_ends = (-math.inf, math.inf)
        return [float(e) if g else o for e, g, o in zip(ends, given, open_ends, strict=True)]

    def _first_formula(self, sheet, row, before):
        columns = self._grid(sheet).get(row, ())
        return next((c for c in columns if c < before and self._formula(sheet, row, c)), None)

    def _rows_with_band(self, sheet):
        for row in sorted(self._grid(sheet)):
            titles = self._headings(sheet, row)
            if titles is not None and self._band(sheet, row, titles) is not None:
                column = self._first_formula(sheet, row, titles["unit"])
                if column is not None:
                    yield row, column


def _said(drawn):
    if isinstance(drawn, str):
        return f"as drawn it is a text: {drawn}"
    if isinstance(drawn, CellError):
        return f"as drawn it is {drawn.code}"
    if isinstance(drawn, Unknown):
        return drawn.why
    return "as drawn it is no number"
