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
fixed number of secant steps from the height as drawn plus the travel reaches
full accuracy. Where two assemblies exist, the one that was drawn is followed.
"""

from .numbers import NAN, absolute, larger, sign, sqrt, where
from .vec import Vec

# Enough for the last step to be below the rounding of a float over +-80 mm of
# travel and 40 degrees of steer of any corner tried; `closure` is checked besides.
SECANT_STEPS = 4

# A pose is given only if the wheel centre is at the asked travel to this part of
# the upright's height, the distance between its ball joints.
TOLERANCE = 1e-11


class Circle:
    """The circle on which a point turns about a fixed axis.

    `centre` is the foot of the point on the axis, `axis` the unit direction
    (from `rear` to `front`), `radius2` the squared radius, `arm` the radius as
    drawn.
    """

    __slots__ = ("centre", "axis", "radius2", "arm")

    def __init__(self, point, front, rear):
        self.axis = (front - rear).unit()
        self.centre = front + self.axis * (point - front).dot(self.axis)
        self.arm = point - self.centre
        self.radius2 = self.arm.dot(self.arm)


class Linkage:
    """A corner's hardpoints as drawn, and what follows from them for every pose.

    All points are `Vec`, in any one unit of length, of a left-hand corner;
    `spindle` is the unit direction of the wheel's axis, outboard. Points may be
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
    ):
        self.lower_ball = lower_ball
        self.tie_inner = tie_inner

        # Lower arm. Its circle is described by a level radius and a rising one.
        lower = Circle(lower_ball, lower_front, lower_rear)
        flat = sqrt(lower.axis.x * lower.axis.x + lower.axis.y * lower.axis.y)
        level = Vec(-lower.axis.y / flat, lower.axis.x / flat, 0.0)
        rising = lower.axis.cross(level)
        side = sign(lower.arm.dot(level))
        self.lower_centre = lower.centre
        self.lower_level = level * side
        self.lower_slope = rising / rising.z
        self.lower_radius2 = lower.radius2
        # (height above the centre)^2 / rising.z^2 is the squared rising part.
        self.lower_stretch = 1.0 / (rising.z * rising.z)

        # Upper arm.
        upper = Circle(upper_ball, upper_front, upper_rear)
        self.upper_centre = upper.centre
        self.upper_axis = upper.axis
        self.upper_radius2 = upper.radius2
        upright = upper_ball - lower_ball
        upright2 = upright.dot(upright)
        self.upper_half = 0.5 * (upper.radius2 - upright2)
        self.upper_side = sign(
            upper.axis.cross(lower_ball - upper.centre).dot(upper.arm)
        )

        # Upright: the tie-rod end and the wheel centre in the frame of the axis.
        self.upright_length = sqrt(upright2)
        self.upright_inverse = 1.0 / self.upright_length
        axis = upright * self.upright_inverse
        tie = Circle(tie_outer, upper_ball, lower_ball)
        rod = tie_inner - tie_outer
        rod2 = rod.dot(rod)
        self.tie_offset = (tie_outer - lower_ball).dot(axis)
        self.tie_radius2 = tie.radius2
        self.tie_half = 0.5 * (tie.radius2 - rod2)
        self.tie_side = sign(axis.cross(tie_inner - lower_ball).dot(tie.arm))
        self.wheel = _in_frame(wheel_centre - lower_ball, axis, tie.arm, tie.radius2)
        self.spindle = _in_frame(spindle, axis, tie.arm, tie.radius2)
        self.wheel_height = wheel_centre.z

    def lower_at(self, height):
        """The lower ball joint when it is at this height."""
        rise = height - self.lower_centre.z
        reach = sqrt(
            larger(self.lower_radius2 - rise * rise * self.lower_stretch, 0.0)
        )
        return Vec(
            self.lower_centre.x + self.lower_level.x * reach + self.lower_slope.x * rise,
            self.lower_centre.y + self.lower_level.y * reach + self.lower_slope.y * rise,
            height,
        )

    def upper_for(self, lower):
        """The upper ball joint for a place of the lower one."""
        span = lower - self.upper_centre
        along = span.dot(self.upper_axis)
        flat = span - self.upper_axis * along
        span2 = span.dot(span)
        flat2 = span2 - along * along
        half = self.upper_half + 0.5 * span2
        root = self.upper_side * sqrt(
            larger(self.upper_radius2 * flat2 - half * half, 0.0)
        )
        across = self.upper_axis.cross(flat)
        a = half / flat2
        b = root / flat2
        return Vec(
            self.upper_centre.x + flat.x * a + across.x * b,
            self.upper_centre.y + flat.y * a + across.y * b,
            self.upper_centre.z + flat.z * a + across.z * b,
        )

    def turn(self, lower, axis, inner):
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
        root = self.tie_side * sqrt(
            larger(self.tie_radius2 * flat2 - half * half, 0.0)
        )
        return flat, half / flat2, root / flat2

    def wheel_height_at(self, height, inner):
        """Height of the wheel centre for a height of the lower ball joint."""
        lower = self.lower_at(height)
        axis = (self.upper_for(lower) - lower) * self.upright_inverse
        flat, a, b = self.turn(lower, axis, inner)
        across_z = axis.x * flat.y - axis.y * flat.x
        along, lever, across = self.wheel
        return (
            height
            + along * axis.z
            + (lever * a - across * b) * flat.z
            + (lever * b + across * a) * across_z
        )


def _in_frame(vector, axis, arm, arm2):
    """A vector as shares of the axis, the tie-rod lever, and axis x lever."""
    return (
        vector.dot(axis),
        vector.dot(arm) / arm2,
        vector.dot(axis.cross(arm)) / arm2,
    )
