"""Values that are typed on another sheet, shown here with a link to where they are."""

from ...file.address import cell_name
from ..sheet.declare import QUANTITY, TEXT, Row, block_kind, list_of, needed
from ..sheet.model import Link
from ..texts import units

_ROW = Row("row", "label", {"label": needed(TEXT), "name": needed(TEXT), "kind": needed(QUANTITY)})


@block_kind("elsewhere", {"rows": needed(list_of(_ROW))})
def elsewhere(page, block):
    """A row for each named cell of a sheet above: its value, its unit, and the way to it."""
    for row in block["rows"]:
        place = page.book.names.get(row["name"])
        if place is None:
            raise page.trouble(f'there is no cell named "{row["name"]}" above', row["name"])
        sheet, top, left = place[:3]
        kind = row["kind"]
        page.sheet.put(page.row, 0, value=page.filled(row["label"]), look="label")
        page.sheet.put(
            page.row, 1, formula="=" + row["name"], look="value",
            number_format=units.format_of(kind, page.system),
        )  # fmt: skip
        page.sheet.put(page.row, 2, value=units.unit_of(kind, page.system), look="unit")
        to = Link(sheet.name, cell_name(top, left))
        page.sheet.put(page.row, 3, value=f"change it on {sheet.name}", look="link", link=to)
        if page.width > 4:
            page.sheet.cells[page.row, 3].span = min(page.width - 1, 6)
        page.row += 1
