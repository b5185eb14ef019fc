"""What corners have worked out for floats, kept for other cells that ask for it too.

A table of some thousand cells asks for each pose many times. What all corners keep is bounded
together, by its size: beyond that, the corners that were asked longest ago lose theirs first,
and the last one what it worked out first.
"""

import sys
from weakref import WeakSet

MOST = 100e6
"""Bytes that all corners may keep together."""

# What is left after something was dropped, as a part of that: it need not be done often.
_LEFT = 0.8

# Besides key and value, an entry of a dictionary costs about so many bytes.
_ENTRY = 100


class Keeper:
    """All that is kept. most: in bytes. known: so many are kept, or fewer.

    now: how many things were added so far. sizes: of one thing, by the kind of its corner and
    its own.
    """

    def __init__(self, most=MOST):
        self.most = most
        self.known = 0.0
        self.now = 0
        self.stores = WeakSet()
        self.sizes = {}

    def size_of(self, kind, key, made):
        """Bytes of one thing of a kind, with its key; found out once for all of its kind."""
        size = self.sizes.get(kind)
        if size is None:
            size = self.sizes[kind] = _ENTRY + size_of(key) + size_of(made)
        return size

    def added(self, size):
        """Note that so many bytes more are kept; drop the oldest where that is too much."""
        self.now += 1
        self.known += size
        if self.known > self.most:
            self._drop()

    def _drop(self):
        stores = sorted(self.stores, key=lambda store: store.used)
        self.known = sum(store.size for store in stores)  # without those of corners that are gone
        if self.known <= _LEFT * self.most:
            return
        for store in stores:
            while self.known > _LEFT * self.most and store.size:
                self.known -= store.drop(all_of_it=store is not stores[-1])


class Store:
    """What one corner keeps, by kind and by what was asked.

    owner: the kind of corner, whose numbers may be larger things than floats. size: in bytes.
    used: when it was last asked, counted in things added by all.
    """

    __slots__ = ("owner", "keeper", "shelves", "size", "used", "__weakref__")

    def __init__(self, owner, keeper=None):
        self.owner = owner
        self.keeper = keeper or KEEPER
        self.shelves = {}
        self.size = 0.0
        self.used = self.keeper.now
        self.keeper.stores.add(self)

    def get(self, kind, key, make):
        """What was made of the key before, or is made now by `make(*key)`."""
        self.used = self.keeper.now
        shelf = self.shelves.get(kind)
        if shelf is None:
            shelf = self.shelves[kind] = {}
        found = shelf.get(key)
        if found is None:
            found = shelf[key] = make(*key)
            size = self.keeper.size_of((self.owner, kind), key, found)
            self.size += size
            self.keeper.added(size)
        return found

    def drop(self, all_of_it):
        """Drop all that is kept, or of each kind the older half; returns its bytes."""
        before, self.size = self.size, 0.0
        for kind, shelf in self.shelves.items():
            count = len(shelf) if all_of_it else (len(shelf) + 1) // 2
            for key in list(shelf)[:count]:
                del shelf[key]
            self.size += len(shelf) * self.keeper.sizes[self.owner, kind] if shelf else 0.0
        return before - self.size


def size_of(thing):
    """Bytes of a thing made of numbers, with its parts; one that is there twice counts twice.

    What is no number, tuple or thing of the geometry with slots (a corner, a linkage, a block)
    belongs to others too and does not count.
    """
    if isinstance(thing, float):
        return sys.getsizeof(thing)
    parts = thing if isinstance(thing, tuple) else _slots(thing)
    return sys.getsizeof(thing) + sum(map(size_of, parts)) if parts else 0


def _slots(thing):
    names = [name for kind in type(thing).__mro__ for name in getattr(kind, "__slots__", ())]
    return [getattr(thing, name) for name in names if hasattr(thing, name)]


KEEPER = Keeper()


class Unbounded:
    """What one corner has worked out, for as long as it lives: of other numbers than floats."""

    def __init__(self):
        self._made = {}

    def get(self, kind, key, make):
        """What was made of the key before, or is made now by `make(*key)`."""
        if (kind, key) not in self._made:
            self._made[kind, key] = make(*key)
        return self._made[kind, key]
