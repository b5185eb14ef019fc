"""The whole corner with its rod, rocker and spring, closed in many digits by mpmath.

Unknowns: both arms' angles about their pickups, the wheel centre, the rotation vector of the
upright, and the rocker's angle. Equations: both ball joints of the upright meet their arms,
the tie rod and the push or pull rod keep their lengths, the wheel centre has its height. Each
body is turned by Rodrigues' formula. SciPy's root finds the way from the drawn pose; Newton's
steps in mpmath, with SciPy's own slopes kept, then add digits. Rates are central differences
so small, of numbers so long, that nothing is lost in them. Lengths in mm.
"""

import math

import mpmath
import numpy as np
from scipy.optimize import root

DIGITS = 45
STEP = mpmath.mpf(10) ** -9
NEAR = 0.01
"""Two poses whose travels and racks are no farther apart, in mm, share their slopes."""

ROCKER = ("rod inner", "rocker pivot", "rocker axis", "spring rocker")


def _turn(axis, angle, m):
    """Rodrigues: the matrix of a turn about a unit axis."""
    x, y, z = axis
    c, s = m.cos(angle), m.sin(angle)
    t = 1 - c
    tx, ty, tz, sx, sy, sz = t * x, t * y, t * z, s * x, s * y, s * z
    return (
        (tx * x + c, tx * y - sz, tx * z + sy),
        (ty * x + sz, ty * y + c, ty * z - sx),
        (tz * x - sy, tz * y + sx, tz * z + c),
    )


def _turn_by_vector(turn, m):
    size2 = _dot(turn, turn)
    if size2 == 0:
        return ((1, 0, 0), (0, 1, 0), (0, 0, 1))
    size = m.sqrt(size2)
    return _turn([t / size for t in turn], size, m)


def _minus(a, b):
    return [x - y for x, y in zip(a, b, strict=True)]


def _dot(a, b):
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


class NotClosed(ArithmeticError):
    """No place was found where everything meets."""


class Actuated:
    """One corner with its actuation. corner: name to (3,) array or value, as drawn.

    mount: what carries the rod's outer end. Without the rows of `ROCKER` the spring stands on
    that end itself.
    """

    def __init__(self, corner, mount="lower arm"):
        self.at = {
            name: [float(x) for x in place] for name, place in corner.items() if np.ndim(place)
        }
        self.mount = mount
        self.rocker = ROCKER[0] in corner
        self.solved = {}
        self.lengths = {}
        self.drawn = {}

    # The equations, in floats (m is math) or in long numbers (m is mpmath)

    def _way(self, outer, inner, m):
        """From one drawn point to another, with all the digits that are worked in."""
        key = outer, inner, m
        if key not in self.drawn:
            one, other = self.at[outer], self.at[inner]
            if m is mpmath:
                one, other = map(m.mpf, one), map(m.mpf, other)
            self.drawn[key] = _minus(one, other)
        return self.drawn[key]

    def _length(self, outer, inner, m):
        """How far two points are apart as drawn."""
        key = "length", outer, inner, m
        if key not in self.drawn:
            way = self._way(outer, inner, m)
            self.drawn[key] = m.sqrt(_dot(way, way))
        return self.drawn[key]

    def _axis(self, outer, inner, m):
        """Unit direction from one drawn point to another."""
        key = "axis", outer, inner, m
        if key not in self.drawn:
            size = self._length(outer, inner, m)
            self.drawn[key] = [a / size for a in self._way(outer, inner, m)]
        return self.drawn[key]

    def lies(self, body, unknown, m):
        """How a body lies: (the matrix of its turn, a point of it, where that is)."""
        if body == "upright":
            return _turn_by_vector(unknown[5:8], m), "wheel centre", unknown[2:5]
        if body == "rocker":
            on_axis, other, angle = "rocker pivot", "rocker axis", unknown[8]
        else:
            which = body.split()[0]
            on_axis, other = which + " rear pickup", which + " front pickup"
            angle = unknown[0 if which == "lower" else 1]
        return _turn(self._axis(other, on_axis, m), angle, m), on_axis, self.at[on_axis]

    def _at(self, name, lies, m):
        """Where a point of a body is that lies so."""
        turn, point, there = lies
        way = self._way(name, point, m)
        return [p + _dot(row, way) for p, row in zip(there, turn, strict=True)]

    def carried(self, name, body, unknown, m):
        """Where a point is that the named body carries."""
        return self._at(name, self.lies(body, unknown, m), m)

    def on_rocker(self, name, unknown, m):
        """Where a point of the rocker is."""
        return self.carried(name, "rocker", unknown, m)

    def misses(self, unknown, travel, rack, m):
        at = self.at
        found = []
        lies = {name: self.lies(name, unknown, m) for name in ("upright", "lower arm", "upper arm")}
        for which in ("lower", "upper"):
            name = which + " ball joint"
            on_arm = self._at(name, lies[which + " arm"], m)
            found += _minus(self._at(name, lies["upright"], m), on_arm)
        rod = _minus(self._at("tie rod outer", lies["upright"], m), at["tie rod inner"])
        rod[1] = rod[1] - rack
        found.append(m.sqrt(_dot(rod, rod)) - self._length("tie rod outer", "tie rod inner", m))
        found.append(unknown[4] - at["wheel centre"][2] - travel)
        if self.rocker:
            outer = self._at("rod outer", lies[self.mount], m)
            rod = _minus(outer, self.on_rocker("rod inner", unknown, m))
            found.append(m.sqrt(_dot(rod, rod)) - self._length("rod outer", "rod inner", m))
        return found

    # Solving

    def _start(self, travel, rack, stages=4):
        """Unknowns in floats, and the inverse of the equations' slopes there."""
        unknown = np.zeros(9 if self.rocker else 8)
        unknown[2:5] = self.at["wheel centre"]
        for stage in range(1, stages + 1):
            share = stage / stages
            found = root(
                lambda u, s=share: self.misses(u.tolist(), s * travel, s * rack, math),
                unknown, tol=1e-12,
            )  # fmt: skip
            unknown = found.x
            if not np.abs(found.fun).max() < 1e-7:
                raise NotClosed(f"misses {found.fun}")
        slopes = np.empty((len(unknown), len(unknown)))
        for i in range(len(unknown)):
            low, high = unknown.copy(), unknown.copy()
            low[i] -= 1e-6
            high[i] += 1e-6
            slopes[:, i] = (
                np.array(self.misses(high.tolist(), travel, rack, math))
                - self.misses(low.tolist(), travel, rack, math)
            ) / 2e-6
        return unknown, np.linalg.inv(slopes)

    def _near(self, travel, rack):
        """(unknowns in floats, the inverse of the slopes) of this pose, or of one near by."""
        for (one, other), start in self.solved.items():
            if max(abs(one - travel), abs(other - rack)) < NEAR:
                return start
        start = self.solved[travel, rack] = self._start(travel, rack)
        return start

    def solve_in_floats(self, travel, rack):
        """Unknowns to nearly the last digit of a float."""
        unknown, inverse = self._near(travel, rack)
        for _ in range(10):
            move = inverse @ self.misses(unknown.tolist(), travel, rack, math)
            unknown = unknown - move
            if np.abs(move).max() < 1e-11:
                return unknown.tolist()
        raise NotClosed("Newton's steps do not settle")

    def solve(self, travel, rack):
        """Unknowns as long numbers."""
        start, inverse = self._near(float(travel), float(rack))
        with mpmath.workdps(DIGITS):
            unknown = [mpmath.mpf(x) for x in start.tolist()]
            rows = [[mpmath.mpf(x) for x in row] for row in inverse.tolist()]
            for _ in range(30):
                missed = self.misses(unknown, travel, rack, mpmath)
                unknown = _minus(unknown, [mpmath.fdot(row, missed) for row in rows])
                if max(map(abs, missed)) < mpmath.mpf(10) ** (5 - DIGITS):
                    return unknown
        raise NotClosed("Newton's steps do not settle")

    # What is asked

    def spring(self, travel, rack):
        """Length of the spring."""
        if (travel, rack) not in self.lengths:
            self.lengths[travel, rack] = self._spring(travel, rack)
        return self.lengths[travel, rack]

    def _spring(self, travel, rack):
        with mpmath.workdps(DIGITS):
            unknown = self.solve(travel, rack)
            if self.rocker:
                end = self.on_rocker("spring rocker", unknown, mpmath)
            else:
                end = self.carried("rod outer", self.mount, unknown, mpmath)
            way = _minus(end, [mpmath.mpf(x) for x in self.at["spring frame"]])
            return mpmath.sqrt(_dot(way, way))

    def slopes(self, function, travel, rack):
        """(value, first, second derivative by travel) of a function of the spring's length."""
        with mpmath.workdps(DIGITS):
            travel = mpmath.mpf(travel)
            low, middle, high = (
                function(self.spring(travel + step, rack)) for step in (-STEP, 0, STEP)
            )
            return (
                float(middle),
                float((high - low) / (2 * STEP)),
                float((high - 2 * middle + low) / STEP**2),
            )

    def length_and_ratio(self, travel, rack):
        """(spring length, motion ratio, its change by travel)."""
        length, slope, bend = self.slopes(lambda length: length, travel, rack)
        return length, -slope, -bend

    def force_and_rate(
        self, spring_rate, free_length, travel, rack,
        bump=0.0, bump_rate=0.0, droop=0.0, droop_rate=0.0,
    ):  # fmt: skip
        """(force at the wheel, wheel rate): first and second derivative of the energy."""

        def energy(length):
            pushed = (
                (spring_rate, free_length - length), (bump_rate, bump - length),
                (droop_rate, length - droop),
            )  # fmt: skip
            return sum(mpmath.mpf(rate) * max(way, mpmath.mpf(0)) ** 2 / 2 for rate, way in pushed)

        return self.slopes(energy, travel, rack)[1:]

    def rocker_turn(self, travel, rack):
        """Degrees, positive the way that shortens the spring as drawn."""
        angle = self.solve_in_floats(travel, rack)[8]
        lengths = []
        for small in (-1e-6, 1e-6):
            end = self.on_rocker("spring rocker", [0.0] * 8 + [small], math)
            lengths.append(math.dist(end, self.at["spring frame"]))
        return math.degrees(angle) * (1.0 if lengths[1] < lengths[0] else -1.0)

    def margins(self, travel, rack):
        """(rod's, spring's) degrees from over centre, by moments about the rocker's axis.

        The moment of a force of one along a link over what its part in the rocker's plane
        could have at that arm is the sine of the angle.
        """
        unknown = self.solve_in_floats(travel, rack)
        outer = self.carried("rod outer", self.mount, unknown, math)
        drawn = (self.at["rod outer"], self.at["spring frame"])
        found = []
        for name, now, then in zip(
            ("rod inner", "spring rocker"), (outer, self.at["spring frame"]), drawn, strict=True
        ):
            sides = []
            for end, other in ((self.on_rocker(name, unknown, math), now), (self.at[name], then)):
                sides.append(self._sine(np.array(end), np.array(other)))
            found.append(math.degrees(math.asin(sides[0])) * math.copysign(1.0, sides[1]))
        return tuple(found)

    def _sine(self, end, other):
        pivot = np.array(self.at["rocker pivot"])
        axis = np.array(self.at["rocker axis"]) - pivot
        axis /= np.linalg.norm(axis)

        def flat(v):
            return v - axis * (v @ axis)

        arm, pull = flat(end - pivot), flat(other - end)
        moment = np.cross(arm, pull) @ axis
        return moment / (np.linalg.norm(arm) * np.linalg.norm(pull))
