"""A variant of the sheet What-if as rows for the block that it varies."""

import re

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...make.kinds.variants import LETTERS
from ..block import PointBlock

_ASKED = re.compile(r"(?:variant)?[\s_-]*([a-z])", re.IGNORECASE)


def letter_of(asked):
    """ "B" for a text such as "Variant-B", "variant_b" or "B"; None for any other."""
    found = _ASKED.fullmatch(asked.strip())
    return found[1].upper() if found and found[1].upper() in LETTERS else None


def block_of_variant(package, letter, unit):
    """The `PointBlock` of a variant: each cell its own where it is typed, else the corner's.

    unit: of the lengths of the corner that it varies. Raises `Trouble` where there is none.
    """
    name = f"Variant_{letter}"
    there = {each.lower(): each for each, scope, _ in package.names if scope is None}
    if name.lower() not in there:
        known = [f"Variant-{each}" for each in LETTERS if f"variant_{each.lower()}" in there]
        hint = f"its variants are {', '.join(known)}" if known else "it has no variants"
        raise Trouble(f"the workbook has no Variant-{letter}; {hint}")
    return PointBlock(package, there[name.lower()], unit)


def typed_besides(block, letter):
    """(label, value) of what is typed for a variant beside its points, such as a wheelbase.

    block: its `PointBlock`. The cells to type into stand above it on its sheet, below the first
    heading "B: x".
    """
    cells = block.values.cells[block.sheet]
    heads = sorted(
        block.values.trees.at((block.sheet, address))[1:]
        for address, content in cells.items()
        if content.value == f"{letter}: x"
    )
    if not heads:
        return []
    row, column = heads[0]
    keys = {row.name.lower() for row in block.rows}
    found = []
    while True:
        row += 1
        label = cells.get(cell_name(row, block.left))
        if label is None or not isinstance(label.value, str):
            return found
        value = block.values.at(block.sheet, cell_name(row, column))
        if label.value.strip().lower() not in keys and value not in (None, ""):
            found.append((label.value.strip(), value))
