"""One sheet of the study's workbook as it is filled, and the looks of its cells."""

import numpy as np

from ....make.written.style import properties


class Looks:
    """The formats of a workbook, each made when it is first asked for."""

    def __init__(self, book):
        self.book = book
        self.made = {}

    def __call__(self, name, number_format=None):
        key = (name, number_format)
        if key not in self.made:
            self.made[key] = self.book.add_format(properties(name, number_format))
        return self.made[key]


class Sheet:
    """A sheet with its title and the lines below it; cells are put by row and column from 0.

    row: the first one free, where tables begin. widths: of its columns. page: XlsxWriter's.
    """

    def __init__(self, book, looks, name, title, lines, widths):
        self.looks = looks
        self.page = book.add_worksheet(name)
        self.page.hide_gridlines(2)
        self.page.set_landscape()
        self.page.fit_to_pages(1, 0)
        for column, width in enumerate(widths):
            self.page.set_column(column, column, width)
        self.text(0, 0, title, "title")
        for row, line in enumerate(lines, 1):
            self.paragraph(row, min(len(widths), 9), line, "text", 15 * (1 + len(line) // 150))
        self.row = len(lines) + 2

    def paragraph(self, row, columns, text, look, height):
        """A text across so many columns, in a row of this height in points."""
        self.page.merge_range(row, 0, row, columns - 1, text, self.looks(look))
        self.page.set_row(row, height)

    def headings(self, row, titles):
        """The row of headings of a table."""
        for column, title in enumerate(titles):
            self.text(row, column, title, "column" if column else "column first")
        self.page.set_row(row, 30)

    def text(self, row, column, text, look="label"):
        """A text in one cell."""
        self.page.write(row, column, text, self.looks(look))

    def number(self, row, column, value, number_format):
        """A number, or an empty cell where there is none."""
        if value is None or not np.isfinite(value):
            self.page.write_blank(row, column, None, self.looks("value"))
        else:
            self.page.write_number(row, column, float(value), self.looks("value", number_format))
