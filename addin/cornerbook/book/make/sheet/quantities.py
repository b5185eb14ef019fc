"""The quantities of the catalogue that a block asks for by name."""

from ....cells.block import key_of
from ....cells.quantity import name_of, of_axle, quantities
from ..texts import units
from ..texts.mistakes import hold_all
from ..texts.text_files import nearest


def quantities_of(page, names):
    """(name, kind of unit, whether it is one of the axle) of quantities; `Trouble` for others."""
    known = quantities()
    named = [name_of(entry) for entry in known.values()]
    hold_all(
        page.trouble(f'the quantity "{name}" is not known; {nearest(name, named)}', name)
        for name in names
        if key_of(name) not in known
    )
    entries = [known[key_of(name)] for name in names]
    return [(name_of(e), units.kind_of_unit(e.unit), of_axle(e)) for e in entries]


def hold_axle_keys(page, block, wanted, keys):
    """`Trouble` where a quantity of the axle is wanted and one of these keys is not given."""
    for key in keys:
        if key not in block and any(of_axle for _, _, of_axle in wanted):
            raise page.trouble(f'quantities of the axle need the key "{key}"', "quantities")
