"""Results of other sheets beside what moves them, each with its verdict there."""

from ..sheet.declare import QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..sheet.rows import columns_of
from ..texts import units

_ROW = Row("row", "label", {"label": needed(TEXT), "name": needed(TEXT), "kind": needed(QUANTITY)})


@block_kind("panel", {"rows": needed(list_of(_ROW))}, late=True)
def panel(page, block):
    """A row for each named result: its value, its unit, and the verdict where it is judged.

    Those of chapters that the workbook has not are left out.
    """
    first = page.column
    columns_of(page, ["", "now", "unit", "verdict"], fitted=False)
    for row in block["rows"]:
        name, kind = row["name"], row["kind"]
        if name not in page.book.names:
            continue
        page.sheet.put(page.row, first, value=page.filled(row["label"]), look="label")
        page.sheet.put(
            page.row, first + 1, formula="=" + name, look="value",
            number_format=units.format_of(kind, page.system),
        )  # fmt: skip
        unit = units.unit_of(kind, page.system)
        page.sheet.put(page.row, first + 2, value=unit, look="unit")
        judged = page.columns.get("{verdict:%s}" % name)
        said = {"formula": "=" + judged} if judged else {}
        page.sheet.put(page.row, first + 3, look="verdict", **said)
        page.sheet.verdicts.append((page.row, first + 1, page.row, first + 3))
        page.row += 1
