"""A chart of columns of a table above, beside it or below."""

from ...file.address import cell_name
from ...formula.rewrite import quoted
from ..sheet.choices import span_of_chosen
from ..sheet.declare import NUMBER, TEXT, TRUTH, block_kind, list_of, needed
from ..sheet.model import Chart
from ..sheet.rows import wish_cell
from ..sheet.tables import cells_of
from ..texts import units
from ..texts.wish import name_of_wish

_ANY = '"<1E300"'
"""What SUMIF is to take: every number."""


@block_kind(
    "chart",
    {
        "table": needed(TEXT), "title": needed(TEXT), "quantities": needed(list_of(TEXT)),
        "width": NUMBER, "height": NUMBER, "beside": TRUTH, "x": TEXT,
        "x_name": TEXT, "y_name": TEXT, "bars": TRUTH, "band": TEXT, "less_rest": TRUTH,
        "if_there": TRUTH,
    },
)  # fmt: skip
def chart(page, block):
    """Lines of columns of a table over its first column or another; or bars over one of words.

    band: a wish, whose ends are drawn too; less_rest: it is one for the change from the value in
    the middle of the table, at rest; if_there: leave it out where the wish stands nowhere above.
    The axis of y shows no less than what of its kind matters.

    x_name, y_name: the name of a cell whose text is the axis's title, where that is the user's
    to choose; such an axis shows no unit, which would be that of another choice. That of y is a
    quantity's name.
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
    unit = units.unit_of(table.kinds[x], page.system)
    # A column that is called by its unit, as g is, says of what.
    x_title = f"{table.kinds[x] if across == unit else across} ({unit})" if unit else across
    y_title = units.unit_of(table.kinds[columns[0]], page.system)
    chart = Chart(
        page.filled(block["title"]), at, size,
        (table.sheet.name, table.first, x, table.last),
        [(table.title(c), (table.sheet.name, table.first, c, table.last)) for c in columns],
        _cell(page, block["x_name"]) if "x_name" in block else x_title,
        _cell(page, block["y_name"]) if "y_name" in block else y_title,
        bars=block.get("bars", False),
    )  # fmt: skip
    if not chart.bars:
        least = _least_shown(page, block, table.kinds[columns[0]])
        middle = f"INDEX({{0}},{(table.last - table.first) // 2 + 1})"
        rest = middle if block.get("less_rest") else ""
        band = block.get("band")
        if block.get("if_there") and band and name_of_wish(band) not in page.wishes:
            band = None
        _put_bounds(page, chart, least, band, table.kinds[columns[0]], rest)
    page.sheet.charts.append(chart)
    if beside:
        table.next_chart += chart.rows
        page.row = max(page.row, table.next_chart) - 1
    else:
        page.row += chart.rows


def _least_shown(page, block, kind):
    """How much an axis of y shows at least, as a formula has it; "" where any is much."""
    if "y_name" in block:
        return span_of_chosen(block["y_name"])
    least = units.least_shown(kind, page.system)
    return f"{least:.9g}" if least else ""


def _put_bounds(page, chart, least, wish, kind, rest):
    """Put cells behind a chart that say how far its axes reach, and what is wanted.

    They stand in one column, so that the chart covers them, two for each line's ends. least: as
    `_least_shown` gives it. rest: what the band is about, of the first column's cells {0}; ""
    where it stands by itself.
    """
    over = cells_of(*chart.x)
    ends = [(f"=MIN({over})", f"=MAX({over})")]
    if least:
        ys = [cells_of(*where) for _, where in chart.ys]
        half = f"{least}/2"
        # The mean of what is reached: SUMIF passes over errors.
        count = f"COUNT({','.join(ys)})"
        mean = f"({'+'.join(f'SUMIF({y},{_ANY})' for y in ys)})/{count}"
        ends.append((f"=IF({count}=0,NA(),{mean}-{half})", f"=IF({count}=0,NA(),{mean}+{half})"))
    if wish is not None:
        if name_of_wish(wish) not in page.wishes:
            raise page.trouble(f'the wish "{wish}" stands nowhere above', wish)
        cells = [wish_cell(page, wish, end) for end in ("from", "to")]
        about = "+" + rest.format(cells_of(*chart.ys[0][1])) if rest else ""
        for one, other in (cells, cells[::-1]):
            # Of a band with one end that one is drawn twice; of one with a word there is no line.
            end = f'IF({one}<>"",{one},IF({other}<>"",{other},NA()))'
            end = f"IF(OR(ISTEXT({one}),ISTEXT({other})),NA(),{end})"
            # Where either is no number the line is left out.
            ends.append((f"=IFERROR({end}{about},NA())" if about else f"={end}",) * 2)
    if len(ends) == 1:
        return
    top, column = chart.at[0] + 2, chart.at[1]
    pairs = []
    for number, both in enumerate(ends):
        first = top + 2 * number
        for row, formula in enumerate(both, first):
            page.sheet.put(
                row, column, formula=formula, look="behind",
                number_format=units.format_of(kind, page.system),
            )  # fmt: skip
        pairs.append((page.sheet.name, first, column, first + 1))
    lines = [(pairs[0], pair) for pair in pairs[1:]]
    chart.shown = lines.pop(0) if least else None
    chart.band = lines


def _cell(page, name):
    """The formula for a named cell, as a title takes it."""
    if name not in page.book.names:
        raise page.trouble(f'there is no cell named "{name}" above', name)
    sheet, row, column, _, _ = page.book.names[name]
    return f"={quoted(sheet.name)}!{cell_name(row, column, True)}"
