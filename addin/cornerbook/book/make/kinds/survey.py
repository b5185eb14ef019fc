"""A block of empty rows for what was measured on the car: tapes, heights, plumbed coordinates."""

from ...file.address import cell_name
from ..sheet.choices import words_of
from ..sheet.declare import NUMBER, TEXT, block_kind, needed
from ..sheet.model import Array
from ..sheet.rows import columns_of, keep_heads_in_sight, put_own_input
from ..texts import units

MOST = 400
"""Rows of such a block."""

_HEAD = ["What", "from", "to", "measured", "how sure", "unit", "as drawn", "measured less drawn",
         "remark", "note"]  # fmt: skip
_KINDS = ["text", "text", "text", "length", "length", "text", "length", "length", "text", "text"]
_CELLS = {
    0: ("What", "text"), 1: ("From", "text"), 2: ("To", "text"), 3: ("Measured", "length"),
    4: ("How sure", "length"), 9: ("Note", "text"),
}  # fmt: skip
"""The yellow cells of a row by their column: what they are called, and of which kind."""

_CHOICES = {0: ("distance", "height", "x", "y"), 1: "points", 2: "points"}
"""The words that those of them offer that hold one."""


@block_kind("survey", {"name": needed(TEXT), "rows": needed(NUMBER), "corner": needed(TEXT)})
def survey(page, block):
    """Rows of what was measured, from which point to which, how much and how surely; empty.

    Beside them what a block of a corner says of each, as it is drawn, and the difference.
    """
    count = block["rows"]
    if count != int(count) or not 1 <= count <= MOST:
        raise page.trouble(f"rows: a whole number from 1 to {MOST} was expected", "rows")
    columns_of(page, _HEAD, kinds=_KINDS)
    keep_heads_in_sight(page, int(count))
    first = page.row
    unit = units.unit_of("length", page.system)
    for number in range(int(count)):
        for column, (title, kind) in _CELLS.items():
            words = f"{title}, row {number + 1}"
            label = title if kind == "text" else words
            put_own_input(
                page, page.row, column, None, kind, label, words,
                choices=words_of(_CHOICES.get(column, ())),
            )  # fmt: skip
        page.sheet.put(page.row, 5, value=unit, look="unit")
        page.row += 1
    asked = ",".join(
        f"{cell_name(first, column, True)}:{cell_name(page.row - 1, column, True)}"
        for column in range(4)
    )
    formula = f"=CORNER.SURVEY_AS_DRAWN({block['corner']},{asked})"
    place = (first, 6, page.row - 1, 8)
    shown = units.format_of("length", page.system)
    page.sheet.put_array(Array(formula, *place, "value", shown))
    for row in range(first, page.row):
        page.sheet.cells[row, 8].look, page.sheet.cells[row, 8].number_format = "note", None
    page.sheet.verdicts.append(place)
    page.book.name(block["name"], page.sheet, first, 0, page.row - 1, 4)
