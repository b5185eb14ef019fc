"""A wheel on the road under a body that rolls and heaves, and what two such wheels make.

The road is level and lies where the wheel stands as drawn. The body turns by the roll angle
about the line along the car at y = 0 in the road, then rises by the heave. The linkage is
solved in the body's axes for the place where the lowest point of the tyre, seen from the
road, lies on it; the pose is then given in axes of the road, which are the body's as drawn,
so every measure of a `Pose` is one against the road.

Roll in degrees, positive when the left side rises (ISO 8855, about x); heave positive when
the body rises. The right-hand wheel is the mirrored corner at the opposite roll and rack.
"""

from ..corner import motion
from ..corner.motion import Motion
from ..corner.pose import Pose
from ..numbers import NAN, cos, radians, ratio, sin, sqrt, where
from ..vec import Vec


class Stance:
    """How the body stands over the road.

    roll: degrees. heave: how far the body has risen. ground: the road's height as drawn.
    """

    __slots__ = ("sine", "cosine", "heave", "ground")

    def __init__(self, roll, heave, ground):
        angle = radians(roll)
        self.sine = sin(angle)
        self.cosine = cos(angle)
        self.heave = heave
        self.ground = ground

    def turned(self, way):
        """A direction of the body in the road's axes."""
        return Vec(
            way.x,
            way.y * self.cosine - way.z * self.sine,
            way.y * self.sine + way.z * self.cosine,
        )

    def turned_back(self, way):
        """A direction of the road's axes in those of the body."""
        return Vec(
            way.x,
            way.y * self.cosine + way.z * self.sine,
            way.z * self.cosine - way.y * self.sine,
        )

    def place(self, point):
        """A point of the body in the road's axes."""
        z = point.z - self.ground
        return Vec(
            point.x,
            point.y * self.cosine - z * self.sine,
            point.y * self.sine + z * self.cosine + (self.ground + self.heave),
        )

    def back(self, point):
        """A point given in the road's axes in those of the body."""
        z = point.z - (self.ground + self.heave)
        return Vec(
            point.x,
            point.y * self.cosine + z * self.sine,
            z * self.cosine - point.y * self.sine + self.ground,
        )

    def clearance(self, centre, spindle, radius, crown):
        """Height above the road of the tyre's lowest point; centre and spindle in the body."""
        rise = centre.y * self.sine + (centre.z - self.ground) * self.cosine + self.heave
        across = spindle.y * self.cosine - spindle.z * self.sine
        return rise - (radius - crown) * sqrt(spindle.x * spindle.x + across * across) - crown

    def clearance_rate(self, velocity, turning, spindle, disc):
        """How fast the clearance grows, the wheel centre moving and the spindle turning so.

        disc: the radius less that of the crown.
        """
        across = spindle.y * self.cosine - spindle.z * self.sine
        across_rate = turning.y * self.cosine - turning.z * self.sine
        level = sqrt(spindle.x * spindle.x + across * across)
        level_rate = (spindle.x * turning.x + across * across_rate) / level
        return velocity.y * self.sine + velocity.z * self.cosine - disc * level_rate

    def pose(self, pose):
        """A `Pose` of the body's axes in those of the road."""
        return Pose(
            lower=self.place(pose.lower),
            upper=self.place(pose.upper),
            tie_outer=self.place(pose.tie_outer),
            tie_inner=self.place(pose.tie_inner),
            wheel_centre=self.place(pose.wheel_centre),
            spindle=self.turned(pose.spindle),
            radius=pose.radius,
            crown=pose.crown,
        )

    def pose_back(self, pose):
        """A `Pose` of the road's axes in those of the body."""
        return Pose(
            lower=self.back(pose.lower),
            upper=self.back(pose.upper),
            tie_outer=self.back(pose.tie_outer),
            tie_inner=self.back(pose.tie_inner),
            wheel_centre=self.back(pose.wheel_centre),
            spindle=self.turned_back(pose.spindle),
            radius=pose.radius,
            crown=pose.crown,
        )

    def motion_back(self, moved):
        """A `Motion` against the body, of the road's axes, in those of the body."""
        spin, lower = self.turned_back(moved.spin), self.turned_back(moved.lower)
        return Motion(spin, lower, self.back(moved.lower_at))

    def motion(self, moved):
        """A `Motion` against the body, of the body's axes, in those of the road."""
        return Motion(self.turned(moved.spin), self.turned(moved.lower), self.place(moved.lower_at))


class WheelOnRoad:
    """That the wheel stands on the road."""

    __slots__ = ("crown", "radius", "stance")

    def __init__(self, stance, radius, crown):
        self.stance = stance
        self.radius = radius
        self.crown = crown

    def __call__(self, centre, spindle):
        """By how much it stands too high; centre and spindle in the body's axes."""
        return self.stance.clearance(centre, spindle, self.radius, self.crown)

    def rate(self, spin, moved, arm, spindle):
        """How fast that changes; see `linkage.WheelAt`."""
        velocity, turning = moved + spin.cross(arm), spin.cross(spindle)
        return self.stance.clearance_rate(velocity, turning, spindle, self.radius - self.crown)


class OnRoad:
    """A corner's wheel on the road: solved for one roll, heave and rack.

    drawn: the corner's `Pose` as drawn. roll: degrees. heave, rack: in the unit of the
    points. `pose` is in the road's axes, `in_body` the same in the body's; NaN throughout
    where the linkage does not reach the road.
    """

    __slots__ = ("linkage", "stance", "in_body", "pose")

    def __init__(self, linkage, drawn, roll, heave, rack):
        stance = Stance(roll, heave, drawn.contact_centre().z)
        # The travel that would put the wheel back on the road, were its track to stay.
        travel = travel_guess(drawn, stance)
        self.linkage = linkage
        self.stance = stance
        stands = WheelOnRoad(stance, linkage.radius, linkage.crown)
        self.in_body = linkage.pose_where(linkage.lower_ball.z + travel, stands, rack)
        self.pose = stance.pose(self.in_body)

    def motion(self):
        """The upright's `Motion` per unit of travel against the body, in the road's axes.

        The body is held at its roll and heave, the rack too; travel is the body's.
        """
        return self.stance.motion(motion.by_travel(self.linkage, self.in_body))


def travel_guess(drawn, stance):
    """About the travel of a wheel on the road; exact while the contact keeps to its place."""
    return -(drawn.contact_centre().y * stance.sine + stance.heave) / stance.cosine


def travel_of(pose, drawn, roll, heave):
    """Travel against the body of a wheel whose `Pose` is in the road's axes."""
    stance = Stance(roll, heave, drawn.contact_centre().z)
    return stance.back(pose.wheel_centre).z - drawn.wheel_centre.z


class BothWheels:
    """Both wheels of an axle on the road, each as a left-hand corner, the right one mirrored.

    left, right: `Pose`s in the road's axes. Heights are above the road; lateral places are
    from the car's middle as drawn, positive to the left.
    """

    __slots__ = ("left", "right")

    def __init__(self, left, right):
        self.left = left.contact_centre()
        self.right = right.contact_centre()

    def track(self):
        """Lateral distance between the two contact centres."""
        return self.left.y + self.right.y

    def crossing(self, left_slope, right_slope):
        """Where two lines cross that rise inboard from the contacts: (height, lateral).

        slopes: rise per unit of the way inboard. With both lines in the road the height is 0
        and the place midway; lines that are parallel elsewhere do not cross: NaN.
        """
        both = left_slope + right_slope
        product = left_slope * right_slope
        level = where(product == 0.0, 0.0, NAN)
        height = ratio(product * self.track(), both, level)
        aside = left_slope * self.left.y - right_slope * self.right.y
        midway = 0.5 * (self.left.y - self.right.y) + level
        return height, ratio(aside, both, midway)


def slope_by_centre(moved, pose):
    """Rise inboard of the line from the contact centre to the front-view instant centre."""
    v = moved.velocity_of(pose.contact_centre())
    return v.y / v.z
