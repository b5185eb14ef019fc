"""Outside values of the formulas for masses: MuJoCo's rigid body, and moments about the wheels.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import numpy as np

from tests.authorities.masses_by_mujoco import joined
from tests.catalogue.independent import authority


def boxes(parts, of="all"):
    """(mass, place, sides) of each row, its mass times the share that is asked for."""
    found = []
    for _, *cells in parts:
        mass, x, y, z, *sides, unsprung = (0.0 if cell == "" else cell for cell in cells)
        share = {"all": 1.0, "sprung": 1.0 - unsprung, "unsprung": unsprung}[of]
        found.append((mass * share, (x, y, z), sides))
    return found


@authority
def parts_mass(parts, of="all"):
    return joined(boxes(parts, of))[0]


@authority
def centre_of_gravity(parts, coordinate, of="all"):
    return float(joined(boxes(parts, of))[1]["xyz".index(coordinate)])


@authority
def parts_inertia(parts, about, of="all"):
    place = ("roll", "pitch", "yaw").index(about)
    return float(joined(boxes(parts, of))[2][place, place])


@authority
def parts_front_share(parts, wheelbase, of="all"):
    """Loads of both axles that hold each part up by itself, added up."""
    held = np.array([[1.0, 1.0], [0.0, -wheelbase]])
    loads = sum(np.linalg.solve(held, [m, m * at[0]]) for m, at, _ in boxes(parts, of))
    return float(loads[0] / loads.sum())


@authority
def unsprung_mass(parts, axle, wheelbase):
    places = {"front": 0.0, "rear": -wheelbase}
    near = [
        (m, at, sides)
        for m, at, sides in boxes(parts, "unsprung")
        if min(places, key=lambda name: abs(at[0] - places[name])) == axle
    ]
    return joined(near)[0]


@authority
def rest_wheel_load(axle, side, weight, front_share, track, cg_lateral=0.0):
    """Balance of an axle: its weight, and moments about the middle."""
    half = track / 2
    on_axle = weight * (front_share if axle == "front" else 1 - front_share)
    both = np.linalg.solve([[1, 1], [half, -half]], [on_axle, on_axle * cg_lateral])
    return float(both[("left", "right").index(side)])


@authority
def dynamic_index(yaw_inertia, mass, front_share, wheelbase):
    """Two masses on the axles have the index 1: how the inertia stands to theirs."""
    front, rear = mass * front_share, mass * (1 - front_share)
    centre = -wheelbase * rear / mass
    return yaw_inertia / (front * centre**2 + rear * (wheelbase + centre) ** 2)
