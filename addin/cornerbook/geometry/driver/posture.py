"""A driver's posture: legs closed in their own plane, arms in space to the steering wheel's rim.

Axes: x forward, y left, z up; the driver looks forward. Angles are in degrees. What cannot be
reached is NaN throughout.
"""

from ..numbers import PI, absolute, atan2, cos, degrees, larger, radians, sin, sqrt, where
from ..vec import Vec

ANKLE = 0.25
"""How far ahead of the heel's end the ankle stands, in shares of the foot: common practice, no
source."""


def trunk(back_angle):
    """Direction from hip to shoulder, for a back that leans rearward from upright by an angle."""
    lean = radians(back_angle)
    return Vec(-sin(lean), 0.0, cos(lean))


def between(one, other):
    """Angle between two directions in degrees, 0 to 180."""
    return degrees(atan2(one.cross(other).length(), one.dot(other)))


def opening(one, other, span):
    """Angle in degrees between two sides of a triangle whose third side is `span`."""
    long = one + other
    near = (long - span) * (long + span)
    far = (span - one + other) * (span + one - other)
    return degrees(2.0 * atan2(sqrt(far), sqrt(near)))


def span(one, other, angle):
    """Third side of a triangle of which two sides and the angle between them are given."""
    short = one - other
    half = sin(0.5 * radians(angle))
    return sqrt(short * short + 4.0 * one * other * half * half)


class Leg:
    """One leg in its own upright plane: the sole from the heel to the pedal, then two bones.

    hip, heel, pedal: `Vec`s whose y is 0. The knee is the upper one of the two places.
    """

    def __init__(self, thigh, shank, foot, ankle_height, hip, heel, pedal):
        self.thigh, self.shank = thigh, shank
        self.hip, self.heel = hip, heel
        self.sole = (pedal - heel).unit()
        upward = Vec(-self.sole.z, 0.0, self.sole.x)
        self.ankle = heel + self.sole * (ANKLE * foot) + upward * ankle_height
        self.toe = heel + self.sole * foot
        away = self.ankle - hip
        self.distance = away.length()
        along = away / self.distance
        part = (thigh * thigh - shank * shank + self.distance * self.distance) / (
            2.0 * self.distance
        )
        off = sqrt(thigh * thigh - part * part)
        self.knee = hip + along * part + Vec(-along.z, 0.0, along.x) * off

    def spare(self):
        """How much longer the leg is than it must be; below 0: the gap that it cannot close."""
        return self.thigh + self.shank - self.distance

    def hip_angle(self, back_angle):
        """Between trunk and thigh."""
        return between(trunk(back_angle), self.knee - self.hip)

    def knee_angle(self):
        """Between thigh and shank: 180 is a straight leg."""
        return opening(self.thigh, self.shank, self.distance)

    def ankle_angle(self):
        """Between shank and sole."""
        return between(self.knee - self.ankle, self.sole)

    # How far forward heel and pedal would have to go together for a joint to have an angle. Each
    # angle grows as they go forward, until the leg is straight: one that it does not come to
    # before that is had there. One smaller than any is had no farther forward than the smallest.

    def shift_for_hip(self, angle, back_angle):
        """For an angle between trunk and thigh."""
        turn = radians(90.0 + back_angle - angle)
        ahead, up = self.thigh * cos(turn), self.thigh * sin(turn)
        rise = self.ankle.z - self.hip.z - up
        return self._shift(
            ahead, up, ahead + sqrt(larger(self.shank * self.shank - rise * rise, 0.0))
        )

    def shift_for_knee(self, angle):
        """For an angle between thigh and shank."""
        far = span(self.thigh, self.shank, angle)
        rise = self.ankle.z - self.hip.z
        return self.hip.x + sqrt(larger(far * far - rise * rise, 0.0)) - self.ankle.x

    def shift_for_ankle(self, angle):
        """For an angle between shank and sole."""
        turn = radians(angle)
        # The sole turned upward by the angle lies along the shank.
        along_x = self.sole.x * cos(turn) - self.sole.z * sin(turn)
        along_z = self.sole.z * cos(turn) + self.sole.x * sin(turn)
        up = self.ankle.z + self.shank * along_z - self.hip.z
        ahead = sqrt(larger(self.thigh * self.thigh - up * up, 0.0))
        return self._shift(ahead, up, ahead - self.shank * along_x)

    def _shift(self, ahead, up, reached):
        """How far forward, for a knee ahead of and above the hip, an ankle so far ahead of it.

        A knee below the line from hip to ankle would be bent the wrong way: the straight leg.
        """
        rise = self.ankle.z - self.hip.z
        long = self.thigh + self.shank
        straight = sqrt(long * long - rise * rise)
        right_way = reached * up - rise * ahead >= 0.0
        return self.hip.x + where(right_way, reached, straight) - self.ankle.x


def farthest(numbers):
    """The largest of some numbers of any kind; NaN if one of them is NaN."""
    return _extreme(numbers, lambda one, other: one > other)


def nearest(numbers):
    """The smallest of some numbers of any kind; NaN if one of them is NaN."""
    return _extreme(numbers, lambda one, other: one < other)


def _extreme(numbers, beats):
    first, *others = numbers
    nothing = first * 0.0
    for other in others:
        first = where(beats(first, other), first, other)
        nothing = nothing + other * 0.0
    return first + nothing


class Rim:
    """The steering wheel's rim. centre: a `Vec`; tilt: by how much its top leans forward.

    `toward` points along the axis to the driver, `upward` to the rim's top.
    """

    def __init__(self, centre, tilt, radius):
        lean = radians(tilt)
        self.centre, self.radius = centre, radius
        self.toward = Vec(-cos(lean), 0.0, sin(lean))
        self.upward = Vec(sin(lean), 0.0, cos(lean))

    def at(self, angle):
        """The point of the rim at an angle from its top to the left."""
        turn = radians(angle)
        across = self.upward * cos(turn) + Vec(0.0, sin(turn), 0.0)
        return self.centre + across * self.radius

    def _seen(self, point):
        """(towards its top, to the left, along its axis) of a point from the rim's centre."""
        away = point - self.centre
        return away.dot(self.upward), away.y, away.dot(self.toward)

    def reach(self, point, hold, turned, most):
        """The largest or smallest distance of a hand from a point.

        hold: the hand's angle from the top to the left; turned: how far the wheel turns to
        either side. most: whether the largest is wanted.
        """
        up, left, along = self._seen(point)
        out = sqrt(up * up + left * left)
        off = radians(hold) - atan2(left, up)
        # As an angle between 0 and a half turn, whichever way round.
        off = absolute(atan2(sin(off), cos(off)))
        turn = radians(turned)
        if most:
            beyond = PI - larger(PI - (off + turn), 0.0)
        else:
            beyond = larger(off - turn, 0.0)
        return sqrt(
            up * up + left * left + along * along + self.radius * self.radius
            - 2.0 * self.radius * out * cos(beyond)
        )  # fmt: skip

    def clearance(self, point):
        """How far a point is from the disc within the rim."""
        up, left, along = self._seen(point)
        outside = larger(sqrt(up * up + left * left) - self.radius, 0.0)
        return sqrt(outside * outside + along * along)


def elbow(upper_arm, forearm, shoulder, hand, out):
    """`Vec` to the left elbow, which hangs as low as it may, or is raised outward by an angle."""
    away = hand - shoulder
    far = away.length()
    along = away / far
    part = (upper_arm * upper_arm - forearm * forearm + far * far) / (2.0 * far)
    off = sqrt(upper_arm * upper_arm - part * part)
    level = sqrt(1.0 - along.z * along.z)
    down = Vec(along.x * along.z, along.y * along.z, along.z * along.z - 1.0) / level
    turn = radians(out)
    aside = down * cos(turn) + along.cross(down) * sin(turn)
    return shoulder + along * part + aside * off


def wheel_shift(distance, shoulder, hand, tilt):
    """How far the steering wheel must come along its axis for the hand to be so far away.

    Toward the driver positive; NaN where the hand is not that near at any place of the axis.
    """
    toward = Rim(hand, tilt, 0.0).toward
    away = hand - shoulder
    along = away.dot(toward)
    return -along - sqrt(distance * distance - away.dot(away) + along * along)
