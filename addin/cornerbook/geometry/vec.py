"""A vector of three components, each a float, an array, or any other number.

Axes are those of ISO 8855: x forward, y left, z up.
"""

from .numbers import sqrt


class Vec:
    """A point or a direction: components `x`, `y`, `z` of any one kind of number.

    Arrays among the components follow broadcasting: a vector may mix floats and
    arrays, and two vectors of different shape combine as their components do.
    """

    __slots__ = ("x", "y", "z")

    def __init__(self, x, y, z):
        self.x = x
        self.y = y
        self.z = z

    def __repr__(self):
        return f"Vec({self.x!r}, {self.y!r}, {self.z!r})"

    def __iter__(self):
        return iter((self.x, self.y, self.z))

    def __add__(self, other):
        return Vec(self.x + other.x, self.y + other.y, self.z + other.z)

    def __sub__(self, other):
        return Vec(self.x - other.x, self.y - other.y, self.z - other.z)

    def __neg__(self):
        return Vec(-self.x, -self.y, -self.z)

    def __mul__(self, factor):
        return Vec(self.x * factor, self.y * factor, self.z * factor)

    def __truediv__(self, divisor):
        return Vec(self.x / divisor, self.y / divisor, self.z / divisor)

    def dot(self, other):
        """Scalar product."""
        return self.x * other.x + self.y * other.y + self.z * other.z

    def cross(self, other):
        """Vector product, right-handed."""
        return Vec(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )

    def length(self):
        """Length of the vector."""
        return sqrt(self.dot(self))

    def unit(self):
        """The direction of the vector, of length one (NaN or an error for none)."""
        return self / self.length()

    def shifted(self, amount):
        """The same number added to every component."""
        return Vec(self.x + amount, self.y + amount, self.z + amount)

    def mirrored(self):
        """The same on the other side of the car: y changes sign."""
        return Vec(self.x, -self.y, self.z)


def in_frame(vector, axis, arm):
    """A vector as shares of the axis, the tie-rod lever, and axis x lever."""
    arm2 = arm.dot(arm)
    return (
        vector.dot(axis),
        vector.dot(arm) / arm2,
        vector.dot(axis.cross(arm)) / arm2,
    )


def from_frame(shares, axis, arm, square):
    """The vector whose shares `in_frame` gave, with the frame as it now lies."""
    a, b, c = shares
    return Vec(
        axis.x * a + arm.x * b + square.x * c,
        axis.y * a + arm.y * b + square.y * c,
        axis.z * a + arm.z * b + square.z * c,
    )
