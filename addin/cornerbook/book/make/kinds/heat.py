"""A block of sensitivities: every coordinate of a corner against quantities, coloured."""

from ....cells.block import POINTS
from ..sheet.declare import TEXT, block_kind, list_of, needed
from ..sheet.quantities import hold_axle_keys, quantities_of
from ..sheet.rows import columns_of, keep_heads_in_sight


@block_kind(
    "heat",
    {"corner": needed(TEXT), "quantities": needed(list_of(TEXT)), "rack": TEXT, "wheelbase": TEXT},
)
def heat(page, block):
    """How each coordinate of a corner moves each quantity: a cell each, coloured by size."""
    wanted = quantities_of(page, block["quantities"])
    hold_axle_keys(page, block, wanted, ("rack", "wheelbase"))
    columns_of(page, [page.filled("one {millimetre} at"), *(name for name, _, _ in wanted)])
    first = page.row
    keep_heads_in_sight(page, 3 * len(POINTS))
    for label in POINTS:
        for axis in "xyz":
            page.sheet.put(page.row, 0, value=f"{label} {axis}", look="label")
            for column, (name, _, of_axle) in enumerate(wanted, 1):
                more = f",0,{block['rack']},{block['wheelbase']}" if of_axle else ""
                page.sheet.put(
                    page.row, column, look="table", number_format="0.0000",
                    formula='=CORNER.SENSITIVITY(%s,"%s","%s","%s"%s)'
                    % (block["corner"], name, label, axis, more),
                )  # fmt: skip
            page.row += 1
    for column in range(1, len(wanted) + 1):
        page.sheet.heats.append((first, column, page.row - 1, column))
    page.sheet.verdicts.append((first, 1, page.row - 1, len(wanted)))
