"""The forces in a corner by free bodies: all unknown forces at once, as numpy solves them.

Upright, both arms and rocker have six equations of force and moment each, about the origin. The
unknowns are forces at both ball joints and all four pickups, along tie rod, rod and spring, and
what the rocker's bearing gives. A first solution has the rear pickups slide along the hinge;
what the pickups share along the hinge is then found apart: each force on an arm is resolved on
the lines from where it acts to both pickups and on the way square to these. The pose is that of
`actuation_by_mpmath`, the wheel's attitude that of SciPy's rotations. Forces on the frame, and at
joints of the part nearer to the wheel on the other; pulls are positive.
"""

import math

import numpy as np

from tests.authorities.measures_by_scipy_rotation import Measured

BODIES = ("upright", "lower arm", "upper arm", "rocker")


def _unit(vector):
    return vector / np.linalg.norm(vector)


def wrench(point, force):
    """Force and moment about the origin, (6,)."""
    return np.concatenate([force, np.cross(point, force)])


class FreeBodies:
    """A corner at a pose. actuated: an `Actuated` of `actuation_by_mpmath`; corner: as drawn."""

    def __init__(self, corner, actuated, travel, rack):
        self.corner = corner
        self.mount = actuated.mount
        self.rocker = actuated.rocker
        unknown = actuated.solve_in_floats(travel, rack)
        self.wheel = Measured(corner, np.array(unknown[2:5]), np.array(unknown[5:8]))
        at = {name: np.array(place) for name, place in actuated.at.items()}
        for name in ("lower ball joint", "upper ball joint", "tie rod outer"):
            at[name] = self.wheel.at(name)
        at["tie rod inner"] = at["tie rod inner"] + np.array([0.0, rack, 0.0])
        at["rod outer"] = np.array(actuated.carried("rod outer", self.mount, unknown, math))
        if self.rocker:
            for name in ("rod inner", "spring rocker"):
                at[name] = np.array(actuated.on_rocker(name, unknown, math))
        self.at = at

    def load(self, acts, longitudinal, lateral, vertical):
        """The wrench of the road's load on the upright."""
        wheel = self.wheel
        force = wheel.heading.apply([longitudinal, lateral, 0.0]) + np.array([0.0, 0.0, vertical])
        if acts == "wheel centre":
            return wrench(wheel.centre, force)
        found = wrench(wheel.contact_centre, force)
        if acts == "contact centre":
            torque = np.cross(wheel.contact_centre - wheel.centre, force) @ wheel.spindle
            found[3:] -= torque * wheel.spindle
        return found

    def solve(self, applied):
        """{name: force (3,), pull, or (3,) couple} for a wrench on the upright."""
        at, columns, names = self.at, [], []

        def unknown(name, *parts):
            column = np.zeros(24)
            for body, given in parts:
                if body in BODIES:
                    column[6 * BODIES.index(body) :][:6] += given
            columns.append(column)
            names.append(name)

        def link(name, outer, inner, on_outer, on_inner):
            way = _unit(at[inner] - at[outer])
            unknown(name, (on_outer, wrench(at[outer], way)), (on_inner, wrench(at[inner], -way)))

        hinges = {}
        for which in ("lower", "upper"):
            arm, ball = which + " arm", at[which + " ball joint"]
            front, rear = at[which + " front pickup"], at[which + " rear pickup"]
            hinges[which] = _unit(front - rear)
            across = np.linalg.svd(hinges[which][None, :])[2][1:]
            for way in np.eye(3):
                unknown(which + " ball joint", (arm, wrench(ball, way)),
                        ("upright", -wrench(ball, way)))  # fmt: skip
                unknown(which + " front pickup", (arm, wrench(front, -way)))
            for way in across:
                unknown(which + " rear pickup", (arm, wrench(rear, -way)))
        link("tie rod", "tie rod outer", "tie rod inner", "upright", "rack")
        if self.rocker:
            link("rod", "rod outer", "rod inner", self.mount, "rocker")
            link("spring", "spring rocker", "spring frame", "rocker", "frame")
            pivot = at["rocker pivot"]
            axis = _unit(at["rocker axis"] - pivot)
            for way in np.eye(3):
                unknown("rocker pivot", ("rocker", wrench(pivot, -way)))
            for way in np.linalg.svd(axis[None, :])[2][1:]:
                unknown("couple", ("rocker", np.concatenate([np.zeros(3), -way])))
            rows = 24
        else:
            link("spring", "rod outer", "spring frame", self.mount, "frame")
            rows = 18
        system = np.column_stack(columns)[:rows]
        right = np.concatenate([-applied, np.zeros(rows - 6)])
        sizes = np.linalg.solve(system, right)
        return self._named(names, sizes, hinges)

    def _named(self, names, sizes, hinges):
        at, by_name = self.at, {}
        for name, size in zip(names, sizes, strict=True):
            by_name.setdefault(name, []).append(size)
        found = {"tie rod": by_name["tie rod"][0], "spring": by_name["spring"][0]}
        found["rod"] = by_name["rod" if self.rocker else "spring"][0]
        inner = "rod inner" if self.rocker else "spring frame"
        pull = found["rod"] * _unit(at[inner] - at["rod outer"])
        found["rod outer"] = -pull
        found["tie rod inner"] = found["tie rod"] * _unit(at["tie rod outer"] - at["tie rod inner"])
        end = "spring rocker" if self.rocker else "rod outer"
        found["spring frame"] = found["spring"] * _unit(at[end] - at["spring frame"])
        if self.rocker:
            axis = _unit(at["rocker axis"] - at["rocker pivot"])
            found["rocker pivot"] = np.array(by_name["rocker pivot"])
            found["couple"] = np.array(by_name["couple"]) @ np.linalg.svd(axis[None, :])[2][1:]
        for which in ("lower", "upper"):
            found[which + " ball joint"] = np.array(by_name[which + " ball joint"])
            self._share(which, hinges[which], by_name, found, pull)
        return found

    def _share(self, which, hinge, by_name, found, pull):
        """Give both pickups of an arm their parts along the hinge."""
        at = self.at
        front, rear = (f"{which} {end} pickup" for end in ("front", "rear"))
        forces = {
            front: np.array(by_name[front]),
            rear: np.array(by_name[rear]) @ np.linalg.svd(hinge[None, :])[2][1:],
        }
        forces[front] -= hinge * (forces[front] @ hinge)
        loads = [(at[which + " ball joint"], found[which + " ball joint"])]
        if self.mount == which + " arm":
            loads.append((at["rod outer"], pull))
        for point, force in loads:
            ways = (point - at[front], point - at[rear])
            parts = np.linalg.solve(np.column_stack([*ways, np.cross(*ways)]), force)
            for name, way, part in zip((front, rear), ways, parts, strict=False):
                forces[name] = forces[name] + hinge * (part * way @ hinge)
        found.update(forces)
        for end in ("front", "rear"):
            name = f"{which} {end} pickup"
            leg = _unit(at[which + " ball joint"] - at[name])
            found[f"{which} {end}"] = found[name] @ leg

    def bending(self, found):
        """Moment at the rod's eye, from the pickups' side: it is the ball joint's, the other way.

        About the line through the eye along the hinge, which points forward.
        """
        if self.mount == "upright":
            return 0.0
        which = self.mount.split()[0]
        front, rear = f"{which} front pickup", f"{which} rear pickup"
        hinge = _unit(self.at[front] - self.at[rear])
        eye = self.at["rod outer"]
        return sum(np.cross(self.at[name] - eye, found[name]) @ hinge for name in (front, rear))

    def on_frame(self, found):
        """The wrench, about the origin, of all that the frame is given."""
        names = [
            f"{which} {end} pickup" for which in ("lower", "upper") for end in ("front", "rear")
        ]
        names += ["tie rod inner", "spring frame", *(["rocker pivot"] if self.rocker else [])]
        total = sum(wrench(self.at[name], found[name]) for name in names)
        if self.rocker:
            total[3:] += found["couple"]
        return total
