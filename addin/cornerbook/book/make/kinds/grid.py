"""A block that one formula fills, such as a two-way table."""

from ..sheet.declare import QUANTITY, TEXT, TRUTH, block_kind, count_of, needed
from ..sheet.model import Array
from ..sheet.tables import Table
from ..texts import units


@block_kind(
    "grid",
    {
        "name": TEXT, "formula": needed(TEXT), "rows": needed(count_of(1000)),
        "columns": needed(count_of(100)), "unit": needed(QUANTITY), "heat": TRUTH,
    },
)  # fmt: skip
def grid(page, block):
    """One formula that fills a range of cells, such as a two-way table."""
    formula = page.filled(block["formula"])
    rows, columns = int(block["rows"]), int(block["columns"])
    shown_as = units.format_of(block["unit"], page.system)
    array = Array(formula, page.row, 0, page.row + rows - 1, columns - 1, "value", shown_as)
    page.sheet.put_array(array)
    if "name" in block:
        page.book.name(block["name"], page.sheet, *array.place)
    if block.get("heat"):
        page.sheet.heats.append((page.row + 1, 1, page.row + rows - 1, columns - 1))
    titles = ["row"] + [str(i) for i in range(1, columns)]
    kinds = [block["unit"]] * columns
    table = Table(page.sheet, page.row, page.row + 1, page.row + rows - 1, titles, kinds, True)
    page.tables[block.get("name", "grid")] = table
    page.row += rows
