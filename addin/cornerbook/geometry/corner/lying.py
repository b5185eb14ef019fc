"""How a linkage lies at three angles: of the lower arm, the upper arm and the upright.

What is missed there, of the upright's length, the rod's length and the height that is asked for,
and how that changes with each angle: what `way.py` follows, and what slopes are taken of.
"""

from ..numbers import NAN, atan2, cos, ratio, sin, sqrt
from ..vec import Vec, from_frame
from .pose import Pose


class Links:
    """Of a linkage and a height that it is to be brought to, what says how it lies.

    linkage: a `Linkage`. missed: a function of the wheel centre and the spindle, for by how
    much the height is missed, with a method `rate(spin, moved, arm, spindle)` for how fast that
    changes.
    """

    def __init__(self, linkage, missed):
        lower, upper = linkage.lower, linkage.upper
        self.missed = missed
        self.lower_centre, self.lower_arm = lower.centre, lower.arm
        self.lower_square = lower.axis.cross(lower.arm)
        self.upper_centre, self.upper_arm = upper.centre, upper.arm
        self.upper_square = upper.axis.cross(upper.arm)
        self.per_upright = linkage.upright_inverse
        self.per_upright2 = linkage.upright_inverse2
        self.per_rod2 = 1.0 / (linkage.tie_radius2 - 2.0 * linkage.tie_half)
        self.lever_length = sqrt(linkage.tie_radius2)
        self.ahead = linkage.lever / self.lever_length
        self.tie_offset = linkage.tie_offset
        self.tie_inner = linkage.tie_inner
        self.rod_way = linkage.rod_way
        self.wheel = linkage.wheel
        self.spindle = linkage.spindle
        self.radius, self.crown = linkage.radius, linkage.crown


class Lying:
    """How the linkage lies at three angles and a rack, and what is missed there.

    links: the `Links`. lower, upper, turn: the angles in radians from the drawn place.

    misses: of the upright's length, the rod's length and the height, each as a part of such
    a size. by_lower, by_upper, by_turn: how that changes with each of the angles. rising: the
    determinant of the conditions by the angles, with the wheel centre's own height for the
    third of them. push: twice the rod, over its length squared. by_gone: how what is missed
    changes with what is gone of a `Way`, which sets it.
    """

    __slots__ = (
        "lower", "upper", "outer", "inner", "centre", "spindle", "same_way", "radius",
        "crown", "misses", "by_lower", "by_upper", "by_turn", "by_gone", "rising", "push",
    )  # fmt: skip

    def __init__(self, links, lower, upper, turn, rack):
        cosine, sine = cos(lower), sin(lower)
        self.lower = links.lower_centre + links.lower_arm * cosine + links.lower_square * sine
        lower_way = links.lower_square * cosine - links.lower_arm * sine
        cosine, sine = cos(upper), sin(upper)
        self.upper = links.upper_centre + links.upper_arm * cosine + links.upper_square * sine
        upper_way = links.upper_square * cosine - links.upper_arm * sine

        # The lever is turned from where it was drawn, seen along the steering axis.
        span = self.upper - self.lower
        span2 = span.dot(span)
        per_span = 1.0 / sqrt(span2)
        axis = span * per_span
        lean = axis.dot(links.ahead)
        flat = links.ahead - axis * lean
        across = axis.cross(flat)
        per_flat2 = 1.0 / flat.dot(flat)
        size = links.lever_length * sqrt(per_flat2)
        cosine, sine = size * cos(turn), size * sin(turn)
        lever = flat * cosine + across * sine
        square = across * cosine - flat * sine

        outer_arm = axis * links.tie_offset + lever
        wheel_arm = from_frame(links.wheel, axis, lever, square)
        self.spindle = from_frame(links.spindle, axis, lever, square)
        self.outer = self.lower + outer_arm
        self.centre = self.lower + wheel_arm
        self.inner = links.tie_inner + Vec(0.0, rack, 0.0)
        rod = self.outer - self.inner
        self.same_way = rod.y * links.rod_way
        self.radius, self.crown = links.radius, links.crown
        self.misses = Vec(
            span2 * links.per_upright2 - 1.0,
            rod.dot(rod) * links.per_rod2 - 1.0,
            links.missed(self.centre, self.spindle) * links.per_upright,
        )

        # As the axis leans it carries `flat` along, which turns that about the axis besides.
        turned = across * (lean * per_flat2)
        nothing = Vec(0.0, 0.0, 0.0)
        self.push = rod * (2.0 * links.per_rod2)
        pull = outer_arm.cross(self.push)

        def changed(stretch, spin, moved):
            """What is missed, and the wheel centre's height, by a motion of the upright."""
            rate = links.missed.rate(spin, moved, wheel_arm, self.spindle)
            rise = moved.z + spin.x * wheel_arm.y - spin.y * wheel_arm.x
            return Vec(
                stretch * (2.0 * links.per_upright2),
                self.push.dot(moved) + pull.dot(spin),
                rate * links.per_upright,
            ), rise

        leaned = lower_way * -per_span
        spin = axis.cross(leaned) - axis * leaned.dot(turned)
        one, rise_one = changed(-span.dot(lower_way), spin, lower_way)
        leaned = upper_way * per_span
        spin = axis.cross(leaned) - axis * leaned.dot(turned)
        two, rise_two = changed(span.dot(upper_way), spin, nothing)
        # The third angle does not change the upright's length.
        three, rise_three = changed(0.0, axis, nothing)
        self.by_lower, self.by_upper, self.by_turn = one, two, three
        self.by_gone = nothing
        self.rising = rise_three * (one.x * two.y - two.x * one.y) - three.y * (
            one.x * rise_two - two.x * rise_one
        )

    def determinant(self):
        """Of the three conditions by the three angles."""
        return self.by_lower.dot(self.by_upper.cross(self.by_turn))

    def tangent(self, sense, by_gone):
        """Unit direction of the path in (lower, upper, turn, gone).

        sense: the sign that the determinant has on the way onward.
        """
        upper_turn = self.by_upper.cross(self.by_turn)
        turn_lower = self.by_turn.cross(self.by_lower)
        lower_upper = self.by_lower.cross(self.by_upper)
        a = -by_gone.dot(upper_turn)
        b = -by_gone.dot(turn_lower)
        c = -by_gone.dot(lower_upper)
        d = self.by_lower.dot(upper_turn)
        size = ratio(sense, sqrt(a * a + b * b + c * c + d * d), NAN)
        return a * size, b * size, c * size, d * size

    def correction(self, by_gone):
        """What Newton's method adds to (lower, upper, turn, gone): as little as will do.

        by_gone: how what is missed changes with what is gone; nothing where that is held.
        """
        columns = (self.by_lower, self.by_upper, self.by_turn, by_gone)
        # The least of the moves that will do is a share of the three conditions' own slopes.
        xx = sum(column.x * column.x for column in columns)
        yy = sum(column.y * column.y for column in columns)
        zz = sum(column.z * column.z for column in columns)
        xy = sum(column.x * column.y for column in columns)
        xz = sum(column.x * column.z for column in columns)
        yz = sum(column.y * column.z for column in columns)
        one = Vec(yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy)
        two = Vec(one.y, xx * zz - xz * xz, xy * xz - xx * yz)
        three = Vec(one.z, two.z, xx * yy - xy * xy)
        per = ratio(-1.0, xx * one.x + xy * one.y + xz * one.z, NAN)
        misses = self.misses
        shares = Vec(one.dot(misses), two.dot(misses), three.dot(misses)) * per
        return tuple(column.dot(shares) for column in columns)

    def pose(self, doubt):
        """The `Pose` there, shifted by a doubt: 0.0, or NaN for none."""
        return Pose(
            lower=self.lower.shifted(doubt),
            upper=self.upper.shifted(doubt),
            tie_outer=self.outer.shifted(doubt),
            tie_inner=self.inner,
            wheel_centre=self.centre.shifted(doubt),
            spindle=self.spindle.shifted(doubt),
            radius=self.radius,
            crown=self.crown,
        )


def angles_of(linkage, pose):
    """The three angles of a `Place` at which a `Pose` of the linkage lies."""
    lower, upper = linkage.lower, linkage.upper
    axis = (pose.upper - pose.lower) * linkage.upright_inverse
    flat = linkage.lever - axis * axis.dot(linkage.lever)
    return (
        _turned(lower.arm, lower.axis, pose.lower - lower.centre),
        _turned(upper.arm, upper.axis, pose.upper - upper.centre),
        _turned(flat, axis, pose.tie_outer - pose.lower),
    )


def _turned(arm, axis, now):
    """The angle in radians by which an arm was turned about an axis."""
    return atan2(axis.cross(arm).dot(now), arm.dot(now))
