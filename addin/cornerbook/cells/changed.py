"""A corner for each pair of two inputs, each a movement or a coordinate of the drawing."""

from .corner import Corner
from .moved import MovedBlock

MOVEMENTS = ("travel", "rack")


class ChangedCorners:
    """The corner for each pair of values; made anew only where the drawing changes."""

    def __init__(self, corner, over):
        self.corner = Corner(MovedBlock(corner.block, {}))
        # Which of the two inputs change the drawing.
        self.drawn = [i for i, one in enumerate(over) if one not in MOVEMENTS]
        self.keys = [over[i].key for i in self.drawn]
        self.made = {}

    def at(self, pair):
        """The `Corner` for a pair of values."""
        numbers = tuple(pair[i] for i in self.drawn)
        if not numbers:
            return self.corner
        made = self.made.get(numbers)
        if made is None:
            changes = {self.keys[i]: numbers[i] for i in range(len(numbers))}
            made = Corner(MovedBlock(self.corner.block, changes))
            if len(numbers) == 1:  # else no other cell asks for it
                self.made[numbers] = made
        return made
