"""A wheel on the road under a rolled and heaved body, by scipy.optimize.root.

Everything stands in axes of the road. The body's points are turned about the line y = 0 in
the road by scipy.spatial.transform and lifted; the upright is a place and a rotation vector.
Equations: the five links' lengths and the height of the disc's lowest point over the road.
The right-hand wheel is solved as such, its points mirrored, under the same roll, and only
what is read off it is put in the signs of a left-hand one. Lengths in mm, angles in degrees.
"""

import numpy as np
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from tests.authorities.closure_by_scipy import LINKS, NotClosed, rotation
from tests.authorities.jacking_by_bars import across_heading, line_of_force
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.movement_by_rigid_body import Moving
from tests.authorities.rates_by_sympy import rates
from tests.authorities.upright_by_statics import Upright


def mirrored(corner):
    """The right-hand corner of a left-hand one: name to (3,) array or value."""
    other = {name: at * [1, -1, 1] if np.ndim(at) else at for name, at in corner.items()}
    other["static camber"] = -other["static camber"]
    other["static toe"] = -other["static toe"]
    return other


class OnRoad:
    """One wheel of a corner at a roll, a heave and a rack."""

    STAGES = 6

    def __init__(self, corner, roll, heave, rack, right=False):
        self.left_corner = corner
        self.corner = mirrored(corner) if right else corner
        self.right = right
        self.rack = rack
        centre = self.corner["wheel centre"]
        drawn = Measured(self.corner, centre, np.zeros(3))
        self.spindle = drawn.spindle
        self.ground = drawn.contact_centre[2]
        self.ends = np.array([self.corner[outer] for outer, _ in LINKS]) - centre
        self.lengths = np.array(
            [np.linalg.norm(self.corner[outer] - self.corner[inner]) for outer, inner in LINKS]
        )
        unknown = np.concatenate([centre, np.zeros(3)])
        for stage in range(1, self.STAGES + 1):
            self._stand(*(stage / self.STAGES * np.array([roll, heave, rack])))
            unknown = root(self._misses, unknown, tol=1e-13).x
        worst = np.abs(self._misses(unknown)).max()
        if not worst < 1e-8:
            raise NotClosed(f"links or the road are missed by up to {worst:g} mm")
        self.place = unknown[:3]
        self.turned = Rotation.from_rotvec(unknown[3:])
        self.measured = Measured(self.corner, self.place, self.turned)

    def _stand(self, roll, heave, rack):
        self.body = Rotation.from_euler("x", roll, degrees=True)
        self.lift = np.array([0.0, 0.0, heave])
        inner = np.array([self.corner[name] for _, name in LINKS])
        inner[4, 1] += rack
        self.inner = self.of_body(inner)

    def of_body(self, points):
        """Points of the body, (..., 3), in the road's axes."""
        foot = np.array([0.0, 0.0, self.ground])
        return self.body.apply(points - foot) + foot + self.lift

    def _misses(self, unknown):
        turn = rotation(unknown[3:])
        ends = unknown[:3] + self.ends @ turn.T
        n = turn @ self.spindle
        crown = self.corner.get("crown radius", 0.0)
        low = unknown[2] - (self.corner["tyre radius"] - crown) * np.sqrt(1.0 - n[2] ** 2) - crown
        return np.append(
            np.linalg.norm(ends - self.inner, axis=1) - self.lengths, low - self.ground
        )

    @property
    def travel(self):
        """Rise of the wheel centre against the body."""
        foot = np.array([0.0, 0.0, self.ground])
        at = self.body.inv().apply(self.place - foot - self.lift) + foot
        return at[2] - self.corner["wheel centre"][2]

    def value(self, name):
        """A measure in the signs of a left-hand corner."""
        value = getattr(self.measured, name)
        flipped = self.right and name in ("camber", "toe", "inclination", "scrub")
        return -value if flipped else value

    @property
    def contact(self):
        """The contact centre, (3,), where it truly is."""
        return self.measured.contact_centre

    def moving(self):
        """The upright's movement against the body, per unit of travel, in the road's axes."""
        foot = np.array([0.0, 0.0, self.ground])
        at = self.body.inv().apply(self.place - foot - self.lift) + foot
        turned = self.body.inv() * self.turned
        found = rates(self.corner, at, turned.as_rotvec(), self.rack, self.spindle)
        move = Moving(Measured(self.corner, at, turned), found)
        move.measured, move.centre = self.measured, self.place
        move.spin = self.body.apply(move.spin)
        move.centre_velocity = self.body.apply(move.centre_velocity)
        return move


def upright(one):
    """The `Upright` of an `OnRoad`: what holds it stands on the rolled body."""
    foot = np.array([0.0, 0.0, one.ground])
    placed = {
        name: one.body.apply(one.corner[name] - foot) + foot + one.lift
        for name in ("upper front pickup", "upper rear pickup", "tie rod inner")
    }
    held = Upright(placed, one.measured, 0.0)
    held.rack_way = one.body.apply([0.0, 1.0, 0.0])
    held.inner = held.inner + one.rack * held.rack_way
    return held


def roll_centre(left, right):
    """(lateral, height above the road) where contact-to-instant-centre lines cross."""
    return _crossing(
        [(one.contact, one.moving().instant_centre((1, 2)) - one.contact) for one in (left, right)],
        left.ground,
    )


def roll_centre_by_force(left, right):
    """The same for the lines of lateral force that the bars carry, each wheel free to roll."""
    lines = []
    for one in (left, right):
        way = line_of_force(one.measured, one.inner, across_heading(one.measured))
        lines.append((one.contact, np.append(0.0, way)))
    return _crossing(lines, left.ground)


def _crossing(lines, ground):
    (a, u), (b, v) = ((at[1:], way[1:]) for at, way in lines)
    share = np.linalg.solve(np.column_stack([u, -v]), b - a)[0]
    y, z = a + share * u
    return y, z - ground
