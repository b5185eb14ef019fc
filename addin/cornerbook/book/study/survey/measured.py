"""One measurement of a survey, and what it is of points where they are thought to be."""

import numpy as np

DISTANCE, ALONG = "distance", ("x", "y", "height")
"""Kinds of measurement: a tape between two points, or one coordinate (`height` is z)."""


class Measurement:
    """A distance between two points, or one coordinate of a point from the datum.

    kind: `DISTANCE` or one of `ALONG`. points: the numbers of one or two points. value: as
    measured. sure: its standard deviation. words: how a report speaks of it.
    """

    __slots__ = ("kind", "points", "sure", "value", "words")

    def __init__(self, kind, points, value, sure, words=""):
        self.kind = kind
        self.points = tuple(points)
        self.value = value
        self.sure = sure
        self.words = words

    def of(self, places):
        """What it would read of points at places, (points, 3)."""
        if self.kind == DISTANCE:
            one, other = self.points
            return float(np.linalg.norm(places[one] - places[other]))
        return float(places[self.points[0], ALONG.index(self.kind)])

    def slope(self, places):
        """How that changes with each coordinate, (3 * points,)."""
        row = np.zeros(places.shape)
        if self.kind == DISTANCE:
            one, other = self.points
            way = places[one] - places[other]
            length = np.linalg.norm(way)
            # Of two points in one place a distance has no direction yet: any will do.
            way = way / length if length > 0.0 else np.array([1.0, 0.0, 0.0])
            row[one], row[other] = way, -way
        else:
            row[self.points[0], ALONG.index(self.kind)] = 1.0
        return row.ravel()
