"""A body on two springs as masses at its two axles: its free motions by numpy.linalg.eig.

Coordinates are the heights of the body over both axles; kinetic energy gives the mass matrix, and
nothing is taken about the centre of gravity.
"""

import numpy as np


def motions(weight, share, wheelbase, pitch_radius, rate_front, rate_rear, gravity):
    """{"bounce" or "pitch": (frequency in Hz, how far its still point is ahead of the middle of
    mass)}."""
    mass, behind = weight / gravity, wheelbase * share
    # Height at the middle of mass and turn, from the heights over (front, rear).
    height = np.array([behind, wheelbase - behind]) / wheelbase
    turn = np.array([-1.0, 1.0]) / wheelbase
    masses = mass * (np.outer(height, height) + pitch_radius**2 * np.outer(turn, turn))
    squares, ways = np.linalg.eig(np.linalg.solve(masses, 2 * np.diag([rate_front, rate_rear])))
    found = []
    for square, (front, rear) in zip(squares, ways.T, strict=True):
        # From the rear axle forward, the straight line through both heights meets 0 here.
        ahead_of_rear = wheelbase * rear / (rear - front) if rear != front else np.inf
        found.append((float(np.sqrt(square) / (2 * np.pi)), float(ahead_of_rear - behind)))
    found.sort(key=lambda one: abs(one[1]))
    return {"pitch": found[0], "bounce": found[1]}
