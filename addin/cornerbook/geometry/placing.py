"""Where a point of a corner must be for the car to measure what is wanted.

Every function takes the wheel and the other points as drawn and gives a place in closed form,
or by a fixed number of steps. Two ideas carry most of it:

- As drawn, the upright has one motion, which the two arms and the tie rod leave it. A link is
  square to the way that its outer end goes. So a wanted motion gives every inner end at once:
  with x and y kept, its height follows from that one equation.
- With the toe held, the arms alone say where the upright is at a height of the wheel. What the
  tie rod must do is then read off the places of its outer end.
"""

from .axle import Axle
from .linkage import TOLERANCE, Linkage, bounded_root, from_frame, in_frame
from .motion import Motion
from .numbers import (
    NAN,
    absolute,
    asked_again,
    atan2,
    cos,
    degrees,
    radians,
    ratio,
    sign,
    sin,
    sqrt,
    tan,
    where,
)
from .pose import Pose
from .vec import Vec
from .wheel import heading_of, outboard_of

# Steps for the tie rod's outer end. Five reach rounding on most plausible cars; where the
# percentage bends strongly with the place, the first few go astray.
STEPS = 16

# For a kind of number that cannot be asked again: six find it on all of some thousand corners
# like the example's, for percentages from -20 to 130, and on all but one in a hundred wild ones.
STEPS_AT_ONCE = 6

# What is left of the wanted Ackermann percentage after them, in percent. Once so little is left
# as the second says, a step would divide one rounding by another.
NEAR = 1e-8
STILL = 1e-10

# Where less is left than this, the bend between the last places is one of roundings.
BENDING = 1e-4


# The steering axis


def on_axis(pose, caster, inclination, trail, scrub, height):
    """The point at a height of the steering axis with this caster, inclination, trail, scrub.

    pose: of which the wheel alone is read. Angles in degrees, with the signs of ISO 8855.
    Trail and scrub lie along and across the wheel's own heading at the contact's height.
    """
    contact = pose.contact_centre()
    ground = contact + heading_of(pose.spindle) * trail - outboard_of(pose.spindle) * scrub
    rise = height - contact.z
    return Vec(
        ground.x - rise * tan(radians(caster)),
        ground.y - rise * tan(radians(inclination)),
        contact.z + rise,
    )


def inclination_for_scrub(scrub, radius, hub_offset):
    """Kingpin inclination in degrees that gives an upright wheel this scrub radius."""
    return degrees(atan2(hub_offset - scrub, radius))


def caster_for_trail(trail, radius, hub_offset):
    """Caster in degrees that gives an upright wheel this mechanical trail."""
    return degrees(atan2(trail + hub_offset, radius))


def hub_outboard_for_scrub(scrub, inclination, radius):
    """How far outboard of the steering axis the wheel centre must lie, level, for a scrub."""
    return scrub + radius * tan(radians(inclination))


def hub_ahead_for_trail(trail, caster, radius):
    """How far ahead of the steering axis the wheel centre must lie, level, for a trail."""
    return radius * tan(radians(caster)) - trail


# Links square to a motion


def way_of(ball, front, rear):
    """The way that a ball joint goes on its arm; its size is of no account."""
    return (front - rear).unit().cross(ball - front)


def square_height(outer, inner, velocity):
    """Height of a link's inner end, x and y kept, for the link to be square to a velocity."""
    level = (inner.x - outer.x) * velocity.x + (inner.y - outer.y) * velocity.y
    return outer.z - level / velocity.z


class Upright:
    """The upright as drawn, and how it moves for given ways of its two ball joints.

    pose: as drawn. held: 'rod' if the tie rod as drawn guides it about the steering axis,
    'toe' if it moves without a change of toe.
    """

    def __init__(self, pose, held):
        self.pose = pose
        self.span = pose.upper - pose.lower
        self.length = self.span.length()
        self.axis = self.span / self.length
        self.held = held

    def _missed(self, motion):
        """What a motion does that is held: the rod's stretch, or the toe's change."""
        if self.held == "toe":
            return motion.toe_rate(self.pose.spindle)
        rod = self.pose.tie_outer - self.pose.tie_inner
        return rod.dot(motion.velocity_of(self.pose.tie_outer))

    def motion(self, lower, upper):
        """The `Motion` with these velocities of the ball joints, which keep their distance."""
        swing = self.axis.cross((upper - lower) / self.length)
        nothing = Vec(0.0, 0.0, 0.0)
        free = Motion(swing, lower, self.pose.lower)
        turning = Motion(self.axis, nothing, self.pose.lower)
        turn = self._missed(free) / self._missed(turning)
        return Motion(swing - self.axis * turn, lower, self.pose.lower)

    def by_arms(self, lower_way, upper_way):
        """The `Motion` of which the two arms leave these ways; its speed is of no account."""
        share = self.span.dot(lower_way) / self.span.dot(upper_way)
        return self.motion(lower_way, upper_way * share)


def tie_rod_inner_height(pose, lower_way, upper_way):
    """Height of the tie rod's inner end, x and y kept, for no bump steer as drawn."""
    velocity = Upright(pose, "toe").by_arms(lower_way, upper_way).velocity_of(pose.tie_outer)
    return square_height(pose.tie_outer, pose.tie_inner, velocity)


def upper_velocity(pose, lower_way, upper_way, held, missed):
    """Velocity of the upper ball joint with which a measure of the motion is met.

    The lower arm stays; the upper arm's plane keeps its slope along the car, as `upper_way` has
    it, and takes another one across. missed: a function of a `Motion`, straight-line in it, that
    is zero where the measure is met. With the lower arm given, one slope is all that is free.
    """
    upright = Upright(pose, held)
    span = upright.span
    slope = upper_way.x / upper_way.z
    # The upright keeps its length: one equation for what the upper joint's velocity may be.
    along = span.x * slope + span.z
    first = span.dot(lower_way) / along
    plain = Vec(first * slope, 0.0, first)
    across = Vec(slope * span.y, -along, span.y)
    nothing = Vec(0.0, 0.0, 0.0)
    more = missed(upright.motion(nothing, across))
    return plain - across * (missed(upright.motion(lower_way, plain)) / more)


def camber_missed(pose, camber_gain):
    """For `upper_velocity`: degrees of camber per unit of travel."""
    return lambda motion: (
        motion.camber_rate(pose.spindle) - camber_gain * motion.velocity_of(pose.wheel_centre).z
    )


def roll_centre_missed(pose, height):
    """For `upper_velocity`: height of the roll centre above ground."""
    contact = pose.contact_centre()

    def missed(motion):
        velocity = motion.velocity_of(contact)
        return contact.y * velocity.y - height * velocity.z

    return missed


def wanted_motion(pose, drawn, camber_gain, roll_centre, held):
    """The `Motion` per unit of travel with this camber gain and roll centre height.

    drawn: the motion as drawn, of which the side view is kept: how the wheel turns about the
    axis across the car, and the slope of the contact's path. held: as for `Upright`.
    """
    n = pose.spindle
    level2 = n.x * n.x + n.y * n.y
    contact = pose.contact_centre()
    by_drawn = drawn.velocity_of(contact)
    pitch = drawn.spin.y
    lean = (pitch * n.x - radians(camber_gain) * sqrt(level2)) / n.y
    # What of the spin is upright is such that the toe stays.
    spin = Vec(lean, pitch, n.z * (lean * n.x + pitch * n.y) / level2)
    up = pose.wheel_centre - contact
    rise = 1.0 - (spin.x * up.y - spin.y * up.x)
    velocity = Vec(rise * by_drawn.x / by_drawn.z, rise * roll_centre / contact.y, rise)
    if held == "rod":
        # The tie rod turns the wheel besides, about the upright line through the contact.
        outer = pose.tie_outer
        rod = outer - pose.tie_inner
        way = outer - contact
        turning = Vec(0.0, 0.0, 1.0)
        turn = rod.dot(velocity + spin.cross(way)) / rod.dot(turning.cross(way))
        spin = spin - turning * turn
    lower = velocity + spin.cross(pose.lower - contact)
    return Motion(spin, lower, pose.lower)


# The toe held


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


# Ackermann by the tie rod's outer end, or by the rack's place


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

    By a secant step, then inverse quadratic interpolation through the last three places, as for
    the pose itself (`linkage.py`).
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
    older, older_miss, oldest_miss = drawn, start, start
    place, slope = drawn + step, 0.0
    for number in range(steps):
        miss = missed(near.of(linkage_at(place)))
        older_slope, slope = slope, ratio(place - older, miss - older_miss, 0.0)
        # The second place is the first with two before it.
        bend = ratio(slope - older_slope, miss - oldest_miss, 0.0) if number else 0.0
        bend = where(absolute(miss) > BENDING, bend, 0.0)
        oldest_miss, older, older_miss = older_miss, place, miss
        change = miss * (slope - oldest_miss * bend)
        place = place - where(absolute(miss) > STILL, change, 0.0)
    return where(absolute(missed(turned_at(place))) < NEAR, place, NAN)


class Wheels:
    """Both wheels at a rack and no travel, of linkages of which each is near the one before.

    Two trials from where the lower ball joint was do for a linkage by which the next one is
    found; and there is something to go on by where a linkage on the way does not close.
    """

    def __init__(self, poses, rack):
        self.racks = (rack, -rack)
        self.heights = [pose.lower.z for pose in poses]
        self.tyre = tyre_of(poses[0])

    def of(self, linkage):
        """The `Pose` of the left wheel and, as a left-hand one, of the right; no joints."""
        poses = []
        for side, rack in enumerate(self.racks):
            inner = linkage.inner_end(rack)
            first = self.heights[side]
            first_miss = linkage.wheel_height_at(first, inner) - linkage.wheel_height
            last = first - first_miss
            miss = linkage.wheel_height_at(last, inner) - linkage.wheel_height
            slope = ratio(last - first, miss - first_miss, 1.0)
            height = self.heights[side] = last - miss * slope
            centre, spindle = linkage.wheel_at(height, inner)
            poses.append(Pose(None, None, None, inner, centre, spindle, **self.tyre))
        return poses
