"""What gives, by closing the linkage anew with every point moved: scipy.optimize.root, finite.

Forces by `FreeBodies` move pickups, ball joints and the rocker's bearing and lengthen tie rod and
rod; then arms, upright and rocker are placed so that all meets again, the spring as long as
before. Arms are rigid: along a hinge both its pickups move by one amount. Lengths in mm.
"""

import numpy as np
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from tests.authorities.compliance_by_springs import angles_after


def _gives(force, stiffness):
    return force / stiffness if stiffness else 0.0 * force


def _unit(vector):
    return vector / np.linalg.norm(vector)


class Reclosed:
    """bodies: a `FreeBodies`. stiffness: {place: force per length}; 0 is rigid."""

    def __init__(self, bodies, stiffness):
        self.bodies = bodies
        self.stiffness = stiffness

    def angles(self, applied):
        """{angle: degrees} under a wrench about the origin."""
        bodies, k = self.bodies, self.stiffness
        forces, at, moved = bodies.solve(applied), bodies.at, {}
        for which in ("lower", "upper"):
            front, rear = (f"{which} {end} pickup" for end in ("front", "rear"))
            hinge = _unit(at[front] - at[rear])
            both = k[front] + k[rear] if k[front] and k[rear] else 0.0
            slid = _gives((forces[front] + forces[rear]) @ hinge, both) * hinge
            for name in (front, rear):
                across = forces[name] - (forces[name] @ hinge) * hinge
                moved[name] = at[name] + _gives(across, k[name]) + slid
        apart = {
            name: _gives(forces[name], k[name]) for name in ("lower ball joint", "upper ball joint")
        }
        rack = np.array([0.0, _gives(forces["tie rod inner"][1], k["rack"]), 0.0])
        moved["tie rod inner"] = at["tie rod inner"] + rack
        longer = {name: _gives(forces[name], k[name]) for name in ("tie rod", "rod")}
        moved["spring frame"] = at["spring frame"] + _gives(
            forces["spring frame"], k["spring frame"]
        )
        shift = np.zeros(3)
        if bodies.rocker:
            shift = _gives(forces["rocker pivot"], k["rocker pivot"])
        found = root(
            self._misses, np.zeros(9 if bodies.rocker else 8), tol=1e-14,
            args=(moved, apart, longer, shift),
        )  # fmt: skip
        assert np.abs(found.fun).max() < 1e-9, found.fun
        return angles_after(bodies, Rotation.from_rotvec(found.x[5:8]))

    def _misses(self, unknown, moved, apart, longer, shift):
        at, bodies = self.bodies.at, self.bodies
        centre = bodies.wheel.centre
        turn = Rotation.from_rotvec(unknown[5:8])

        def of(name, body):
            if body == "upright":
                return centre + unknown[2:5] + turn.apply(at[name] - centre)
            if body == "rocker":
                pivot = at["rocker pivot"]
                axis = _unit(at["rocker axis"] - pivot)
                return (
                    pivot + shift + Rotation.from_rotvec(unknown[8] * axis).apply(at[name] - pivot)
                )
            which = body.split()[0]
            front, rear = (f"{which} {end} pickup" for end in ("front", "rear"))
            was, now = _unit(at[front] - at[rear]), _unit(moved[front] - moved[rear])
            tilt = Rotation.from_rotvec(np.cross(was, now))
            angle = unknown[0 if which == "lower" else 1]
            return moved[rear] + Rotation.from_rotvec(angle * now).apply(
                tilt.apply(at[name] - at[rear])
            )

        found = []
        for which in ("lower", "upper"):
            name = which + " ball joint"
            found += [*(of(name, "upright") - of(name, which + " arm") - apart[name])]

        def missed(place, other, more, was):
            return np.linalg.norm(place - other) - np.linalg.norm(was) - more

        at_rest = at["tie rod outer"] - at["tie rod inner"]
        end = of("tie rod outer", "upright")
        found.append(missed(end, moved["tie rod inner"], longer["tie rod"], at_rest))
        outer = of("rod outer", bodies.mount)
        if bodies.rocker:
            found.append(missed(outer, of("rod inner", "rocker"), longer["rod"],
                                at["rod outer"] - at["rod inner"]))  # fmt: skip
            end, name, more = of("spring rocker", "rocker"), "spring rocker", 0.0
        else:
            end, name, more = outer, "rod outer", longer["rod"]
        found.append(missed(end, moved["spring frame"], more, at[name] - at["spring frame"]))
        return np.array(found)

    def changes(self, applied, small=1e-4):
        """{angle: change in degrees for the whole load}, from a small share of it either way."""
        high, low = (self.angles(s * small * applied) for s in (1.0, -1.0))
        return {name: (high[name] - low[name]) / (2.0 * small) for name in high}
