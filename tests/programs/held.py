"""Random cars in a copy's yellow cells, and what programs that compute them differ in."""

import random

from cornerbook.book.plain.share import share

from tests.support.yellow import other_values

# Of lengths of some thousand, solved for in steps and differentiated, a number that ought to be
# nothing keeps this much of their sixteen digits.
NOTHING = 1e-9

MISTYPED = ("52l", None, 0.0, -1.0, "?", 1e6)


def other_car(path, seed, cells=None):
    """Other values for the yellow cells of a workbook or copy; `cells` leaves out the others."""
    return {
        cell: value
        for cell, value in other_values(path, seed).items()
        if not (isinstance(value, str) and value.startswith("="))
        and (cells is None or cell in cells)
    }


def mistake(yellow, seed):
    """(cell, what somebody types there wrongly): a text, nothing, 0, a sign, a digit too many.

    yellow: {cell: value} of a workbook's yellow cells.
    """
    chance = random.Random(seed)
    cell = chance.choice(
        [cell for cell, value in yellow.items() if isinstance(value, (int, float))]
    )
    wrong = chance.choice(MISTYPED)
    return cell, -float(yellow[cell]) if wrong == -1.0 else wrong


def differences(one, other):
    """{cell: (its two values)} where two programs differ: numbers to 1e-9, sentences wholly."""
    return {cell: (one[cell], other[cell]) for cell in one if not _same(one[cell], other[cell])}


def _same(one, other):
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= max(1e-9 * abs(one), NOTHING)
    return one == other


def saved_and_shared(calc, original, folder):
    """A copy of a workbook that Calc has saved. calc: one with the extension."""
    with calc.open(original) as book:
        saved = book.save(folder / "saved.xlsx")
    copy = folder / "copy of saved.xlsx"
    copy.write_bytes(share(saved)[0])
    return copy
