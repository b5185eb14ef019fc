"""Results by case: a row for each result, a column for each case, and the worst of them."""

from ...file.address import cell_name
from ...formula.rewrite import quoted
from ..sheet.declare import QUANTITY, TEXT, TRUTH, Row, block_kind, list_of, needed
from ..sheet.rows import columns_of, shown
from ..texts import units

_ROW = Row(
    "row",
    "label",
    {
        "label": needed(TEXT),
        "kind": needed(QUANTITY),
        "formula": needed(TEXT),
        "beside": TEXT,
        "per": TEXT,
    },
)

NOT_ALL = "# not every case gives a number; the one that does not says why"


def _check_beside(block, trouble):
    """What stands beside has a title and a kind."""
    if ("beside" in block) != ("kind_beside" in block):
        raise trouble("beside needs kind_beside, and kind_beside needs beside", "beside")


@block_kind(
    "by case",
    {
        "table": needed(TEXT), "rows": needed(list_of(_ROW)), "pull_push": TRUTH,
        "beside": TEXT, "kind_beside": QUANTITY,
    },
    check=_check_beside,
)  # fmt: skip
def by_case(page, block):
    """A row for each result over the cases of a block of cases above, by its name.

    In a formula the title of a column of that block in braces stands for the case's cell, and
    {above} for the cell above. per: how many of what it gives make one of the kind's unit.
    pull_push: numbers show their sign in words and colours, and the worst of each stands behind
    with its case. beside: a title, for a formula of each row that does not depend on the case.
    """
    table = page.tables.get(block["table"])
    if table is None:
        raise page.trouble(f'there is no table "{block["table"]}" above', "table")
    signed = bool(block.get("pull_push"))
    there = quoted(table.sheet.name)
    names = [f"{there}!{cell_name(row, 0, True)}" for row in range(table.first, table.last + 1)]
    worst = ["worst pull", "in", "worst push", "in"] if signed else ["largest", "smallest"]
    beside = [page.filled(block["beside"])] if "beside" in block else []
    columns_of(page, ["", *("=" + name for name in names), "unit", *worst, *beside])
    head = page.row - 1
    page.sheet.heights[head] = max(page.sheet.heights.get(head, 0), 32)
    first, last = 1, len(names)
    start = page.row
    for row in block["rows"]:
        at, kind = page.row, row["kind"]
        page.sheet.put(at, 0, value=page.filled(row["label"]), look="label")
        for column, case in enumerate(range(table.first, table.last + 1), first):
            text = shown(page, row).replace("{above}", cell_name(at - 1, column))
            for place, title in enumerate(table.titles):
                text = text.replace("{%s}" % title, f"{there}!{cell_name(case, place, True)}")
            page.sheet.put(
                at, column, formula=text, look="value", number_format=_shown(page, kind, signed)
            )
        page.sheet.put(at, last + 1, value=units.unit_of(kind, page.system), look="unit")
        _put_worst(page, kind, signed, (head, first, last))
        if "beside" in row:
            page.sheet.put(
                at, last + 2 + len(worst), formula=page.filled(row["beside"]), look="value",
                number_format=units.format_of(block["kind_beside"], page.system),
            )  # fmt: skip
        page.row += 1
    page.sheet.verdicts.append((start, 1, page.row - 1, last + 1 + len(worst) + len(beside)))


def _shown(page, kind, signed):
    """The number format: a pull blue and a push red, each with its word, where that is asked."""
    plain = units.format_of(kind, page.system)
    return f'[Blue]{plain}" pull";[Red]{plain}" push";{plain}' if signed else plain


def _put_worst(page, kind, signed, place):
    """Behind the cases the largest and the smallest number, and in which case each is."""
    head, first, last = place
    at, column = page.row, last + 2
    cells = f"{cell_name(at, first, True)}:{cell_name(at, last, True)}"
    cases = f"{cell_name(head, first, True)}:{cell_name(head, last, True)}"
    for most, none in (("MAX", "<=0"), ("MIN", ">=0")):
        found = f"{most}({cells})"
        shown = f'IF({found}{none},"none",{found})' if signed else found
        page.sheet.put(
            at, column, look="value", number_format=_shown(page, kind, signed),
            formula=f'=IF(COUNT({cells})={last - first + 1},{shown},"{NOT_ALL}")',
        )  # fmt: skip
        column += 1
        if signed:
            here = cell_name(at, column - 1)
            page.sheet.put(
                at, column, look="unit",
                formula=f'=IF(ISNUMBER({here}),INDEX({cases},1,MATCH({here},{cells},0)),"")',
            )  # fmt: skip
            column += 1
