"""How things stand, in words: each row is worked out at every opening of the file."""

from ..sheet.declare import TEXT, Row, block_kind, list_of, needed
from ..sheet.rows import put_live

_ROW = Row("row", "label", {"label": needed(TEXT), "formula": needed(TEXT), "name": TEXT})


@block_kind("state", {"rows": needed(list_of(_ROW))})
def state(page, block):
    """A row for each text, such as the check of the points.

    Where the program does not know the formulas, each row says so in place of its text.
    """
    for row in block["rows"]:
        page.sheet.put(page.row, 0, value=page.filled(row["label"]), look="label")
        put_live(page, page.row, 1, page.filled(row["formula"]).lstrip("="))
        if "name" in row:
            page.book.name(row["name"], page.sheet, page.row, 1, page.row, 1)
        page.row += 1
