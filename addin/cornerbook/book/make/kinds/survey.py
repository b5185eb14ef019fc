"""A block of empty rows for what was measured on the car: tapes, heights, plumbed coordinates."""

from .. import units
from ..declare import NUMBER, TEXT, block_kind, needed
from ..rows import columns_of, put_input

MOST = 400
"""Rows of such a block."""


@block_kind("survey", {"name": needed(TEXT), "rows": needed(NUMBER)})
def survey(page, block):
    """Rows of what was measured, from which point to which, how much and how surely; empty."""
    count = block["rows"]
    if count != int(count) or not 1 <= count <= MOST:
        raise page.trouble(f"rows: a whole number from 1 to {MOST} was expected", "rows")
    columns_of(page, ["What", "from", "to", "measured", "how sure", "unit", "note"])
    first = page.row
    unit = units.unit_of("length", page.system)
    for number in range(int(count)):
        for column, title in enumerate(("What", "From", "To")):
            put_input(page, page.row, column, None, "text", title)
        put_input(page, page.row, 3, None, "length", f"Measured, row {number + 1}")
        put_input(page, page.row, 4, None, "length", f"How sure, row {number + 1}")
        page.sheet.put(page.row, 5, value=unit, look="unit")
        put_input(page, page.row, 6, None, "text", "Note")
        page.row += 1
    page.book.name(block["name"], page.sheet, first, 0, page.row - 1, 4)
