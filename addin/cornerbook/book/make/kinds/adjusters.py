"""A block of adjusters: what a turn of each does, and the turns that bring what is wanted."""

from ...file.address import cell_name
from .. import units
from ..declare import TEXT, block_kind, list_of, needed
from ..model import Array
from ..quantities import hold_axle_keys, quantities_of
from ..rows import columns_of, put_input, put_own_input


@block_kind(
    "adjusters",
    {
        "corner": needed(TEXT), "from": needed(TEXT), "quantities": needed(list_of(TEXT)),
        "rack": TEXT, "wheelbase": TEXT,
    },
)  # fmt: skip
def adjusters(page, block):
    """Named adjusters, what one turn of each does, and how many turns of which are wanted."""
    table = page.scenario.adjusters(block["from"], page.system)
    columns_of(page, ["Adjuster", "what it moves", "dx", "dy", "dz", "unit"])
    first = page.row
    for name, adjuster, way in table:
        path = (block["from"], name)
        put_input(page, page.row, 0, name, "text", "Adjuster", path, "name")
        put_input(page, page.row, 1, adjuster, "text", "What it moves", path, "moves")
        for i, part in enumerate(way):
            put_input(page, page.row, 2 + i, part, "length", f"{name}, d{'xyz'[i]}", path, i)
        page.sheet.put(page.row, 5, value=units.unit_of("length", page.system), look="unit")
        page.row += 1
    page.row += 1
    page.line("What one turn of each does", "heading")
    count = len(table)
    columns_of(page, ["result", *(f"={cell_name(first + i, 0)}" for i in range(count))])
    effects = page.row
    wanted = quantities_of(page, block["quantities"])
    hold_axle_keys(page, block, wanted, ("rack", "wheelbase"))
    for name, _, of_axle in wanted:
        page.sheet.put(page.row, 0, value=name, look="label")
        more = f",0,{block['rack']},{block['wheelbase']}" if of_axle else ""
        for i in range(count):
            cells = ",".join(cell_name(first + i, column, True) for column in range(1, 5))
            page.sheet.put(
                page.row, 1 + i, look="value", number_format="0.0000",
                formula=f'=CORNER.ADJUSTER_EFFECT({block["corner"]},"{name}",{cells},1{more})',
            )  # fmt: skip
        page.row += 1
    last = page.row - 1
    page.sheet.verdicts.append((effects, 1, last, count))
    page.row += 1
    page.line("From what was measured to what is wanted", "heading")
    columns_of(page, ["result", "measured", "wanted", "change"])
    asked = page.row
    for name, kind, _ in wanted:
        page.sheet.put(page.row, 0, value=name, look="label")
        start = f'=CORNER.AT({block["corner"]},"{name}",0,0)'
        shown_as = units.format_of(kind, page.system)
        for column, said in ((1, "measured"), (2, "wanted")):
            put_own_input(page, page.row, column, None, kind, name, f"{name}, {said}", start)
        page.sheet.put(
            page.row, 3, look="value", number_format=shown_as,
            formula=_change(cell_name(page.row, 1), cell_name(page.row, 2)),
        )  # fmt: skip
        page.row += 1
    page.row += 1
    columns_of(page, ["adjuster", "turns"])
    turns = Array(
        "=CORNER.ADJUSTER_TURNS(%s:%s,%s:%s)"
        % (
            cell_name(effects, 1, True), cell_name(last, count, True),
            cell_name(asked, 3, True), cell_name(asked + len(wanted) - 1, 3, True),
        ),
        page.row, 1, page.row + count - 1, 1, "value", "0.00",
    )  # fmt: skip
    for i in range(count):
        page.sheet.put(page.row + i, 0, formula="=" + cell_name(first + i, 0), look="label")
    page.sheet.put_array(turns)
    page.book.name("AdjusterTurns", page.sheet, *turns.place)
    page.row += count


def _change(measured, wanted):
    """Wanted less measured; a sentence in either is passed on."""
    return "=IF(ISNUMBER(%s),IF(ISNUMBER(%s),%s-%s,%s),%s)" % (
        measured, wanted, wanted, measured, wanted, measured,
    )  # fmt: skip
