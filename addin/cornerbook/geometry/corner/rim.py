"""How near a member of the corner comes to its wheel: to the rim, and to the spokes.

The rim is a thin shell about the spindle, its inboard edge half its width inboard of the wheel
centre; outboard it is counted as if it went on, for no member comes in from there. The spokes
are a cone from the rim's middle to the hub's flange, carried on to the spindle. A member is a
round bar about a straight middle line.

All that is asked of a place on that line is how far along the spindle it lies (outboard
positive) and how far off it: the distance from a surface about the spindle is the one from the
surface's outline in the plane of those two.
"""

from ..numbers import absolute, ratio, sqrt, where

# Newton's steps to the place of a member nearest to the rim's edge.
STEPS = 8

NOT_NEAR = 1e9
"""Stands for the distance of what is not there."""


class Wheel:
    """The inside of a wheel. radius, width: of the rim's inside.

    flange_radius: of the hub's flange, from which the spokes run to the rim's middle; 0 for no
    spokes. flange_inboard: how far inboard of the rim's middle that flange is.
    """

    __slots__ = ("radius", "half", "flange_radius", "flange_inboard")

    def __init__(self, radius, width, flange_radius=0.0, flange_inboard=0.0):
        self.radius = radius
        self.half = 0.5 * width
        self.flange_radius = flange_radius
        self.flange_inboard = flange_inboard

    def clearance(self, pose, outer, inner, member_radius=0.0):
        """From a member's surface to the rim or the spokes, whichever is nearer.

        pose: the corner's. outer, inner: ends of the member's middle line. Negative by as much
        as the member is into the rim or the spokes, or through them.
        """
        line = _Line(pose, outer, inner)
        nearest = _smaller(self._barrel(line), sqrt(self._edge(line)))
        # In this order a place out of reach stays NaN.
        return _smaller(self._spokes(line), nearest) - member_radius

    def _barrel(self, line):
        """From the line's part outboard of the inboard edge, to the shell: off is convex."""
        crossing = ratio(-self.half - line.along(0.0), line.run, 0.0)
        first_out, last_out = (line.along(u) < -self.half for u in (line.first, line.last))
        first = line.off(where(first_out, crossing, line.first))
        last = line.off(where(last_out, crossing, line.last))
        within = self.radius - _larger(first, last)
        return where(first_out, where(last_out, NOT_NEAR, within), within)

    def _edge(self, line):
        """Square of the line's distance from the circle of the inboard edge.

        Between the middle and either end the square's slope along the line first may fall and
        then rises, so that there is one smallest place at most, to which Newton's steps from
        that end come down; where there is none, they stop at a place that is no nearer.
        """
        found = _smaller(self._square(line, line.first), self._square(line, line.last))
        middle_last = where(line.last < 0.0, line.last, 0.0)
        middle_first = where(line.first > 0.0, line.first, 0.0)
        for start, low, high in (
            (line.first, line.first, _larger(middle_last, line.first)),
            (line.last, _smaller(middle_first, line.last), line.last),
        ):
            place = start
            for _ in range(STEPS):
                off = line.off(place)
                slope = line.run * (line.along(place) + self.half)
                slope = slope + line.across2 * place * (1.0 - ratio(self.radius, off, 0.0))
                bend = self.radius * line.across2 * ratio(line.off2, off * off * off, 0.0)
                step = ratio(slope, line.run * line.run + line.across2 - bend, 0.0)
                place = _smaller(_larger(place - step, low), high)
            found = _smaller(found, self._square(line, place))
        return found

    def _square(self, line, place):
        beside, above = line.along(place) + self.half, line.off(place) - self.radius
        return beside * beside + above * above

    def _spokes(self, line):
        """From the line to the cone, inboard of it positive."""
        rise, back = self.radius - self.flange_radius, self.flange_inboard
        # Along the line this is convex (concave for a flange outboard): its slope is nought here.
        share = ratio(rise * line.run, back * line.across2, 0.0)
        under = 1.0 - share * share * line.across2
        place = where(under > 0.0, share * ratio(sqrt(line.off2), sqrt(absolute(under)), 0.0), 0.0)
        place = _smaller(_larger(place, line.first), line.last)
        heights = [
            back * (line.off(u) - self.flange_radius) - rise * (line.along(u) + back)
            for u in (line.first, line.last, place)
        ]
        lowest = _smaller(_smaller(heights[0], heights[1]), heights[2])
        return where(
            self.flange_radius > 0.0, lowest / sqrt(rise * rise + back * back), NOT_NEAR
        )  # fmt: skip


class _Line:
    """A member's middle line; its places are shares of it, 0 where it is nearest to the spindle.

    first, last: the places of its ends. run: the way along the spindle for the whole line;
    across2: the square of the way across; off2: the square of its distance from the spindle.
    """

    __slots__ = ("first", "last", "run", "across2", "off2", "_along")

    def __init__(self, pose, outer, inner):
        way, start = inner - outer, outer - pose.wheel_centre
        # Outboard: a pose has its spindle to the left, whichever wheel it is of.
        spindle = pose.spindle * where(pose.wheel_centre.y < 0.0, -1.0, 1.0)
        self.run = way.dot(spindle)
        along = start.dot(spindle)
        across = way - spindle * self.run
        aside = start - spindle * along
        self.across2 = across.dot(across)
        nearest = -ratio(aside.dot(across), self.across2, 0.0)
        foot = aside + across * nearest
        self.off2 = foot.dot(foot)
        self._along = along + self.run * nearest
        self.first = -nearest
        self.last = 1.0 - nearest

    def along(self, place):
        return self._along + self.run * place

    def off(self, place):
        return sqrt(self.off2 + self.across2 * place * place)


def _smaller(one, other):
    return where(one < other, one, other)


def _larger(one, other):
    return where(one > other, one, other)
