"""The results that are wanted: what each is to come to, and what it is now."""

from ....cells.mend import is_number
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ..recalculate import Unknown
from .asked import as_number, parted


class Target:
    """A result and the number that it is to come to. words: the cell in words."""

    def __init__(self, cell, words, number):
        self.cell = cell
        self.words = words
        self.number = number


def targets_asked(book, make):
    """The `Target`s. book: a `Recalculation`. make: "cell=value" texts."""
    found = {}
    for text in make:
        name, value = parted(text, "a cell and a number, as in Trail=22.5,")
        number = as_number(value, text)
        cell = book.find(name)
        content = book.content(cell)
        if content is None or (content.formula is None and content.in_array is None):
            raise Trouble(
                f"{book.said(cell)} holds no formula, so no input moves it; give a result"
            )
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given two targets")
        found[cell] = Target(cell, book.said(cell), number)
    if not found:
        raise Trouble("no target is given; say what is wanted, as in --make Trail=22.5")
    return list(found.values())


def numbers_now(values, targets):
    """The results' values as floats; raises `Trouble` for one that is no number."""
    for value, target in zip(values, targets, strict=True):
        if isinstance(value, Unknown):
            raise Trouble(f"{target.words} cannot be worked out here: {value.why}")
        if isinstance(value, CellError):
            raise Trouble(f"{target.words} is no number now; it shows {value.code}")
        if not is_number(value):
            shown = "nothing" if value is None else f'"{value}"'
            raise Trouble(f"{target.words} is no number now; it shows {shown}")
    return [float(v) for v in values]
