"""A car in a steady turn as free bodies: the body and two axles, their equilibrium solved.

The body touches each axle at its roll centre by a lateral and a vertical force and by the
springs' couple; each axle stands on two tyres. At a given roll all these forces follow from
one linear system of the equations of statics (d'Alembert's force at each weight, moments
about the road), solved by numpy; the roll is then where the body's own roll moment is in
balance, by a root finder. x forward from the front axle, y left, z up; weights in any force,
stiffness in moment per degree, lateral acceleration in g, positive to the left.
"""

import numpy as np
from scipy.optimize import brentq

WHEELBASE = 1600.0  # of no influence on a steady turn's wheel loads

# Unknowns: for each axle the body's lateral and vertical force on it, its two wheel loads
# (left, right), its tyres' lateral force, and the springs' couple.
_EACH = 6


class Statics:
    """One car; the arguments are those of the formulas of a whole car, in their order."""

    def __init__(
        self, weight, cg_height, front_share, centre_front, centre_rear, stiffness_front,
        stiffness_rear, track_front, track_rear, unsprung_front=0.0, unsprung_rear=0.0,
        unsprung_height=0.0,
    ):  # fmt: skip
        self.weight = weight
        self.cg_behind = WHEELBASE * (1.0 - front_share)
        self.height = cg_height
        self.centres = (centre_front, centre_rear)
        self.stiffness = np.degrees([stiffness_front, stiffness_rear])
        self.tracks = (track_front, track_rear)
        self.unsprung = (unsprung_front, unsprung_rear)
        self.unsprung_height = unsprung_height
        self.rows = {}  # of the equations, by which axle's wheel is lifted
        # The roll axis runs straight between the roll centres.
        self.axis = np.interp(self.cg_behind, [0.0, WHEELBASE], self.centres)

    def forces(self, lateral, roll, lifted=None):
        """(the unknowns as (2, 6), the body's roll moment left over) at a roll in radians.

        lifted: 0 or 1 for the axle whose left wheel has no load; its couple is then free.
        """
        rows, right = self.rows.setdefault(lifted, []), []

        def equation(terms, value):
            # What stands at the unknowns is the same for every lateral acceleration and roll.
            if len(rows) == len(right):
                row = np.zeros(2 * _EACH)
                for (axle, which), factor in terms.items():
                    row[axle * _EACH + which] += factor
                rows.append(row)
            right.append(value)

        both = (0, 1)
        lateral_force, upright_force, left, right_load, tyres, couple = range(_EACH)
        # The body: the axles hold it against its weight and its d'Alembert force.
        equation({(i, lateral_force): 1.0 for i in both}, self.weight * lateral)
        equation({(i, upright_force): 1.0 for i in both}, self.weight)
        equation({(1, lateral_force): WHEELBASE}, self.weight * lateral * self.cg_behind)
        equation({(1, upright_force): WHEELBASE}, self.weight * self.cg_behind)
        for i in both:
            h, half, unsprung = self.centres[i], 0.5 * self.tracks[i], self.unsprung[i]
            equation({(i, left): 1.0, (i, right_load): 1.0, (i, upright_force): -1.0}, unsprung)
            equation({(i, tyres): 1.0, (i, lateral_force): -1.0}, unsprung * lateral)
            equation(
                {(i, left): half, (i, right_load): -half, (i, lateral_force): h, (i, couple): 1.0},
                -unsprung * lateral * self.unsprung_height,
            )
            if i == lifted:
                equation({(i, left): 1.0}, 0.0)
            else:
                equation({(i, couple): 1.0}, self.stiffness[i] * roll)
        found = np.linalg.solve(np.array(rows), np.array(right)).reshape(2, _EACH)
        # The body's moments about the line y = 0 in the road.
        arm = self.height - self.axis
        cg_y, cg_z = -arm * np.sin(roll), self.axis + arm * np.cos(roll)
        over = self.weight * lateral * cg_z - self.weight * cg_y
        for i in both:
            over -= self.centres[i] * found[i, lateral_force] + found[i, couple]
        return found, over

    def roll(self, lateral, lifted=None):
        """Roll in radians where the body's moments are in balance."""
        low, high = (0.0, 0.7) if lateral * (self.height - self.axis) >= 0.0 else (-0.7, 0.0)
        if self.forces(lateral, low, lifted)[1] == 0.0:
            return low
        return brentq(lambda roll: self.forces(lateral, roll, lifted)[1], low, high, xtol=1e-15)

    def loads(self, lateral, lifted=None):
        """Wheel loads (front left, front right, rear left, rear right)."""
        found, _ = self.forces(lateral, self.roll(lateral, lifted), lifted)
        return found[:, 2:4].ravel()

    def lifts(self):
        """Lateral accelerations (front, rear) at which the left wheels, the inner ones, lift."""
        alone = [self._lift(axle, None) for axle in (0, 1)]
        first = int(np.argmin(alone))
        alone[1 - first] = self._lift(1 - first, first, alone[first])
        return tuple(alone)

    def _lift(self, axle, lifted, since=1e-3):
        # In small steps: much farther on there is no balance to look at.
        low, high = since, since
        while self.loads(high, lifted)[2 * axle] > 0.0:
            low, high = high, high + 0.05
        return brentq(lambda a: self.loads(a, lifted)[2 * axle], low, high, xtol=1e-14)
