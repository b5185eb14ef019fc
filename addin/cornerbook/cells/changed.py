"""A corner for each pair of two inputs, each a movement or a coordinate of the drawing."""

from ..geometry.numbers import NAN
from .corner import Corner
from .moved import MovedBlock

MOVEMENTS = ("travel", "rack")


class _QuickCorner(Corner):
    """A corner whose motion ratio's own change is worked out only where it is asked for."""

    def _actuate(self, travel, rack):
        return _Actuated(self, travel, rack)


class _Actuated:
    """The fields of `Actuated`, from one pass of plain numbers; the change from duals."""

    def __init__(self, corner, travel, rack):
        self._corner = corner
        self._at = (travel, rack)
        pose, moved = corner.pose(travel, rack), corner.motion(travel, rack)
        self.spring_length, self.motion_ratio, angles = corner.actuation.closed(pose, moved)
        if corner.actuation.rocker is None:
            angles = (NAN, NAN, corner.actuation.margin(pose, moved))
        self.rocker_angle, self.rod_margin, self.spring_margin = angles

    @property
    def turn_ratio(self):
        return self._corner.actuation.turn_ratio(self._corner.pose(*self._at))

    @property
    def motion_ratio_change(self):
        corner, at = self._corner, self._at
        made = corner.actuation.at(corner.linkage, corner.pose(*at), corner.motion(*at))
        return made.motion_ratio_change


class ChangedCorners:
    """The corner for each pair of values; made anew only where the drawing changes."""

    def __init__(self, corner, over):
        self.corner = _QuickCorner(MovedBlock(corner.block, {}))
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
            made = _QuickCorner(MovedBlock(self.corner.block, changes))
            if len(numbers) == 1:  # else no other cell asks for it
                self.made[numbers] = made
        return made
