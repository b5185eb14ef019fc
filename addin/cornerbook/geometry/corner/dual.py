"""First-order dual numbers: a value and its slope along one parameter, both exact.

A `Dual` is one more kind of number for the geometry (see `numbers`): what is worked out with
duals comes with its exact derivative, by the rules of the calculus, and no difference is
taken (dual numbers: W. K. Clifford, 1873; automatic differentiation in forward mode:
A. Griewank and A. Walther, *Evaluating Derivatives*, 2008, chapter 3; both from memory).
Value and slope may be floats, arrays, or any other kind of number.

`sloped_pose` gives the pose of a linkage whose points carry slopes: how each measure changes
with one coordinate of the drawing. `moving_pose` makes the pose of a linkage with its
velocity; `motion.by_travel`, run on it, gives velocities with their own slopes: exact second
derivatives by travel.

All numbers of one calculation must be duals, or floats beside them: an array or a recorded
step that meets a dual from the left does not know it. `still` makes duals of no slope.
"""

from ..numbers import absolute, atan2, cos, larger, log, mapped, sin, sqrt, tan, where
from ..vec import Vec
from .heights import WheelAt
from .lying import Links, Lying, angles_of
from .pose import Pose


class Dual:
    """A number `value` that changes by `slope` per unit of the parameter.

    Comparisons are of the values. Divided by zero, it does what its values do.
    """

    __slots__ = ("value", "slope")

    # Compared by value, as arrays are: not to be kept in a set.
    __hash__ = None  # type: ignore[assignment]

    # NumPy then leaves an operation with an array on the left to `__rmul__` and the like.
    __array_ufunc__ = None

    def __init__(self, value, slope):
        self.value = value
        self.slope = slope

    def __repr__(self):
        return f"Dual({self.value!r}, {self.slope!r})"

    def __array_namespace__(self, **_):
        return _FUNCTIONS

    def __add__(self, other):
        value, slope = _parts(other)
        return Dual(self.value + value, self.slope + slope)

    def __radd__(self, other):
        return Dual(other + self.value, self.slope)

    def __sub__(self, other):
        value, slope = _parts(other)
        return Dual(self.value - value, self.slope - slope)

    def __rsub__(self, other):
        return Dual(other - self.value, -self.slope)

    def __mul__(self, other):
        value, slope = _parts(other)
        return Dual(self.value * value, self.slope * value + self.value * slope)

    def __rmul__(self, other):
        return Dual(other * self.value, other * self.slope)

    def __truediv__(self, other):
        value, slope = _parts(other)
        quotient = self.value / value
        return Dual(quotient, (self.slope - quotient * slope) / value)

    def __rtruediv__(self, other):
        quotient = other / self.value
        return Dual(quotient, -quotient * self.slope / self.value)

    def __neg__(self):
        return Dual(-self.value, -self.slope)

    def __lt__(self, other):
        return _truth(self.value < _parts(other)[0])

    def __gt__(self, other):
        return _truth(self.value > _parts(other)[0])

    def __le__(self, other):
        return _truth(self.value <= _parts(other)[0])

    def __ge__(self, other):
        return _truth(self.value >= _parts(other)[0])

    def __eq__(self, other):
        return _truth(self.value == _parts(other)[0])

    def __ne__(self, other):
        return _truth(self.value != _parts(other)[0])


class Truth:
    """A condition between duals that is no plain truth; `where` chooses duals by it."""

    __slots__ = ("plain",)

    def __init__(self, plain):
        self.plain = plain

    def __array_namespace__(self, **_):
        return _FUNCTIONS

    def hold(self, sentence, values):
        """Pass on to the condition itself what is to be said unless it holds."""
        self.plain.hold(sentence, tuple(_parts(value)[0] for value in values))


class _Functions:
    """The functions that `numbers` asks a namespace for, each with its derivative."""

    @staticmethod
    def sqrt(x):
        root = sqrt(x.value)
        return Dual(root, x.slope / (2.0 * root))

    @staticmethod
    def sin(x):
        return Dual(sin(x.value), cos(x.value) * x.slope)

    @staticmethod
    def cos(x):
        return Dual(cos(x.value), -sin(x.value) * x.slope)

    @staticmethod
    def tan(x):
        tangent = tan(x.value)
        return Dual(tangent, (1.0 + tangent * tangent) * x.slope)

    @staticmethod
    def log(x):
        return Dual(log(x.value), x.slope / x.value)

    @staticmethod
    def atan2(y, x):
        (y, y_slope), (x, x_slope) = _parts(y), _parts(x)
        return Dual(atan2(y, x), (x * y_slope - y * x_slope) / (x * x + y * y))

    @staticmethod
    def abs(x):
        return Dual(absolute(x.value), where(x.value < 0.0, -x.slope, x.slope))

    @staticmethod
    def maximum(x, floor):
        return Dual(larger(x.value, floor), where(x.value < floor, 0.0, x.slope))

    @staticmethod
    def where(condition, if_true, if_false):
        plain = condition.plain
        (one, one_slope), (other, other_slope) = _parts(if_true), _parts(if_false)
        return Dual(where(plain, one, other), where(plain, one_slope, other_slope))


_FUNCTIONS = _Functions()


def _parts(number):
    """(value, slope) of a dual, or of a number that stands still."""
    return (number.value, number.slope) if isinstance(number, Dual) else (number, 0.0)


def _truth(condition):
    return condition if isinstance(condition, bool) else Truth(condition)


def moving(point, velocity):
    """A `Vec` of duals: a point, or a direction, and its velocity."""
    return Vec(Dual(point.x, velocity.x), Dual(point.y, velocity.y), Dual(point.z, velocity.z))


def still(thing):
    """A copy of an object of the geometry with every number in it a dual of no slope.

    Floats stay floats, which stand beside duals as they are, and cost less.
    """
    return mapped(lambda number: number if isinstance(number, float) else Dual(number, 0.0), thing)


def sloped_pose(linkage, plain, travel, rack):
    """The `Pose`, in duals, of a linkage some of whose points are duals of floats.

    plain: the `Pose` of the values alone, solved. travel, rack: floats. The solver's trials
    divide one rounding error by another in the end, and their slopes are no use; so the place
    that they found is taken, and one step of Newton's gives it its exact slope (the theorem of
    implicit functions).
    """
    values = mapped(lambda number: number.value if isinstance(number, Dual) else number, linkage)
    angles = angles_of(values, plain)
    links = Links(linkage, WheelAt(linkage.wheel_height + travel))
    there = Lying(links, *angles, rack)
    correction = there.correction(Vec(0.0, 0.0, 0.0))
    moved = map(lambda angle, change: angle + change, angles, correction)
    return Lying(links, *moved, rack).pose(0.0)


def moving_pose(pose, motion):
    """The `Pose` in duals: each field with its velocity by `motion`, the rack held."""
    return Pose(
        lower=moving(pose.lower, motion.velocity_of(pose.lower)),
        upper=moving(pose.upper, motion.velocity_of(pose.upper)),
        tie_outer=moving(pose.tie_outer, motion.velocity_of(pose.tie_outer)),
        tie_inner=still(pose.tie_inner),
        wheel_centre=moving(pose.wheel_centre, motion.velocity_of(pose.wheel_centre)),
        spindle=moving(pose.spindle, motion.spin.cross(pose.spindle)),
        radius=Dual(pose.radius, 0.0),
        crown=Dual(pose.crown, 0.0),
    )
