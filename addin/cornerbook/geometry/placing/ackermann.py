"""Ackermann by the tie rod's outer end, or by the rack's place."""

from ..corner.linkage import Linkage
from ..corner.pose import Pose
from ..front_axle.axle import Axle
from ..numbers import NAN, absolute, asked_again, ratio, where
from ..vec import Vec

# Steps for the tie rod's outer end. Four or five reach rounding on most plausible cars; a few,
# where the first step leads astray, take twice as many.
STEPS = 12

# For a kind of number that cannot be asked again: six find all that can be found, but two or three
# in a thousand, on some thousand corners like the example's, for percentages from -20 to 130.
STEPS_AT_ONCE = 6

# What is left of the wanted Ackermann percentage after them, in percent. Once so little is left
# as the second says, a step would divide one rounding by another.
NEAR = 1e-8
STILL = 1e-10

# Where less is left than this, the bend between the last places is one of roundings.
BENDING = 1e-4


def tyre_of(pose):
    """The radii of a pose's tyre, by the names of the arguments of a `Linkage` or a `Pose`."""
    return {"radius": pose.radius, "crown": pose.crown}


def with_tie_outer(points, pose, tie_outer):
    """A `Linkage` of the points of another one with the tie rod's outer end moved."""
    return Linkage(**dict(points, tie_outer=tie_outer), spindle=pose.spindle, **tyre_of(pose))


def tie_rod_outer_for(points, pose, wheelbase, rack, ackermann, turned=None):
    """y of the tie rod's outer end, x and z kept, for an Ackermann percentage at a rack.

    points: of the linkage, by the names of its arguments. NaN where the steps find none. turned:
    the `Pose`s of the left wheel and, as a left-hand one, of the right, where they are known.
    """
    drawn = pose.tie_outer

    def moved(y):
        return dict(points, tie_outer=Vec(drawn.x, y, drawn.z))

    step = -0.02 * pose.radius
    return _place_for(moved, drawn.y, step, pose, wheelbase, rack, ackermann, turned)


def rack_place_for(points, pose, wheelbase, rack, ackermann, turned=None):
    """x of the tie rod's inner end, y and z kept, for the same; NaN where none is found."""
    drawn = pose.tie_inner

    def moved(x):
        inner = Vec(x, drawn.y, drawn.z)
        return dict(points, tie_outer=pose.tie_outer, tie_inner=inner)

    step = 0.02 * pose.radius
    return _place_for(moved, drawn.x, step, pose, wheelbase, rack, ackermann, turned)


def _place_for(moved, drawn, step, pose, wheelbase, rack, ackermann, turned):
    """Where the linkage of the moved points has the Ackermann percentage.

    By a secant step, then by the quotient of two straight lines on which the last three places
    lie: over the place, the percentage bends much as such a quotient does.
    """
    rear_line = pose.wheel_centre.x - wheelbase

    def linkage_at(place):
        return Linkage(**moved(place), spindle=pose.spindle, **tyre_of(pose))

    def turned_at(place):
        linkage = linkage_at(place)
        return linkage.pose(0.0, rack), linkage.pose(0.0, -rack)

    def missed(wheels):
        return Axle(*wheels, rear_line).ackermann() - ackermann

    turned = turned or turned_at(drawn)
    start = missed(turned)
    near = Wheels(turned, rack)
    steps = STEPS if asked_again(start) else STEPS_AT_ONCE
    oldest = older = drawn, start
    place = drawn + step
    for _ in range(steps):
        miss = missed(near.of(linkage_at(place)))
        change = ratio(miss, slope_to_nothing((place, miss), older, oldest), 0.0)
        oldest, older = older, (place, miss)
        place = place - where(absolute(miss) > STILL, change, 0.0)
    return where(absolute(missed(turned_at(place))) < NEAR, place, NAN)


def slope_to_nothing(latest, older, oldest):
    """The slope from the latest of three places to where nothing is missed.

    Each is (place, what is missed there). The three lie on (place - zero) / (b place + c), the
    quotient of two straight lines: P. Jarratt and D. Nudds, *The Computer Journal* 8, 1965, 62-65
    (from memory; the zero is that of P. Dierckx's routine FPRATI, netlib.org/dierckx). Where two
    of them are one, on a straight line.
    """
    (place, miss), (older, older_miss), (oldest, oldest_miss) = latest, older, oldest
    slope = ratio(miss - older_miss, place - older, 0.0)
    slope_wide = ratio(miss - oldest_miss, place - oldest, slope)
    # From the latest place, slopes change in proportion to what is missed at the other end.
    bend = ratio(slope - slope_wide, older_miss - oldest_miss, 0.0)
    slope_there = slope - older_miss * where(absolute(miss) > BENDING, bend, 0.0)
    return slope_there  # a name, which is the heading of its cell in a copy


class Wheels:
    """Both wheels at a rack and no travel, of linkages of which each is near the one before.

    One trial from where the lower ball joint was does for a linkage by which the next one is
    found: the joint and the wheel rise together much as they did before. And there is something
    to go on by where a linkage on the way does not close.
    """

    def __init__(self, poses, rack):
        self.racks = (rack, -rack)
        self.heights = [pose.lower.z for pose in poses]
        self.slopes = [1.0, 1.0]
        self.tyre = tyre_of(poses[0])

    def of(self, linkage):
        """The `Pose` of the left wheel and, as a left-hand one, of the right; no joints."""
        poses = []
        for side, rack in enumerate(self.racks):
            inner, slope = linkage.inner_end(rack), self.slopes[side]
            first = self.heights[side]
            first_miss = linkage.wheel_height_at(first, inner) - linkage.wheel_height
            height = first - first_miss * slope
            centre, spindle = linkage.wheel_at(height, inner)
            miss = centre.z - linkage.wheel_height
            slope = self.slopes[side] = ratio(height - first, miss - first_miss, slope)
            self.heights[side] = height - miss * slope
            poses.append(Pose(None, None, None, inner, centre, spindle, **self.tyre))
        return poses
