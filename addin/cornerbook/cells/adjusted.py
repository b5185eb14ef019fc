"""A corner as built, of which an adjuster is turned: a pickup, an arm or the tie rod moved."""

from ..geometry.actuation import ArmMount
from ..geometry.adjusted import AdjustedLinkage, carried_along, swung
from ..geometry.linkage import Circle
from .block import key_of
from .corner import Corner, actuation_of
from .mend import hold
from .moved import MovedBlock

PICKUPS = ("lower front pickup", "lower rear pickup", "upper front pickup", "upper rear pickup")

ARMS = ("lower arm", "upper arm")

ADJUSTERS = (*PICKUPS, *ARMS, "tie rod inner", "tie rod outer", "tie rod")


class AdjustedCorner(Corner):
    """A corner whose one adjuster has been turned; the upright stays as it was built.

    adjuster: one of `ADJUSTERS`. way: by what `Vec` its end is moved, the arm being as drawn;
    for "tie rod", how much longer the rod is in x.
    """

    def __init__(self, corner, adjuster, way):
        block = corner.block
        if adjuster == "tie rod outer":
            outer = block.point(adjuster) + way
            changes = {(key_of(adjuster), i): number for i, number in enumerate(outer)}
            block = MovedBlock(block, changes)
        super().__init__(block)
        self.as_drawn = corner
        self.adjuster = adjuster
        self.way = way

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
            if self.adjuster in PICKUPS and isinstance(mount, ArmMount):
                arm = "upper" if mount.upper else "lower"
                before, after = getattr(self.as_drawn.linkage, arm), getattr(self.linkage, arm)
                point = carried_along(self.block.point("rod outer"), before, after)
                made.mount = ArmMount(point, after, mount.upper)
            self._actuation = made
        return self._actuation

    def pose(self, travel, rack):
        """The `Pose` at a travel and rack: where nothing is moved, not the drawn one."""
        return self._kept.get("pose", (travel, rack), self._solve)

    def _adjusted(self):
        block, way, adjuster = self.as_drawn.block, self.way, self.adjuster
        # Of the upright as built: with its tie rod's end where that has been moved to.
        upright = Corner(self.block).linkage
        outer, inner = block.point("tie rod outer"), block.point("tie rod inner")
        length = (outer - inner).length()
        if adjuster == "tie rod":
            hold(
                length + way.x > 0.0,
                "the tie rod, %s long, cannot be made %s longer", length, way.x,
            )  # fmt: skip
            length = length + way.x
        if adjuster == "tie rod inner":
            inner = inner + way
        lower, upper = self._circle("lower"), self._circle("upper")
        return AdjustedLinkage(upright, lower, upper, inner, length * length)

    def _circle(self, arm):
        block, way, adjuster = self.as_drawn.block, self.way, self.adjuster
        ball, front, rear = (
            block.point(arm + end) for end in (" ball joint", " front pickup", " rear pickup")
        )
        if adjuster == arm + " arm":
            return Circle(ball + way, front, rear)
        if adjuster == arm + " front pickup":
            return swung(ball, front, rear, front + way, rear)
        if adjuster == arm + " rear pickup":
            return swung(ball, front, rear, front, rear + way)
        return getattr(self.as_drawn.linkage, arm)
