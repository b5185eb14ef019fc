"""A linkage whose adjusters have been turned: what is rigid stays, and it closes anew.

The upright is rigid as built: its ball joints, the tie rod's outer end, the wheel centre and
the spindle keep their places on it. An adjuster changes something else: where a pickup or
the rack's end sits on the frame, how long an arm or the tie rod is, or where the rod's end
sits on the upright. So the wheel's attitude follows; nothing is linearised.
"""

from ..numbers import sign, sqrt
from ..vec import from_frame, in_frame
from .circle import Circle
from .linkage import Linkage


class AdjustedLinkage(Linkage):
    """A `Linkage` with other arms, another rack end or another tie rod.

    drawn: the `Linkage` as drawn, for the upright. lower, upper: the `Circle`s on which the
    ball joints now run. tie_inner: the rod's inner end at no rack. rod2: the square of the
    rod's length.
    """

    def __init__(self, drawn, lower, upper, tie_inner, rod2):
        self.__dict__.update(vars(drawn))
        bolt = drawn.upper.centre + drawn.upper.arm - drawn.lower_ball

        self.lower = lower
        self.lower_level = lower.level * sign(lower.arm.dot(lower.level))
        self.lower_slope = lower.rising / lower.rising.z
        self.lower_stretch = 1.0 / (lower.rising.z * lower.rising.z)

        self.upper = upper
        self.upper_half = 0.5 * (upper.radius2 - self.upright_length * self.upright_length)
        # A ball joint's bolt is fitted as drawn: `joints` finds its direction from here. As
        # the place of the lower ball joint it is near enough for a first trial.
        self.lower_ball = upper.centre + upper.arm - bolt
        self.upper_side = sign(upper.axis.cross(self.lower_ball - upper.centre).dot(upper.arm))

        self.tie_inner = tie_inner
        self.tie_half = 0.5 * (self.tie_radius2 - rod2)
        self._doubt = None


def swung(ball, front, rear, new_front, new_rear):
    """The `Circle` of an arm's ball joint, a pickup having been moved on the frame.

    The arm is taken as two links, from the ball joint to each pickup, that keep their lengths.
    """
    line = new_front - new_rear
    line2 = line.dot(line)
    to_front, to_rear = ball - front, ball - rear
    rear2 = to_rear.dot(to_rear)
    share = 0.5 * (rear2 - to_front.dot(to_front) + line2) / line2
    centre = new_rear + line * share
    radius = sqrt(rear2 - share * share * line2)
    # As near to where it was as the links allow, to tell which way is up.
    way = ball - centre
    way = way - line * (way.dot(line) / line2)
    return Circle(centre + way.unit() * radius, new_front, new_rear)


def carried_along(point, circle, new_circle):
    """Where a point of an arm is once the arm runs on another circle.

    It keeps its place to the ball joint, as seen along the arm and along its axis.
    """
    out, new_out = circle.arm.unit(), new_circle.arm.unit()
    shares = in_frame(point - circle.centre - circle.arm, circle.axis, out)
    way = from_frame(shares, new_circle.axis, new_out, new_circle.axis.cross(new_out))
    return new_circle.centre + new_circle.arm + way
