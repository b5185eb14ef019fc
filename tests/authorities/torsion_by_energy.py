"""A twisted tube by the energy of its shear, and a twisted frame by a network of springs.

The tube: shear stress grows with the radius; its energy, integrated over the tube by scipy, is
the work of the force at the end of the arm. The frame: stiffness of each spring put into one
matrix for the rolls of both ends (and of any number of sections of the frame between them), what
leans out taken off its diagonal; solved by numpy.linalg.
"""

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq


def end_rate(modulus, outer, wall, arm, length):
    """Force per length at one end of a bar, the other end held."""
    inner = outer / 2 - wall
    ring = quad(lambda r: r**2 * 2 * np.pi * r, inner, outer / 2, epsrel=1e-13)[0]

    def left(force):
        # Half force times way is the energy of the shear, for a way of one unit.
        torque = force * arm
        energy = quad(
            lambda r: (torque * r / ring) ** 2 / (2 * modulus) * 2 * np.pi * r * length,
            inner, outer / 2, epsrel=1e-13,
        )[0]  # fmt: skip
        return energy - force / 2

    return brentq(left, 1e-9, 1e9, xtol=1e-12, rtol=1e-14)


def rolls(levers, stiffnesses, frame, lateral, sections=1):
    """Roll in radians of both ends, of a frame of so many equal sections between them.

    levers: weight that rolls over its height at each end; stiffnesses, frame: moment per radian.
    """
    n = sections + 1
    matrix = np.zeros((n, n))
    for i in range(sections):
        spring = frame * sections
        matrix[i : i + 2, i : i + 2] += spring * np.array([[1, -1], [-1, 1]])
    push = np.zeros(n)
    for end, lever, stiffness in zip((0, n - 1), levers, stiffnesses, strict=True):
        matrix[end, end] += stiffness - lever
        push[end] = lever * lateral
    found = np.linalg.solve(matrix, push)
    return found[0], found[-1]


def acting(levers, stiffnesses, frame, sections=3):
    """Stiffnesses per degree with which the axles of a rigid frame take the same moments."""
    lateral = 0.4
    both = rolls(levers, stiffnesses, frame, lateral, sections)
    moments = np.array(stiffnesses) * both
    # The rigid body's own balance: what leans out and the lateral force make these moments.
    roll = moments.sum() / sum(levers) - lateral
    return np.radians(moments / roll)
