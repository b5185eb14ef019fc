"""A tyre in a few plain numbers: lateral force over slip angle, load, pneumatic trail.

Nothing here is measured. The shape rises, has one peak and falls to a share of it: a sine of
an arctangent (Pacejka, Tire and Vehicle Dynamics, from memory). Slip is counted in shares of
the slip at the peak ("relative slip"), a tyre's force in shares of its peak; loads and forces
are in any one unit, lengths in any one. Each function takes floats or arrays.
"""

from ..numbers import PI, absolute, atan2, larger, ratio, sin, sqrt, tan, where

MOST_RESIDUAL = 0.999
"""Above this share left at large slip the peak runs away to infinite slip."""


class Shape:
    """Lateral force over relative slip, both 1 at the peak: f(x) = sin(C atan(B x)), odd.

    residual: share of the peak that is left at very large slip, between 0 and 1. There the
    arctangent is a right angle, and C is the one on the falling side: sin(C pi/2) = residual.
    B puts the peak at relative slip 1: C atan(B) is a right angle.
    """

    __slots__ = ("shape_factor", "stiffness_factor")

    def __init__(self, residual):
        # The arcsine of the residual, in radians.
        rising = atan2(residual, sqrt((1.0 - residual) * (1.0 + residual)))
        self.shape_factor = 2.0 * (1.0 - rising / PI)
        self.stiffness_factor = tan(0.5 * PI / self.shape_factor)

    def force(self, slip):
        """Share of the peak force at a relative slip."""
        return sin(self.shape_factor * atan2(self.stiffness_factor * slip, 1.0))

    def slip(self, force):
        """Relative slip on the rising side for a share of the peak force; NaN past the peak."""
        arc = atan2(force, sqrt((1.0 - force) * (1.0 + force)))
        return tan(arc / self.shape_factor) / self.stiffness_factor

    def stiffness(self):
        """Slope of `force` at no slip."""
        return self.shape_factor * self.stiffness_factor


def friction_at(load, friction, reference_load, sensitivity):
    """Friction coefficient under a load; it falls in a straight line and not below 0.

    friction: at reference_load. sensitivity: share of it that is lost with each further
    reference_load; 0 for a friction that is the same under every load.
    """
    more = ratio(load, reference_load, 1.0) - 1.0
    lost = where(sensitivity > 0.0, sensitivity * more, 0.0)
    return friction * larger(1.0 - lost, 0.0)


def camber_thrust(camber, load, coefficient):
    """Lateral force of a leaning tyre without slip, toward the side to which its top leans.

    coefficient: share of the load for each degree; in a straight line. 0 for a wheel in the air.
    """
    return coefficient * camber * larger(load, 0.0)


def peak_force(load, friction, reference_load, sensitivity):
    """The most lateral force that the tyre gives under a load; 0 for a wheel in the air."""
    carried = larger(load, 0.0)
    return carried * friction_at(carried, friction, reference_load, sensitivity)


def trail_left(slip, gone_at):
    """Share of the pneumatic trail left at a relative slip: a straight line to 0 at gone_at."""
    return larger(1.0 - absolute(slip) / gone_at, 0.0)


def lateral_acceleration(share, friction, transfer, sensitivity):
    """Lateral acceleration in g of an axle whose tyres give a share of their peak force.

    share: of the peak, with its sign. transfer: share of a wheel's standing load that one g
    takes from the inner wheel and gives to the outer one; friction: at the standing load.
    Both forces together are 2 W friction share (1 - sensitivity (transfer a)^2) for a standing
    load W: what one wheel loses the other gains, but for the sensitivity. They equal 2 W a,
    which makes a quadratic in a. It holds until a wheel lifts.
    """
    rigid = friction * share
    bent = 4.0 * sensitivity * rigid * rigid * transfer * transfer
    # The root that stays at small sensitivity, without a difference of near numbers.
    return 2.0 * rigid / (1.0 + sqrt(1.0 + bent))


def stays_down(lateral, transfer):
    """Whether both wheels of the axle stay on the road; arguments as above."""
    return absolute(lateral) * transfer <= 1.0
