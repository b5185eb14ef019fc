"""The toe held: what the tie rod must do for the wheel to stand at a heading that is given.

With the toe held, the arms alone say where the upright is at a height of the wheel. What the
tie rod must do is then read off the places of its outer end.
"""

from ..corner.circle import bounded_root
from ..corner.way import TOLERANCE
from ..corner.wheel import heading_of
from ..numbers import NAN, absolute, cos, radians, ratio, sign, sin, sqrt, where
from ..vec import Vec, from_frame, in_frame


class HeldToe:
    """The upright on its arms alone, turned to a heading that is given.

    linkage: the `Linkage`; pose: as drawn.
    """

    def __init__(self, linkage, pose):
        self.linkage = linkage
        axis = (pose.upper - pose.lower) * linkage.upright_inverse
        self.along = pose.spindle.dot(axis)
        swing = pose.spindle - axis * self.along
        self.swing2 = swing.dot(swing)
        self.tie = in_frame(pose.tie_outer - pose.lower, axis, swing)
        self.wheel = in_frame(pose.wheel_centre - pose.lower, axis, swing)
        self.first = pose.lower.z
        self.wheel_height = pose.wheel_centre.z

    def _frame(self, height, heading, root):
        """Lower ball joint, axis, the spindle's part square to it, and axis x that."""
        lower = self.linkage.lower_at(height, root)
        axis = (self.linkage.upper_for(lower, root) - lower) * self.linkage.upright_inverse
        lean = axis.dot(heading)
        flat = heading - axis * lean
        across = axis.cross(flat)
        flat2 = 1.0 - lean * lean
        # The spindle must be square to the heading, and points outboard.
        a = -self.along * lean / flat2
        b = root(self.swing2 / flat2 - a * a)
        return lower, axis, flat * a + across * b, across * a - flat * b

    def tie_outer(self, travel, heading):
        """(tie rod's outer end, steering axis, lower ball joint); NaN where out of reach.

        heading: level unit direction in which the wheel rolls. travel: of the wheel centre.
        """
        wanted = self.wheel_height + travel

        def missed(height):
            lower, *frame = self._frame(height, heading, bounded_root)
            return lower.z + from_frame(self.wheel, *frame).z - wanted

        height = self.linkage.height_for(self.first + travel, missed)
        lower, axis, swing, square = self._frame(height, heading, sqrt)
        miss = lower.z + from_frame(self.wheel, axis, swing, square).z - wanted
        hit = absolute(miss) <= TOLERANCE * self.linkage.upright_length
        end = lower + from_frame(self.tie, axis, swing, square)
        return end.shifted(where(hit, 0.0, NAN)), axis, lower


def inner_for_range(held, pose, start, end):
    """(y, z) of the tie rod's inner end, x kept, that lies as far from the outer end at both
    ends of a range of travel as it does as drawn, the toe held; NaN where there is none.

    held: a `HeldToe`. Then the toe at both ends is that as drawn.
    """
    heading = heading_of(pose.spindle)
    first = held.tie_outer(start, heading)[0] - pose.tie_outer
    last = held.tie_outer(end, heading)[0] - pose.tie_outer
    ahead = pose.tie_inner.x - pose.tie_outer.x
    right_first = 0.5 * first.dot(first) - first.x * ahead
    right_last = 0.5 * last.dot(last) - last.x * ahead
    both = first.y * last.z - first.z * last.y
    across = ratio(right_first * last.z - right_last * first.z, both, NAN)
    up = ratio(first.y * right_last - last.y * right_first, both, NAN)
    return pose.tie_outer.y + across, pose.tie_outer.z + up


def rack_for_inner_angle(held, pose, angle, travel):
    """The rack at which the inner wheel stands at an angle in degrees, positive to the left.

    NaN where the tie rod does not allow it. held: a `HeldToe` of the left-hand corner, which is
    the inner one in a left turn; a turn to the right is its mirror.
    """
    linkage = held.linkage
    turned = radians(absolute(angle))
    outer, axis, lower = held.tie_outer(travel, Vec(cos(turned), sin(turned), 0.0))
    rod = pose.tie_outer - pose.tie_inner
    ahead = outer.x - pose.tie_inner.x
    up = outer.z - pose.tie_inner.z
    reach = sqrt(rod.dot(rod) - ahead * ahead - up * up)
    y = outer.y - linkage.rod_way * reach
    inner = Vec(pose.tie_inner.x, y, pose.tie_inner.z)
    # Past toggle the rod would have to push its lever the other way: no rack carries it there.
    side = axis.cross(inner - lower).dot(outer - lower) * linkage.tie_side
    return sign(angle) * (y - pose.tie_inner.y) + where(side > 0.0, 0.0, NAN)
