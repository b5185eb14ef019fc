"""Parts that make up a body: its mass, its centre of gravity, its inertia; loads at rest.

Axes as everywhere: x forward from the front axle line, y to the left, z up from the ground.
A part is a box of even density whose faces lie along these axes, or a point if it has no size.
"""

from ..numbers import NAN, ratio, where
from ..vec import Vec


class Part:
    """mass; at: a `Vec` to its centre; size: a `Vec` of the box's sides; unsprung: 0 to 1."""

    def __init__(self, mass, at, size, unsprung):
        self.mass = mass
        self.at = at
        self.size = size
        self.unsprung = unsprung

    def own_inertia(self):
        """`Vec` of roll, pitch and yaw inertia about its own centre: those of a solid box."""
        xx, yy, zz = (side * side for side in self.size)
        twelfth = self.mass / 12.0
        return Vec(twelfth * (yy + zz), twelfth * (zz + xx), twelfth * (xx + yy))


def shared(parts, part_of):
    """The parts with their masses times what `part_of` gives of each."""
    return [Part(p.mass * part_of(p), p.at, p.size, p.unsprung) for p in parts]


def total_mass(parts):
    """The mass of all parts."""
    mass = 0.0
    for part in parts:
        mass = mass + part.mass
    return mass


def centre_of_gravity(parts):
    """`Vec` to the centre of gravity; NaN where there is no mass."""
    mass = total_mass(parts)
    x = y = z = 0.0
    for part in parts:
        x = x + part.mass * part.at.x
        y = y + part.mass * part.at.y
        z = z + part.mass * part.at.z
    return Vec(ratio(x, mass, NAN), ratio(y, mass, NAN), ratio(z, mass, NAN))


def inertia(parts):
    """`Vec` of roll, pitch and yaw inertia about lines through the centre of gravity.

    Each part's own and, by Steiner's relation, its mass times its distance from the line,
    squared. Mass times length squared.
    """
    centre = centre_of_gravity(parts)
    roll = pitch = yaw = 0.0
    for part in parts:
        away, own = part.at - centre, part.own_inertia()
        xx, yy, zz = away.x * away.x, away.y * away.y, away.z * away.z
        roll = roll + own.x + part.mass * (yy + zz)
        pitch = pitch + own.y + part.mass * (zz + xx)
        yaw = yaw + own.z + part.mass * (xx + yy)
    return Vec(roll, pitch, yaw)


def front_share(x, wheelbase):
    """Share of a weight at x on the front wheels, by the lever between the axle lines."""
    return 1.0 + x / wheelbase


def at_front(parts, wheelbase):
    """The parts that are nearer to the front axle line than to the rear one."""
    return shared(parts, lambda part: where(part.at.x > -0.5 * wheelbase, 1.0, 0.0))


def at_rear(parts, wheelbase):
    """The parts that are not nearer to the front axle line."""
    return shared(parts, lambda part: where(part.at.x > -0.5 * wheelbase, 0.0, 1.0))


def wheel_load(axle_weight, lateral, track):
    """Load of a left wheel at rest where its axle carries the moment of its own weight.

    lateral: how far the centre of gravity lies to the left.
    """
    return axle_weight * (0.5 + lateral / track)


def dynamic_index(yaw_inertia, mass, share, wheelbase):
    """Radius of gyration squared over the distances of both axles from the centre, k2/(a b)."""
    ahead, behind = (1.0 - share) * wheelbase, share * wheelbase
    return yaw_inertia / (mass * ahead * behind)
