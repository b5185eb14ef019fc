"""The tables on a book's sheets, kept for what shows or uses them further down."""

from ...file.address import cell_name
from ...formula.rewrite import quoted


class Table:
    """Where a table stands, what its columns are titled, and of which kinds they are.

    live: whether its row of headings is worked out too, and heads lines of a chart as it is.
    """

    def __init__(self, sheet, head, first, last, titles, kinds, live=False):
        self.sheet = sheet
        self.first = first
        self.last = last
        self.titles = titles
        self.kinds = kinds
        self.next_chart = head
        self.live = live

    def title(self, column):
        """What a line of this column is called: a text, or the formula of the heading's cell."""
        if not self.live:
            return self.titles[column]
        return f"={quoted(self.sheet.name)}!{cell_name(self.first - 1, column, True)}"


def cells_of(sheet, first, left, last, right=None):
    """Cells on the sheet of a name, of one column or up to another, as a formula takes them."""
    ends = cell_name(first, left, True), cell_name(last, left if right is None else right, True)
    return "%s!%s:%s" % (quoted(sheet), *ends)


def keep_table(page, name, table):
    """Keep a table for charts and tables below, and for formulas its columns, {name:title}, and
    all of them side by side, {name:all}.
    """
    page.tables[name] = table
    sheet, first, last = table.sheet.name, table.first, table.last
    page.columns["{%s:all}" % name] = cells_of(sheet, first, 0, last, len(table.titles) - 1)
    for column, title in enumerate(table.titles):
        page.columns["{%s:%s}" % (name, title)] = cells_of(sheet, first, column, last)
