"""A rear solid axle in two bearings as a free body: all unknowns at once, as numpy solves them.

Six equations of force and moment about a point on the ground below the middle. Unknown are x and z
at both bearings, y at the one that holds, and how hard the sprocket or the pads pull. The pull is
a force at a point of its circle; of both points from which it pulls that way, the one is taken that
needs a pull and not a push.
"""

import numpy as np


def _wrench(point, force):
    return np.concatenate([force, np.cross(point, force)])


class FreeAxle:
    """As the formulas' arguments; forces of the road on the tyres, places y to the left."""

    def __init__(self, up, forward, sideways, track, radius, bearings, holds, pull):
        both = sum(up)
        self.loads = []
        for sense, load in zip((1.0, -1.0), up, strict=True):
            share = load / both
            point = np.array([0.0, sense * track / 2.0, 0.0])
            self.loads.append((point, np.array([forward * share, sideways * share, load])))
        self.bearings = {
            side: np.array([0.0, y, radius])
            for side, y in zip(("left", "right"), bearings, strict=True)
        }
        self.holds = holds
        lateral, circle, angle = pull
        way = np.array([np.cos(np.radians(angle)), 0.0, np.sin(np.radians(angle))])
        square = np.array([-way[2], 0.0, way[0]]) * circle
        for sense in (1.0, -1.0):
            point = np.array([0.0, lateral, radius]) + sense * square
            self._solve(point, way)
            if self.pull >= 0.0:
                break

    def _solve(self, point, way):
        columns, names = [], []
        for side, at in self.bearings.items():
            for axis in range(3):
                if axis != 1 or side == self.holds:
                    columns.append(_wrench(at, -np.eye(3)[axis]))
                    names.append((side, axis))
        columns.append(_wrench(point, way))
        applied = sum(_wrench(*load) for load in self.loads)
        found = np.linalg.solve(np.column_stack(columns), -applied)
        self.pull, self.pulled = float(found[-1]), (point, found[-1] * way)
        self.on_frame = {side: np.zeros(3) for side in self.bearings}
        for (side, axis), size in zip(names, found[:-1], strict=True):
            self.on_frame[side][axis] = size

    def bending(self, side):
        """Moment in the cut just outboard of a bearing, from the inboard end's free body.

        The part of the axle inboard of the cut is held by the moment there: what both bearings and
        a pull inboard of it have about the cut.
        """
        sense = 1.0 if side == "left" else -1.0
        cut = self.bearings[side]
        total = np.zeros(3)
        point, force = self.pulled
        inboard = [(at, -self.on_frame[name]) for name, at in self.bearings.items()]
        if (point[1] - cut[1]) * sense <= 0.0:
            inboard.append((point, force))
        inboard.append(self.loads[1 if side == "left" else 0])
        for at, push in inboard:
            total += np.cross(at - cut, push)
        # About the axle itself it is torsion.
        return float(np.hypot(total[0], total[2]))
