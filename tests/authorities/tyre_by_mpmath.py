"""A sine-of-arctangent tyre whose factors are searched for, and what hands feel of it.

The shape f(x) = sin(C atan(B x)) (Pacejka, Tire and Vehicle Dynamics, from memory) has C and
B found by mpmath's root finder from what they are for: the share left at very large slip, and
a peak at x = 1. Slopes are mpmath's, highest places roots of them. x counts in peak slips.
"""

import mpmath
from mpmath import mpf


class Tyre:
    def __init__(self, residual):
        half = mpmath.pi / 2
        with mpmath.workdps(40):
            # On the falling side, C lies between 1 and 2.
            left = lambda c: mpmath.sin(c * half) - mpf(residual)  # noqa: E731
            self.c = mpmath.findroot(left, (mpf(1), mpf(2)), solver="anderson")
            # The peak, where C atan(B) is a right angle.
            turned = lambda b: self.c * mpmath.atan(b) - half  # noqa: E731
            self.b = mpmath.findroot(turned, mpf("1.2") / (self.c - 1))

    def share(self, x):
        return mpmath.sin(self.c * mpmath.atan(self.b * x))

    def slope(self):
        return mpmath.diff(self.share, 0)

    def slip(self, share):
        return mpmath.findroot(lambda x: self.share(x) - share, (0, 1), solver="anderson")

    def moment(self, x, mechanical, pneumatic, gone_at):
        left = 1 - mpf(x) / gone_at if x < gone_at else mpf(0)
        return self.share(x) * (mechanical + pneumatic * left)

    def heaviest(self, mechanical, pneumatic, gone_at):
        """The first place at which the moment stops growing, by the sign of its slope."""
        line = lambda x: self.share(x) * (mechanical + pneumatic * (1 - x / gone_at))  # noqa: E731
        slope = lambda x: mpmath.diff(line, x)  # noqa: E731
        if slope(mpf(gone_at)) >= 0:
            return mpf(1)
        return mpmath.findroot(slope, (mpf(0), mpf(gone_at)), solver="anderson")


def peak(load, friction, reference_load=0.0, sensitivity=0.0):
    """The most lateral force under a load."""
    lost = sensitivity * (load - reference_load) / reference_load if sensitivity else 0.0
    return max(load, 0.0) * friction * max(1.0 - lost, 0.0)


def front_acceleration(share, weight, transfer, friction, sensitivity):
    """Lateral acceleration of two tyres that carry the front, in balance."""
    half = mpf(weight) / 2

    def missing(a):
        both = sum(
            (half + side * transfer * a) * friction * (1 - sensitivity * side * transfer * a / half)
            for side in (-1, 1)
        )
        return both * share - weight * a

    return mpmath.findroot(missing, (mpf(0), friction * share), solver="anderson")
