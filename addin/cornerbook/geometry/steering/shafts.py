"""Universal (Cardan) joints, and a steering column of shafts that bend at two of them.

Angles are radians here. An angle of a driving shaft is counted from where the pins of its
fork lie in the plane of the two shafts of its joint, that of a driven shaft from where it
is then. With that, tan(out) = tan(in) / cos(bend), as in Shigley's *Mechanical Engineering
Design* (from memory): as a point, (cos in, sin in) goes to (cos bend * cos in, sin in).
Counted from a quarter turn further on, the cosine stands on the other side.

A joint so multiplies a direction by a matrix; two in series by the product of theirs, with
the turn between the forks of the middle shaft in the middle. The speed at which a direction
v is turned by a matrix M is det M / |M v|**2, for a unit v.
"""

from ..numbers import absolute, atan2, cos, sign, sin, sqrt


def angle_out(angle_in, bend):
    """Angle of the driven shaft, in the same turn as that of the driving one."""
    c, s = cos(angle_in), sin(angle_in)
    shrunk = cos(bend)
    # The way by which it leads; never a quarter turn, so it has no jump.
    return angle_in + atan2((1.0 - shrunk) * s * c, shrunk * c * c + s * s)


def speed_ratio(angle_in, bend):
    """Speed of the driven shaft over that of the driving one."""
    c, s = cos(angle_in), sin(angle_in)
    shrunk = cos(bend)
    return shrunk / (shrunk * shrunk * c * c + s * s)


def ripple(bend):
    """Largest less smallest speed ratio of a joint over a turn."""
    shrunk = cos(bend)
    return (1.0 - shrunk * shrunk) / shrunk


def column_speed_ratio(angle_in, upper_bend, lower_bend, error):
    """Speed of the last shaft over that of the first, of two joints in series.

    error: how far the lower fork of the middle shaft is turned on, the way in which the angle
    grows, from where the joints cancel. There the pins of the middle shaft's two forks each
    lie square to the plane of their own bend at the same time.
    """
    first, second = cos(upper_bend), cos(lower_bend)
    c, s = first * cos(angle_in), sin(angle_in)
    turn_c, turn_s = cos(error), sin(error)
    x = turn_c * c - turn_s * s
    # The lower joint's driving fork is a quarter turn on: there the cosine shrinks the sine.
    y = second * (turn_s * c + turn_c * s)
    return first * second / (x * x + y * y)


def column_ripple(upper_bend, lower_bend, error):
    """Largest less smallest speed ratio over a turn, of two joints in series.

    With p and q the singular values of the product's matrix M, the ratio runs between q/p and
    p/q: their difference is (p*p - q*q)/(p*q), where p*q = det M and (p -+ q)**2 are sums of
    squares of M's elements, so that no difference of large numbers is taken.
    """
    first, second = cos(upper_bend), cos(lower_bend)
    c, s = cos(error), sin(error)
    both = first * second
    apart = _squares(c * (first - second), s * (1.0 - both))
    together = _squares(c * (first + second), s * (1.0 + both))
    return sqrt(apart * together) / both


def _squares(a, b):
    return a * a + b * b


def bend_between(one, other):
    """The bend from one shaft's direction to the next one's, 0 where they are in line."""
    return atan2(one.cross(other).length(), one.dot(other))


def phase(upper, middle, lower):
    """Turn about the middle shaft from the plane of the upper bend to that of the lower.

    upper, middle, lower: directions of the shafts, from the steering wheel on. A plane turned
    by half a turn is the same one, so the answer lies within a quarter turn to either side;
    positive: right-handed about the middle shaft, which is clockwise for the driver.
    """
    one, other = upper.cross(middle), middle.cross(lower)
    across = middle.unit().dot(one.cross(other))
    along = one.dot(other)
    return atan2(across * sign(along), absolute(along))
