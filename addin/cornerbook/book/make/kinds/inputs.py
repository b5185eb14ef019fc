"""A block of yellow cells, one a row, each with its unit and a note."""

from .. import units
from ..declare import ANYTHING, NUMBER, QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..mistakes import hold_all
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


def _check_values(block, trouble):
    """The template's own values are of their rows' kinds, and limits the right way round."""
    hold_all(
        trouble(f'{said} of the row "{row["label"]}" {wrong}', row["label"])
        for row in block["rows"]
        for said, wrong in _wrong(row)
    )


def _wrong(row):
    wanted = TEXT if row["kind"] == "text" else NUMBER
    value = row.get("value")
    if "value" in row and kind_name(value) != wanted.holds:
        yield "the value", f"is {kind_name(value)}; {wanted.holds} was expected"
    if "least" in row and "most" in row and row["least"] > row["most"]:
        yield "the limits", "are the wrong way round: least is more than most"


@block_kind("inputs", {"rows": needed(list_of(_ROW))}, check=_check_values)
def inputs(page, block):
    """A yellow cell for each row: from the scenario, or a value of the template's in mm."""
    for row in block["rows"]:
        kind = row["kind"]
        if "from" in row:
            value = page.scenario.value(row["from"], kind, page.system)
        else:
            value = row["value"]
            if kind != "text":
                value = units.converted(float(value), kind, "mm", page.system)
        at = page.row
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        put_input(page, at, 1, value, kind, row["label"], row.get("least"), row.get("most"))
        page.sheet.put(at, 2, value=units.unit_of(kind, page.system), look="unit")
        _note(page, at, 3, page.filled(row.get("note", "")))
        if "name" in row:
            page.book.name(row["name"], page.sheet, at, 1, at, 1)
        page.row += 1


def _note(page, row, column, text):
    cell = page.sheet.put(row, column, value=text, look="note")
    last = page.width - 1
    if last > column:
        cell.span = last
    page.fit(text, "note", column, last)
