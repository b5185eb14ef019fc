"""A chart of columns of a table above, beside it or below."""

from .. import units
from ..declare import NUMBER, TEXT, TRUTH, block_kind, list_of, needed
from ..model import Chart


@block_kind(
    "chart",
    {
        "table": needed(TEXT), "title": needed(TEXT), "quantities": needed(list_of(TEXT)),
        "width": NUMBER, "height": NUMBER, "beside": TRUTH, "x": TEXT,
    },
)  # fmt: skip
def chart(page, block):
    """Lines of columns of a table over its first column or another."""
    table = page.tables.get(block["table"])
    if table is None:
        raise page.trouble(f'there is no table "{block["table"]}" above', "table")
    if not block["quantities"]:
        raise page.trouble("a chart shows one column at least", "quantities")
    across = block.get("x", table.titles[0])
    for name in (across, *block["quantities"]):
        if name not in table.titles:
            raise page.trouble(f'the table has no column "{name}"', name)
    columns = [table.titles.index(name) for name in block["quantities"]]
    size = (int(block.get("width", 560)), int(block.get("height", 300)))
    beside = block.get("beside", True) and table.sheet is page.sheet
    at = (table.next_chart, len(table.titles)) if beside else (page.row, 0)
    unit = units.unit_of(table.kinds[columns[0]], page.system)
    x = table.titles.index(across)
    chart = Chart(
        page.filled(block["title"]), at, size,
        (table.sheet.name, table.first, x, table.last),
        [(table.titles[c], (table.sheet.name, table.first, c, table.last)) for c in columns],
        f"{across} ({units.unit_of(table.kinds[x], page.system)})",
        unit,
    )  # fmt: skip
    page.sheet.charts.append(chart)
    if beside:
        table.next_chart += chart.rows
        page.row = max(page.row, table.next_chart) - 1
    else:
        page.row += chart.rows
