"""What a lateral force at the tyre adds to the load that the links carry, by statics of bars.

The upright hangs on five bars (the legs of both arms and the tie rod), each with a force along
itself alone, as long as the spring's force does not change. A lateral force at the contact
centre then asks for one certain vertical force beside it. Six equations of equilibrium for
five bar forces and that vertical force, as numpy solves them; no velocity is used.
"""

import numpy as np

from tests.authorities.closure_by_scipy import LINKS


def inner_ends(corner, rack):
    """The bars' inner ends, (5, 3), the rack having gone left by this."""
    inner = np.array([corner[name] for _, name in LINKS])
    inner[4, 1] += rack
    return inner


def vertical_beside(measured, inner, force):
    """Upward force at the contact centre that a level one there needs, the spring as it was.

    measured: the `Measured` upright; inner: the bars' inner ends, in the same axes.
    """
    outer = np.array([measured.at(name) for name, _ in LINKS])
    along = (outer - inner) / np.linalg.norm(outer - inner, axis=1)[:, None]
    columns = [np.concatenate([w, np.cross(p, w)]) for p, w in zip(outer, along, strict=True)]

    def wrench(one):
        return np.concatenate([one, np.cross(measured.contact_centre, one)])

    columns.append(wrench(np.array([0.0, 0.0, 1.0])))
    return np.linalg.solve(np.column_stack(columns), -wrench(np.asarray(force, dtype=float)))[-1]


def across_heading(measured):
    """The level direction to the left across the heading: all that a wheel free to roll takes."""
    return measured.heading.apply([0.0, 1.0, 0.0])


def line_of_force(measured, inner, force):
    """In the plane across the car, the way (y, z) in which the force and its vertical one point."""
    return np.array([force[1], vertical_beside(measured, inner, force)])
