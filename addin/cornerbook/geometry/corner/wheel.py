"""The wheel: a rigid thin disc on level ground, or one with a crowned tread.

A crowned tread's section is an arc of the crown radius: the tyre's surface is a torus, all
points that lie the crown radius away from a circle about the spindle. The lowest of them lies
straight below that circle's lowest point: the tread stands where a disc would whose radius is
less by the crown radius, and lower by as much. With no crown radius it is the thin disc. The arc
is taken to go on as far as the wheel leans: past the edge of a real tread it is no longer true.

The wheel's attitude is the unit direction of its spindle, pointing outboard (to
the left: every corner is a left-hand one). Angles in degrees.
"""

from ..numbers import atan2, cos, degrees, radians, sin, sqrt
from ..vec import Vec


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


def contact_centre(centre, spindle, radius, crown=0.0):
    """The lowest point of the tyre: where it stands on level ground.

    radius: from the spindle to the middle of the tread. crown: of the tread's section.
    """
    level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
    disc = radius - crown
    along = disc / level
    # Down the disc: the part of "down" that is square to the spindle, made unit.
    return Vec(
        centre.x + spindle.x * spindle.z * along,
        centre.y + spindle.y * spindle.z * along,
        centre.z - level * disc - crown,
    )


def rolling_point(centre, spindle, crown):
    """Where on the spindle's line a force along the heading at the contact centre acts.

    Of its moment about the wheel centre the part about the spindle is left out, as a shaft
    takes it, or a wheel that is free to turn. The contact centre lies off this point straight
    down the disc, square to the heading, so that nothing else is. It is the wheel centre itself
    unless a crowned tread stands beside the disc's plane.
    """
    return centre - spindle * (crown * spindle.z)
