"""Random left-hand corners, as arrays, as the package's linkages, and as blocks of cells.

Made-up proportions, in mm. `plausible` corners are those a builder would draw: the tie
rod's inner end lies within 15 mm of a place that gives no bump steer at first order.
`wild` ones stretch every proportion well past that, to find what breaks.
"""

import numpy as np
from cornerbook.geometry.corner.linkage import Linkage
from cornerbook.geometry.corner.wheel import spindle_of
from cornerbook.geometry.vec import Vec

POINTS = (
    "wheel centre",
    "lower ball joint",
    "lower front pickup",
    "lower rear pickup",
    "upper ball joint",
    "upper front pickup",
    "upper rear pickup",
    "tie rod outer",
    "tie rod inner",
)
VALUES = ("tyre radius", "static camber", "static toe")

_ARGUMENTS = {
    "lower ball joint": "lower_ball",
    "lower front pickup": "lower_front",
    "lower rear pickup": "lower_rear",
    "upper ball joint": "upper_ball",
    "upper front pickup": "upper_front",
    "upper rear pickup": "upper_rear",
    "tie rod outer": "tie_outer",
    "tie rod inner": "tie_inner",
    "wheel centre": "wheel_centre",
}


class Corners:
    """Many corners. points: name to an (n, 3) array; values: name to an (n,) array."""

    def __init__(self, points, values):
        self.points = points
        self.values = values
        self.count = len(values["tyre radius"])

    @classmethod
    def of_rows(cls, rows):
        """The one corner of a block of cells whose rows all have their plain names."""
        cells = {row[0].lower(): row[1:] for row in rows}
        return cls(
            {name: np.array([cells[name][:3]], dtype=float) for name in POINTS},
            {name: np.array([cells[name][0]], dtype=float) for name in VALUES},
        )

    def part(self, some):
        """Those corners that a slice chooses."""
        points, values = self.points.items(), self.values.items()
        return Corners({n: at[some] for n, at in points}, {n: at[some] for n, at in values})

    def rows(self, i):
        """Corner i as a block of cells."""
        points = [(p.capitalize(), *map(float, self.points[p][i])) for p in POINTS]
        values = [(v.capitalize(), float(self.values[v][i]), "", "") for v in VALUES]
        return tuple(points + values)

    def one(self, i):
        """Corner i as plain arrays: name to (3,) array or float."""
        found = {name: self.points[name][i] for name in POINTS}
        found.update({name: float(self.values[name][i]) for name in VALUES})
        return found

    def linkage(self, i):
        """Corner i as the package's `Linkage` of floats."""
        return self._linkage(
            lambda array: Vec(*map(float, array[i])), lambda array: float(array[i])
        )

    def linkages(self):
        """All corners as one `Linkage` of arrays of shape (n, 1), to take poses along a row."""
        return self._linkage(
            lambda array: Vec(*(array[:, axis, None] for axis in range(3))),
            lambda array: array[:, None],
        )

    def _linkage(self, vec, value):
        points = {_ARGUMENTS[name]: vec(array) for name, array in self.points.items()}
        camber, toe = value(self.values["static camber"]), value(self.values["static toe"])
        return Linkage(
            spindle=spindle_of(camber, toe), radius=value(self.values["tyre radius"]), **points
        )

    def lever(self):
        """Distance of each tie rod's outer end from the steering axis, shape (n,)."""
        axis = self.points["upper ball joint"] - self.points["lower ball joint"]
        way = self.points["tie rod outer"] - self.points["lower ball joint"]
        return np.linalg.norm(np.cross(axis, way), axis=1) / np.linalg.norm(axis, axis=1)

    def scaled(self, factor):
        """The same corners in another unit of length."""
        values = dict(self.values)
        values["tyre radius"] = values["tyre radius"] * factor
        return Corners({name: at * factor for name, at in self.points.items()}, values)

    def moved(self, way):
        """The same corners with every point moved by a vector of shape (3,)."""
        return Corners({name: at + way for name, at in self.points.items()}, self.values)


def random_corners(seed, n, wild=False):
    """`Corners` drawn at random; half with the tie rod ahead of the axis, half behind."""
    draw = np.random.default_rng(seed)

    def between(low, high, low_wild=None, high_wild=None):
        if wild and low_wild is not None:
            low, high = low_wild, high_wild
        return draw.uniform(low, high, n)

    def point(x, y, z):
        return np.column_stack([x, y, z])

    radius = between(220.0, 300.0)
    centre = point(between(-10, 10), between(480, 700), radius + between(-5, 5))
    rise = between(190, 270, 120, 320)
    caster = np.radians(between(1, 9, -10, 20))
    inclination = np.radians(between(2, 14, -5, 25))
    lower = point(
        centre[:, 0] + between(-5, 20, -40, 40),
        centre[:, 1] - between(20, 80, -20, 140),
        centre[:, 2] - between(80, 130, 40, 160),
    )
    upper = lower + point(-rise * np.tan(caster), -rise * np.tan(inclination), rise)

    def arm(ball, length, lift, lean):
        middle = ball - point(between(-30, 30), length, -lift)
        half = between(60, 160, 40, 220)
        # The arm's axis runs fore and aft, but for a slope in plan and in side view.
        plan, side = half * between(-lean, lean), half * between(-lean, lean)
        along = point(half, plan, side)
        return middle + along, middle - along

    length = between(220, 340, 170, 400)
    lean = 0.4 if wild else 0.2
    lower_front, lower_rear = arm(lower, length, between(-20, 30, -60, 60), lean)
    share = between(0.6, 1.0, 0.5, 1.2)
    upper_front, upper_rear = arm(upper, length * share, between(-50, 15, -90, 60), lean)

    side = np.where(np.arange(n) % 2, 1.0, -1.0)
    height = centre[:, 2] + between(-80, 50, -120, 120) - lower[:, 2]
    on_axis = lower + (upper - lower) * (height / rise)[:, None]
    outer = on_axis + point(side * between(60, 130, 45, 160), between(-20, 15, -40, 30), 0.0 * rise)

    points = {
        "wheel centre": centre,
        "lower ball joint": lower,
        "lower front pickup": lower_front,
        "lower rear pickup": lower_rear,
        "upper ball joint": upper,
        "upper front pickup": upper_front,
        "upper rear pickup": upper_rear,
        "tie rod outer": outer,
    }
    mixed = between(0.2, 0.8)
    inboard = (
        mixed * 0.5 * (lower_front[:, 1] + lower_rear[:, 1])
        + (1 - mixed) * 0.5 * (upper_front[:, 1] + upper_rear[:, 1])
    )  # fmt: skip
    inner = point(outer[:, 0] + between(-25, 25, -60, 60), inboard, outer[:, 2])
    values = {
        "tyre radius": radius,
        "static camber": between(-3, 1, -6, 4),
        "static toe": between(-0.5, 0.5, -2, 2),
    }
    way = _way_without_bump_steer(points, values)
    # The rod must be square to the way its outer end would go were the toe held.
    short = inner - outer
    inner[:, 2] -= (short * way).sum(1) / way[:, 2]
    inner[:, 2] += between(-15, 15, -50, 50)
    points["tie rod inner"] = inner
    return Corners(points, values)


def _way_without_bump_steer(points, values):
    """Velocity of the tie rod's outer end per unit of travel, were the wheel's toe held.

    The upright's velocity and spin follow from four arm lengths, the toe held and the
    wheel centre rising by one: six linear equations.
    """
    n = len(values["tyre radius"])
    centre = points["wheel centre"]
    system = np.zeros((n, 6, 6))
    row = 0
    for ball, pickups in (
        ("lower ball joint", ("lower front pickup", "lower rear pickup")),
        ("upper ball joint", ("upper front pickup", "upper rear pickup")),
    ):
        for pickup in pickups:
            link = points[ball] - points[pickup]
            system[:, row, :3] = link
            system[:, row, 3:] = np.cross(points[ball] - centre, link)
            row += 1
    camber, toe = np.radians(values["static camber"]), np.radians(values["static toe"])
    spindle = np.column_stack(
        [np.cos(camber) * np.sin(toe), np.cos(camber) * np.cos(toe), -np.sin(camber)]
    )
    # (spin x spindle) has no part along the level direction square to the spindle.
    square = np.column_stack([spindle[:, 1], -spindle[:, 0], 0 * toe])
    system[:, 4, 3:] = np.cross(spindle, square)
    system[:, 5, 2] = 1.0
    wanted = np.zeros((n, 6, 1))
    wanted[:, 5] = 1.0
    motion = np.linalg.solve(system, wanted)[:, :, 0]
    return motion[:, :3] + np.cross(motion[:, 3:], points["tie rod outer"] - centre)
