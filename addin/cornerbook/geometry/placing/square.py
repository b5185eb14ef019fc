"""Links square to a motion: inner ends that give the upright the motion that is wanted.

As drawn, the upright has one motion, which the two arms and the tie rod leave it. A link is
square to the way that its outer end goes. So a wanted motion gives every inner end at once:
with x and y kept, its height follows from that one equation.
"""

from ..corner.motion import Motion
from ..numbers import radians, sqrt
from ..vec import Vec


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
