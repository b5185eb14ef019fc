"""Every verdict of a workbook in one list, what is worst, and a map of its sheets."""

from ...file.address import cell_name
from ..sheet.declare import block_kind
from ..sheet.judged import OUTSIDE, SWAPPED, UNKNOWN, WITHIN
from ..sheet.model import Link
from ..sheet.rows import columns_of
from ..texts import units

_LABEL, _VALUE, _UNIT, _LOW, _HIGH, _VERDICT, _OFF, _SHEET = range(8)

WORST = 3
"""How many of the results that are farthest off are named first."""


@block_kind("verdicts", {}, late=True)
def verdicts(page, block):
    """How many results are within what is wanted, the worst of the others, and all of them.

    How far one is off is told in widths of its band, or in parts of its only limit, so that
    lengths and angles can be ranked together.
    """
    sheet, judged = page.sheet, page.judged
    top = page.row
    page.row += 1
    if not judged:
        sheet.put(top, 0, value="No result of this workbook is judged.", look="text")
        return
    heads = ["Farthest off, in widths of the band", "now", "unit", "from", "to", "", "off by", ""]
    columns_of(page, heads, fitted=False)
    page.row += WORST + 1
    columns_of(page, ["Every verdict", "now", "unit", "from", "to", "verdict", "off by", "sheet"])
    first, last = page.row, page.row + len(judged) - 1
    # Each page on paper begins with the head, so what stands beside begins below it.
    sheet.repeat, page.top = (first - 1, first - 1), first
    # Rows for rules that are still to be typed come last, as blank lines.
    for result in sorted(judged, key=_is_blank):
        _verdict(page, result)
    sheet.verdicts.append((first, _VERDICT, last, _VERDICT))
    sheet.listed = (first, last)
    _summary(page, top)


def _is_blank(result):
    """Whether it is of a row that its user has not filled in."""
    return result.label.startswith("=") and not result.said


def _verdict(page, result):
    sheet, row = page.sheet, page.row
    shown_as = units.format_of(result.kind, page.system)
    typed = result.label.startswith("=")
    blank = _is_blank(result)
    value_look = "open" if blank else "value"
    said = {"formula" if typed else "value": result.label}
    sheet.put(row, _LABEL, look="open words" if blank else "label", **said)
    for column, what in ((_VALUE, "value"), (_LOW, "low"), (_HIGH, "high")):
        cell = result.cell(what)
        may_lack = typed or what != "value"
        formula = f'=IF({cell}="","",{cell})' if may_lack else f"={cell}"
        sheet.put(row, column, formula=formula, look=value_look, number_format=shown_as)
    sheet.put(row, _UNIT, value=result.unit, look="open words" if blank else "unit")
    said = result.cell("verdict")
    shown = f'=IF({said}="","",{said})' if typed else f"={said}"
    sheet.put(row, _VERDICT, formula=shown, look="open" if blank else "verdict")
    value, low, high, said = (cell_name(row, c) for c in (_VALUE, _LOW, _HIGH, _VERDICT))
    both = f"AND(ISNUMBER({low}),ISNUMBER({high}))"
    beyond = f'MAX(IF({low}="",0,{low}-{value}),IF({high}="",0,{value}-{high}))'
    width = f'IF({both},{high}-{low},ABS(IF({low}="",{high},{low})))'
    # A wish for one value alone, or for nought, has no width to be off by.
    off = f'=IF({said}="{OUTSIDE}",{beyond}/IF({width}>0,{width},1),"")'
    sheet.put(row, _OFF, formula=off, look=value_look, number_format="0.00")
    if blank:
        label, name = cell_name(row, _LABEL), result.sheet.name.replace('"', '""')
        sheet.put(row, _SHEET, formula=f'=IF({label}="","","{name}")', look="open words")
    else:
        to = Link(result.sheet.name, cell_name(result.row, 0))
        sheet.put(row, _SHEET, value=result.sheet.name, look="link", link=to)
    page.row += 1


def _run(rows, column):
    """A column of the list of verdicts, as a formula of its sheet has it."""
    first, last = rows
    return f"{cell_name(first, column, True)}:{cell_name(last, column, True)}"


def _summary(page, top):
    sheet = page.sheet

    def run(column):
        return _run(sheet.listed, column)

    def count(said):
        return f'COUNTIF({run(_VERDICT)},"{said}")'

    all_ = "+".join(count(said) for said in (WITHIN, OUTSIDE, UNKNOWN, SWAPPED))
    more = "".join(
        f'&IF({count(said)}>0,", "&{count(said)}&" {words}","")'
        for said, words in ((UNKNOWN, "not known"), (SWAPPED, "with from above to"))
    )
    formula = f'={count(WITHIN)}&" of "&({all_})&" within what is wanted"{more}'
    sheet.put(top, 0, formula=formula, look="heading").span = _SHEET
    sheet.heights[top] = 20
    for rank in range(1, WORST + 1):
        row = top + 1 + rank
        place = f"MATCH(LARGE({run(_OFF)},{rank}),{run(_OFF)},0)"
        for column in (_LABEL, _VALUE, _UNIT, _LOW, _HIGH, _VERDICT, _OFF, _SHEET):
            # Two that are off alike would both show the first; the list below has them all.
            shown = f"INDEX({run(column)},{place})"
            if column == _UNIT:
                # Of a blank cell, nothing rather than 0.
                shown = f'{shown}&""'
            if column in (_VALUE, _LOW, _HIGH):
                # Of any kind of quantity, so without a format of its own: four digits of it.
                digits = f"3-INT(LOG10(MAX(ABS({shown}),0.000001)))"
                shown = f"IF(ISNUMBER({shown}),ROUND({shown},{digits}),{shown})"
            look = {_LABEL: "label", _UNIT: "unit", _SHEET: "unit"}.get(column, "value")
            sheet.put(
                row, column, look="verdict" if column == _VERDICT else look,
                formula=f'=IF(COUNT({run(_OFF)})<{rank},"",{shown})',
                number_format="0.00" if column == _OFF else None,
            )  # fmt: skip
        sheet.verdicts.append((row, _VERDICT, row, _VERDICT))


@block_kind("map", {}, late=True)
def sheets(page, block):
    """Every sheet in its group: the way to it, what it answers, and how its verdicts stand."""
    page.sheet.maps = True
    judged = [result.sheet for result in page.judged]
    columns_of(page, ["Sheet", "within"], fitted=False)
    last = page.width - 1
    page.sheet.put(page.row - 1, 2, value="what it answers", look="column unit").span = last
    group = None
    for sheet in page.book.sheets:
        if sheet is page.sheet:
            continue
        if sheet.group != group:
            group = sheet.group
            title = (group or "sheets of your own").capitalize()
            page.line(title, "label")
        to = Link(sheet.name)
        page.sheet.put(page.row, _LABEL, value=sheet.name, look="link", link=to)
        if sheet in judged and page.sheet.listed is not None:
            sheets, said = (_run(page.sheet.listed, column) for column in (_SHEET, _VERDICT))
            name = sheet.name.replace('"', '""')
            page.sheet.put(
                page.row, 1, look="value",
                formula=f'=COUNTIFS({sheets},"{name}",{said},"{WITHIN}")&" of "&'
                f'(COUNTIF({sheets},"{name}")-COUNTIFS({sheets},"{name}",{said},""))',
            )  # fmt: skip
        page.sheet.put(page.row, 2, value=page.filled(sheet.about), look="note").span = last
        page.fit(sheet.about, "note", 2, last)
        page.row += 1
