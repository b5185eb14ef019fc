"""A block of yellow cells, one a row, each with its unit and a note."""

from .. import units
from ..declare import ANYTHING, NUMBER, QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..rows import put_input
from ..text_files import kind_name

_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "name": TEXT, "from": TEXT, "kind": needed(QUANTITY),
        "note": TEXT, "least": NUMBER, "most": NUMBER, "value": ANYTHING,
    },
    one_of=("from", "value"),
)  # fmt: skip


@block_kind("inputs", {"rows": needed(list_of(_ROW))})
def inputs(page, block):
    """A yellow cell for each row: from the scenario, or a value of the template's in mm."""
    for row in block["rows"]:
        kind = row["kind"]
        if "from" in row:
            value = page.scenario.value(row["from"], kind, page.system)
        else:
            value = _own_value(page, row, kind)
        at = page.row
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        put_input(page, at, 1, value, kind, row["label"], row.get("least"), row.get("most"))
        page.sheet.put(at, 2, value=units.unit_of(kind, page.system), look="unit")
        _note(page, at, 3, page.filled(row.get("note", "")))
        if "name" in row:
            page.book.name(row["name"], page.sheet, at, 1, at, 1)
        page.row += 1


def _own_value(page, row, kind):
    """The template's own value of a row, in the workbook's unit."""
    value = row["value"]
    wanted = TEXT if kind == "text" else NUMBER
    if kind_name(value) != wanted.holds:
        raise page.trouble(
            f'the value of the row "{row["label"]}" is {kind_name(value)}; '
            f"{wanted.holds} was expected",
            row["label"],
        )
    return value if kind == "text" else units.converted(float(value), kind, "mm", page.system)


def _note(page, row, column, text):
    cell = page.sheet.put(row, column, value=text, look="note")
    last = page.width - 1
    if last > column:
        cell.span = last
    page.fit(text, "note", column, last)
