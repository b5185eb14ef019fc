"""What a car sweeps as it turns at a crawl, and the slip that its front wheels are forced to.

All is taken about the turn centre of `Axle.mid_rear_radius`: the place on the rear axle line
midway between where the two front wheels' normals meet it. The rear wheels roll there without
slip; the front ones do so only if both normals meet in that one place. Lengths in the unit of
the axle's points, angles in degrees; NaN where the axle has no inner wheel.
"""

from ..numbers import atan2, cos, degrees, ratio, sign, sin, sqrt, where

# Steps of either kind to the outermost place of a tyre.
SWEEP_STEPS = 4


def kerb_to_kerb(axle, tyre_width):
    """Diameter of the circle of the outer front tyre's outer edge.

    It is that of the contact centre's path and a tyre width more: the edge is taken to lie
    half the width outside the path, though the wheel may stand a little askew to it.
    """
    return 2.0 * axle.turning_radius() + tyre_width


def wall_to_wall(axle, wheelbase, overhang, half_width, tyre_width):
    """Diameter of the circle that the body's outer front corner or the outer front tyre sweeps.

    overhang: of that corner ahead of the front axle line. half_width: its distance from the
    car's middle. The larger of the two circles counts.
    """
    ahead = wheelbase + overhang
    aside = axle.mid_rear_radius() + half_width
    body = 2.0 * sqrt(aside * aside + ahead * ahead)
    tyre = 2.0 * tyre_sweep(axle, tyre_width)
    return where(body > tyre, body, tyre)


def tyre_sweep(axle, tyre_width):
    """Radius that the outer front tyre sweeps about the turn centre, seen from above.

    The tyre is a cylinder of its loaded radius; its outer face is a circle that leans with the
    camber. At the angle t from ahead, up, a place of that circle is

        (along + R cos t) ahead and (across + R lean sin t) outboard

    of the turn centre, in the wheel's own directions. An upright wheel is farthest out at its
    front or rear, one that leans higher or lower. Each step to the place that lies farthest the
    way the last one points goes up; Newton's steps finish.
    """
    spindle, centre = axle.outer_spindle, axle.outer_centre
    level = sqrt(spindle.x * spindle.x + spindle.y * spindle.y)
    x, y = spindle.x / level, spindle.y / level
    half = 0.5 * tyre_width
    ahead = centre.x - axle.rear_line + half * spindle.x
    aside = centre.y + axle.mid_rear_radius() + half * spindle.y
    along, across = ahead * y - aside * x, ahead * x + aside * y
    radius, lean = axle.tyre_radius, -spindle.z
    # From the front or the rear: the place that lies farthest the way the last one points.
    angle = atan2(0.0 * lean, along)
    for _ in range(SWEEP_STEPS):
        angle = atan2(*_pull(along, across, radius, lean, angle))
    first = _reach2(along, across, radius, lean, angle)
    for _ in range(SWEEP_STEPS):
        up, ahead = _pull(along, across, radius, lean, angle)
        slope = up * cos(angle) - ahead * sin(angle)
        bend = radius * (sin(angle) * sin(angle) + lean * lean * cos(angle) * cos(angle))
        angle = angle - ratio(slope, bend - ahead * cos(angle) - up * sin(angle), 0.0)
    last = _reach2(along, across, radius, lean, angle)
    return sqrt(where(first > last, first, last))


def _pull(along, across, radius, lean, angle):
    """(up, ahead): how the square of the distance grows with a place of the circle."""
    return lean * (across + radius * lean * sin(angle)), along + radius * cos(angle)


def _reach2(along, across, radius, lean, angle):
    one, other = along + radius * cos(angle), across + radius * lean * sin(angle)
    return one * one + other * other


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
