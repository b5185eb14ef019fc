"""Springs, dampers and bars as plain numbers: rates, frequencies, lengths, what travel is left.

Any one unit of force and of length, the same throughout; a moment is force x length. Each
function takes floats or arrays. A rate is force per length. "Spring" lengths are all measured
between the same two points (the eyes of a spring-damper, say), whichever they are.
"""

from ..numbers import NAN, PI, absolute, larger, radians, ratio, sqrt, where

# Newton's steps to the body's mode; five reach rounding on an ordinary car.
MODE_STEPS = 16

# What is left of the division where they have settled, for each unit of the last coefficient.
SETTLED = 1e-9


def in_series(one, other):
    """Rate of two springs one on top of the other, such as a wheel's and its tyre's."""
    return one * other / (one + other)


def frequency(rate, load, gravity):
    """Undamped natural frequency in Hz of the mass that weighs `load` on a spring of `rate`.

    gravity: in length per second squared. omega squared = rate / (load / gravity).
    """
    return sqrt(rate * gravity / load) / (2.0 * PI)


def damping_at_wheel(damper_rate, motion_ratio):
    """Force per speed at the wheel of a damper's own: by virtual work, as a rate."""
    return damper_rate * motion_ratio * motion_ratio


def damping_ratio(damping, rate, mass):
    """Damping over the critical one, 2 sqrt(rate x mass), of one mass, both at the wheel."""
    return damping / (2.0 * sqrt(rate * mass))


def quarter_car_damping(damping, rate, mass, tyre_rate, unsprung_mass):
    """Damping ratio of the body's own mode, on a wheel that stands on a tyre.

    damping: force per speed at the wheel; rate: of the wheel; mass: of the body on it. The
    free motion of both masses is a polynomial of the fourth degree in s,

        m u s^4 + c (m + u) s^3 + (k (m + u) + t m) s^2 + c t s + k t

    of which s^2 + p s + q is the body's factor: the ratio is p / (2 root of q). It begins as
    that of the body on both springs in series, in which the damper sees its share of the
    movement; Newton's steps on what is left of a division by it (Bairstow's) do the rest. NaN
    where they do not settle: some bodies near critical damping and past it, which hardly swing.
    """
    both = mass + unsprung_mass
    product = mass * unsprung_mass
    third = damping * both / product
    second = (rate * both + tyre_rate * mass) / product
    first = damping * tyre_rate / product
    last = rate * tyre_rate / product
    share = tyre_rate / (rate + tyre_rate)
    p, q = damping * share * share / mass, rate * share / mass
    for _ in range(MODE_STEPS):
        # The quotient s^2 + b s + d, and the remainder over_first s + over_last.
        b = third - p
        d = second - q - p * b
        over_first = first - q * b - p * d
        over_last = last - q * d
        # How d and both remainders change with p (b changes by -1) and with q.
        d_by_p = p - b
        first_by_p, first_by_q = q - d - p * d_by_p, p - b
        last_by_p, last_by_q = -(q * d_by_p), q - d
        both_ways = first_by_p * last_by_q - first_by_q * last_by_p
        p = p - ratio(over_first * last_by_q - over_last * first_by_q, both_ways, 0.0)
        q = q - ratio(first_by_p * over_last - last_by_p * over_first, both_ways, 0.0)
    b = third - p
    left = absolute(last - q * (second - q - p * b)) / last
    return where(left < SETTLED, p / (2.0 * sqrt(q)), NAN)


def squeeze(free_length, length):
    """How much a spring is shortened; 0 where it is loose: it can push and not pull."""
    return larger(free_length - length, 0.0)


class Actuators:
    """A spring and its two stops, all between the same two points.

    rate, free_length: of the spring. bump_length, droop_length: at which the stops touch;
    bump_rate, droop_rate: theirs, 0 where there is none. A stop pushes or pulls one way only.
    """

    __slots__ = (
        "bump_length", "bump_rate", "droop_length", "droop_rate", "free_length", "spring_rate",
    )  # fmt: skip

    def __init__(
        self, rate, free_length, bump_length=0.0, bump_rate=0.0, droop_length=0.0, droop_rate=0.0,
    ):  # fmt: skip
        self.spring_rate = rate
        self.free_length = free_length
        self.bump_length = bump_length
        self.bump_rate = bump_rate
        self.droop_length = droop_length
        self.droop_rate = droop_rate

    def force(self, length):
        """Force with which they push apart at a length; below 0 where the droop stop pulls more."""
        push = self.spring_rate * squeeze(self.free_length, length)
        bump = self.bump_rate * squeeze(self.bump_length, length)
        return push + bump - self.droop_rate * larger(length - self.droop_length, 0.0)

    def rate(self, length):
        """Change of that force for each unit by which they are shortened."""
        push = where(length < self.free_length, self.spring_rate, 0.0)
        bump = where(length < self.bump_length, self.bump_rate, 0.0)
        return push + bump + where(length > self.droop_length, self.droop_rate, 0.0)


def length_at_rest(free_length, preload_force, rate, load):
    """Length of a spring under a load, but no longer than the preload lets it be.

    The damper's end stop holds the spring at `preload_force` until the load exceeds it.
    """
    return free_length - (preload_force + larger(load - preload_force, 0.0)) / rate


def bar_roll_stiffness(end_rate, motion_ratio, track):
    """Roll stiffness of an anti-roll bar, in moment per degree of body roll.

    end_rate: force per travel at one end of the bar with the other end held. In roll by a
    small angle each wheel moves by track/2 x angle against the body, one up and one down, so
    the ends move apart by motion_ratio x track x angle. The bar stores half end_rate times the
    square of that; the roll moment is the derivative by the angle:
    end_rate x motion_ratio^2 x track^2 x angle.
    """
    return radians(end_rate * motion_ratio * motion_ratio * track * track)


def roll_stiffness(rate, base):
    """Roll stiffness, in moment per degree, of two equal springs of `rate`, `base` apart.

    In roll by a small angle each is worked by base/2 x angle; the two make a couple of
    rate x base/2 x angle times base.
    """
    return radians(0.5 * rate * base * base)


def wheel_rate(rate, force, motion_ratio, change):
    """Change of the force at the wheel per unit of travel.

    rate, force: of the springs at work; change: of the motion ratio per unit of travel. Their
    energy grows by force x motion ratio for each unit of travel, and the force by rate x motion
    ratio: its second derivative by travel is rate x motion_ratio^2 + force x change.
    """
    return rate * motion_ratio * motion_ratio + force * change
