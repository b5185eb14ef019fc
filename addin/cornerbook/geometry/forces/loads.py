"""What each member of a corner carries: the statics of upright, arms, rod, rocker and rack.

Rigid parts without weight, joints without friction, forces small enough to bend nothing. The
upright is held by both ball joints, each of which takes any force, and by the tie rod, which
takes one along itself; each arm by its hinge through both pickups, which takes all but a moment
about its own line; the rod and the spring take a force along themselves; the rocker's bearing
takes all but a moment about its axis. That is as many unknowns as equations, so that all follows
from equilibrium at the pose, but for one thing: how the two pickups of an arm share a force along
the line between them. Here each force on an arm goes to both pickups along the straight lines
from where it acts, as in two struts; for an arm without a rod that is what its legs do.

Where tie rod, rod or spring has no lever about what it must hold, a force is NaN.

A pull is positive and a push negative. Where a force passes a joint it is that of the part nearer
to the wheel on the part nearer to the frame.
"""

from ..corner.wheel import heading_of, outboard_of
from ..numbers import NAN, ratio
from ..vec import Vec

ACTS = ("brake", "contact centre", "wheel centre")
"""Where a load acts on the wheel: at the contact centre with the wheel held by a brake on the
upright; there with the wheel free to turn, or held through a shaft; at the wheel centre."""


class Wrench:
    """Forces on a body in sum: their resultant, and their moment about a point, both `Vec`."""

    __slots__ = ("about", "force", "moment")

    def __init__(self, about, force, moment):
        self.about = about
        self.force = force
        self.moment = moment

    def moved(self, about):
        """The same forces, their moment taken about another point."""
        return Wrench(about, self.force, self.moment + (self.about - about).cross(self.force))


def along(about, point, force):
    """The `Wrench` of one force at a point."""
    return Wrench(about, force, (point - about).cross(force))


def load_on_upright(pose, acts, longitudinal, lateral, vertical):
    """The `Wrench` about the lower ball joint of a load on the wheel.

    acts: one of `ACTS`. longitudinal: forward along the wheel's heading; lateral: outboard across
    it; vertical: upward. A wheel that is free to turn does not hand on the moment about its
    spindle; a shaft takes just that.
    """
    heading, outboard = heading_of(pose.spindle), outboard_of(pose.spindle)
    force = heading * longitudinal + outboard * lateral + Vec(0.0, 0.0, vertical)
    if acts == "wheel centre":
        return along(pose.lower, pose.wheel_centre, force)
    contact = pose.contact_centre()
    load = along(pose.lower, contact, force)
    if acts == "brake":
        return load
    spun = (contact - pose.wheel_centre).cross(force).dot(pose.spindle)
    return Wrench(load.about, force, load.moment - pose.spindle * spun)


class Arm:
    """An arm at a pose: its ball joint and its pickups. `hinge`: unit, from rear to front."""

    __slots__ = ("ball", "front", "hinge", "normal", "rear", "span")

    def __init__(self, ball, front, rear):
        self.ball = ball
        self.front = front
        self.rear = rear
        way = front - rear
        self.span = way.length()
        self.hinge = way / self.span
        self.normal = self.hinge.cross(ball - rear)

    def turning(self, point, force):
        """Moment about the hinge of a force on the arm."""
        return self.hinge.dot((point - self.rear).cross(force))

    def handed_on(self, point, force):
        """(what the front pickup, what the rear one gets) of a force on the arm, as `Vec`s.

        The part in the plane of the hinge and the point goes along the lines to the pickups; the
        part square to that plane is shared as by a beam that rests on both. Forces that together
        do not turn the arm about its hinge leave nothing else.
        """
        from_rear = point - self.rear
        place = from_rear.dot(self.hinge)
        share = place / self.span
        reach = from_rear - self.hinge * place
        lengthwise = force.dot(self.hinge)
        outward = force.dot(reach) / reach.dot(reach)
        square = force - self.hinge * lengthwise - reach * outward
        slid = lengthwise / self.span
        to_front = (point - self.front) * (share * outward - slid)
        to_rear = from_rear * ((1.0 - share) * outward + slid)
        return to_front + square * share, to_rear + square * (1.0 - share)


class Held:
    """What holds the upright: forces on it at the ball joints, and the tie rod's for each length.

    free: at the ball joint of the arm that carries the rod, or whose hinge is not asked; other:
    at that of the other arm, to which its plane is all. tie: push of the tie rod on the upright
    over the rod's length.
    """

    __slots__ = ("free", "other", "tie")

    def __init__(self, pose, load, free, arm):
        """free: the ball joint that takes any force. arm: the other one, which must not turn."""
        load = load.moved(free)
        up = arm.ball - free
        rod = pose.tie_outer - pose.tie_inner
        lever = (pose.tie_outer - free).cross(rod)
        # Nothing but the tie rod has a moment about the line through both ball joints.
        self.tie = -ratio(load.moment.dot(up), lever.dot(up), NAN)
        rest = load.moment + lever * self.tie
        across = up.cross(rest) / up.dot(up)
        self.other = across - up * (across.dot(arm.normal) / up.dot(arm.normal))
        self.free = -(load.force + self.other + rod * self.tie)


class Carried:
    """Every force in a corner at a pose under one load.

    lower, upper: the `Arm`s. at_lower, at_upper: forces of the upright on the arms. tie: pull of
    the tie rod. rod: pull of the rod, or of the spring where there is no rocker. spring: pull of
    the spring. places: the `Places` of the actuation.
    """

    def __init__(self, pose, lower, upper, load, mount, places):
        """load: a `Wrench` on the upright. mount: as `actuation.MOUNTS` has it."""
        self.pose = pose
        self.lower = lower
        self.upper = upper
        self.mount = mount
        self.places = places
        self.rod_way = (places.inner - places.outer).unit()
        if mount == "upright":
            self._hold_by_upright(load)
        else:
            self._hold_by_arm(load)
        self.tie = -(self.tie_by_length * (pose.tie_outer - pose.tie_inner).length())
        self.spring_way = (places.frame - places.end).unit()
        if places.axis is None:
            self.spring = self.rod
        else:
            turning = places.axis.dot((places.inner - places.pivot).cross(self.rod_way))
            held = places.axis.dot((places.end - places.pivot).cross(self.spring_way))
            self.spring = ratio(self.rod * turning, held, NAN)

    def _hold_by_arm(self, load):
        on_lower = self.mount == "lower arm"
        arm, other = (self.lower, self.upper) if on_lower else (self.upper, self.lower)
        held = Held(self.pose, load, arm.ball, other)
        at_arm, at_other = -held.free, -held.other
        self.at_lower, self.at_upper = (at_arm, at_other) if on_lower else (at_other, at_arm)
        self.tie_by_length = held.tie
        lever = arm.turning(self.places.outer, self.rod_way)
        self.rod = -ratio(arm.turning(arm.ball, at_arm), lever, NAN)

    def _hold_by_upright(self, load):
        """The rod's pull is the one at which the lower arm does not turn about its hinge."""
        free = self.lower.ball
        one = along(free, self.places.outer, self.rod_way)
        by_load = Held(self.pose, load, free, self.upper)
        by_rod = Held(self.pose, one, free, self.upper)
        normal = self.lower.normal
        self.rod = -ratio(by_load.free.dot(normal), by_rod.free.dot(normal), NAN)
        self.at_lower = -(by_load.free + by_rod.free * self.rod)
        self.at_upper = -(by_load.other + by_rod.other * self.rod)
        self.tie_by_length = by_load.tie + by_rod.tie * self.rod

    def rod_on_mount(self):
        """Force of the rod, or of the spring in its place, on what carries its outer end."""
        return self.rod_way * self.rod

    def on_rack(self):
        """Force of the tie rod on the rack."""
        return (self.pose.tie_outer - self.pose.tie_inner).unit() * self.tie

    def on_pickups(self, upper):
        """(force on the frame at the front pickup, at the rear one) of an arm."""
        arm, at_ball = (self.upper, self.at_upper) if upper else (self.lower, self.at_lower)
        front, rear = arm.handed_on(arm.ball, at_ball)
        if self.mount == ("upper arm" if upper else "lower arm"):
            more = arm.handed_on(self.places.outer, self.rod_on_mount())
            front, rear = front + more[0], rear + more[1]
        return front, rear

    def leg(self, upper, rear):
        """Pull of an arm's leg, at its pickup: the force along the line to the ball joint."""
        arm = self.upper if upper else self.lower
        pickup = arm.rear if rear else arm.front
        return self.on_pickups(upper)[1 if rear else 0].dot((arm.ball - pickup).unit())

    def bending(self):
        """Bending moment at the rod's eye of the arm that carries it; 0 if the upright does.

        Of the force at the ball joint, about the line through the eye and along the hinge;
        positive where it bends the ball joint of a left-hand corner upward.
        """
        if self.mount == "upright":
            return 0.0
        on_lower = self.mount == "lower arm"
        arm, at_ball = (self.lower, self.at_lower) if on_lower else (self.upper, self.at_upper)
        return arm.hinge.dot((arm.ball - self.places.outer).cross(at_ball))

    def on_bearing(self):
        """The `Wrench` of the rocker on its bearing, about the row rocker pivot."""
        places = self.places
        by_rod = along(places.pivot, places.inner, -self.rod_on_mount())
        by_spring = along(places.pivot, places.end, self.spring_way * self.spring)
        return Wrench(
            places.pivot, by_rod.force + by_spring.force, by_rod.moment + by_spring.moment
        )

    def on_spring_frame(self):
        """Force of the spring on the frame."""
        return -(self.spring_way * self.spring)
