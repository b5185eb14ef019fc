"""A double-wishbone corner as a linkage: where the upright is for a travel and a rack.

Each arm turns about the line through its two inboard pickups. The upright is
held by the two outer ball joints and by the tie rod, whose inner end moves
sideways with the rack. Six lengths and one height settle the pose:

1. The lower ball joint runs on a circle about the lower arm's axis. Its height
   is the one unknown; with it, the place on the circle follows directly.
2. The upper ball joint runs on a circle about the upper arm's axis and stays at
   its distance from the lower one: a circle meets a sphere.
3. The tie-rod outer end runs on a circle about the steering axis and stays at
   the rod's length from the inner end: again a circle meets a sphere.
4. The wheel centre is fixed in the frame of those three points.

The height of the lower ball joint is then the one that puts the wheel centre at
the asked travel. Travel is very nearly a straight line in that height (its slope
is near one and bends only with the camber and the steering of the wheel), so a
fixed number of trials reaches full accuracy: the first at the height as drawn plus
the travel, then a secant step, then inverse quadratic interpolation through the
last three (R. P. Brent, *Algorithms for Minimization Without Derivatives*, 1973,
chapter 4; from memory). Where two assemblies exist, the drawn one is followed.
"""

from .numbers import NAN, absolute, larger, ratio, sign, sqrt, where
from .pose import Pose
from .vec import Vec

# Four reach the rounding of a float on an ordinary corner over +-80 mm of travel and
# 40 degrees of steer; six do so on all but one in some thousands of wild ones, whose
# arms stand near the end of their reach.
TRIALS = 6

# A pose is given only if the wheel centre came to the asked travel within this
# part of the upright's height (the distance between its ball joints).
TOLERANCE = 1e-10


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


class Linkage:
    """A corner's hardpoints as drawn, and what follows from them for every pose.

    All points are `Vec`, in any one unit of length, of a left-hand corner;
    `spindle` is the unit direction of the wheel's axis, outboard, and `radius` the
    wheel's loaded radius. Points may be
    floats (one corner) or arrays (many corners at once).
    """

    def __init__(
        self,
        lower_ball,
        lower_front,
        lower_rear,
        upper_ball,
        upper_front,
        upper_rear,
        tie_outer,
        tie_inner,
        wheel_centre,
        spindle,
        radius,
    ):
        self.lower_ball = lower_ball
        self.radius = radius
        self.tie_inner = tie_inner

        self.lower = lower = Circle(lower_ball, lower_front, lower_rear)
        self.lower_level = lower.level * sign(lower.arm.dot(lower.level))
        # Per unit of height: the way along the rising direction, and its square.
        self.lower_slope = lower.rising / lower.rising.z
        self.lower_stretch = 1.0 / (lower.rising.z * lower.rising.z)

        self.upper = upper = Circle(upper_ball, upper_front, upper_rear)
        upright = upper_ball - lower_ball
        upright2 = upright.dot(upright)
        self.upper_half = 0.5 * (upper.radius2 - upright2)
        self.upper_side = sign(upper.axis.cross(lower_ball - upper.centre).dot(upper.arm))

        # Upright: the tie-rod end and the wheel centre in the frame of the axis.
        self.upright_length = sqrt(upright2)
        self.upright_inverse = 1.0 / self.upright_length
        axis = upright * self.upright_inverse
        self.tie_offset = (tie_outer - lower_ball).dot(axis)
        lever = tie_outer - lower_ball - axis * self.tie_offset
        rod = tie_inner - tie_outer
        self.rod_way = sign(tie_outer.y - tie_inner.y)
        self.tie_radius2 = lever.dot(lever)
        self.tie_half = 0.5 * (self.tie_radius2 - rod.dot(rod))
        self.tie_side = sign(axis.cross(tie_inner - lower_ball).dot(lever))
        self.wheel = in_frame(wheel_centre - lower_ball, axis, lever)
        self.spindle = in_frame(spindle, axis, lever)
        self.wheel_height = wheel_centre.z

    def lower_at(self, height, root=sqrt):
        """The lower ball joint when it is at this height."""
        centre = self.lower.centre
        level = self.lower_level
        slope = self.lower_slope
        rise = height - centre.z
        reach = root(self.lower.radius2 - rise * rise * self.lower_stretch)
        return Vec(
            centre.x + level.x * reach + slope.x * rise,
            centre.y + level.y * reach + slope.y * rise,
            height,
        )

    def upper_for(self, lower, root=sqrt):
        """The upper ball joint for a place of the lower one."""
        centre = self.upper.centre
        level = self.upper.level
        rising = self.upper.rising
        span = lower - centre
        # The lower ball joint as seen in the plane of the upper one's circle.
        p = span.x * level.x + span.y * level.y
        q = span.dot(rising)
        reach2 = p * p + q * q
        half = self.upper_half + 0.5 * span.dot(span)
        side = self.upper_side * root(self.upper.radius2 * reach2 - half * half)
        a = half / reach2
        b = side / reach2
        flat = p * a - q * b
        high = q * a + p * b
        return Vec(
            centre.x + level.x * flat + rising.x * high,
            centre.y + level.y * flat + rising.y * high,
            centre.z + rising.z * high,
        )

    def turn(self, lower, axis, inner, root=sqrt):
        """How far the upright has turned about the steering axis to suit the rod.

        Returns `flat`, the part of the way from the axis to the rod's inner end
        that is square to the axis, and the shares `a`, `b` by which the lever
        (from the axis to the rod's outer end) is a*flat + b*(axis x flat).
        """
        span = inner - lower
        along = span.dot(axis)
        flat = span - axis * along
        flat2 = span.dot(span) - along * along
        past = along - self.tie_offset
        half = self.tie_half + 0.5 * (flat2 + past * past)
        side = self.tie_side * root(self.tie_radius2 * flat2 - half * half)
        return flat, half / flat2, side / flat2

    def wheel_height_at(self, height, inner):
        """Height of the wheel centre for a trial height of the lower ball joint."""
        lower = self.lower_at(height, bounded_root)
        upper = self.upper_for(lower, bounded_root)
        axis = (upper - lower) * self.upright_inverse
        flat, a, b = self.turn(lower, axis, inner, bounded_root)
        across_z = axis.x * flat.y - axis.y * flat.x
        along, lever, across = self.wheel
        return (
            height
            + along * axis.z
            + (lever * a - across * b) * flat.z
            + (lever * b + across * a) * across_z
        )

    def pose(self, travel, rack):
        """The `Pose` of the upright; NaN throughout where the linkage cannot close.

        travel: rise of the wheel centre against the body. rack: how far the rack
        has moved to the left. Floats or arrays, in the unit of the points.
        """
        inner = self._inner_end(rack)
        wanted = self.wheel_height + travel
        height = self.height_for(
            self.lower_ball.z + travel, lambda height: self.wheel_height_at(height, inner) - wanted
        )
        return self._assembled(height, inner, lambda centre, spindle: centre.z - wanted)

    def pose_at(self, height, travel, rack):
        """The `Pose` as for `pose`, the height of the lower ball joint there being known."""
        wanted = self.wheel_height + travel
        return self._assembled(
            height, self._inner_end(rack), lambda centre, spindle: centre.z - wanted
        )

    def pose_where(self, first, missed, rack):
        """The `Pose` where a height that is taken of the wheel is met; NaN where none closes.

        missed: a function of the wheel centre and the spindle in the body's axes, for by how
        much the height is missed; it must rise about as fast as the lower ball joint does.
        first: the height of the lower ball joint to try first. rack: as for `pose`.
        """
        inner = self._inner_end(rack)
        height = self.height_for(first, lambda height: missed(*self.wheel_at(height, inner)))
        return self._assembled(height, inner, missed)

    def _inner_end(self, rack):
        return Vec(self.tie_inner.x, self.tie_inner.y + rack, self.tie_inner.z)

    def wheel_at(self, height, inner):
        """Wheel centre and spindle for a trial height of the lower ball joint."""
        lower, _, axis, lever, square = self._frame(height, inner, bounded_root)
        centre = lower + from_frame(self.wheel, axis, lever, square)
        return centre, from_frame(self.spindle, axis, lever, square)

    @staticmethod
    def height_for(oldest, missed):
        """The height of the lower ball joint at which nothing is missed, from a first trial."""
        oldest_miss = missed(oldest)
        older = oldest - oldest_miss
        older_miss = missed(older)
        slope = ratio(older - oldest, older_miss - oldest_miss, 1.0)
        height = older - older_miss * slope
        for _ in range(TRIALS - 2):
            miss = missed(height)
            older_slope = slope
            slope = ratio(height - older, miss - older_miss, older_slope)
            bend = ratio(slope - older_slope, miss - oldest_miss, 0.0)
            oldest_miss = older_miss
            older, older_miss = height, miss
            height = height - miss * (slope - oldest_miss * bend)
        return height

    def _frame(self, height, inner, root=sqrt):
        """The upright's joints and frame: lower, upper, axis, tie-rod lever, axis x lever."""
        lower = self.lower_at(height, root)
        upper = self.upper_for(lower, root)
        axis = (upper - lower) * self.upright_inverse
        flat, a, b = self.turn(lower, axis, inner, root)
        across = axis.cross(flat)
        lever = flat * a + across * b
        square = across * a - flat * b
        return lower, upper, axis, lever, square

    def _assembled(self, height, inner, missed):
        lower, upper, axis, lever, square = self._frame(height, inner)
        centre = lower + from_frame(self.wheel, axis, lever, square)
        spindle = from_frame(self.spindle, axis, lever, square)
        # Asked this way round, a centre that is NaN (a rod that does not reach) is no hit.
        hit = absolute(missed(centre, spindle)) <= TOLERANCE * self.upright_length
        tie_outer = lower + axis * self.tie_offset + lever
        # A rack moved past the upright closes the linkage again: the wheel turned about past
        # a quarter turn, or the rod pointing the other way. No steering carries it there.
        same_way = (tie_outer.y - inner.y) * self.rod_way > 0.0
        passed = where(same_way, where(spindle.y > 0.0, 0.0, NAN), NAN)
        # Added to a place, this leaves it as it is or makes it NaN.
        doubt = where(hit, passed, NAN)
        return Pose(
            lower=lower.shifted(doubt),
            upper=upper.shifted(doubt),
            tie_outer=tie_outer.shifted(doubt),
            tie_inner=inner,
            wheel_centre=centre.shifted(doubt),
            spindle=spindle.shifted(doubt),
            radius=self.radius,
        )


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
