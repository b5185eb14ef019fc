"""The tables on a book's sheets, kept for what shows or uses them further down."""

from ..file.address import cell_name


class Table:
    """Where a table stands, what its columns are titled, and of which kinds they are."""

    def __init__(self, sheet, head, first, last, titles, kinds):
        self.sheet = sheet
        self.first = first
        self.last = last
        self.titles = titles
        self.kinds = kinds
        self.next_chart = head


def keep_table(page, name, table):
    """Keep a table for charts and tables below, and its columns for formulas: {name:title}."""
    page.tables[name] = table
    sheet = table.sheet.name.replace("'", "''")
    for column, title in enumerate(table.titles):
        ends = [cell_name(row, column, True) for row in (table.first, table.last)]
        page.columns["{%s:%s}" % (name, title)] = "'%s'!%s:%s" % (sheet, *ends)
