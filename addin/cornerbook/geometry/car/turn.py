"""A car in a steady turn on level ground: roll, load transfer, lifting and tipping.

Statics of a rigid body on roll springs. The rolled weight (all that the springs carry) turns
about the roll axis, on which each end of the car hands over its share of the lateral force at
its own roll centre; the moment that is left rolls the body until the roll stiffness of both
ends balances it. The rolled weight leans outward as it rolls, and its own moment is kept. The
weights that do not roll act at their own height. No part of the tyre or the frame gives way
but what the roll stiffnesses say; the centre of gravity lies in the car's middle.

Lateral acceleration in g, positive to the left (a left turn); then the left side rises, roll
is positive, and load moves to the right wheels. Angles inside are radians, stiffnesses moment
per radian.
"""

from ..numbers import NAN, PI, absolute, cos, radians, ratio, sin, where

# Newton's steps from the answer for small angles; two reach rounding on an ordinary car,
# whose body rolls by a few degrees.
STEPS = 5

# Past this roll the axis and the springs are no longer where they are taken to be.
MOST_ROLL = 0.25 * PI

# Stands for a lateral acceleration that is never reached, in g.
NEVER = 1e6


def roll_axis_height(front, rear, front_share):
    """Height of the roll axis under a centre of gravity with this share of weight in front."""
    return front * front_share + rear * (1.0 - front_share)


def roll_gradient(lever, stiffness):
    """Roll in radians for each g of lateral acceleration, near straight ahead.

    lever: the rolled weight times its height over the roll axis. stiffness: of both ends.
    """
    return lever / (stiffness - lever)


def roll_angle(lateral, lever, stiffness):
    """Roll in radians at which the springs balance the rolled weight; NaN past `MOST_ROLL`."""
    angle = lateral * roll_gradient(lever, stiffness)
    for _ in range(STEPS):
        over = stiffness * angle - lever * (lateral * cos(angle) + sin(angle))
        slope = stiffness - lever * (cos(angle) - lateral * sin(angle))
        angle = angle - over / slope
    return where(absolute(angle) < MOST_ROLL, angle, NAN)


class End:
    """One end of the car: its axle.

    load: on both wheels, standing. geometric: the moment about the road that lateral force
    hands straight to the wheels, for each g. stiffness: roll stiffness. track: of its wheels.
    """

    __slots__ = ("geometric", "load", "stiffness", "track")

    def __init__(self, rolled, roll_centre, unsprung, unsprung_height, stiffness, track):
        self.load = rolled + unsprung
        self.geometric = rolled * roll_centre + unsprung * unsprung_height
        self.stiffness = stiffness
        self.track = track

    def transfer(self, lateral, roll):
        """Load that moves from the left wheel to the right one."""
        return (self.geometric * lateral + self.stiffness * roll) / self.track

    def lifting_moment(self):
        """The moment about the road that takes all load off one wheel."""
        return 0.5 * self.load * self.track


class Car:
    """A car in a steady turn. lever: as for `roll_gradient`. front, rear: each an `End`."""

    __slots__ = ("front", "lever", "rear", "stiffness")

    def __init__(self, lever, front, rear):
        self.lever = lever
        self.front = front
        self.rear = rear
        self.stiffness = front.stiffness + rear.stiffness

    def roll(self, lateral):
        """Roll in radians; NaN past `MOST_ROLL`."""
        return roll_angle(lateral, self.lever, self.stiffness)

    def wheel_loads(self, lateral):
        """Loads (front left, front right, rear left, rear right).

        NaN throughout once a wheel has lifted: the springs then share the moment otherwise.
        """
        roll = self.roll(lateral)
        loads = []
        doubt = 0.0
        for end in (self.front, self.rear):
            transfer = end.transfer(lateral, roll)
            left = 0.5 * end.load - transfer
            right = 0.5 * end.load + transfer
            loads += [left, right]
            doubt = where(left >= 0.0, where(right >= 0.0, doubt, NAN), NAN)
        return tuple(load + doubt for load in loads)

    def alone(self, end):
        """Lateral acceleration at which an end's inner wheel lifts, all others standing."""
        return self._lift(end, self.stiffness, 0.0, 0.0)

    def lifts(self):
        """Lateral accelerations (front, rear) at which each end's inner wheel lifts.

        The end that lifts second does so as the car tips; `NEVER` for what does not come.
        """
        front = self.alone(self.front)
        rear = self.alone(self.rear)
        front_first = front <= rear
        rear_first = rear <= front
        front_after = self._after(self.front, self.rear, rear)
        rear_after = self._after(self.rear, self.front, front)
        return (
            where(front_first, front, front_after),
            where(rear_first, rear, rear_after),
        )

    def _after(self, end, lifted, since):
        """When an end lifts whose other end has lifted before, at the acceleration `since`.

        The lifted end's springs keep the moment that unloads its inner wheel, less what
        goes past them. If the other end's springs alone do not hold the body it tips at once.
        """
        later = self._lift(end, end.stiffness, lifted.lifting_moment(), lifted.geometric)
        return where(end.stiffness > self.lever, later, since)

    def _lift(self, end, stiffness, kept, passed):
        """When an end's inner wheel lifts: two balances, for acceleration and roll at once.

        stiffness: what resists the roll, besides a moment `kept`, less `passed` for each g.
        """
        lever = self.lever
        moment = end.lifting_moment()
        # Small angles first: roll is gain * acceleration - start.
        gain = ratio(passed + lever, stiffness - lever, NEVER)
        start = ratio(kept, stiffness - lever, NEVER)
        each = end.geometric + end.stiffness * gain
        lateral = ratio(moment + end.stiffness * start, each, NEVER)
        roll = gain * lateral - start
        for _ in range(STEPS):
            body = stiffness * roll + kept - passed * lateral
            body = body - lever * (lateral * cos(roll) + sin(roll))
            axle = end.geometric * lateral + end.stiffness * roll - moment
            body_by_lateral = -passed - lever * cos(roll)
            body_by_roll = stiffness - lever * (cos(roll) - lateral * sin(roll))
            both = body_by_lateral * end.stiffness - body_by_roll * end.geometric
            lateral = lateral - ratio(body * end.stiffness - body_by_roll * axle, both, 0.0)
            roll = roll - ratio(body_by_lateral * axle - end.geometric * body, both, 0.0)
        reached = where(absolute(roll) < MOST_ROLL, where(lateral > 0.0, lateral, NEVER), NEVER)
        return where(each > 0.0, reached, NEVER)


def rollover_threshold(track, cg_height):
    """Lateral acceleration in g that tips a rigid car: the static stability factor, T/2h."""
    return track / (2.0 * cg_height)


def rollover_with_roll(track, cg_height, axis_height, gradient):
    """The same with the centre of gravity moved outward by roll; gradient: degrees per g."""
    outward = radians(gradient) * (1.0 - axis_height / cg_height)
    return rollover_threshold(track, cg_height) / (1.0 + outward)


def if_ever(lateral):
    """A lateral acceleration, or NaN for `NEVER`."""
    return where(lateral < NEVER, lateral, NAN)
