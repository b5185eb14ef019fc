"""The quantities of the catalogue that a block asks for by name."""

from ...cells.block import key_of
from ...cells.quantity import name_of, of_axle, quantities
from . import units
from .text_files import nearest


def quantities_of(page, names):
    """(name, kind of unit, whether it is one of the axle) of quantities; `Trouble` for others."""
    known = quantities()
    found = []
    for name in names:
        entry = known.get(key_of(str(name)))
        if entry is None:
            named = [name_of(entry) for entry in known.values()]
            raise page.trouble(
                f'the quantity "{name}" is not known; {nearest(str(name), named)}', str(name)
            )
        found.append((name_of(entry), units.kind_of_unit(entry.unit), of_axle(entry)))
    return found


def hold_axle_keys(page, block, wanted, keys):
    """`Trouble` where a quantity of the axle is wanted and one of these keys is not given."""
    for key in keys:
        if key not in block and any(of_axle for _, _, of_axle in wanted):
            raise page.trouble(f'quantities of the axle need the key "{key}"', "quantities")
