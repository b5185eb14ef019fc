"""The corner as bodies and joints in MuJoCo, a general rigid-body engine.

Arms are bodies on hinges through their pickups. The upright sits on the lower arm's end
by a ball joint; a `connect` constraint ties it to the upper arm. The tie rod is a tendon
whose length an equality constraint holds, from the rack, which slides along y. MuJoCo
works out where the bodies are, by how much the constraints miss (`efc_pos`) and how that
changes with the joints (`efc_J`); Newton's steps on those figures close the loop at an asked
travel. Lengths are in metres inside, mm outside.
"""

import mujoco
import numpy as np
from scipy.spatial.transform import Rotation

MM = 0.001

_MODEL = """
<mujoco>
  <compiler angle="radian" inertiafromgeom="false"/>
  <option gravity="0 0 0" jacobian="dense"/>
  <worldbody>
    <body name="upper arm" pos="{upper_front_pickup}">
      <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
      <joint name="upper" type="hinge" axis="{upper_axis}"/>
      <site name="upper end" pos="{upper_arm}"/>
    </body>
    <body name="rack" pos="{tie_rod_inner}">
      <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
      <joint name="rack" type="slide" axis="0 1 0"/>
      <site name="rack end"/>
    </body>
    <body name="lower arm" pos="{lower_front_pickup}">
      <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
      <joint name="lower" type="hinge" axis="{lower_axis}"/>
      <body name="upright" pos="{lower_arm}">
        <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
        <joint name="upright" type="ball"/>
        <site name="lower ball joint"/>
        <site name="upper ball joint" pos="{upper_ball_joint}"/>
        <site name="tie rod outer" pos="{tie_rod_outer}"/>
        <site name="wheel centre" pos="{wheel_centre}"/>
      </body>
    </body>
  </worldbody>
  <tendon>
    <spatial name="tie rod"><site site="rack end"/><site site="tie rod outer"/></spatial>
  </tendon>
  <equality>
    <connect site1="upper ball joint" site2="upper end"/>
    <tendon tendon1="tie rod" polycoef="0 0 0 0 0"/>
  </equality>
</mujoco>
"""


class Bodies:
    """One corner. corner: name to (3,) array in mm, as drawn."""

    # Newton's steps, each with a stage's travel and rack reached from the one before.
    STEPS = 6

    # Of equalities: three for the upright on the upper arm, one for the tie rod.
    ROWS = 4

    def __init__(self, corner, model=_MODEL):
        at = {name: np.asarray(place) * MM for name, place in corner.items() if np.ndim(place)}
        lower = at["lower ball joint"]
        places = {
            "upper_front_pickup": at["upper front pickup"],
            "upper_axis": at["upper front pickup"] - at["upper rear pickup"],
            "upper_arm": at["upper ball joint"] - at["upper front pickup"],
            "tie_rod_inner": at["tie rod inner"],
            "lower_front_pickup": at["lower front pickup"],
            "lower_axis": at["lower front pickup"] - at["lower rear pickup"],
            "lower_arm": lower - at["lower front pickup"],
            "upper_ball_joint": at["upper ball joint"] - lower,
            "tie_rod_outer": at["tie rod outer"] - lower,
            "wheel_centre": at["wheel centre"] - lower,
        }
        texts = {key: " ".join(map(repr, map(float, xyz))) for key, xyz in places.items()}
        self.model = mujoco.MjModel.from_xml_string(model.format(**texts))
        self.data = mujoco.MjData(self.model)
        self.drawn_height = at["wheel centre"][2]
        self.rack = self.model.joint("rack").dofadr[0]
        self.free = [i for i in range(self.model.nv) if i != self.rack]
        self.wheel = self.model.site("wheel centre").id

    def solve(self, travel, rack, stages=4):
        """From the drawn pose; returns the largest miss of a constraint or the height, in mm."""
        mujoco.mj_resetData(self.model, self.data)
        for stage in range(1, stages + 1):
            share = stage / stages * MM
            missed = self._close(share * travel, share * rack)
        return missed / MM

    def _close(self, travel, rack):
        model, data = self.model, self.data
        data.qpos[model.joint("rack").qposadr[0]] = rack
        slope = np.empty((3, model.nv))
        for _ in range(self.STEPS):
            miss = self._miss(travel)
            if np.abs(miss).max() < 1e-15:
                break
            mujoco.mj_jacSite(model, data, slope, None, self.wheel)
            rows = np.vstack([data.efc_J.reshape(-1, model.nv)[: self.ROWS], slope[2]])
            step = np.zeros(model.nv)
            step[self.free] = np.linalg.solve(rows[:, self.free], -miss)
            mujoco.mj_integratePos(model, data.qpos, step, 1.0)
        return np.abs(self._miss(travel)).max()

    def _miss(self, travel):
        mujoco.mj_fwdPosition(self.model, self.data)
        height = self.data.site_xpos[self.wheel][2] - self.drawn_height - travel
        return np.append(self.data.efc_pos[: self.ROWS], height)

    def at(self, name):
        """Where a point of the upright is, (3,) in mm."""
        return self.data.site(name).xpos / MM

    def turned(self):
        """Rotation of the upright from the drawn pose."""
        return Rotation.from_matrix(self.data.body("upright").xmat.reshape(3, 3))
