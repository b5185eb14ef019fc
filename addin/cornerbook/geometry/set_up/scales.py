"""Four scales under a car: cross weight, spring perches, height of the centre of gravity.

Statics of a rigid body on four springs, each with its tyre in series; the car is alike on both
sides but for what its perches are turned, and anti-roll bars are unhooked. Forces in any one
unit, lengths in any one, rates force per length.
"""

from ..numbers import atan2, cos, sin, sqrt, where

WHEELS = ("front left", "front right", "rear left", "rear right")


def cross_weight(front_left, front_right, rear_left, rear_right):
    """Share in percent of the diagonal front right to rear left in all four loads."""
    diagonal = front_right + rear_left
    return 100.0 * diagonal / (diagonal + front_left + rear_right)


class Perches:
    """What raising the body at one wheel does to the loads and heights at all four.

    rates, tracks: (front, rear). Four loads that hold no weight and no moment between them are
    alike but for one factor: plus and minus one over the track, the other way round at the
    other end. The body stays plane; so the factor follows from the springs.
    """

    def __init__(self, rates, tracks):
        front, rear = (1.0 / track for track in tracks)
        pattern, ends = (front, -front, -rear, rear), (0, 0, 1, 1)
        self.pattern = {wheel: pattern[i] for i, wheel in enumerate(WHEELS)}
        self.rates = {wheel: rates[ends[i]] for i, wheel in enumerate(WHEELS)}
        self.give = 2.0 * (front * front / rates[0] + rear * rear / rates[1])
        self.across = front + rear

    def load_change(self, wheel, perch, rise):
        """Change of a wheel's load when a perch would raise the body at its wheel by `rise`."""
        return self.pattern[wheel] * self.pattern[perch] * rise / self.give

    def height_change(self, wheel, perch, rise):
        """Rise of the body at a wheel, likewise."""
        own = rise if wheel == perch else 0.0
        return own - self.load_change(wheel, perch, rise) / self.rates[wheel]

    def rise_for_cross(self, perch, moved):
        """Rise at a perch that moves load onto the diagonal front right to rear left."""
        # Taken from nought, so that nothing to move is no minus nought.
        return (0.0 - moved) * self.give / (self.pattern[perch] * self.across)


class Lifted:
    """A car one axle of which stands on blocks, springs locked and wheels free to roll.

    wheelbase: of the contacts when level. lift: height of the blocks. radius, radius_lifted: of
    the wheels on the ground, and on the blocks. From the axle on the ground the other one lies
    at a fixed distance, so its rise tells how far the car has turned.
    """

    def __init__(self, wheelbase, lift, radius, radius_lifted):
        higher = radius_lifted - radius
        apart2 = wheelbase * wheelbase + higher * higher
        rise = higher + lift
        self.wheelbase = wheelbase
        self.radius = radius
        self.span = sqrt(apart2 - rise * rise)
        turn = atan2(rise, self.span) - atan2(higher, wheelbase)
        self.cosine, self.sine = cos(turn), sin(turn)

    def height(self, weight, level, lifted):
        """Height of the centre of gravity, level; loads: on the axle that stays down."""
        ahead = self.wheelbase * (weight - level) / weight
        after = self.span * (weight - lifted) / weight
        return self.radius + (ahead * self.cosine - after) / self.sine

    def load(self, weight, level, cg_height):
        """Load on the axle that stays down, with the other one on the blocks."""
        ahead = self.wheelbase * (weight - level) / weight
        after = ahead * self.cosine - (cg_height - self.radius) * self.sine
        return weight * (1.0 - after / self.span)


def wheel_radius(given, other):
    """A radius, or where 0 is given, the other one."""
    return where(given > 0.0, given, other)
