"""The wheel's travel as a function of the spring's length, and of the load that springs hold.

Between rows of travel, spring length and motion ratio a cubic runs that has both at either row:
the motion ratio is how fast the length falls. The force at the wheel is then the one of the
spring and the stops times the motion ratio of that cubic, so that what the force works over any
travel is what spring and stops take up. Each function takes floats or arrays.
"""

from ..numbers import NAN, ratio, where

# Newton's steps within a row: a cubic is nearly straight there; a stop that touches is one bend
# more, past which the next step is on the right side.
LENGTH_STEPS = 4
LOAD_STEPS = 7


class Row:
    """Travel, the spring's length and the motion ratio there."""

    __slots__ = ("length", "ratio", "travel")

    def __init__(self, travel, length, ratio):
        self.travel = travel
        self.length = length
        self.ratio = ratio

    def if_else(self, condition, other):
        """This row where a condition holds, else the other one."""
        return Row(
            where(condition, self.travel, other.travel),
            where(condition, self.length, other.length),
            where(condition, self.ratio, other.ratio),
        )


class Between:
    """The cubic between two rows; u runs from 0 to 1. NaN where the rows are none."""

    __slots__ = ("cubic", "linear", "row", "square", "way")

    def __init__(self, row, after):
        self.row = row
        self.way = way = after.travel - row.travel
        fall = after.length - row.length
        first, last = -(way * row.ratio), -(way * after.ratio)
        self.linear = first
        self.square = 3.0 * fall - 2.0 * first - last
        self.cubic = first + last - 2.0 * fall

    def travel(self, u):
        """Travel at u."""
        return self.row.travel + self.way * u

    def length(self, u):
        """The spring's length at u."""
        return self.row.length + u * (self.linear + u * (self.square + u * self.cubic))

    def slope(self, u):
        """Change of the length by u."""
        return self.linear + u * (2.0 * self.square + 3.0 * self.cubic * u)

    def bend(self, u):
        """Change of the slope by u."""
        return 2.0 * self.square + 6.0 * self.cubic * u


def _around(rows, values, value):
    """(whether it is there, the rows before and after) where values first rise past a value."""
    before = after = Row(NAN, NAN, NAN)
    found = False
    for i in range(len(rows) - 1):
        rises = where(values[i] <= value, value <= values[i + 1], False)
        here = where(found, False, rises)
        before, after = rows[i].if_else(here, before), rows[i + 1].if_else(here, after)
        found = where(here, True, found)
    return found, before, after


def travel_at_length(rows, length):
    """(whether the rows come past it, travel at which the spring has a length).

    rows: `Row`s, the travel rising. The length is to fall with it.
    """
    found, before, after = _around(rows, [-row.length for row in rows], -length)
    between = Between(before, after)
    u = ratio(before.length - length, before.length - after.length, 0.0)
    for _ in range(LENGTH_STEPS):
        u = u - ratio(between.length(u) - length, between.slope(u), 0.0)
    return found, between.travel(u)


def travel_at_load(rows, load, springs):
    """(whether the rows hold it, travel at which springs hold a load at the wheel).

    springs: an `Actuators`. A load below what they hold in the first row leaves the wheel there.
    """
    forces = [springs.force(row.length) * row.ratio for row in rows]
    found, before, after = _around(rows, forces, load)
    between = Between(before, after)
    low = springs.force(before.length) * before.ratio
    high = springs.force(after.length) * after.ratio
    u = ratio(load - low, high - low, 0.0)
    for _ in range(LOAD_STEPS):
        length, slope = between.length(u), between.slope(u)
        force = springs.force(length)
        # Force at the wheel times the way between both rows, and its change by u.
        over = -(force * slope) - load * between.way
        by_u = springs.rate(length) * slope * slope - force * between.bend(u)
        u = u - ratio(over, by_u, 0.0)
        u = where(u < 0.0, 0.0, where(u > 1.0, 1.0, u))
    low_enough = load < forces[0]
    return (
        where(low_enough, True, found),
        where(low_enough, rows[0].travel, between.travel(u)),
    )
