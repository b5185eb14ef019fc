"""The vertical force at the wheel that a spring's push calls for, by equilibrium alone.

Rocker: moments about its axis give the rod's force. Then the two arms and the upright, each
with six equations of force and moment: an arm's hinge gives any force and any moment but that
about its axis; ball joints give a force; the tie rod one along itself; the road one vertical
force at the wheel centre. All as drawn; forces in the spring's unit.
"""

import numpy as np


def _wrench(point, force):
    """Force and moment about the origin."""
    return np.concatenate([force, np.cross(point, force)])


def _unit(vector):
    return vector / np.linalg.norm(vector)


def force_at_the_wheel(corner, mount, spring_force):
    """The force that pushes the wheel up. corner: name to (3,) array, the actuation's too."""
    pivot = corner["rocker pivot"]
    about = _unit(corner["rocker axis"] - pivot)
    # The spring pushes its end on the rocker away from the frame; the rod pushes back.
    push = spring_force * _unit(corner["spring rocker"] - corner["spring frame"])
    along = _unit(corner["rod inner"] - corner["rod outer"])
    moment = np.cross(corner["spring rocker"] - pivot, push) @ about
    rod = -moment / (np.cross(corner["rod inner"] - pivot, along) @ about)
    # The rod pushes the rocker by `rod` along itself, and its mount the other way.
    applied = _wrench(corner["rod outer"], -rod * along)

    bodies = ("lower arm", "upper arm", "upright")
    columns, right = [], np.zeros(18)
    right[6 * bodies.index(mount) :][:6] = -applied

    def unknown(*parts):
        """An unknown of size one: (body, wrench on it)."""
        column = np.zeros(18)
        for body, wrench in parts:
            column[6 * bodies.index(body) :][:6] += wrench
        columns.append(column)

    for which in ("lower", "upper"):
        arm = which + " arm"
        rear = corner[which + " rear pickup"]
        axis = _unit(corner[which + " front pickup"] - rear)
        ball = corner[which + " ball joint"]
        for way in np.eye(3):
            unknown((arm, _wrench(rear, way)))
            unknown((arm, _wrench(ball, way)), ("upright", -_wrench(ball, way)))
        across = _unit(np.cross(axis, [0.3, 0.5, 0.9]))
        for way in (across, np.cross(axis, across)):
            unknown((arm, np.concatenate([np.zeros(3), way])))
    outer = corner["tie rod outer"]
    unknown(("upright", _wrench(outer, _unit(outer - corner["tie rod inner"]))))
    unknown(("upright", _wrench(corner["wheel centre"], np.array([0.0, 0.0, 1.0]))))
    return np.linalg.solve(np.column_stack(columns), right)[-1]
