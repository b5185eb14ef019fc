"""What a rear solid axle in two bearings gives the frame, by the statics of the axle.

The axle is one rigid body without weight, its wheels fixed to it. Each bearing lets it tilt, so
that no moment goes through a bearing; one of them alone holds it sideways. A chain's sprocket
or a brake's disc pulls it in its own plane, square to the axle. At the ground a force along the
car and one across it are shared by the wheels as their loads.

Places y from the car's middle, positive to the left; directions are those of ISO 8855: x
forward, y left, z up. Forces in any one unit.
"""

from ..numbers import cos, radians, ratio, sin, sqrt, where
from ..vec import Vec


class Pull:
    """What pulls the axle in a plane square to it: the chain, or the pads of a brake.

    lateral: y of the plane. radius: of the circle on which it pulls, above 0. angle: in degrees,
    which way it pulls the axle, 0 forward and 90 up.
    """

    __slots__ = ("angle", "lateral", "radius")

    def __init__(self, lateral, radius, angle):
        self.lateral = lateral
        self.radius = radius
        self.angle = angle

    def force(self, forward, wheel_radius):
        """`Vec` of its force on the axle.

        forward: of the road on both tyres, forward positive. What it has as moment about the axle
        is what the pull holds, in driving as in braking.
        """
        size = ratio(where(forward < 0.0, -forward, forward) * wheel_radius, self.radius, 0.0)
        angle = radians(self.angle)
        return Vec(size * cos(angle), 0.0, size * sin(angle))


class Axle:
    """Forces on the axle from outside.

    up_left, up_right: loads on the wheels. forward, side: of the road on both tyres together,
    forward and to the left positive. track, wheel_radius: lengths. pull: a `Pull`.
    """

    def __init__(self, up_left, up_right, forward, side, track, wheel_radius, pull):
        both = up_left + up_right
        self.up = up_left, up_right
        self.shares = tuple(ratio(up, both, 0.5) for up in self.up)
        self.forward = forward
        self.side = side
        self.half = 0.5 * track
        self.wheel_radius = wheel_radius
        self.place = pull.lateral
        self.pull = pull.force(forward, wheel_radius)

    def on_bearing(self, at, other, holds):
        """`Vec` of the axle's force on the frame at one of its two bearings.

        at, other: y of this one and of the other one. holds: 1.0 for the one that holds the axle
        sideways, else 0.0. Moments are taken about the other bearing, upright and along the car.
        """
        span = at - other
        left, right = self.half - other, -self.half - other
        pulled = self.place - other
        along = self.forward * (self.shares[0] * left + self.shares[1] * right)
        upright = self.up[0] * left + self.up[1] * right + self.side * self.wheel_radius
        return Vec(
            (along + self.pull.x * pulled) / span,
            self.side * holds,
            (upright + self.pull.z * pulled) / span,
        )

    def bending(self, at, left):
        """Bending moment of the axle at a bearing, without direction: by all that is outboard.

        at: its y. left: whether it is the left one.
        """
        wheel, sense = (0, 1.0) if left else (1, -1.0)
        arm = self.half - at * sense
        # A sprocket or disc beyond the bearing is on the wheel's side of it.
        beyond = (self.place - at) * sense
        beyond = where(beyond > 0.0, beyond, 0.0)
        along = self.forward * self.shares[wheel] * arm + self.pull.x * beyond
        upright = self.up[wheel] * arm + self.pull.z * beyond
        upright = upright + self.side * self.shares[wheel] * self.wheel_radius * sense
        return sqrt(along * along + upright * upright)
