"""The actuation of a corner: from the wheel's travel to the length of its spring.

A rod runs from a point on the lower arm, the upper arm or the upright to a rocker, which
turns about its axis and pushes on the spring (a push rod or a pull rod: the same); or the
spring itself stands on that point. All of it is closed directly:

1. The rod's outer end is fixed in the frame of its mount, which the pose gives.
2. The rod's inner end runs on a circle about the rocker's axis and stays at the rod's length
   from the outer end: a circle meets a sphere. Of the two answers the drawn one is followed.
3. The spring's end on the rocker is fixed in the rocker's frame.

Velocities follow from the same constraints, differentiated as they stand; slopes of the
velocities from the same lines run on dual numbers. Nothing is a difference of poses.

Over centre: where the rod and the rocker's arm come into line, the rocker can follow the rod
no farther; where the spring and its arm on the rocker come into line, the spring is at its
shortest (or longest), and past that the wheel's rise eases it.
"""

from ..corner import dual
from ..corner.motion import by_travel, turning
from ..numbers import NAN, absolute, atan2, degrees, sign, sqrt
from ..vec import from_frame, in_frame

MOUNTS = ("lower arm", "upper arm", "upright")


class ArmMount:
    """A point on an arm, carried about the arm's axis by its ball joint.

    circle: the `Circle` of the arm's ball joint. upper: whether it is the upper arm.
    """

    __slots__ = ("axis", "centre", "radius2", "shares", "upper")

    def __init__(self, point, circle, upper):
        self.axis = circle.axis
        self.centre = circle.centre
        self.radius2 = circle.radius2
        self.upper = upper
        self.shares = in_frame(point - circle.centre, circle.axis, circle.arm)

    def point(self, pose):
        """Where the point is."""
        ball = pose.upper if self.upper else pose.lower
        arm = ball - self.centre
        return self.centre + from_frame(self.shares, self.axis, arm, self.axis.cross(arm))

    def velocity(self, pose, motion, point):
        """Velocity of the point, there, per unit of travel."""
        ball = pose.upper if self.upper else pose.lower
        tangent = self.axis.cross(ball - self.centre)
        speed = motion.velocity_of(ball).dot(tangent) / self.radius2
        return self.axis.cross(point - self.centre) * speed


class UprightMount:
    """A point on the upright, in the frame of the steering axis and the tie rod's lever."""

    __slots__ = ("offset", "inverse", "shares")

    def __init__(self, point, linkage, drawn):
        self.offset = linkage.tie_offset
        self.inverse = linkage.upright_inverse
        axis, lever = self._frame(drawn)
        self.shares = in_frame(point - drawn.lower, axis, lever)

    def _frame(self, pose):
        axis = (pose.upper - pose.lower) * self.inverse
        return axis, pose.tie_outer - pose.lower - axis * self.offset

    def point(self, pose):
        """Where the point is."""
        axis, lever = self._frame(pose)
        return pose.lower + from_frame(self.shares, axis, lever, axis.cross(lever))

    def velocity(self, pose, motion, point):
        """Velocity of the point, there, per unit of travel."""
        return motion.velocity_of(point)


class Rocker:
    """A rocker on its axis, with the rod that turns it and the spring that stands on it.

    All as drawn. In the plane of the rod's inner end lie `out`, from the axis to that end,
    and `over` (axis x out), both of length one.
    """

    def __init__(self, rod_outer, rod_inner, pivot, axis_point, spring_end, spring_frame):
        self.pivot = pivot
        self.axis = axis = (axis_point - pivot).unit()
        self.centre = pivot + axis * (rod_inner - pivot).dot(axis)
        arm = rod_inner - self.centre
        self.arm = arm.length()
        self.out = arm / self.arm
        self.over = axis.cross(self.out)
        rod = rod_outer - rod_inner
        # The outer end's place across the arm as drawn tells which of two answers to follow.
        self.rod_side = sign(rod.dot(self.over))
        self.half = 0.5 * (arm.dot(arm) - rod.dot(rod)) / self.arm
        self.spring_end = in_frame(spring_end - self.centre, axis, self.out)
        # Turned about the axis, the spring's end nears the frame: the way counted positive.
        tangent = axis.cross(spring_end - self.centre)
        self.spring_side = sign((spring_frame - spring_end).dot(tangent))

    def turned_by(self, rod_outer):
        """(cosine, sine) of the rocker's turn from drawn, for a place of the rod's outer end."""
        span = rod_outer - self.centre
        p = span.dot(self.out)
        q = span.dot(self.over)
        reach2 = p * p + q * q
        # The way to the outer end, dotted with the rocker arm's direction: the rod's length says.
        along = self.half + 0.5 * span.dot(span) / self.arm
        aside = self.rod_side * sqrt(reach2 - along * along)
        return (p * along + q * aside) / reach2, (q * along - p * aside) / reach2

    def spring_end_at(self, cosine, sine):
        """Where the spring's end on the rocker is."""
        out = self.out * cosine + self.over * sine
        over = self.over * cosine - self.out * sine
        return self.centre + from_frame(self.spring_end, self.axis, out, over)

    def rod_inner_at(self, cosine, sine):
        """Where the rod's inner end is."""
        return self.centre + (self.out * cosine + self.over * sine) * self.arm

    def in_line(self, pull, end):
        """Degrees between a link and its arm on the rocker, seen along the rocker's axis.

        pull: from the link's end on the rocker to its other end. 0: in line; to 90: square.
        Positive when the link pulls the rocker the way of `out` to `over`.
        """
        arm = end - self.centre
        across = self.axis.cross(arm)
        flat = arm - self.axis * arm.dot(self.axis)
        return degrees(atan2(pull.dot(across), absolute(pull.dot(flat))))

    def angles(self, places):
        """(its angle, the rod's margin, the spring's) at its `Places`, as `Actuated` has them."""
        cosine, sine = places.turn
        return (
            degrees(atan2(sine, cosine)) * self.spring_side,
            self.in_line(places.outer - places.inner, places.inner) * self.rod_side,
            self.in_line(places.frame - places.end, places.end) * self.spring_side,
        )


class Actuated:
    """The actuation at a pose. actuation: the `Actuation`; the rest as its `at` takes it.

    spring_length: between the spring's two ends. motion_ratio: how much the spring shortens
    per unit of travel. motion_ratio_change: its exact change per unit of travel.
    turn_ratio: how much the spring shortens per radian of the upright's turn about the steering
    axis, toward toe-in and the arms held; 0 unless the upright carries the rod or the spring.
    rocker_angle: degrees from drawn, positive the way that shortens the spring as drawn.
    rod_margin, spring_margin: degrees from over centre, positive on the side drawn. Without a
    rocker, rocker_angle and rod_margin are NaN, and spring_margin is positive where the wheel's
    rise shortens the spring. All are NaN where the actuation does not close.

    motion_ratio_change and turn_ratio, which few ask for, are worked out when they are.
    """

    __slots__ = (
        "spring_length", "motion_ratio", "rocker_angle", "rod_margin", "spring_margin",
        "_actuation", "_linkage", "_pose", "_motion",
    )  # fmt: skip

    def __init__(self, actuation, linkage, pose, motion):
        places, rocker = actuation.places(pose), actuation.rocker
        self.spring_length, self.motion_ratio = actuation.spring(places, pose, motion)
        if rocker is None:
            angles = NAN, NAN, actuation.margin(pose, motion)
        else:
            angles = rocker.angles(places)
        self.rocker_angle, self.rod_margin, self.spring_margin = angles
        self._actuation = actuation
        self._linkage = linkage
        self._pose = pose
        self._motion = motion

    @property
    def motion_ratio_change(self):
        return self._actuation.ratio_change(self._linkage, self._pose, self._motion)

    @property
    def turn_ratio(self):
        return self._actuation.turn_ratio(self._pose)


class Places:
    """Where rod, rocker and spring are at a pose, as `Vec`s.

    outer, inner: the rod's ends, or the spring's where it stands on the mount itself. end, frame:
    the spring's. pivot, axis: a point on the rocker's axis and its unit direction, or None.
    turn: (cosine, sine) of the rocker's turn from drawn, or None.
    """

    __slots__ = ("axis", "end", "frame", "inner", "outer", "pivot", "turn")

    def __init__(self, outer, inner, end, frame, pivot=None, axis=None, turn=None):
        self.outer = outer
        self.inner = inner
        self.end = end
        self.frame = frame
        self.pivot = pivot
        self.axis = axis
        self.turn = turn


class Actuation:
    """A corner's actuation as drawn, and what follows from it for every pose.

    linkage: the corner's `Linkage`; drawn: its `Pose` as drawn. mount: one of `MOUNTS`, which
    carries `outer`, the outer end of the rod, or of the spring where there is no rocker.
    frame: the spring's end on the frame. rocker: a `Rocker`, or None. Points are `Vec`s.
    """

    def __init__(self, linkage, drawn, mount, outer, frame, rocker=None):
        if mount == "upright":
            self.mount = UprightMount(outer, linkage, drawn)
        else:
            upper = mount == "upper arm"
            self.mount = ArmMount(outer, linkage.upper if upper else linkage.lower, upper)
        self.frame = frame
        self.rocker = rocker

    def at(self, linkage, pose, motion):
        """The `Actuated` at a pose; motion: the upright's by travel, there, the rack held."""
        return Actuated(self, linkage, pose, motion)

    def ratio_change(self, linkage, pose, motion):
        """The motion ratio's exact change per unit of travel at a pose."""
        moving_pose = dual.moving_pose(pose, motion)
        moving = by_travel(dual.still(linkage), moving_pose)
        still = dual.still(self)
        return still.spring(still.places(moving_pose), moving_pose, moving)[1].slope

    def turn_ratio(self, pose):
        """The field of `Actuated` of this name."""
        if isinstance(self.mount, ArmMount):
            return 0.0
        return self.spring(self.places(pose), pose, turning(pose))[1]

    def margin(self, pose, motion):
        """Degrees by which a spring on its mount is off square to the movement of its end."""
        outer = self.mount.point(pose)
        way, spring = self.mount.velocity(pose, motion, outer), self.frame - outer
        return degrees(atan2(spring.dot(way), spring.cross(way).length()))

    def places(self, pose):
        """The `Places` at a pose."""
        outer = self.mount.point(pose)
        rocker = self.rocker
        if rocker is None:
            return Places(outer, self.frame, outer, self.frame)
        turn = rocker.turned_by(outer)
        inner, end = rocker.rod_inner_at(*turn), rocker.spring_end_at(*turn)
        return Places(outer, inner, end, self.frame, rocker.pivot, rocker.axis, turn)

    def spring(self, places, pose, motion):
        """(the spring's length, how much it shortens per unit of a motion) at a pose's `Places`."""
        velocity = self.mount.velocity(pose, motion, places.outer)
        rocker = self.rocker
        if rocker is not None:
            # The rod keeps its length: both its ends move alike along it.
            rod = places.outer - places.inner
            along = rod.dot(rocker.axis.cross(places.inner - rocker.centre))
            spin = rod.dot(velocity) / along
            velocity = rocker.axis.cross(places.end - rocker.centre) * spin
        spring = places.frame - places.end
        length = spring.length()
        return length, spring.dot(velocity) / length
