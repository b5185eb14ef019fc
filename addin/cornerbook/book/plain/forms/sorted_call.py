"""A call's arguments sorted by what becomes of them in the copy."""

from ....cells.call import call
from ....cells.inputs import value_of
from ....cells.mend import Mend
from .given import ZERO

_POSE = ("travel", "rack")

# Texts that choose which of several results of the same work is meant.
_CHOOSING = ("quantity", "coordinate", "part")


class SortedCall:
    """A call whose arguments are fixed when the copy is made, or stay alive with their cells.

    entry: the `Formula`. given: {argument's name: `Given`, or None where it is left out}.
    block: the `Given` of its block, or None. fixed: {name: value} of texts, of what is left
    out, and of a travel or rack of plain 0. moving: the names of the numbers that stay alive.
    tables: {name: (argument, `Given`)} of ranges of rows.
    guards: conditions that hold while its texts are as they were. Raises `Mend` where an
    argument that is needed is left out, or a text is none.
    """

    def __init__(self, entry, given):
        self.entry = entry
        self.given = given
        self.block = None
        self.fixed = {}
        self.moving = []
        self.tables = {}
        self.guards = []
        for argument in entry.arguments:
            self._sort(argument, given[argument.name])

    def _sort(self, argument, one):
        if argument.kind == "block":
            self.block = self.block or one
        elif one is None:
            if argument.required:
                raise Mend(call(self.entry.name, *[g and g.value for g in self.given.values()])[2:])
            self.fixed[argument.name] = argument.default
        elif argument.kind == "rows":
            self.tables[argument.name] = argument, one
        elif argument.kind in ("text", "names"):
            self.fixed[argument.name] = value_of(argument, one.value)
            self.guards += one.guards()
        elif one.literal and one.value == 0.0 and argument.name in _POSE:
            self.fixed[argument.name] = 0.0
        else:
            self.moving.append(argument.name)

    @property
    def chosen(self):
        """{name: value} of the texts that choose which of a row's results is meant."""
        return {name: value for name, value in self.fixed.items() if name in _CHOOSING}

    @property
    def common(self):
        """{name: value} of the other fixed ones, on which a whole table depends."""
        return {name: value for name, value in self.fixed.items() if name not in _CHOOSING}

    @property
    def key(self):
        """What two calls of one table have in common."""
        ranges = tuple((name, one.identity) for name, (_, one) in sorted(self.tables.items()))
        return self.entry.name, tuple(sorted(self.common.items())), ranges

    @property
    def pose_key(self):
        """What two calls at poses of one block have in common: all but the pose."""
        return self.entry.name, tuple(sorted(self._besides_pose().items()))

    def _besides_pose(self):
        return {name: value for name, value in self.fixed.items() if name not in _POSE}

    @property
    def is_at_a_pose(self):
        """Whether nothing but a block's travel and rack stays alive in it."""
        names = {argument.name for argument in self.entry.arguments}
        return self.block is not None and names.issuperset(_POSE) and set(self.moving) <= {*_POSE}

    @property
    def is_as_drawn(self):
        """Whether it is at a pose, and that is of no travel and no rack for good."""
        return self.is_at_a_pose and all(self.fixed.get(name) == 0.0 for name in _POSE)

    @property
    def is_of_points_alone(self):
        """Whether it takes no number besides its block, which need be no linkage."""
        return self.block is not None and all(
            argument.kind in ("block", "text") for argument in self.entry.arguments
        )

    def pose(self):
        """The travel and rack asked for, as `Asked` by name."""
        return {name: (self.given[name] or ZERO).asked() for name in _POSE}

    def numbers(self):
        """The numbers that stay alive, as `Asked` by name."""
        return {name: self.given[name].asked() for name in self.moving}

    def measure(self, corner, travel=0.0, rack=0.0):
        """What its formula makes of a corner at a pose, texts and all else as they are fixed."""
        values = {**self._besides_pose(), "travel": travel, "rack": rack}
        return self.entry.function(
            *[corner if a.kind == "block" else values[a.name] for a in self.entry.arguments]
        )
