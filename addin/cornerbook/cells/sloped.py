"""A corner of which one coordinate is a dual number, so that every quantity has its derivative.

The quantity comes through the same lines as for plain numbers (`geometry/corner/dual.py`).
"""

from functools import lru_cache

from ..geometry.corner import dual
from ..geometry.corner.dual import Dual
from ..geometry.numbers import NAN
from .corner import Corner
from .mend import Mend
from .moved import MovedBlock
from .quantity import name_of, value_at


class SlopedCorner(Corner):
    """A corner of which one coordinate is a dual of slope 1.

    plain: the corner of the values alone; its poses are solved there, once for all.
    """

    def __init__(self, plain, coordinate):
        number = Dual(coordinate.of(plain.block), 1.0)
        super().__init__(MovedBlock(plain.block, {coordinate.key: number}))
        self.plain = plain

    def _solve(self, travel, rack):
        return dual.sloped_pose(self.linkage, self.plain.pose(travel, rack), travel, rack)


sloped = lru_cache(maxsize=256)(SlopedCorner)
"""The same corner and coordinate give the same `SlopedCorner`, solved once."""


def slope_at(entry, corner, wheelbase, travel, rack):
    """A quantity's derivative by a `SlopedCorner`'s coordinate; NaN where it has none."""
    try:
        found = value_at(entry, corner, wheelbase, travel, rack)
    except (TypeError, AttributeError):
        # Its formula asks for something that only a plain number can do.
        raise Mend(f"{name_of(entry)} has no derivative by a coordinate") from None
    if found is None:
        return NAN
    return float(found.slope) if isinstance(found, Dual) else 0.0
