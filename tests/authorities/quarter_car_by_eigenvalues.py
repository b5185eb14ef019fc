"""A quarter of a car as a linear system of first order: its eigenvalues by numpy.linalg.

Two masses one above the other: the body on wheel spring and damper, the wheel on its tyre.
"""

import numpy as np


def eigenvalues(rate, damping, mass, tyre_rate, unsprung):
    """All four, per second."""
    masses = np.diag([mass, unsprung])
    stiffness = np.array([[rate, -rate], [-rate, rate + tyre_rate]])
    losses = damping * np.array([[1.0, -1.0], [-1.0, 1.0]])
    system = np.block(
        [
            [np.zeros((2, 2)), np.eye(2)],
            [-np.linalg.solve(masses, stiffness), -np.linalg.solve(masses, losses)],
        ]
    )
    return np.linalg.eigvals(system)


def body_mode(*numbers):
    """The eigenvalue of the mode in which the body moves most beside its wheel; it swings."""
    found = eigenvalues(*numbers)
    swings = found[np.abs(found.imag) > 1e-9]
    return swings[np.argmin(np.abs(swings))]
