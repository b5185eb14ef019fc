"""A chart of columns of a table above, beside it or below."""

from ...file.address import cell_name
from ...formula.rewrite import quoted
from .. import units
from ..declare import NUMBER, TEXT, TRUTH, block_kind, list_of, needed
from ..model import Chart


@block_kind(
    "chart",
    {
        "table": needed(TEXT), "title": needed(TEXT), "quantities": needed(list_of(TEXT)),
        "width": NUMBER, "height": NUMBER, "beside": TRUTH, "x": TEXT,
        "x_name": TEXT, "y_name": TEXT,
    },
)  # fmt: skip
def chart(page, block):
    """Lines of columns of a table over its first column or another.

    x_name, y_name: the name of a cell whose text is the axis's title, where that is the user's
    to choose; such an axis shows no unit, which would be that of another choice.
    """
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
    at = (table.next_chart, len(table.titles)) if beside else (page.row, page.column)
    x = table.titles.index(across)
    x_title = f"{across} ({units.unit_of(table.kinds[x], page.system)})"
    y_title = units.unit_of(table.kinds[columns[0]], page.system)
    chart = Chart(
        page.filled(block["title"]), at, size,
        (table.sheet.name, table.first, x, table.last),
        [(table.title(c), (table.sheet.name, table.first, c, table.last)) for c in columns],
        _cell(page, block["x_name"]) if "x_name" in block else x_title,
        _cell(page, block["y_name"]) if "y_name" in block else y_title,
    )  # fmt: skip
    page.sheet.charts.append(chart)
    if beside:
        table.next_chart += chart.rows
        page.row = max(page.row, table.next_chart) - 1
    else:
        page.row += chart.rows


def _cell(page, name):
    """The formula for a named cell, as a title takes it."""
    if name not in page.book.names:
        raise page.trouble(f'there is no cell named "{name}" above', name)
    sheet, row, column, _, _ = page.book.names[name]
    return f"={quoted(sheet.name)}!{cell_name(row, column, True)}"
