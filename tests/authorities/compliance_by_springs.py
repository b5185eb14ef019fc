"""What gives, as rigid bodies on linear springs: one stiffness matrix, solved by numpy.

Upright, both arms and rocker are rigid bodies of six freedoms each; a pickup and a ball joint are
three springs square to each other, tie rod, rod and spring frame one along a line each, the
rocker's bearing three springs and a stop against tilting. Nothing is known of statics here: forces
follow from the bodies' small movements, those along an arm's hinge too. The steering wheel and
the length of the spring are held. Poses are those of `FreeBodies`.
"""

import numpy as np
from scipy.spatial.transform import Rotation

BODIES = ("upright", "lower arm", "upper arm", "rocker")


def _unit(vector):
    return vector / np.linalg.norm(vector)


class Springs:
    """bodies: a `FreeBodies`. stiffness: {place: force per length}, all above 0."""

    def __init__(self, bodies, stiffness):
        self.bodies = bodies
        at, self.matrix = bodies.at, np.zeros((24, 24))
        for which in ("lower", "upper"):
            arm = which + " arm"
            for end in ("front", "rear"):
                name = f"{which} {end} pickup"
                self._every_way(at[name], stiffness[name], arm)
            name = which + " ball joint"
            self._every_way(at[name], stiffness[name], arm, "upright")
        # The rack's end gives sideways alone, in series with the rod.
        way = _unit(at["tie rod outer"] - at["tie rod inner"])
        soft = 1.0 / stiffness["tie rod"] + way[1] ** 2 / stiffness["rack"]
        self._along(at["tie rod outer"], way, 1.0 / soft, "upright")
        mount = bodies.mount
        if not bodies.rocker:
            way = _unit(at["spring frame"] - at["rod outer"])
            soft = 1.0 / stiffness["rod"] + 1.0 / stiffness["spring frame"]
            self._along(at["rod outer"], way, 1.0 / soft, mount)
            self.matrix = self.matrix[:18, :18]
            return
        way = _unit(at["rod inner"] - at["rod outer"])
        self._along(at["rod outer"], way, stiffness["rod"], mount, "rocker")
        way = _unit(at["spring frame"] - at["spring rocker"])
        self._along(at["spring rocker"], way, stiffness["spring frame"], "rocker")
        self._every_way(at["rocker pivot"], stiffness["rocker pivot"], "rocker")

    def _rows(self, point, ways, body):
        """How fast a body's point moves along each way, for each of the body's freedoms."""
        found = np.zeros((len(ways), 24))
        first = 6 * BODIES.index(body)
        for row, way in zip(found, ways, strict=True):
            row[first : first + 3] = way
            row[first + 3 : first + 6] = np.cross(point, way)
        return found

    def _between(self, point, ways, stiffness, one, other=None):
        rows = self._rows(point, ways, one)
        if other:
            rows = rows - self._rows(point, ways, other)
        self.matrix += stiffness * rows.T @ rows

    def _every_way(self, point, stiffness, one, other=None):
        self._between(point, np.eye(3), stiffness, one, other)

    def _along(self, point, way, stiffness, one, other=None):
        self._between(point, [way], stiffness, one, other)

    def turned(self, applied):
        """The upright's small rotation vector under a wrench about the origin."""
        load = np.zeros(len(self.matrix))
        load[:6] = applied
        if not self.bodies.rocker:
            return np.linalg.solve(self.matrix, load)[3:6]
        # The rocker turns about its axis alone: of its freedoms, but one turn.
        at = self.bodies.at
        axis = _unit(at["rocker axis"] - at["rocker pivot"])
        free = np.zeros((24, 22))
        free[:21, :21] = np.eye(21)
        free[21:, 21] = axis
        # About the pivot, not the origin.
        free[18:21, 21] = 0.0
        reduced = free.T @ self.matrix @ free
        return (free @ np.linalg.solve(reduced, free.T @ load))[3:6]

    def changes(self, applied):
        """{angle: change in degrees}, by SciPy's rotation of spindle and steering axis."""
        return angles_turned(self.bodies, self.turned(applied))


def angles_turned(bodies, turn, small=1e-5):
    """{angle: degrees} by a small rotation vector, as a central difference of the angles."""
    size = small / max(np.linalg.norm(turn), 1e-300)
    high, low = (angles_after(bodies, Rotation.from_rotvec(s * size * turn)) for s in (1.0, -1.0))
    return {name: (high[name] - low[name]) / (2.0 * size) for name in high}


def angles_after(bodies, rotation):
    """{angle: degrees} of the upright of some bodies, turned."""
    s = rotation.apply(bodies.wheel.spindle)
    a = rotation.apply(bodies.at["upper ball joint"] - bodies.at["lower ball joint"])
    return {
        "toe": np.degrees(np.arctan2(s[0], s[1])),
        "camber": -np.degrees(np.arcsin(s[2] / np.linalg.norm(s))),
        "caster": np.degrees(np.arctan(-a[0] / a[2])),
        "inclination": np.degrees(np.arctan(-a[1] / a[2])),
    }
