"""The circle on which the outer end of an arm turns about the line through its pickups."""

from ..numbers import larger, sqrt
from ..vec import Vec


def bounded_root(x):
    """A square root for trial places: zero where nothing real is left.

    A trial may overshoot the reach of an arm although the answer is within it.
    """
    return sqrt(larger(x, 0.0))


class Circle:
    """The circle on which a point turns about the line through two pickups.

    `centre` is the foot of the point on that line, `axis` the line's unit
    direction from `rear` to `front`. In the circle's plane lie two unit
    directions square to each other: `level`, which is horizontal, and `rising`
    (axis x level). `arm` is the radius as drawn and `radius2` its square.
    """

    __slots__ = ("centre", "axis", "level", "rising", "arm", "radius2")

    def __init__(self, point, front, rear):
        self.axis = (front - rear).unit()
        self.centre = front + self.axis * (point - front).dot(self.axis)
        self.arm = point - self.centre
        self.radius2 = self.arm.dot(self.arm)
        plan = sqrt(self.axis.x * self.axis.x + self.axis.y * self.axis.y)
        self.level = Vec(-self.axis.y / plan, self.axis.x / plan, 0.0)
        self.rising = self.axis.cross(self.level)
