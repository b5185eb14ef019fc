"""A rear solid axle: its roll centre by what holds it sideways, its steering in roll.

Heights are above ground, lateral places from the car's middle, positive to the left; `ahead`
is forward of the axle line. Lengths in any one unit.
"""

from ..numbers import NAN, radians, ratio, tan


def height_mid_car(first, first_height, second, second_height):
    """Height at which the line through two points, seen from behind, crosses the car's middle."""
    slope = (second_height - first_height) / (second - first)
    return first_height - first * slope


def height_on_axis(height, ahead, slope):
    """Height at the axle line of an axis through a point at this height, this far ahead.

    slope: in degrees, positive when the axis rises forward.
    """
    return height - ahead * tan(radians(slope))


def roll_steer(axle_end, body_end, roll_centre):
    """Turn of the axle to the left for each unit of roll, by a pair of mirrored links.

    axle_end, body_end: `Vec` of the left link's ends: x ahead of the axle line, y to the
    left, z above ground. roll_centre: height at which the axle is held sideways, at the axle
    line. The link keeps its length: as the body rolls by one, the axle against it turns by
    minus one about the roll centre and yaws by the result, and the axle end moves square to
    the link. Exact for small roll; NaN for a link that points at the middle of the axle in plan.
    """
    way = body_end - axle_end
    over = axle_end.z - roll_centre
    yawing = way.y * axle_end.x - way.x * axle_end.y
    return ratio(way.z * axle_end.y - way.y * over, yawing, NAN)


def roll_stiffness_of_tyres(tyre_rate, track):
    """Roll stiffness, moment per degree, of an axle whose body stands on its tyres alone."""
    return radians(0.5 * tyre_rate * track * track)


def in_series(first, second):
    """The stiffness of two springs one upon the other."""
    return first * second / (first + second)
