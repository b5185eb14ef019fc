"""What measures a rule, where it reads a sheet of the user's own."""

from ...file.trouble import some_of
from .reads import MOVED, Reads

NAMED = 8
"""How many cells a sentence names."""


def restore(old, new, own, taken):
    """Give rules their measures back that no scenario could say; sentences on those that read
    other cells now.

    old, new: the `Package`s, the new one with the sheets `own`. taken: the `Taken` of the old one.
    """
    moved, reads = [], Reads(old, new, own)
    for yellow, place, kept in taken.measures:
        if place is None:
            continue
        formula = yellow.content.formula
        lost = reads.lost(formula, yellow.sheet, yellow.address)
        if not kept and own and all(what == MOVED for _, what in lost):
            content = new.cells(place[0]).get(place[1])
            new.set_formula(*place, formula, None if content is None else content.value)
            taken.formulas = [each for each in taken.formulas if each.cell != yellow.cell]
            kept = True
        if kept:
            moved += [f"{yellow.said} ({reference})" for reference, _ in lost]
    if not moved:
        return []
    named = some_of(moved, NAMED)
    return [f"Look at these measures, for another cell stands where they read: {named}."]
