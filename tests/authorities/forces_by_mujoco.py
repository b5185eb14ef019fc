"""Forces in a corner as MuJoCo, a general rigid-body engine, says that its constraints give.

Upright and both arms are free bodies, made where they are at the pose; a rocker is one on a hinge.
Connects hold them at the ball joints and the pickups; tie rod, rod and spring are tendons whose
lengths equalities hold. The load is put on the upright, the engine works out accelerations and
the forces of its constraints, and these are read. What the pickups of an arm share along the line
between them no statics decides, so that of each only the part square to it is given.

The engine's constraints give a little (`solimp` allows 0.9999 of them at most), so that its bodies
are left with some acceleration. By Newton's law that is a load that the constraints do not hold; it
is put on again, some rounds over, and all that they give added up. `room` is the most by which what
is left at last can change a force. Lengths are in metres inside, mm outside.
"""

import mujoco
import numpy as np

MM = 0.001
ROUNDS = 5
_STIFF = 'solimp="0.9999 0.9999 0.001" solref="0.02 1"'

_BODY = """
    <body name="{name}">
      <inertial pos="{middle}" mass="1" diaginertia="0.02 0.02 0.02"/>
      {joint}{sites}
    </body>"""
_MODEL = """
<mujoco>
  <compiler angle="radian" inertiafromgeom="false"/>
  <option gravity="0 0 0" jacobian="dense" solver="Newton" iterations="100" tolerance="0"/>
  <worldbody>{bodies}{sites}
  </worldbody>
  <tendon>{tendons}</tendon>
  <equality>{equalities}</equality>
</mujoco>
"""


def _text(place):
    return " ".join(map(repr, map(float, np.asarray(place))))


def _site(name, place):
    return f'<site name="{name}" pos="{_text(place * MM)}"/>'


class Engine:
    """A corner at a pose. bodies: the `FreeBodies` there, of which points alone are taken."""

    def __init__(self, bodies):
        self.at = bodies.at
        self.rocker = bodies.rocker
        self.arms = ("lower", "upper")
        members = {
            "upright": ["lower ball joint", "upper ball joint", "tie rod outer"],
            **{f"{which} arm": [f"{which} ball joint", f"{which} front pickup",
                                f"{which} rear pickup"] for which in self.arms},
        }  # fmt: skip
        members[bodies.mount].append("rod outer")
        world = ["tie rod inner", "spring frame"]
        tendons = {"tie rod": ("upright:tie rod outer", "tie rod inner")}
        end = f"{bodies.mount}:rod outer"
        if self.rocker:
            members["rocker"] = ["rod inner", "spring rocker"]
            tendons["rod"] = (end, "rocker:rod inner")
            end = "rocker:spring rocker"
        tendons["spring"] = (end, "spring frame")
        connects = {f"{which} ball joint": ("upright", f"{which} arm") for which in self.arms}
        for which in self.arms:
            for pickup in (f"{which} front pickup", f"{which} rear pickup"):
                connects[pickup] = (f"{which} arm", None)
                world.append(pickup)
        self._build(members, world, tendons, connects)

    def _build(self, members, world, tendons, connects):
        at, made = self.at, ""
        for name, points in members.items():
            sites = "".join(_site(f"{name}:{point}", at[point]) for point in points)
            joint = '<freejoint name="%s"/>' % name
            middle = np.mean([at[point] for point in points], axis=0)
            if name == "rocker":
                pivot, axis = at["rocker pivot"], at["rocker axis"] - at["rocker pivot"]
                joint = f'<joint type="hinge" pos="{_text(pivot * MM)}" axis="{_text(axis)}"/>'
            made += _BODY.format(name=name, middle=_text(middle * MM), joint=joint, sites=sites)
        lines = "".join(
            f'<spatial name="{name}"><site site="{one}"/><site site="{other}"/></spatial>'
            for name, (one, other) in tendons.items()
        )
        held = "".join(
            f'<connect site1="{one}:{point}" site2="{f"{other}:" if other else ""}{point}" '
            f"{_STIFF}/>"
            for point, (one, other) in connects.items()
        )
        held += "".join(
            f'<tendon tendon1="{name}" polycoef="0 0 0 0 0" {_STIFF}/>' for name in tendons
        )
        self.connects, self.tendons = list(connects), list(tendons)
        self.model = mujoco.MjModel.from_xml_string(
            _MODEL.format(
                bodies=made, sites="".join(_site(point, at[point]) for point in world),
                tendons=lines, equalities=held,
            )
        )  # fmt: skip
        self.data = mujoco.MjData(self.model)

    def solve(self, wrench):
        """{name: force (3,) or pull} for a wrench about the origin on the upright, and `room`."""
        model, data = self.model, self.data
        mujoco.mj_resetData(model, data)
        applied = np.zeros(model.nv)
        mujoco.mj_forward(model, data)
        body = model.body("upright").id
        mujoco.mj_applyFT(model, data, wrench[:3], wrench[3:] * MM, np.zeros(3), body, applied)
        forces = 0.0
        for _ in range(ROUNDS):
            data.qfrc_applied[:] = applied
            mujoco.mj_forward(model, data)
            forces = forces + data.efc_force
            mujoco.mj_mulM(model, data, applied, data.qacc)
        slopes = data.efc_J.reshape(-1, model.nv)
        assert slopes.shape[0] == 3 * len(self.connects) + len(self.tendons)
        # Of the forces that hold a load, none in all is larger than this many times the load.
        most = np.linalg.norm(np.linalg.pinv(slopes.T, rcond=1e-10), 2)
        self.room = most * np.linalg.norm(applied) + 1e-9 * np.abs(forces).max()
        return self._named(forces)

    def _named(self, forces):
        found = {}
        for place, point in enumerate(self.connects):
            # A connect pushes its first body by the force and the other one back.
            force = -forces[3 * place : 3 * place + 3]
            if point.endswith("pickup"):
                which = point.split()[0]
                hinge = self.at[f"{which} front pickup"] - self.at[f"{which} rear pickup"]
                hinge = hinge / np.linalg.norm(hinge)
                force = force - hinge * (force @ hinge)
            found[point] = force
        for place, name in enumerate(self.tendons, 3 * len(self.connects)):
            found[name] = -float(forces[place])
        if not self.rocker:
            found["rod"] = found["spring"]
        return found
