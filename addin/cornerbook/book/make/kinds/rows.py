"""A table of yellow cells: rows of the scenario's, and blank ones below them."""

from ..sheet.declare import NUMBER, QUANTITY, TEXT, Row, block_kind, count_of, list_of, needed
from ..sheet.rows import given_rows, heads_of, put_input, put_own_input
from ..sheet.tables import Table, keep_table

_COLUMN = Row(
    "column",
    "title",
    {"title": needed(TEXT), "kind": needed(QUANTITY), "least": NUMBER, "most": NUMBER},
)


@block_kind(
    "rows",
    {
        "name": needed(TEXT), "from": TEXT, "count": needed(count_of(200)),
        "columns": needed(list_of(_COLUMN)),
    },
)  # fmt: skip
def rows(page, block):
    """A named range of yellow cells, a column for each kind of number or text.

    from: the key of the scenario that has the rows, as lists; without it all are blank.
    """
    columns, count = block["columns"], int(block["count"])
    kinds = tuple(column["kind"] for column in columns)
    given = [[None] * len(kinds)] * count
    if "from" in block:
        given = given_rows(page, block["from"], kinds, count)
    titles = [page.filled(column["title"]) for column in columns]
    head = heads_of(page, titles, kinds)
    first = page.row
    for number, row in enumerate(given):
        for place, (value, column) in enumerate(zip(row, columns, strict=True)):
            kind, label = column["kind"], titles[place]
            limits = column.get("least"), column.get("most")
            if "from" in block:
                path, part = block["from"].split("."), (number, place)
                put_input(page, page.row, place, value, kind, label, path, part, *limits)
            else:
                words = f"{block['name']} {number + 1}: {label}"
                put_own_input(page, page.row, place, value, kind, label, words, None, *limits)
        page.row += 1
    last = page.row - 1
    page.book.name(block["name"], page.sheet, first, 0, last, len(kinds) - 1)
    keep_table(page, block["name"], Table(page.sheet, head, first, last, titles, list(kinds)))
