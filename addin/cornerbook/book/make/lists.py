"""Blocks that are made from the catalogue: the self-check page and the function list."""

from ...catalogue import FORMULAS
from ...cells.block import key_of
from ...cells.example import EXAMPLE, NAME
from ...cells.quantity import name_of, of_axle, quantities
from ..file.address import cell_name
from . import units
from .text_files import nearest

# A live result agrees with its check value within this part of it.
AGREES = "0.000000001"


class Table:
    """Where a sweep's table stands, for the charts that show it."""

    def __init__(self, sheet, head, first, last, titles, kinds):
        self.sheet = sheet
        self.first = first
        self.last = last
        self.titles = titles
        self.kinds = kinds
        self.next_chart = head


def quantities_of(page, names):
    """(name, kind of unit, whether it is one of the axle) of quantities; `Trouble` for others."""
    known = quantities()
    found = []
    for name in names:
        entry = known.get(key_of(str(name)))
        if entry is None:
            raise page.trouble(
                (
                    f'the quantity "{name}" is not known; '
                    f"{nearest(str(name), [name_of(e) for e in known.values()])}"
                ),
                str(name),
            )
        found.append((name_of(entry), units.kind_of_unit(entry.unit), of_axle(entry)))
    return found


def self_check(page, block):
    """Every formula's example, computed live and compared with its check value.

    Examples run on a block of their own, locked and in mm, so that they hold whatever
    is typed elsewhere. A table is compared by the sum of its numbers.
    """
    sheet = page.sheet
    total = page.row
    sheet.put(total, 0, value="All in one", look="label")
    page.row += 2
    _head(page, ["Formula", "Live", "Check value", "Verdict"])
    first = page.row
    for formula in FORMULAS.values():
        at = page.row
        live, check = formula.example, formula.check
        if isinstance(check, tuple):
            live = f"=SUMPRODUCT({formula.example[1:]})"
            check = sum(cell for row in check for cell in row if not isinstance(cell, str))
        shown_as = None if isinstance(check, str) else "0.000000000"
        sheet.put(at, 0, value=live[1:], look="code")
        page.fit(live[1:], "code", 0, 0)
        sheet.put(at, 1, formula=live, look="value", number_format=shown_as)
        sheet.put(at, 2, value=check, look="value", number_format=shown_as)
        a, b = cell_name(at, 1), cell_name(at, 2)
        if isinstance(check, str):
            same = f"{a}={b}"
        else:
            same = f"IF(ISNUMBER({a}),ABS({a}-{b})<={AGREES}*MAX(1,ABS({b})),FALSE)"
        sheet.put(at, 3, formula=f'=IF({same},"agrees","look here")', look="verdict")
        page.row += 1
    last = page.row - 1
    verdicts = f"{cell_name(first, 3)}:{cell_name(last, 3)}"
    count = last - first + 1
    sheet.put(
        total,
        1,
        look="said",
        formula=(
            f'=IF(COUNTIF({verdicts},"agrees")={count},"all {count} formulas agree with '
            'their check values",'
            f'"look here: "&({count}-COUNTIF({verdicts},"agrees"))&" of {count} formulas '
            'do not agree")'
        ),
    ).span = page.width - 1
    page.book.name("SelfCheck", sheet, total, 1, total, 1)
    sheet.verdicts.extend([(first, 3, last, 3), (total, 1, total, 1)])
    page.row += 1
    page.line("The corner on which the examples run (fixed, in mm)", "heading")
    top = page.row
    for label, *cells in EXAMPLE:
        sheet.put(page.row, 0, value=label, look="label")
        for column, cell in enumerate(cells, 1):
            sheet.put(page.row, column, value=None if cell == "" else cell, look="fixed")
        page.row += 1
    page.book.name(NAME, sheet, top, 0, page.row - 1, 3)


def formula_list(page, block):
    """Every formula with its help, arguments, source and example."""
    group = None
    _head(page, ["Formula, and an example", "What it gives", "Arguments", "Source"])
    page.sheet.repeat = (page.row - 1, page.row - 1)
    for formula in FORMULAS.values():
        if formula.group != group:
            group = formula.group
            page.line(group, "heading")
        arguments = "\n".join(f"{a.name}: {a.help}" for a in formula.arguments)
        call = f"{formula.signature}\n{formula.example}"
        texts = [call, formula.sentence, arguments, formula.source]
        for column, text in enumerate(texts):
            look = "code" if column == 0 else "note"
            page.sheet.put(page.row, column, value=text, look=look)
            page.fit(text, look, column, column)
        page.row += 1


def _head(page, titles):
    for column, title in enumerate(titles):
        page.sheet.put(
            page.row, column, value=title, look="column first" if column == 0 else "column"
        )
    page.row += 1
