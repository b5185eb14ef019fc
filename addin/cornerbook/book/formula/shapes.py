"""What formulas have in common that differ in nothing but the cells that they name.

A row of a table has the formulas of the row above it, of other cells: read once, such a formula is
known in all its rows but for its addresses. Its shape is its text with a mark in place of each.
"""

import re
from functools import lru_cache

_ADDRESS = re.compile(r"([$A-Z](?<![\w.$].)[A-Z]{0,3}\$?[1-9][0-9]{0,6})(?![\w.(!])", re.DOTALL)
"""An address, or a name like one. What a pattern begins with is found quickly, so what must not
stand before is looked at behind it."""

_FIRST, _LAST = 0xE000, 0xF8FF
_MARKS = re.compile(f"([{chr(_FIRST)}-{chr(_LAST)}])")
"""Letters that mean nothing to anyone: Unicode keeps them free."""

_HOLE = chr(_FIRST)


def parted(text):
    """(the shape of a formula, the addresses in it)."""
    if not text.isascii() and _MARKS.search(text):
        return text, ()
    pieces = _ADDRESS.split(text)
    return _HOLE.join(pieces[::2]), tuple(pieces[1::2])


def numbered(shape):
    """A shape as a text that can be read: with another mark for each address, in their order.

    None if it has more of them than there are marks.
    """
    pieces = shape.split(_HOLE)
    if len(pieces) > _LAST - _FIRST:
        return None
    marked = [piece + chr(_FIRST + place) for place, piece in enumerate(pieces[:-1])]
    return "".join(marked) + pieces[-1]


@lru_cache(maxsize=65_536)
def blank(text):
    """A text of a numbered shape as (a format, the first address that it takes, the one behind the
    last); None if it takes none."""
    pieces = _MARKS.split(text)
    if len(pieces) == 1:
        return None
    first = ord(pieces[1]) - _FIRST
    form = "%s".join(piece.replace("%", "%%") for piece in pieces[::2])
    return form, first, first + len(pieces) // 2


def filled(blank, addresses):
    """The text that a `blank` is with the addresses of a formula."""
    form, first, end = blank
    return addresses[first] if form == "%s" else form % addresses[first:end]
