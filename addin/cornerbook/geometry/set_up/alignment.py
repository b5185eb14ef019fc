"""What a tape, a rule and a camber gauge say of a wheel: toe, camber and caster, and back.

Of a rigid wheel in any attitude the rim's two ends at hub height lie along its heading, and its
top and bottom along its slope: neither relation below is for small angles. Angles in degrees;
lengths in any one unit.
"""

from ..corner.wheel import spindle_of
from ..numbers import atan2, degrees, radians, sin, sqrt, tan


def angle_of_gaps(difference, span):
    """Angle in degrees whose sine is a difference over the span in which it was measured."""
    share = difference / span
    return degrees(atan2(share, sqrt(1.0 - share * share)))


def gaps_of_angle(angle, span):
    """The difference that an angle in degrees makes over a span."""
    return span * sin(radians(angle))


def _change(camber, toe, other_camber, other_toe):
    return spindle_of(camber, toe) - spindle_of(other_camber, other_toe)


def caster_by_swing(camber_in, camber_out, turned_in, turned_out, inclination):
    """Caster of an axis about which a wheel was turned, from its camber at both ends.

    turned_in, turned_out: how far its leading edge points inward, and outward. The spindle
    turns on a cone about the axis, so the change between two of its places is square to it.
    """
    change = _change(camber_out, -turned_out, camber_in, turned_in)
    slope = (change.z - tan(radians(inclination)) * change.y) / change.x
    return degrees(atan2(slope, 1.0))


def caster_by_small_angles(camber_in, camber_out, turned_in, turned_out):
    """The same to first order in caster and camber, whatever the inclination."""
    return (camber_out - camber_in) / (sin(radians(turned_out)) + sin(radians(turned_in)))


def inclination_by_swing(camber_in, camber_straight, camber_out, turned_in, turned_out):
    """Kingpin inclination from camber at both ends and straight ahead.

    The changes from straight ahead to either end are both square to the axis.
    """
    one = _change(camber_out, -turned_out, camber_straight, 0.0)
    other = _change(camber_in, turned_in, camber_straight, 0.0)
    axis = one.cross(other)
    return degrees(atan2(-axis.y / axis.z, 1.0))
