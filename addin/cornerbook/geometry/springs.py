"""Springs, dampers and bars as plain numbers: rates, frequencies, lengths, what travel is left.

Any one unit of force and of length, the same throughout; a moment is force x length. Each
function takes floats or arrays. A rate is force per length. "Spring" lengths are all measured
between the same two points (the eyes of a spring-damper, say), whichever they are.
"""

from .numbers import PI, larger, radians, sqrt, where


def in_series(one, other):
    """Rate of two springs one on top of the other, such as a wheel's and its tyre's."""
    return one * other / (one + other)


def frequency(rate, load, gravity):
    """Undamped natural frequency in Hz of the mass that weighs `load` on a spring of `rate`.

    gravity: in length per second squared. omega squared = rate / (load / gravity).
    """
    return sqrt(rate * gravity / load) / (2.0 * PI)


def damping_ratio(damper_rate, motion_ratio, rate, load, gravity):
    """Damping over critical damping, both at the wheel.

    damper_rate: force per speed of the damper itself. By virtual work its damping at the wheel
    is damper_rate x motion_ratio squared; critical is 2 sqrt(rate x mass).
    """
    mass = load / gravity
    return damper_rate * motion_ratio * motion_ratio / (2.0 * sqrt(rate * mass))


def squeeze(free_length, length):
    """How much a spring is shortened; 0 where it is loose: it can push and not pull."""
    return larger(free_length - length, 0.0)


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


def wheel_rate(rate, squeezed, motion_ratio, change):
    """Change of the force at the wheel per unit of travel; 0 where the spring is loose.

    rate: of the spring; squeezed: how much it is shortened; change: of the motion ratio per
    unit of travel. The spring's energy is rate x squeezed^2 / 2, and squeezed grows by the
    motion ratio: its second derivative by travel is rate x motion_ratio^2 + rate x squeezed x
    change.
    """
    working = where(squeezed > 0.0, rate, 0.0)
    return working * motion_ratio * motion_ratio + rate * squeezed * change
