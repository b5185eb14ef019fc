"""A sheet that is added to a copy, with the head that all of them share."""

from itertools import chain
from operator import itemgetter

from ..formula.rewrite import quoted

# In points, of a sheet's title and of the note below it.
_TITLE_HEIGHT, _NOTE_HEIGHT = 26, 32

_BLANK = "$ZZ$1"
"""A cell beside the title. What is printed of the sheet is this alone: hundreds of pages of
workings are of no use to anyone. To print the sheet, clear its print range."""


class AddedSheet:
    """A title, a note below it, and cells: (row, column, formula, value, style), all from zero.

    span: the last column of the note, as a letter. widths: of the columns, in characters.
    `heights`: {row from zero: points}. `merges`: the ranges of cells that are one.
    """

    def __init__(self, title, note, span, widths):
        self.cells = [(0, 0, None, title, "title"), (1, 0, None, note, "note")]
        self.heights = {0: _TITLE_HEIGHT, 1: _NOTE_HEIGHT}
        self.merges = [f"A2:{span}2"]
        self._widths = widths

    def head(self, row, titles):
        """Put the headings of a table into a row, from the first column on."""
        for column, title in enumerate(titles):
            look = "heading" if column else "first heading"
            self.cells.append((row, column, None, title, look))

    def add_to(self, package, name, below=()):
        """Add it to a workbook under a name that is free there.

        below: more rows, (row, [(column, formula, value, style)]) from zero, in order and below
        its cells. They are asked for one by one.
        """
        rows = {}
        for row, column, formula, value, style in sorted(self.cells, key=itemgetter(0, 1)):
            rows.setdefault(row + 1, []).append((column + 1, formula, value, style))
        below = (
            (row + 1, [(column + 1, *cell) for column, *cell in cells]) for row, cells in below
        )
        rows = chain(sorted(rows.items()), below)
        heights = {row + 1: height for row, height in self.heights.items()}
        name = package.add_sheet(name, rows, self._widths, None, self.merges, heights)
        package.add_name("_xlnm.Print_Area", f"{quoted(name)}!{_BLANK}", name)
