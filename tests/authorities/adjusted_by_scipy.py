"""A corner with adjusters turned, closed by scipy.optimize.root.

The upright is rigid as built. An adjuster changes the frame's end of a link, or the length of
one or two links, or where the rod's end sits on the upright; the rest is `Closure`.
"""

import numpy as np

from tests.authorities.closure_by_scipy import LINKS, Closure
from tests.authorities.measures_by_scipy_rotation import Measured


class Adjusted(Closure):
    """One corner, adjusted. corner: name to (3,) array or value in mm.

    changes: pairs of an adjuster's name and by how much it is moved, (3,) in mm.
    """

    def __init__(self, corner, *changes):
        super().__init__(corner)
        self.corner = dict(corner)
        for adjuster, way in changes:
            self._change(corner, adjuster, np.asarray(way, dtype=float))

    def _change(self, corner, adjuster, way):
        inners = [inner for _, inner in LINKS]
        if adjuster in inners:
            # The frame's end moves; every link keeps its length.
            self.inner[inners.index(adjuster)] += way
        elif adjuster == "tie rod":
            self.lengths[4] += way[0]
        elif adjuster == "tie rod outer":
            # Another place on the upright; the rod keeps its length.
            self.corner[adjuster] = self.corner[adjuster] + way
            self.arms[:, 4] += way
        elif adjuster in ("lower arm", "upper arm"):
            # The arm is longer by this, as its two pickups see it; the upright is not.
            for i, (outer, inner) in enumerate(LINKS):
                if outer.startswith(adjuster.split()[0]):
                    self.lengths[i] = np.linalg.norm(corner[outer] + way - corner[inner])
        else:
            raise KeyError(adjuster)

    def measured(self, travel, rack):
        """The wheel at a travel and rack, as `Measured` has it."""
        return Measured(self.corner, *self.solve(travel, rack, stages=8))
