"""Rules and intents in the user's own words: what measures each, from, to, and the verdict."""

from ...file.address import cell_name
from ...formula.rewrite import quoted
from .. import units
from ..declare import TEXT, TRUTH, block_kind, count_of, needed
from ..judged import WITHIN, Judged, verdict
from ..rows import columns_of, put_input
from ..text_files import nearest

_TEXT, _MEASURE, _UNIT, _LOW, _HIGH, _VERDICT, _WEIGHT, _REMARK = range(8)

_KINDS = ("text", "text", "text", "ratio", "ratio", "ratio", "text")
"""Of a scenario's rows: words, measure, kind of quantity, from, to, weight, remark."""


@block_kind("rules", {"from": needed(TEXT), "count": needed(count_of(60)), "weighs": TRUTH})
def rules(page, block):
    """A row for each rule: its words, a cell that measures it, from and to, verdict, a remark.

    The measure is a formula such as =Wheelbase, or any cell of the workbook. weighs: whether
    each has a weight, of which a line below adds up what is met.
    """
    weighs = block.get("weighs", False)
    heads = ["in your own words", "measured by", "unit", "from", "to", "verdict"]
    columns_of(page, [*heads, "weight" if weighs else "", "remark"])
    first, count = page.row, int(block["count"])
    given = page.scenario.rows(block["from"], _KINDS, page.system)
    if len(given) > count:
        raise page.trouble(
            f"{block['from']} has {len(given)} rows; the block has room for {count}", "count"
        )
    for row in given + [[None] * len(_KINDS)] * (count - len(given)):
        _rule(page, block, row, weighs)
        page.row += 1
    if weighs:
        _sum(page, first, page.row - 1)


def _rule(page, block, row, weighs):
    words, measure, kind, low, high, weight, remark = row
    at, kind = page.row, kind or "ratio"
    if kind not in units.KINDS:
        said = f'{block["from"]}: the kind "{kind}" is not known; {nearest(kind, units.KINDS)}'
        raise page.trouble(said, block["from"])
    unit = units.unit_of(kind, page.system)
    put_input(page, at, _TEXT, words, "text", "In your own words")
    shown_as = units.format_of(kind, page.system) if measure else "General"
    formula = measure and "=" + measure.lstrip("=")
    page.sheet.put(at, _MEASURE, formula=formula, look="input", number_format=shown_as)
    for column, value, label in ((_LOW, low, "From"), (_HIGH, high, "To")):
        if value is not None:
            value = units.converted(value, kind, page.scenario.unit, page.system)
        put_input(page, at, column, value, kind, label)
    put_input(page, at, _UNIT, unit or None, "text", "Unit")
    cells = [cell_name(at, column) for column in (_MEASURE, _LOW, _HIGH)]
    page.sheet.put(at, _VERDICT, formula=verdict(*cells), look="verdict")
    page.sheet.verdicts.append((at, _VERDICT, at, _VERDICT))
    if weighs:
        put_input(page, at, _WEIGHT, weight, "ratio", "Weight", 0)
    put_input(page, at, _REMARK, remark, "text", "Remark")
    own = f"{quoted(page.sheet.name)}!{cell_name(at, _TEXT, True)}"
    label = f'=IF({own}="","",{own})'
    page.judged.append(
        Judged(page.sheet, at, _MEASURE, _LOW, _HIGH, _VERDICT, label, kind, unit, words or "")
    )


def _sum(page, first, last):
    """The weight of what is met, of all that is judged."""
    said, weight = (
        f"{cell_name(first, column)}:{cell_name(last, column)}" for column in (_VERDICT, _WEIGHT)
    )
    page.sheet.put(page.row, _TEXT, value="Weight of what is met, of all", look="label")
    page.sheet.put(
        page.row, _MEASURE, look="value",
        formula=f'=SUMIF({said},"{WITHIN}",{weight})&" of "&SUM({weight})',
    )  # fmt: skip
    page.row += 1
