"""A car on four scales, and one with an axle on blocks, as rigid bodies in balance.

Loads and heights on turned perches: four springs and the three movements of the body, one
linear system, by numpy.linalg. The height of the weight: the body turned as a set of points,
the turn and then the height looked for by scipy.optimize.brentq.
"""

import numpy as np
from scipy.optimize import brentq

WHEELS = ("front left", "front right", "rear left", "rear right")
WHEELBASE = 1700.0  # of no influence on what perches do


def perches_turned(rises, rates, tracks):
    """(changes of the four loads, rises of the body at the four wheels), each (4,).

    rises: by how much each perch would raise the body at its wheel. rates, tracks: (front, rear).
    """
    x = np.array([0.0, 0.0, -WHEELBASE, -WHEELBASE])
    y = 0.5 * np.array([tracks[0], -tracks[0], tracks[1], -tracks[1]])
    rates = np.repeat(rates, 2)
    plane = np.column_stack([np.ones(4), x, y])
    # Each spring: load = rate * (rise of its perch - rise of the body there).
    springs = np.hstack([np.eye(4), rates[:, None] * plane])
    balance = np.hstack([plane.T, np.zeros((3, 3))])
    right = np.concatenate([rates * rises, np.zeros(3)])
    found = np.linalg.solve(np.vstack([springs, balance]), right)
    return found[:4], plane @ found[4:]


def one_perch(wheel, perch, rise, rates, tracks):
    """(change of a wheel's load, rise of the body there) with one perch turned."""
    rises = np.where(np.array(WHEELS) == perch, rise, 0.0)
    loads, heights = perches_turned(rises, rates, tracks)
    return loads[WHEELS.index(wheel)], heights[WHEELS.index(wheel)]


def load_on_blocks(weight, level, height, wheelbase, lift, radius, other):
    """Load on the axle that stays down, the other one's wheels on blocks of a height.

    level: that load with the car level. height: of the weight then. other: the lifted radius.
    """
    hub = np.array([0.0, radius])
    lifted = np.array([wheelbase, other]) - hub
    weight_at = np.array([wheelbase * (1.0 - level / weight), height]) - hub

    def turned(angle, point):
        c, s = np.cos(angle), np.sin(angle)
        return hub + np.array([[c, -s], [s, c]]) @ point

    angle = brentq(lambda a: turned(a, lifted)[1] - other - lift, 0.0, 1.4, xtol=1e-15)
    # Moments about the lifted wheels' contact.
    reach = turned(angle, lifted)[0]
    return weight * (reach - turned(angle, weight_at)[0]) / reach


def height_of_weight(weight, level, lifted, wheelbase, lift, radius, other):
    """Height at which the axle that stays down would show this load."""
    return brentq(
        lambda h: load_on_blocks(weight, level, h, wheelbase, lift, radius, other) - lifted,
        -5000.0, 5000.0, xtol=1e-10,
    )  # fmt: skip
