"""The forces in an upright by its six equations of equilibrium, as numpy solves them.

The upright of a left-hand corner at a pose takes forces of the road. It is held by the lower
ball joint (any force: the spring may stand on that arm), by the upper one (no force the way
the upper arm lets it go), and by the tie rod along itself; or, in place of the rod, by a
couple about the steering axis. Nothing of levers or arms is used.
"""

import numpy as np
from scipy.spatial.transform import Rotation


def _unit(vector):
    return vector / np.linalg.norm(vector)


class Upright:
    """A `Measured` corner and what is bolted to the body beside it.

    corner: name to (3,) array, as drawn. rack: how far the rod's inner end has gone left.
    """

    def __init__(self, corner, measured, rack):
        self.at = measured
        self.outer = measured.at("tie rod outer")
        self.inner = corner["tie rod inner"] + np.array([0.0, rack, 0.0])
        self.rack_way = np.array([0.0, 1.0, 0.0])
        hinge = corner["upper front pickup"] - corner["upper rear pickup"]
        let_go = np.cross(hinge, measured.upper - corner["upper rear pickup"])
        self.upper_ways = np.linalg.svd(let_go[None, :])[2][1:]
        self.heading = measured.heading.apply([1.0, 0.0, 0.0])
        self.outboard = measured.heading.apply([0.0, 1.0, 0.0])
        self.axis = _unit(measured.upper - measured.lower)

    def road(
        self, longitudinal, lateral, vertical, reacted="upright", behind=0.0, unsprung=0.0
    ):  # fmt: skip
        """Force and couple at the lower ball joint of the road's forces on the upright.

        behind: how far behind the contact centre the lateral force acts. unsprung: a weight at
        the wheel centre.
        """
        at = self.at
        force = longitudinal * self.heading + lateral * self.outboard
        force = force + np.array([0.0, 0.0, vertical])
        couple = np.cross(at.contact_centre - at.lower, force)
        couple = couple + np.cross(-behind * self.heading, lateral * self.outboard)
        if reacted == "inboard":
            # The shaft's torque on the wheel lies along the spindle and undoes the
            # longitudinal force's moment about it.
            spun = np.cross(at.contact_centre - at.centre, longitudinal * self.heading)
            couple = couple - at.spindle * (spun @ at.spindle)
        weight = np.array([0.0, 0.0, -unsprung])
        return np.concatenate(
            [force + weight, couple + np.cross(at.centre - at.lower, weight)]
        )  # fmt: skip

    def _held_by(self, last, road):
        columns = [np.concatenate([way, np.zeros(3)]) for way in np.eye(3)]
        above = self.at.upper - self.at.lower
        columns += [np.concatenate([way, np.cross(above, way)]) for way in self.upper_ways]
        return np.linalg.solve(np.column_stack([*columns, last]), -road)[-1]

    def moment(self, *forces):
        """Moment of the road's forces about the steering axis, toward toe-in."""
        # Held by a couple upward along the axis, which is toward toe-out on a left-hand wheel.
        couple = np.concatenate([np.zeros(3), self.axis])
        return self._held_by(couple, self.road(*forces))

    def push_on_rack(self, *forces):
        """Force to the left on the rack, from the road's forces."""
        return self._through_rod(self.road(*forces))

    def push_of_moment(self, moment):
        """The same from a pure couple about the steering axis, toward toe-in."""
        return self._through_rod(np.concatenate([np.zeros(3), -moment * self.axis]))

    def push_on_rack_beside_a_spring(self, outer, inner, *forces):
        """The same where a rod from outer to inner holds the upright up, and no arm does."""
        hinge = self.at.corner["lower front pickup"] - self.at.corner["lower rear pickup"]
        let_go = np.cross(hinge, self.at.lower - self.at.corner["lower rear pickup"])
        ways = [(self.at.lower, way) for way in np.linalg.svd(let_go[None, :])[2][1:]]
        ways += [(self.at.upper, way) for way in self.upper_ways]
        along = _unit(self.outer - self.inner)
        ways += [(self.outer, along), (outer, _unit(outer - inner))]
        columns = [np.concatenate([w, np.cross(at - self.at.lower, w)]) for at, w in ways]
        return -np.linalg.solve(np.column_stack(columns), -self.road(*forces))[4] * along[1]

    def _through_rod(self, road):
        along = _unit(self.outer - self.inner)
        rod = np.concatenate([along, np.cross(self.outer - self.at.lower, along)])
        # The rod pushes the upright by this along itself, and the rack the other way.
        return -self._held_by(rod, road) * (along @ self.rack_way)

    def rotated(self, turn):
        """The `Rotation` of the upright by a turn in radians toward toe-in, the arms held."""
        return Rotation.from_rotvec(-turn * self.axis)

    def work_slope(self, place, force):
        """Work of a force per radian of turn toward toe-in: differences of finite turns."""

        def gone(turn):
            return self.rotated(turn).apply(place - self.at.lower) @ force

        one, two = ((gone(h) - gone(-h)) / (2.0 * h) for h in (1e-3, 2e-3))
        return (4.0 * one - two) / 3.0
