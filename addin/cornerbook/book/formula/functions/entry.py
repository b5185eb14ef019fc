"""How a spreadsheet function is written down: once, for single values, tables and many cars.

    @function("ROUND", "number", "whole?", arrays=True)
    def rounded(x, digits=0): ...

Each argument has a kind, which says what the function is handed:

number, whole, truth, text: a single value, as one. An error, or what is none, ends the formula.
value: a single value as it is, None for an empty cell. An error ends the formula.
any: the same, an error too.
cells: all that is given, a `Range`, a table or a single value; errors stand in it as they are.
array: as cells, and what is in the argument is worked out element by element.
place: as cells, for a function that does not look into a range, or into one cell of it.
tree: not worked out; the function asks for it (see `choice.py`), for the first one always,
unless it may be left out.

A "?" marks arguments that may be left out, and "..." at the end of the last one that it may be
repeated, with as many before it as `again` counts. Where a single value is wanted and an array
formula gives a table, the function runs for each element.

arrays: the function takes arrays in place of floats as well, one value of each car, and gives
an array then (NaN in it where it would raise). Without it, cars go through it one by one. NaN in
what it is given stands for a car that has no number there, and the function's value for that car
is not asked for, unless it is `blind`: one that passes over what is no number.
found_by: of a function that shows one of the cells it is given, what is to be asked to find it, a
function of the same arguments that lists it. Where no car differs in that, the cell is found once.
"""

from ...file.trouble import Trouble

FUNCTIONS: dict = {}
"""Every function by its name, in capitals."""

WHOLE = ("cells", "array", "place")
"""Kinds of argument that take a range as a whole."""

TAKES_ALL = frozenset((*WHOLE, "any"))
"""Kinds of argument that are handed over as they are."""


class Function:
    """A spreadsheet function. Made by `function`; `least` and `most` count its arguments."""

    __slots__ = (
        "_kinds_of", "again", "arrays", "blind", "found_by", "is_lazy", "kinds", "least", "most",
        "name", "takes_all", "work",
    )  # fmt: skip

    def __init__(self, name, work, kinds, again=0, arrays=False, blind=False, found_by=None):
        self.name = name
        self.work = work
        self.kinds = tuple(kind.rstrip("?.") for kind in kinds)
        self.again = again if kinds and kinds[-1].endswith("...") else 0
        self.arrays = arrays
        self.blind = blind
        self.found_by = found_by
        self.least = sum("?" not in kind for kind in kinds)
        self.most = None if self.again else len(kinds)
        self.is_lazy = self.kinds[:1] == ("tree",)
        """Whether it asks for its arguments itself."""
        self.takes_all = TAKES_ALL.issuperset(self.kinds)
        """Whether it is handed its arguments as they are, errors too."""
        self._kinds_of = {}

    def kinds_of(self, count):
        """The kind of each of so many arguments; raises `Trouble` if it does not take so many."""
        if count not in self._kinds_of:
            if count < self.least or (self.most is not None and count > self.most):
                raise Trouble(
                    f"{self.name} has {count} argument{'s' * (count != 1)}, and takes {self._wants}"
                )
            kinds = list(self.kinds)
            while len(kinds) < count:
                kinds.extend(self.kinds[-self.again :])
            self._kinds_of[count] = tuple(kinds[:count])
        return self._kinds_of[count]

    def surely(self, count):
        """The kinds of those of so many arguments that are worked out in any case."""
        if not self.is_lazy:
            return self.kinds_of(count)
        return self.kinds[: self.least > 0]

    @property
    def _wants(self):
        if self.most is None:
            return f"{self.least} or more"
        return str(self.least) if self.most == self.least else f"{self.least} to {self.most}"


def function(names, *kinds, again=1, arrays=False, blind=False, found_by=None):
    """Declare a function under one name or more, parted by spaces; see above."""

    def declare(work):
        for name in names.split():
            FUNCTIONS[name] = Function(name, work, kinds, again, arrays, blind, found_by)
        return work

    return declare
