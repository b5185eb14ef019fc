"""Exact derivatives of a corner by its own coordinates: the complex-step method.

A coordinate is given an imaginary part of 1e-30; the imaginary part of a result is then its
derivative to all digits, since no difference is taken (Squire and Trapp, *Using Complex
Variables to Estimate Derivatives of Real Functions*, SIAM Review 40, 1998; from memory). The
corner is closed by Newton's method on nine equations for its three outer points, written
from the definition of a double wishbone. Lengths in mm, angles in degrees.
"""

import numpy as np

STEP = 1e-30

OUTER = ("lower ball joint", "upper ball joint", "tie rod outer")
LINKS = (
    (0, "lower front pickup"), (0, "lower rear pickup"),
    (1, "upper front pickup"), (1, "upper rear pickup"),
    (2, "tie rod inner"),
)  # fmt: skip
SIDES = ((0, 1), (0, 2), (1, 2))


def spindle_as_drawn(camber, toe):
    """Unit direction of the wheel's axis, outboard; ISO 8855 signs of a left-hand wheel."""
    lean, turn = camber * np.pi / 180.0, toe * np.pi / 180.0
    return np.array([np.sin(turn) * np.cos(lean), np.cos(turn) * np.cos(lean), -np.sin(lean)])


def length2(vector):
    """Squared length without conjugation, so that it stays a smooth function."""
    return (vector * vector).sum()


class Wheel:
    """A closed corner. corner: name to (3,) array or value, one of them with a complex step."""

    def __init__(self, corner, travel, rack):
        corner = {n: np.asarray(at, dtype=complex) for n, at in corner.items()}
        self.radius = corner["tyre radius"]
        drawn = np.array([corner[name] for name in OUTER])
        centre = corner["wheel centre"]
        spindle = spindle_as_drawn(corner["static camber"], corner["static toe"])
        frame = self._frame(drawn)
        in_frame = np.linalg.solve(frame, centre - drawn[0])
        links = [length2(drawn[i] - corner[inner]) for i, inner in LINKS]
        sides = [length2(drawn[i] - drawn[j]) for i, j in SIDES]
        shift = np.array([0.0, rack, 0.0])

        def misses(points):
            found = []
            for (i, inner), wanted in zip(LINKS, links, strict=True):
                end = corner[inner] + (shift if inner == "tie rod inner" else 0.0)
                found.append(length2(points[i] - end) - wanted)
            for (i, j), wanted in zip(SIDES, sides, strict=True):
                found.append(length2(points[i] - points[j]) - wanted)
            at = points[0] + self._frame(points) @ in_frame
            found.append(1e3 * (at[2] - centre[2] - travel))
            return np.array(found)

        points = drawn.copy()
        for _ in range(15):
            miss = misses(points)
            points = points - np.linalg.solve(_slopes(misses, points), miss).reshape(3, 3)
        assert abs(misses(points).real).max() < 1e-8
        self.lower, self.upper, self.tie_outer = points
        self.spindle = self._frame(points) @ np.linalg.solve(frame, spindle)
        self.centre = points[0] + self._frame(points) @ in_frame

    @staticmethod
    def _frame(points):
        one, two = points[1] - points[0], points[2] - points[0]
        return np.array([one, two, np.cross(one, two)]).T

    @property
    def camber(self):
        """In degrees; positive: the top leans outward."""
        x, y, z = self.spindle
        return np.arctan(-z / np.sqrt(x * x + y * y)) * 180.0 / np.pi

    @property
    def toe(self):
        """In degrees; positive: the leading edge points inward."""
        return np.arctan(self.spindle[0] / self.spindle[1]) * 180.0 / np.pi

    @property
    def caster(self):
        """In degrees; positive: the axis's top leans rearward."""
        axis = self.upper - self.lower
        return np.arctan(-axis[0] / axis[2]) * 180.0 / np.pi

    @property
    def kpi(self):
        """In degrees; positive: the axis's top leans inward."""
        axis = self.upper - self.lower
        return np.arctan(-axis[1] / axis[2]) * 180.0 / np.pi

    @property
    def trail(self):
        """In mm: how far the axis meets the ground ahead of the contact, along the heading."""
        x, y, z = self.spindle
        level = np.sqrt(x * x + y * y)
        contact = self.centre + self.radius / level * np.array([x * z, y * z, -level * level])
        axis = self.upper - self.lower
        at = self.lower + axis * (contact[2] - self.lower[2]) / axis[2]
        return ((at - contact) * np.array([y / level, -x / level, 0.0])).sum()


def _slopes(function, points):
    """Jacobian by differences, good enough for Newton's method to come to the end."""
    here = function(points)
    columns = []
    for i in range(9):
        moved = points.copy()
        moved[i // 3, i % 3] += 1e-4
        columns.append((function(moved) - here) / 1e-4)
    return np.array(columns).T


def derivative(corner, point, index, measure, travel=0.0, rack=0.0):
    """Of one of `Wheel`'s measures by a coordinate; index 0, 1, 2, or None for a value."""
    changed = {name: np.array(at, dtype=complex) for name, at in corner.items()}
    if index is None:
        changed[point] = changed[point] + 1j * STEP
    else:
        changed[point][index] += 1j * STEP
    return float(getattr(Wheel(changed, travel, rack), measure).imag / STEP)
