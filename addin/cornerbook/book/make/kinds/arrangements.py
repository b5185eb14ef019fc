"""Arrangements of a table of parts side by side: where each part stands, blank cells inherit."""

from ...file.address import cell_name
from ...formula.rewrite import quoted
from ..sheet.declare import TEXT, block_kind, count_of, needed
from ..sheet.rows import columns_of, put_input
from ..texts import units

LETTERS = "ABCDEF"

_AXES = "xyz"
_FIRST = 2
"""The column of a part's x in its table: after its name and mass."""


@block_kind(
    "arrangements",
    {"parts": needed(TEXT), "from": needed(TEXT), "count": needed(count_of(len(LETTERS)))},
)
def arrangements(page, block):
    """For each part and arrangement a yellow x, y and z, which stand in place of the part's own.

    The scenario has rows of a part's name and x, y, z of each arrangement; where several parts
    have one name, the first such row is of the first of them. Below, each is worked out as a table
    of parts, Parts_A and so on for parts = "Parts".
    """
    name, count = block["parts"], int(block["count"])
    if name not in page.book.names:
        raise page.trouble(f'there is no table of parts named "{name}" above', name)
    sheet, top, left, bottom, right = page.book.names[name]
    given = _given(page, block, count, [sheet.cells[row, left] for row in range(top, bottom + 1)])
    heads = [f"{letter}: {axis}" for letter in LETTERS[:count] for axis in _AXES]
    columns_of(page, ["Leave blank what is as on the sheet " + sheet.name, *heads])
    there = quoted(sheet.name)
    first, path = page.row, block["from"].split(".")
    for row in range(top, bottom + 1):
        base = f"{there}!{cell_name(row, left, True)}"
        page.sheet.put(page.row, 0, formula=f'=IF({base}="","",{base})', look="label")
        places = given.get(row - top, [None] * (3 * count))
        for place, value in enumerate(places):
            part = (row - top, 1 + place)
            put_input(page, page.row, 1 + place, value, "length", heads[place], path, part)
        page.row += 1
    for number in range(count):
        page.row += 1
        page.line(f"{LETTERS[number]}, worked out (locked)", "aside")
        start = page.row
        for row in range(top, bottom + 1):
            for column in range(left, right + 1):
                base = f"{there}!{cell_name(row, column, True)}"
                formula = f'IF({base}="","",{base})'
                axis = column - left - _FIRST
                if 0 <= axis < len(_AXES):
                    own = cell_name(first + row - top, 1 + 3 * number + axis, True)
                    formula = f'IF({own}="",{formula},{own})'
                page.sheet.put(
                    page.row, column - left, formula="=" + formula, look="fixed",
                    number_format=units.format_of("length", page.system),
                )  # fmt: skip
            page.row += 1
        named = f"{name}_{LETTERS[number]}"
        page.book.name(named, page.sheet, start, 0, page.row - 1, right - left)


def _given(page, block, count, cells):
    """{row of the parts, from 0: x, y, z of each arrangement}, by the parts' names."""
    rows = page.scenario.rows(block["from"], ("text", *["length"] * (3 * count)), page.system)
    left: dict = {}
    for number, cell in enumerate(cells):
        left.setdefault(cell.value or "", []).append(number)
    found = {}
    for part, *places in rows:
        part = part or ""
        if part not in left:
            raise page.trouble(f'{block["from"]}: there is no part named "{part}"', block["from"])
        if not left[part]:
            raise page.trouble(
                f'{block["from"]}: there are more rows of "{part}" than parts of that name',
                block["from"],
            )
        found[left[part].pop(0)] = places
    return found
