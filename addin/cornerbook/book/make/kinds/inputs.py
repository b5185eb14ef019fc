"""A block of yellow cells, one a row, each with its unit and a note."""

from ..sheet.choices import LISTS, words_of
from ..sheet.declare import (
    ANYTHING,
    NUMBER,
    QUANTITY,
    TEXT,
    TRUTH,
    Row,
    block_kind,
    list_of,
    needed,
)
from ..sheet.rows import beside, put_input, put_own_input
from ..texts import units
from ..texts.text_files import kind_name, nearest

CORNER = "corner"
"""The table of a scenario that holds the corners."""


def _wrong(row):
    """The template's own value is of the row's kind, and the limits are the right way round."""
    wanted = TEXT if row["kind"] == "text" else NUMBER
    if "value" in row and kind_name(row["value"]) != wanted.holds:
        yield "value", "the value", f"is {kind_name(row['value'])}; {wanted.holds} was expected"
    if "least" in row and "most" in row and row["least"] > row["most"]:
        yield "least", "the limits", "are the wrong way round: least is more than most"
    choices = row.get("choices", [])
    if isinstance(choices, str):
        if choices not in LISTS:
            yield "choices", "the choices", f"are no list of words; {nearest(choices, LISTS)}"
    elif not isinstance(choices, list) or not all(isinstance(word, str) for word in choices):
        yield "choices", "the choices", "are words in square brackets, or the name of a list"
    if row.get("blank") and "from" not in row:
        yield "blank", "the word blank", "goes with from: the key that may be left out"


_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT), "name": TEXT, "from": TEXT, "kind": needed(QUANTITY),
        "note": TEXT, "least": NUMBER, "most": NUMBER, "value": ANYTHING, "formula": TEXT,
        "blank": TRUTH, "choices": ANYTHING,
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
        kind = row["kind"]
        at = page.row
        rule = row.get("least"), row.get("most"), words_of(row.get("choices", ()))
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        value = _value(page, row)
        path = row.get("from", "").split(".")
        if path[0] in ("", CORNER):
            # That of a corner's row is typed there; this cell begins with it and goes its own way.
            words = row.get("name", row["label"])
            formula = page.filled(row["formula"]) if "formula" in row else None
            put_own_input(page, at, 1, value, kind, row["label"], words, formula, *rule)
        else:
            cell = put_input(page, at, 1, value, kind, row["label"], path, None, *rule)
            cell.typed.may_be_blank = bool(row.get("blank"))
        page.sheet.put(at, 2, value=units.unit_of(kind, page.system), look="unit")
        note = page.filled(row.get("note", ""))
        _note(page, at, 3, beside(note, page.scenario.source(row.get("from", ""))))
        if "name" in row:
            page.book.name(row["name"], page.sheet, at, 1, at, 1)
        page.row += 1


def _value(page, row):
    if "formula" in row or (row.get("blank") and not page.scenario.has(row["from"])):
        return None
    if "from" in row:
        return page.scenario.value(row["from"], row["kind"], page.system)
    if row["kind"] == "text":
        return row["value"]
    return units.converted(float(row["value"]), row["kind"], "mm", page.system)


def _note(page, row, column, text):
    cell = page.sheet.put(row, column, value=text, look="note")
    last = page.width - 1
    if last > column:
        cell.span = last
    page.fit(text, "note", column, last)
