"""A block of wishes, one a row: from, aim and to of a measure, and a word why.

A wish stands here once. Bands beside results, targets and verdicts of other sheets follow it.
"""

from ..sheet.declare import QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..sheet.rows import beside, columns_of, put_wish
from ..texts import units
from ..texts.wish import keys_of_wish

_ROW = Row(
    "row",
    "label",
    {"label": needed(TEXT), "wish": needed(TEXT), "kind": needed(QUANTITY), "why": needed(TEXT)},
)


@block_kind("wishes", {"rows": needed(list_of(_ROW))})
def wishes(page, block):
    """A row for each wish of the scenario: its three yellow cells, blank where it says nothing."""
    columns_of(page, ["", "from", "aim", "to", "unit", "why"])
    for row in block["rows"]:
        kind = row["kind"]
        page.sheet.put(page.row, 0, value=page.filled(row["label"]), look="label")
        put_wish(page, page.row, (1, 2, 3), row["wish"], kind, row["label"])
        page.sheet.put(page.row, 4, value=units.unit_of(kind, page.system), look="unit")
        sources = [page.scenario.source(key) for key in keys_of_wish(row["wish"])]
        why = beside(page.filled(row["why"]), next(filter(None, sources), ""))
        page.sheet.put(page.row, 5, value=why, look="note")
        page.fit(why, "note", 5, 5)
        page.row += 1
