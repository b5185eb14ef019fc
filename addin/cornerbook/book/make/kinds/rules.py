"""Rules and intents in the user's own words: what measures each, from, to, and the verdict."""

import re

from ...file.address import cell_name
from ...formula.rewrite import quoted
from ..sheet.declare import TEXT, TRUTH, block_kind, count_of, needed
from ..sheet.judged import WITHIN, Judged, verdict
from ..sheet.model import Typed
from ..sheet.rows import columns_of, given_rows, put_input
from ..texts import units
from ..texts.text_files import nearest

_TEXT, _MEASURE, _UNIT, _LOW, _HIGH, _VERDICT, _WEIGHT, _REMARK = range(8)

_KINDS = ("text", "text", "text", "ratio", "ratio", "ratio", "text", "text")
"""Of a scenario's rows: words, measure, kind of quantity, from, to, weight, remark, and a unit that
is none of ours."""

MEASURE = "measure"
"""Stands for a kind in what such a cell is in a scenario: a formula, a number or a text."""

_NO_WEIGHT = '"# a weight is not a number of 0 or more"'

_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?([eE][+-]?\d+)?")


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
    for number, row in enumerate(given_rows(page, block["from"], _KINDS, count)):
        _rule(page, block, number, row, weighs)
        page.row += 1
    if weighs:
        _sum(page, first, page.row - 1)


def _rule(page, block, number, row, weighs):
    words, measure, kind, low, high, weight, remark, own_unit = row
    at, kind, path = page.row, kind or "ratio", block["from"].split(".")
    if kind not in units.AS_SAID:
        said = f'{block["from"]}: the kind "{kind}" is not known; {nearest(kind, units.AS_SAID)}'
        raise page.trouble(said, block["from"])
    unit = own_unit or units.unit_of(kind, page.system)
    put_input(page, at, _TEXT, words, "text", "In your own words", path, (number, _TEXT))
    shown_as = units.format_of(kind, page.system) if measure else "General"
    measured, formula = _measured(measure)
    measured, low, high = (
        units.converted(value, kind, page.scenario.unit, page.system)
        if isinstance(value, float) else value
        for value in (measured, low, high)
    )  # fmt: skip
    cell = page.sheet.put(at, _MEASURE, value=measured, formula=formula, look="input")
    cell.typed = Typed(path, (number, _MEASURE), MEASURE)
    cell.number_format = shown_as
    for column, value, label in ((_LOW, low, "From"), (_HIGH, high, "To")):
        cell = put_input(page, at, column, value, kind, label, path, (number, column))
        cell.number_format = shown_as
    put_input(page, at, _UNIT, unit or None, "text", "Unit", path, (number, _UNIT))
    cells = [cell_name(at, column) for column in (_MEASURE, _LOW, _HIGH)]
    page.sheet.put(at, _VERDICT, formula=verdict(*cells), look="verdict")
    page.sheet.verdicts.append((at, _VERDICT, at, _VERDICT))
    if weighs:
        put_input(page, at, _WEIGHT, weight, "large ratio", "Weight", path, (number, _WEIGHT), 0)
    put_input(page, at, _REMARK, remark, "text", "Remark", path, (number, _REMARK))
    own = f"{quoted(page.sheet.name)}!{cell_name(at, _TEXT, True)}"
    label = f'=IF({own}="","",{own})'
    page.judged.append(
        Judged(page.sheet, at, _MEASURE, _LOW, _HIGH, _VERDICT, label, kind, unit, words or "")
    )


def _measured(text):
    """(value, formula) of what measures a rule; one of them None."""
    if not text:
        return None, None
    if text.startswith("'"):
        return text[1:] or None, None
    if _NUMBER.fullmatch(text):
        return float(text), None
    return None, text if text.startswith("=") else "=" + text


def measure_text(formula, value):
    """What measures a rule, as a scenario has it, of a cell's formula or value; '' if neither."""
    if formula is not None:
        return formula if formula.startswith("=") else "=" + formula
    if isinstance(value, str):
        return "'" + value
    return "" if value is None else repr(value)


def row_said(cells, system):
    """A row of a scenario, of what stands in a row of rules as a workbook in a unit system has it.

    cells: {column: number or text}, none for a blank cell; a measure as `measure_text` has it.
    """
    unit = cells.get(_UNIT, "")
    kind = next((k for k in units.AS_SAID if unit and units.unit_of(k, system) == unit), "")
    said = {_TEXT: 0, _MEASURE: 1, _LOW: 3, _HIGH: 4, _WEIGHT: 5, _REMARK: 6}
    row = [""] * len(_KINDS)
    for column, place in said.items():
        row[place] = cells.get(column, "")
    row[2], row[7] = (kind, "") if kind else ("", unit)
    return row


def _sum(page, first, last):
    """The weight of what is met, of all that is judged."""
    said, weight = (
        f"{cell_name(first, column)}:{cell_name(last, column)}" for column in (_VERDICT, _WEIGHT)
    )
    page.sheet.put(page.row, _TEXT, value="Weight of what is met, of all", look="label")
    page.sheet.put(
        page.row, _MEASURE, look="value",
        formula=f'=IF(COUNTA({weight})+COUNTIF({weight},"<0")>COUNT({weight}),{_NO_WEIGHT},'
        # Programs write the last digits of a sum in different ways.
        f'ROUND(SUMIF({said},"{WITHIN}",{weight}),3)&" of "&ROUND(SUM({weight}),3))',
    )  # fmt: skip
    page.row += 1
