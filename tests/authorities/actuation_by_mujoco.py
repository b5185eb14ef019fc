"""The corner with its rod, rocker and spring as bodies and tendons in MuJoCo.

As `rigid_bodies_by_mujoco`, with a rocker on a hinge besides. The rod is one more tendon whose
length an equality holds; the spring is a tendon that is free, and MuJoCo gives its length
and how its end moves with the joints. Lengths are in metres inside, mm outside.
"""

import mujoco
import numpy as np

from tests.authorities import rigid_bodies_by_mujoco as plain

MM = plain.MM

_ROCKER = """
    <body name="rocker" pos="{rocker_pivot}">
      <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
      <joint name="rocker" type="hinge" axis="{rocker_axis}"/>
      <site name="rod inner" pos="{rod_inner}"/>
      <site name="spring rocker" pos="{spring_rocker}"/>
    </body>
    <site name="spring frame" pos="{spring_frame}"/>
"""
_TENDONS = """
    <spatial name="rod"><site site="rod outer"/><site site="rod inner"/></spatial>
    <spatial name="spring"><site site="spring rocker"/><site site="spring frame"/></spatial>
"""
# Where a body of the plain model begins its list of sites, and the point it is placed at.
_BODIES = {
    "lower arm": ('<joint name="lower" type="hinge" axis="{lower_axis}"/>', "lower front pickup"),
    "upper arm": ('<joint name="upper" type="hinge" axis="{upper_axis}"/>', "upper front pickup"),
    "upright": ('<joint name="upright" type="ball"/>', "lower ball joint"),
}


def _text(place):
    return " ".join(map(repr, map(float, np.asarray(place))))


class ActuatedBodies(plain.Bodies):
    """One corner with a rocker. corner: name to (3,) array in mm; mount: what carries the rod."""

    ROWS = 5  # the rod's besides

    def __init__(self, corner, mount):
        at = {name: np.asarray(place) * MM for name, place in corner.items() if np.ndim(place)}
        pivot = at["rocker pivot"]
        rocker = _ROCKER.format(
            rocker_pivot=_text(pivot),
            rocker_axis=_text(at["rocker axis"] - pivot),
            rod_inner=_text(at["rod inner"] - pivot),
            spring_rocker=_text(at["spring rocker"] - pivot),
            spring_frame=_text(at["spring frame"]),
        )
        joint, origin = _BODIES[mount]
        site = '<site name="rod outer" pos="%s"/>' % _text(at["rod outer"] - at[origin])
        model = plain._MODEL.replace("</worldbody>", rocker + "</worldbody>")
        model = model.replace(joint, joint + site)
        model = model.replace("</tendon>", _TENDONS + "</tendon>")
        rod = '<tendon tendon1="rod" polycoef="0 0 0 0 0"/>'
        model = model.replace("</equality>", rod + "</equality>")
        super().__init__(corner, model)
        self.spring = self.model.tendon("spring").id
        self.turned_rocker = self.model.joint("rocker").qposadr[0]

    def spring_length(self):
        """In mm."""
        return self.data.ten_length[self.spring] / MM

    def motion_ratio(self):
        """How much the spring shortens for each unit of travel, the rack held."""
        model, data = self.model, self.data
        slope = np.empty((3, model.nv))
        mujoco.mj_jacSite(model, data, slope, None, self.wheel)
        rows = np.vstack([data.efc_J.reshape(-1, model.nv)[: self.ROWS], slope[2]])
        wanted = np.zeros(self.ROWS + 1)
        wanted[-1] = 1.0
        joints = np.linalg.solve(rows[:, self.free], wanted)
        # The spring shortens by its rocker end's way along it.
        mujoco.mj_jacSite(model, data, slope, None, model.site("spring rocker").id)
        spring = self.at("spring frame") - self.at("spring rocker")
        return spring @ (slope[:, self.free] @ joints) / np.linalg.norm(spring)

    def rocker_turn(self):
        """Radians about the axis from the pivot to the axis's second point."""
        return self.data.qpos[self.turned_rocker]
