"""Boxes joined to one rigid body by MuJoCo, a general rigid-body engine.

It works out mass, centre and inertia of a body from the shapes fixed to it, and gives the
inertia by its principal axes; turned back by SciPy it is that about the car's axes. MuJoCo
counts in metres: lengths are in mm outside.
"""

import mujoco
import numpy as np
from scipy.spatial.transform import Rotation

MM = 0.001
POINT = 2e-5
"""Half the side, in metres, of what stands for a part without size: MuJoCo passes over less."""


def joined(parts):
    """(mass, centre in mm, inertia (3, 3) in mass mm2) of (mass, (x, y, z), (sides)) in mm."""
    text = "".join(
        '<geom type="box" mass="{!r}" pos="{} {} {}" size="{} {} {}"/>'.format(
            mass,
            *(repr(float(c) * MM) for c in at),
            *(repr(max(float(s) * MM / 2, POINT)) for s in sides),
        )
        for mass, at, sides in parts
        if mass > 0.0
    )
    model = mujoco.MjModel.from_xml_string(
        f"<mujoco><worldbody><body><freejoint/>{text}</body></worldbody></mujoco>"
    )
    turned = Rotation.from_quat(np.roll(model.body_iquat[1], -1)).as_matrix()
    inertia = turned @ np.diag(model.body_inertia[1]) @ turned.T
    return float(model.body_mass[1]), model.body_ipos[1] / MM, inertia / MM**2
