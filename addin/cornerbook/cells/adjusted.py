"""A corner as built, of which an adjuster is turned: a pickup, an arm or the tie rod moved."""

from ..geometry.corner.adjusted import AdjustedLinkage, carried_along, swung
from ..geometry.corner.circle import Circle
from ..geometry.springing.actuation import ArmMount
from .block import key_of
from .corner import Corner, actuation_of
from .kept import Unbounded
from .mend import Mend, hold, shown
from .seen import SeenBlock

PICKUPS = ("lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup")

ARMS = ("lower arm", "upper arm")

ADJUSTERS = (*PICKUPS, *ARMS, "tie rod inner", "tie rod outer", "tie rod")


def adjuster_named(text):
    """The adjuster of a name; `Mend` with the known ones for another."""
    if key_of(text) not in _BY_KEY:
        raise Mend(
            f"adjuster: {shown(text)} is not known; one of these was expected: "
            f"{', '.join(ADJUSTERS)}"
        )
    return _BY_KEY[key_of(text)]


_BY_KEY = {key_of(name): name for name in ADJUSTERS}


class WithPoint(SeenBlock):
    """A block of any kind in which one point is another one."""

    def __init__(self, block, label, point):
        super().__init__(block)
        self._label = label
        self._point = point

    def point(self, label):
        return self._point if label == self._label else super().point(label)


class AdjustedCorner(Corner):
    """A corner whose adjusters have been turned; the upright stays as it was built.

    ways: {one of `ADJUSTERS`: by what `Vec` its end is moved, the arm being as drawn}; for
    "tie rod", how much longer the rod is in x.
    """

    def __init__(self, corner, ways):
        block = corner.block
        outer = ways.get("tie rod outer")
        if outer is not None:
            block = WithPoint(block, "tie rod outer", block.point("tie rod outer") + outer)
        super().__init__(block)
        self.as_drawn = corner
        self.ways = ways
        if not all(isinstance(way.x, float) for way in ways.values()):
            self._kept = Unbounded()

    @property
    def linkage(self):
        """The `Linkage` as adjusted."""
        if self._linkage is None:
            self._linkage = self._adjusted()
        return self._linkage

    @property
    def actuation(self):
        """The `Actuation` on the arms as adjusted."""
        if self._actuation is None:
            made = actuation_of(self.block, self.drawn, self.linkage)
            mount = made.mount
            if isinstance(mount, ArmMount):
                arm = "upper" if mount.upper else "lower"
                if self._moved_pickups(arm):
                    before, after = Circle(*self._as_long(arm)), getattr(self.linkage, arm)
                    point = carried_along(self.block.point("rod outer"), before, after)
                    made.mount = ArmMount(point, after, mount.upper)
            self._actuation = made
        return self._actuation

    def pose(self, travel, rack):
        """The `Pose` at a travel and rack: where nothing is moved, not the drawn one."""
        return self._kept.get("pose", (travel, rack), self._solve)

    def _adjusted(self):
        block, ways = self.as_drawn.block, self.ways
        # Of the upright as built: with its tie rod's end where that has been moved to.
        moved = "tie rod outer" in ways
        upright = Corner(self.block).linkage if moved else self.as_drawn.linkage
        outer, inner = block.point("tie rod outer"), block.point("tie rod inner")
        length = (outer - inner).length()
        if "tie rod" in ways:
            longer = ways["tie rod"].x
            hold(
                length + longer > 0.0,
                "the tie rod, %s long, cannot be made %s longer", length, longer,
            )  # fmt: skip
            length = length + longer
        if "tie rod inner" in ways:
            inner = inner + ways["tie rod inner"]
        lower, upper = self._circle("lower"), self._circle("upper")
        return AdjustedLinkage(upright, lower, upper, inner, length * length)

    def _as_long(self, arm):
        """The ball joint of an arm as long as it now is, and its pickups as drawn."""
        block = self.as_drawn.block
        ball, front, rear = (
            block.point(arm + end) for end in (" ball joint", " front pickup", " rear pickup")
        )
        longer = self.ways.get(arm + " arm")
        return ball if longer is None else ball + longer, front, rear

    def _moved_pickups(self, arm):
        return [name for name in PICKUPS if name.startswith(arm) and name in self.ways]

    def _circle(self, arm):
        moved = self._moved_pickups(arm)
        if not moved:
            if arm + " arm" not in self.ways:
                return getattr(self.as_drawn.linkage, arm)
            return Circle(*self._as_long(arm))
        ball, front, rear = self._as_long(arm)
        new = {name: self.ways[name] for name in moved}
        ends = [
            point + new[name] if name in new else point
            for name, point in ((arm + " front pickup", front), (arm + " rear pickup", rear))
        ]
        return swung(ball, front, rear, *ends)
