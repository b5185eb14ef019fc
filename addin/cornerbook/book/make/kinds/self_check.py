"""The self-check: every formula's example, computed, beside its check value."""

from ....catalogue import FORMULAS
from ....cells.example import EXAMPLE, NAME, TABLES
from ...file.address import cell_name
from ..sheet.declare import block_kind
from ..sheet.rows import columns_of, keep_heads_in_sight, put_live

# A result agrees with its check value within this part of it.
AGREES = "0.000000001"


@block_kind("self check", {})
def self_check(page, block):
    """Every formula's example, computed and compared with its check value.

    Examples run on a block of their own, locked and in mm, so that they hold whatever
    is typed elsewhere. A table is compared by the sum of its numbers.
    """
    sheet = page.sheet
    total = page.row
    sheet.put(total, 0, value="All in one", look="label")
    page.row += 2
    columns_of(page, ["Formula", "computed", "check value", "verdict"], fitted=False)
    keep_heads_in_sight(page, len(FORMULAS))
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
    put_live(
        page, total, 1,
        f'IF(COUNTIF({verdicts},"agrees")={count},"all {count} formulas agree '
        f'with their check values","look here: "&({count}-COUNTIF({verdicts},"agrees"))&" of '
        f'{count} formulas do not agree")',
    )  # fmt: skip
    page.book.name("SelfCheck", sheet, total, 1, total, 1)
    sheet.verdicts.extend([(first, 3, last, 3), (total, 1, total, 1)])
    page.row += 1
    page.line("The corner on which the examples run (fixed, in mm)", "heading")
    _fixed(page, NAME, EXAMPLE)
    for name, rows in TABLES.items():
        page.row += 1
        page.line(f"{name}, of which examples speak (fixed)", "heading")
        _fixed(page, name, rows)


def _fixed(page, name, rows):
    """Rows of cells that are not to be typed over, as a range of a name."""
    sheet, top = page.sheet, page.row
    for cells in rows:
        for column, cell in enumerate(cells):
            look = "label" if isinstance(cell, str) and column == 0 else "fixed"
            sheet.put(page.row, column, value=None if cell == "" else cell, look=look)
        page.row += 1
    page.book.name(name, sheet, top, 0, page.row - 1, len(rows[0]) - 1)
