"""What a car sweeps as it turns at a crawl, and the slip that its front wheels are forced to.

All is taken about the turn centre of `Axle.mid_rear_radius`: the place on the rear axle line
midway between where the two front wheels' normals meet it. The rear wheels roll there without
slip; the front ones do so only if both normals meet in that one place. Lengths in the unit of
the axle's points, angles in degrees; NaN where the axle has no inner wheel.
"""

from .numbers import atan2, degrees, sign, sqrt, where


def kerb_to_kerb(axle, tyre_width):
    """Diameter of the circle of the outer front tyre's outer edge.

    It is that of the contact centre's path and a tyre width more: the edge is taken to lie
    half the width outside the path, though the wheel may stand a little askew to it.
    """
    return 2.0 * axle.turning_radius() + tyre_width


def wall_to_wall(axle, wheelbase, overhang, half_width):
    """Diameter of the circle that the body's outer front corner sweeps.

    overhang: of that corner ahead of the front axle line. half_width: its distance from the
    car's middle. Where the outer front wheel's path is the larger circle, that one's diameter.
    """
    ahead = wheelbase + overhang
    aside = axle.mid_rear_radius() + half_width
    body = 2.0 * sqrt(aside * aside + ahead * ahead)
    wheel = 2.0 * axle.turning_radius()
    return where(body > wheel, body, wheel)


def slip_angles(axle):
    """Slip angles (left, right) that the front wheels are forced to at a crawl.

    From the wheel's heading to the way its contact centre goes about the turn centre,
    anticlockwise from above positive, as in ISO 8855: a positive one moves to the left of its
    heading, and its tyre pushes to the right.
    """
    steer = axle.steer_left + axle.steer_right
    turns = sign(steer)
    radius = axle.mid_rear_radius()
    # The way about the turn centre is square to the line from there. In a turn to the right
    # all is mirrored, and `turns` gives the angle its sign back.
    inner_way = degrees(atan2(axle.inner_ahead, radius - axle.inner_aside))
    outer_way = degrees(atan2(axle.outer_ahead, radius + axle.outer_aside))
    inner_slip = turns * (inner_way - axle.inner)
    outer_slip = turns * (outer_way - axle.outer)
    to_left = steer >= 0.0
    return where(to_left, inner_slip, outer_slip), where(to_left, outer_slip, inner_slip)
