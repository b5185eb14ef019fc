"""Tables over what runs: quantities of a corner, or columns with formulas of their own."""

from ...file.address import cell_name
from ...formula.rewrite import quoted
from ..sheet.declare import QUANTITY, TEXT, Row, block_kind, count_of, list_of, needed
from ..sheet.quantities import hold_axle_keys, quantities_of
from ..sheet.rows import heads_of, keep_heads_in_sight, shown
from ..sheet.tables import Table, keep_table
from ..texts import units

_RUNS = {
    "start": TEXT, "end": TEXT, "points": count_of(1001), "like": TEXT, "every": count_of(1000),
}  # fmt: skip

_COLUMN = Row(
    "column",
    "title",
    {"title": needed(TEXT), "kind": needed(QUANTITY), "formula": needed(TEXT), "per": TEXT},
)


def _check_runs(block, trouble):
    """What runs is given by its ends and a number of points, or as in another table."""
    ends = {"start", "end", "points"}
    given = ends & set(block)
    if given if "like" in block else given != ends:
        raise trouble("what runs needs start, end and points, or like alone", "over")


@block_kind(
    "table",
    {
        "name": needed(TEXT), "corner": needed(TEXT), "over": needed(TEXT), **_RUNS,
        "held": TEXT, "wheelbase": TEXT, "quantities": needed(list_of(TEXT)),
    },
    check=_check_runs,
)  # fmt: skip
def table(page, block):
    """Quantities of a corner over travel or rack, by name."""
    wanted = quantities_of(page, block["quantities"])
    over = block["over"]
    if over not in ("travel", "rack"):
        raise page.trouble(f'over is "{over}"; travel or rack was expected', "over")
    hold_axle_keys(page, block, wanted, ("wheelbase",))
    titles = [over, *(name for name, _, _ in wanted)]
    kinds = ["length", *(kind for _, kind, _ in wanted)]
    head = heads_of(page, titles, kinds)
    first, running = page.row, _running(page, block)
    keep_heads_in_sight(page, len(running))
    axle = ["," + block["wheelbase"] if of_axle else "" for _, _, of_axle in wanted]
    formula = "=CORNER.AT(%s,%s,%s,%s%s)"
    for row, formula_of_first in enumerate(running, first):
        page.sheet.put(
            row, 0, look="table", number_format=units.format_of("length", page.system),
            formula=formula_of_first,
        )  # fmt: skip
        moved = "$" + cell_name(row, 0)
        held = block.get("held", "0")
        pose = (moved, held) if over == "travel" else (held, moved)
        for column, kind in enumerate(kinds[1:], 1):
            asked = cell_name(head, column).replace(str(head + 1), f"${head + 1}")
            page.sheet.put(
                row, column,
                formula=formula % (block["corner"], asked, *pose, axle[column - 1]),
                look="table", number_format=units.format_of(kind, page.system),
            )  # fmt: skip
    last = first + len(running) - 1
    page.sheet.verdicts.append((first, 0, last, len(kinds) - 1))
    keep_table(page, block["name"], Table(page.sheet, head, first, last, titles, kinds))
    page.row = last + 1


@block_kind(
    "series",
    {
        "name": needed(TEXT), "over": needed(TEXT), "kind_over": needed(QUANTITY), **_RUNS,
        "columns": needed(list_of(_COLUMN)),
    },
    check=_check_runs,
)  # fmt: skip
def series(page, block):
    """A table whose columns have formulas of their own.

    {x} stands for what runs, and the title of an earlier column in braces for its cell. per: how
    many of what a column's formula gives make one of its kind's unit.
    """
    columns = block["columns"]
    titles = [block["over"], *(column["title"] for column in columns)]
    kinds = [block["kind_over"], *(column["kind"] for column in columns)]
    head = heads_of(page, titles, kinds)
    first, running = page.row, _running(page, block)
    keep_heads_in_sight(page, len(running))
    texts = [shown(page, column) for column in columns]
    for row, formula in enumerate(running, first):
        formulas = [formula]
        moved = "$" + cell_name(row, 0)
        words = {"{x}": moved}
        for place, (column, text) in enumerate(zip(columns, texts, strict=True), 1):
            for word, cell in words.items():
                text = text.replace(word, cell)
            formulas.append(text)
            words.setdefault("{%s}" % column["title"], "$" + cell_name(row, place))
        for column, (formula, kind) in enumerate(zip(formulas, kinds, strict=True)):
            page.sheet.put(
                row, column, formula=formula, look="table words" if kind == "text" else "table",
                number_format=units.format_of(kind, page.system),
            )  # fmt: skip
    last = first + len(running) - 1
    page.sheet.verdicts.append((first, 0, last, len(kinds) - 1))
    keep_table(page, block["name"], Table(page.sheet, head, first, last, titles, kinds))
    page.row = last + 1


def _running(page, block):
    """The formulas down the first column of a table: from end to end, or as in another."""
    if "like" in block:
        other = page.tables.get(block["like"])
        if other is None:
            raise page.trouble(f'there is no table "{block["like"]}" above', "like")
        rows = range(other.first, other.last + 1, int(block.get("every", 1)))
        sheet = quoted(other.sheet.name)
        return [f"={sheet}!{cell_name(row, 0, True)}" for row in rows]
    count = int(block["points"])
    if count < 2:
        raise page.trouble("a table has 2 points at least", "points")
    start, end = block["start"], block["end"]
    formulas = [f"={start}+(({end})-({start}))*{i}/{count - 1}" for i in range(count)]
    if start == "-" + end:
        # The upper half is the opposite of the lower one, and is written so.
        for i in range(count // 2):
            formulas[count - 1 - i] = "=-" + cell_name(page.row + i, 0, True)
        if count % 2:
            # Exactly 0, which the steps from one end may miss by a rounding: there the corner
            # stands as drawn, and needs fewer of its points.
            formulas[count // 2] = f"=({start}+{end})/2"
    return formulas
