"""Pictures made of cells: points in the order in which a line joins them, and a view of them."""

import math

from ...file.address import cell_name
from ..sheet.declare import LIST, NUMBER, TEXT, TRUTH, block_kind, list_of, needed
from ..sheet.model import Chart
from ..sheet.rows import columns_of
from ..sheet.tables import Table
from ..texts import units
from ..texts.text_files import number_wrong

MARGIN = 0.1
"""Share of a drawing's width and height that is left free on every side of the plot."""

STEPS = {"mm": (100.0, 200.0, 500.0), "in": (5.0, 10.0, 20.0)}
"""How far apart the lines of a drawing's grid may be. An axis ends at such lines."""

LINES = 9
"""How many of them an axis has at most, if a step allows it."""

SLIMMEST = 10
"""How much longer one side of a drawing may be than the other."""


def _check_points(block, trouble):
    if not any(block["points"]):
        raise trouble("an outline has one point at least", "points")


@block_kind(
    "outline",
    {
        "name": needed(TEXT), "corner": needed(TEXT), "points": needed(list_of(TEXT)),
        "pose": needed(TEXT),
    },
    check=_check_points,
)  # fmt: skip
def outline(page, block):
    """Points in the order in which a line joins them; an empty name lifts the pen.

    Names are those of VIEW_POINT. Columns: the name, then x, y, z in the road's axes.
    """
    columns_of(page, ["point", "x", "y", "z"])
    first = page.row
    for name in block["points"]:
        page.sheet.put(page.row, 0, value=name or None, look="fixed")
        for column, axis in enumerate("xyz", 1):
            if name:
                page.sheet.put(
                    page.row, column, look="table",
                    number_format=units.format_of("length", page.system),
                    formula='=CORNER.VIEW_POINT(%s,%s,"%s",%s)'
                    % (block["corner"], "$" + cell_name(page.row, 0), axis, block["pose"]),
                )  # fmt: skip
        page.row += 1
    kinds = ["text", "length", "length", "length"]
    table = Table(page.sheet, first - 1, first, page.row - 1, ["point", *"xyz"], kinds)
    page.tables[block["name"]] = table
    page.sheet.verdicts.append((first, 1, page.row - 1, 3))


def _check_view(block, trouble):
    if not block["tables"]:
        raise trouble("a drawing shows one table at least", "tables")
    for key in ("range_across", "range_up"):
        ends = block[key]
        if len(ends) != 2 or any(map(number_wrong, ends)) or ends[0] >= ends[1]:
            raise trouble(
                f"{key} is no range; two numbers were expected, the smaller first: [low, high]", key
            )
    wide, high = (block[key][1] - block[key][0] for key in ("range_across", "range_up"))
    if not wide / SLIMMEST <= high <= wide * SLIMMEST:
        raise trouble(
            f"one range is more than {SLIMMEST} times the other; a drawing to scale has one shape",
            "range_up",
        )


@block_kind(
    "drawing",
    {
        "title": needed(TEXT), "tables": needed(list_of(TEXT)), "across": needed(TEXT),
        "up": needed(TEXT), "range_across": needed(LIST), "range_up": needed(LIST),
        "width": NUMBER, "height": NUMBER, "across_of": TEXT, "up_of": TEXT, "if_there": TRUTH,
    },
    check=_check_view,
)  # fmt: skip
def drawing(page, block):
    """A view to scale: lines of tables above, across and up being two of x, y and z.

    across_of, up_of: lengths of the scenario of which that range is given in parts, so that a
    larger car has a larger picture. width, height: in pixels, as wide as that unless it were
    higher than that. if_there: leave it out where a table is not in the workbook.
    """
    lines = []
    if block.get("if_there") and any(name not in page.tables for name in block["tables"]):
        return
    across, up = block["across"], block["up"]
    for name in block["tables"]:
        table = page.tables.get(name)
        if table is None:
            raise page.trouble(f'there is no table "{name}" above', "tables")
        for title in (across, up):
            if title not in table.titles:
                raise page.trouble(f'the table "{name}" has no column "{title}"', title)
        x, y = table.titles.index(across), table.titles.index(up)
        sheet = table.sheet.name
        lines.append(
            (name, (sheet, table.first, y, table.last), (sheet, table.first, x, table.last))
        )
    ends = [
        *_range(page, block, "range_across", "across_of"),
        *_range(page, block, "range_up", "up_of"),
    ]
    # The plot's own area has the shape of the range, and the chart, with the same share free on
    # every side: so it is to scale.
    shape = (ends[3] - ends[2]) / (ends[1] - ends[0])
    width = int(min(block.get("width", 720), block.get("height", math.inf) / shape))
    height = round(width * shape)
    unit = units.unit_of("length", page.system)
    chart = Chart(
        f"{page.filled(block['title'])} ({unit})", (page.row, page.column), (width, height),
        lines[0][2], lines, "", "", ends,
        grid=[step_of(ends[:2], page.system), step_of(ends[2:], page.system)],
    )  # fmt: skip
    page.sheet.charts.append(chart)
    page.row += chart.rows


def _range(page, block, ends, part_of):
    """The two ends of a range in the workbook's lengths, widened to lines of the grid."""
    if part_of in block:
        whole = page.scenario.value(block[part_of], "length", page.system)
        found = [float(end) * whole for end in block[ends]]
    else:
        found = [units.converted(float(end), "length", "mm", page.system) for end in block[ends]]
    step = step_of(found, page.system)
    return [math.floor(found[0] / step) * step, math.ceil(found[1] / step) * step]


def step_of(ends, system):
    """How far apart the lines of the grid are over a range, in the workbook's lengths."""
    steps = STEPS[system]
    return next((step for step in steps if ends[1] - ends[0] <= LINES * step), steps[-1])
