"""Points of which some coordinates move, as variables of many cars side by side."""

import numpy as np

from ....geometry.vec import Vec


class Moving:
    """start: {row: `Vec` of floats}. coordinates: [(row, axis)] of those that move, in the order of
    the variables. first: their values at the start.
    """

    def __init__(self, start, coordinates):
        self.start = start
        self.coordinates = coordinates
        self.first = np.array([getattr(start[label], axis) for label, axis in coordinates])

    def places(self, variables):
        """{row: `Vec` of arrays of one column}, a car for each row of the variables."""
        columns = {key: variables[:, [i]] for i, key in enumerate(self.coordinates)}
        nothing = np.zeros((len(variables), 1))
        return {
            label: Vec(*(columns.get((label, axis), nothing + getattr(place, axis))
                         for axis in "xyz"))
            for label, place in self.start.items()
        }  # fmt: skip

    def points(self, variables):
        """{row: `Vec` of floats} of one car's variables."""
        return {
            label: Vec(*(float(part[0, 0]) for part in place))
            for label, place in self.places(np.asarray(variables)[None, :]).items()
        }
