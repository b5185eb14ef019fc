"""The sheets of a copy on which the tables of the workings stand."""

from itertools import chain

from ..file.appearance import CAUTION
from ..file.new_sheet import free_name
from .added_sheet import AddedSheet
from .workings.table_cells import heights_of, rows_of

TOP = 3
"""The row of a workings sheet, from zero, at which its first table begins."""

_NOTE = (
    "The calculation of this workbook's results in plain formulas: a column is a step, a row is "
    "one call. A blank cell would be as one above it, which is used in its place, or is not "
    f"needed, or has nothing to say of plain numbers. Nothing here is to be typed over. {CAUTION}"
)

_WIDTHS = [13] * 260


def place_tables(package, sheets):
    """Give each table its sheet and the row where it begins. sheets: {title: tables}."""
    taken = list(package.sheets)
    for title, tables in sheets.items():
        name = free_name(title, taken)
        taken.append(name)
        top = TOP
        for table in tables:
            table.layout.sheet = name
            table.layout.top = top
            top += table.layout.height


def add_workings(package, tables):
    """Add the sheet of some tables, which are placed and computed."""
    name = tables[0].layout.sheet
    sheet = AddedSheet(name, _NOTE, "L", _WIDTHS)
    for table in tables:
        sheet.heights.update(heights_of(table))
    sheet.add_to(package, name, chain.from_iterable(map(rows_of, tables)))
