"""A block of yellow cells, one a row, each with its unit and a note."""

from .. import units
from ..declare import ANYTHING, NUMBER, QUANTITY, TEXT, TRUTH, Row, block_kind, list_of, needed
from ..rows import beside, put_input
from ..text_files import kind_name


def _wrong(row):
    """The template's own value is of the row's kind, and the limits are the right way round."""
    wanted = TEXT if row["kind"] == "text" else NUMBER
    if "value" in row and kind_name(row["value"]) != wanted.holds:
        yield "value", "the value", f"is {kind_name(row['value'])}; {wanted.holds} was expected"
    if "least" in row and "most" in row and row["least"] > row["most"]:
        yield "least", "the limits", "are the wrong way round: least is more than most"
    if row.get("blank") and "from" not in row:
        yield "blank", "the word blank", "goes with from: the key that may be left out"


_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "name": TEXT, "from": TEXT, "kind": needed(QUANTITY),
        "note": TEXT, "least": NUMBER, "most": NUMBER, "value": ANYTHING, "formula": TEXT,
        "blank": TRUTH,
    },
    one_of=("from", "value", "formula"),
    check=_wrong,
)  # fmt: skip


@block_kind("inputs", {"rows": needed(list_of(_ROW))})
def inputs(page, block):
    """A yellow cell for each row: from the scenario, or a value of the template's in mm.

    In their place, a formula shows what is to be expected until a number is typed over it.
    blank: whether the scenario may leave it out, and the cell is then empty.
    """
    for row in block["rows"]:
        kind, value = row["kind"], None
        if row.get("blank") and not page.scenario.has(row["from"]):
            value = None
        elif "from" in row:
            value = page.scenario.value(row["from"], kind, page.system)
        elif "value" in row:
            value = row["value"]
            if kind != "text":
                value = units.converted(float(value), kind, "mm", page.system)
        at = page.row
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        put_input(page, at, 1, value, kind, row["label"], row.get("least"), row.get("most"))
        if "formula" in row:
            page.sheet.cells[at, 1].formula = page.filled(row["formula"])
        page.sheet.put(at, 2, value=units.unit_of(kind, page.system), look="unit")
        note = page.filled(row.get("note", ""))
        _note(page, at, 3, beside(note, page.scenario.source(row.get("from", ""))))
        if "name" in row:
            page.book.name(row["name"], page.sheet, at, 1, at, 1)
        page.row += 1


def _note(page, row, column, text):
    cell = page.sheet.put(row, column, value=text, look="note")
    last = page.width - 1
    if last > column:
        cell.span = last
    page.fit(text, "note", column, last)
