"""Friction of a contact patch that turns on the spot: a rectangle, pressed evenly on the road.

Each part of the patch slides square to its way from the centre of the turn, with friction x
pressure against it, so the moment about that centre is friction x load x the mean distance of
the rectangle from it. With the origin at the centre and F(x, y) the integral of the distance
r over the rectangle from (0, 0) to (x, y),

    F = x y r / 3 + x^3 / 6 ln((y + r) / x) + y^3 / 6 ln((x + r) / y)

for x and y above 0; it is odd in both.
"""

from ..numbers import absolute, log, radians, ratio, sign, sqrt, tan


def _corner(x, y):
    """F of the module's head."""
    along, across = absolute(x), absolute(y)
    away = sqrt(along * along + across * across)
    # Next to an axis the logarithm grows without bound; its cube goes to nought sooner.
    beside = along * along * along * log(ratio(across + away, along, 1.0))
    above = across * across * across * log(ratio(along + away, across, 1.0))
    return sign(x) * sign(y) * (along * across * away / 3.0 + (beside + above) / 6.0)


def mean_distance(length, width, ahead, aside):
    """Mean distance of a rectangle from a point so far ahead and aside of its middle."""
    rear, front = -0.5 * length - ahead, 0.5 * length - ahead
    right, left = -0.5 * width - aside, 0.5 * width - aside
    whole = _corner(front, left) - _corner(front, right)
    whole = whole - _corner(rear, left) + _corner(rear, right)
    return whole / (length * width)


def parking_moment(load, friction, length, width, trail, scrub):
    """Moment about an upright axis of the friction of a patch that turns about it.

    trail, scrub: how far the axis meets the ground ahead of the patch's middle and beside it. A
    wheel free to roll has the scrub 0: it rolls until its friction has no part along the
    heading, which is when the patch turns about the point as far ahead and straight before it;
    the friction then pushes across the heading only, past no other axis beside that point.
    """
    return friction * load * mean_distance(length, width, trail, scrub)


def upright_part(caster, inclination):
    """Upright part of a steering axis of length one, by both its leans in degrees.

    Friction on the ground has a moment about the axis's point there that stands upright: that
    part of it turns the wheel.
    """
    back, inward = tan(radians(caster)), tan(radians(inclination))
    return 1.0 / sqrt(1.0 + back * back + inward * inward)
