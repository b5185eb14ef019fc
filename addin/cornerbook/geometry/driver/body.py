"""A body scaled onto a car: the one scale that fits best, and its sides, floor and top at a place.

Lengths in any one unit; x forward from the front axle line, as everywhere.
"""

from ..numbers import NAN, ratio, where


def best_scale(dimensions):
    """The factor for an example's dimensions that comes nearest to a car's, by least squares.

    dimensions: (example's, the car's, weight) of each. The sum of weight times (factor times
    example less car) squared is least; NaN where nothing weighs.
    """
    both = squares = 0.0
    for example, ours, weight in dimensions:
        both = both + weight * example * ours
        squares = squares + weight * example * example
    return ratio(both, squares, NAN)


def at_station(stations, x):
    """A measure of a body at a place, on straight lines between its stations; 0 beyond them.

    stations: (x, value, has) with x rising; those that have nothing are passed over.
    """
    found, before, value, seen = 0.0, 0.0, 0.0, False
    for here, there, has in stations:
        share = ratio(x - before, here - before, 0.0)
        inside = where(seen, where(x >= before, x <= here, False), x == here)
        line = where(seen, value + share * (there - value), there)
        found = where(has, where(inside, line, found), found)
        before = where(has, here, before)
        value = where(has, there, value)
        seen = where(has, True, seen)
    return found
