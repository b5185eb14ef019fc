"""Brakes: what each axle can hold before it locks, the ideal share, the way to stop.

Statics of a rigid car on level or sloping ground, its axles taken whole: the load that moves
from wheel to wheel across the car is left out. Decelerations and lateral accelerations are in
parts of gravity, angles in radians, braking as a part of the weight.
"""

from ..numbers import NAN, cos, ratio, sin, sqrt, where


def front_locks(share, friction, height, front_share, wheelbase, slope, lateral):
    """Deceleration at which the front axle locks; NaN where it never does, or slides already,
    or the rear axle lifts before.

    share: of the braking, at the front. The front bears c f + b k of the weight, with f its
    share at rest, c the cosine of the slope, k height over wheelbase and b the braking; its
    braking and side force together are friction times that (friction circle), which is a
    quadratic in b.
    """
    k, c = height / wheelbase, cos(slope)
    grip = friction * friction
    a = share * share - grip * k * k
    half = grip * front_share * c * k
    rest = front_share * front_share * (grip * c * c - lateral * lateral)
    root = sqrt(half * half + a * rest)
    braking = where(a > 0.0, ratio(half + root, a, NAN), NAN)
    stays = where(rest >= 0.0, braking * k <= (1.0 - front_share) * c, False)
    return where(stays, braking + sin(slope), NAN)


def rear_locks(share, friction, height, front_share, wheelbase, slope, lateral):
    """Deceleration at which the rear axle locks, or lifts; NaN where it slides already.

    Likewise, its load falling as the braking grows: c (1 - f) - b k.
    """
    k, c = height / wheelbase, cos(slope)
    grip, own, on = friction * friction, 1.0 - share, 1.0 - front_share
    half = grip * on * c * k
    rest = on * on * (grip * c * c - lateral * lateral)
    # Written out, what is under the root is never below 0.
    under = own * own * (grip * c * c - lateral * lateral) + grip * k * k * lateral * lateral
    braking = rest / (half + on * sqrt(under))
    return where(rest >= 0.0, braking + sin(slope), NAN)


def ideal_share(deceleration, height, front_share, wheelbase):
    """Front share of the braking at which both axles use the same friction, on the level."""
    return front_share + deceleration * height / wheelbase


def load_transfer(deceleration, weight, height, wheelbase):
    """Load that moves to the front axle."""
    return weight * deceleration * height / wheelbase


def stopping_distance(speed, deceleration, gravity, delay):
    """Way from a speed to rest, with that of the delay before the brakes bite."""
    return speed * delay + speed * speed / (2.0 * deceleration * gravity)


def force_ratio(pedal_ratio, bar_share, master, slave, pistons, factor, radius, wheel_radius):
    """Brake force at the ground for a unit of force on the pedal, of one brake.

    master, slave: diameters; pistons: on one side of the disc, or of a drum's one shoe. factor:
    friction force at the brake's radius over the force of those pistons.
    """
    area = pistons * slave * slave / (master * master)
    return pedal_ratio * bar_share * area * factor * radius / wheel_radius
