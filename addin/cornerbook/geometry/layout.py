"""Before any pickup is drawn: relations between plain numbers.

Angles in degrees, lengths in any one unit. Each function takes floats or arrays.
"Hub offset" is measured level, at the height of the wheel centre, from the
steering axis to the wheel centre; it is the castor offset (along) and the kingpin
offset (across) at wheel centre of ISO 8855.
"""

from .numbers import atan2, degrees, radians, tan


def trail_from_caster(caster, radius, hub_offset):
    """Mechanical trail of an upright wheel; positive: axis ahead of the contact.

    hub_offset: positive when the wheel centre is ahead of the axis.
    In side view the axis falls forward by radius * tan(caster) from hub height to
    the ground.
    """
    return radius * tan(radians(caster)) - hub_offset


def scrub_from_inclination(inclination, radius, hub_offset):
    """Scrub radius of an upright wheel; positive: axis inboard of the contact.

    hub_offset: positive when the wheel centre is outboard of the axis.
    """
    return hub_offset - radius * tan(radians(inclination))


def ideal_outer(inner, track, wheelbase):
    """Outer wheel's angle with both front wheels square to one turn centre.

    The Ackermann relation cot(outer) - cot(inner) = track / wheelbase.
    """
    t = tan(radians(inner))
    return degrees(atan2(t, 1.0 + t * track / wheelbase))
