"""The independent values of the formulas for loads; `independent.py` says how they are used."""

from functools import cache

import numpy as np

from tests.authorities.corner_by_free_bodies import FreeBodies
from tests.catalogue.independent import authority
from tests.catalogue.independent_springs import _POINTS, actuated
from tests.support.corners import Corners


@cache
def bodies(block, travel, rack):
    """The example's free bodies at a pose."""
    cells = {row[0].lower(): row[1:] for row in block}
    corner = Corners.of_rows(block).one(0)
    corner.update({name: np.array(cells[name][:3], dtype=float) for name in _POINTS})
    return FreeBodies(corner, actuated(block), travel, rack)


def _solved(corner, longitudinal, lateral, vertical, travel, rack, acts):
    found = bodies(corner, travel, rack)
    return found, found.solve(found.load(acts, longitudinal, lateral, vertical))


def _part(vector, component):
    return np.linalg.norm(vector) if component == "size" else vector["xyz".index(component)]


@authority
def member_force(corner, member, *load):
    return _solved(corner, *load)[1][member]


@authority
def joint_force(corner, joint, component, *load):
    return _part(_solved(corner, *load)[1][joint], component)


@authority
def rocker_couple(corner, component, *load):
    return _part(_solved(corner, *load)[1]["couple"], component)


@authority
def arm_bending(corner, *load):
    found, forces = _solved(corner, *load)
    return found.bending(forces)


@authority
def member_length(corner, member, travel, rack):
    at = bodies(corner, travel, rack).at
    ends = {"rod": ("rod outer", "rod inner"), "tie rod": ("tie rod outer", "tie rod inner"),
            "spring": ("spring rocker", "spring frame")}  # fmt: skip
    if member in ends:
        one, other = ends[member]
    else:
        one, other = f"{member.split()[0]} ball joint", f"{member} pickup"
    return np.linalg.norm(at[one] - at[other])
