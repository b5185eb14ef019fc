"""Outside values of the formulas for what twists; `independent.py` says how they are used."""

import numpy as np

from tests.authorities import torsion_by_energy
from tests.catalogue.independent import authority


@authority
def anti_roll_end_rate(modulus, outer, wall, arm, length):
    return torsion_by_energy.end_rate(modulus, outer, wall, arm, length)


@authority
def roll_stiffness_with_frame(
    axle, weight, height, share, centre_front, centre_rear, front, rear, frame
):  # fmt: skip
    levers = (
        weight * np.array([share, 1 - share]) * (height - np.array([centre_front, centre_rear]))
    )
    found = torsion_by_energy.acting(levers, np.degrees([front, rear]), np.degrees(frame))
    return float(found[int(axle == "rear")])
