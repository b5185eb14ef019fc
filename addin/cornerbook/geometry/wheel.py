"""The wheel: a rigid thin disc on level ground.

The wheel's attitude is the unit direction of its spindle, pointing outboard (to
the left: every corner is a left-hand one). Angles in degrees.
"""

from .numbers import atan2, cos, degrees, radians, sin, sqrt
from .vec import Vec


def spindle_of(camber, toe):
    """The spindle's direction of a wheel with this camber and toe.

    camber: positive when the top leans away from the car.
    toe: positive when the leading edge points inward.
    """
    lean = radians(camber)
    turn = radians(toe)
    level = cos(lean)
    return Vec(sin(turn) * level, cos(turn) * level, -sin(lean))


def camber_of(spindle):
    """Camber to the vertical; positive when the top leans away from the car."""
    level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
    return degrees(atan2(-spindle.z, level))


def toe_of(spindle):
    """Toe of this wheel; positive when the leading edge points inward."""
    return degrees(atan2(spindle.x, spindle.y))


def outboard_of(spindle):
    """Level unit direction across the wheel's heading, outboard."""
    level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
    return Vec(spindle.x / level, spindle.y / level, 0.0)


def heading_of(spindle):
    """Level unit direction in which the wheel rolls, forward."""
    level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
    return Vec(spindle.y / level, -spindle.x / level, 0.0)


def contact_centre(centre, spindle, radius):
    """The lowest point of the disc: where it stands on level ground."""
    level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
    along = radius / level
    # Down the disc: the part of "down" that is square to the spindle, made unit.
    return Vec(
        centre.x + spindle.x * spindle.z * along,
        centre.y + spindle.y * spindle.z * along,
        centre.z - level * radius,
    )
