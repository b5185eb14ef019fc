"""Outside values of the formulas for turning, the locked rear axle and the beam axle.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import mpmath
import numpy as np

from tests.authorities import locked_axle_by_shaft_speed as by_shaft_speed
from tests.authorities.beam_by_rotation import Beam
from tests.authorities.crawl_of_two_wheels import Crawl
from tests.catalogue.independent import authority, measured
from tests.support.corners import Corners


def crawl(block, wheelbase, rack, travel=0.0):
    """The example's car on its circle, both wheels closed by SciPy."""
    left, right = measured(block, travel, rack), measured(block, travel, rack, right=True)
    rear = Corners.of_rows(block).one(0)["wheel centre"][0] - wheelbase
    return Crawl(left.contact_centre[:2], right.contact_centre[:2], -left.toe, -right.toe, rear)


@authority
def kerb_to_kerb(corner, wheelbase, rack, travel=0.0, tyre_width=0.0):
    path = crawl(corner, wheelbase, rack, travel).outer_wheel_radius()
    return 2.0 * (path + 0.5 * tyre_width)


@authority
def wall_to_wall(corner, wheelbase, rack, overhang, half_width, travel=0.0, tyre_width=0.0):
    path = crawl(corner, wheelbase, rack, travel)
    body = path.body_radius(wheelbase + overhang, half_width)
    both = [measured(corner, travel, rack, right=right) for right in (False, True)]
    wheels = [(at.centre, at.spindle, at.corner["tyre radius"]) for at in both]
    return 2.0 * max(body, path.tyre_radius(wheels, tyre_width))


@authority
def mid_rear_radius(corner, wheelbase, rack, travel=0.0):
    return crawl(corner, wheelbase, rack, travel).mid_rear_radius()


@authority
def slip_left(corner, wheelbase, rack, travel=0.0):
    return crawl(corner, wheelbase, rack, travel).slip("left")


@authority
def slip_right(corner, wheelbase, rack, travel=0.0):
    return crawl(corner, wheelbase, rack, travel).slip("right")


@authority
def locked_axle_inner_force(*axle):
    return by_shaft_speed.forces(*axle)[0]


@authority
def locked_axle_outer_force(*axle):
    return by_shaft_speed.forces(*axle)[1]


@authority
def locked_axle_moment(*axle):
    return by_shaft_speed.moment(*axle)


@authority
def locked_axle_radius_to_slide(*axle):
    return by_shaft_speed.radius_to_slide(*axle)


def _axle_changes(moment, wheelbase):
    """Changes of the lateral forces (front, rear), inward, in a left turn.

    They add up to none, and their moment about the front axle is against the given one.
    """
    return np.linalg.solve([[1.0, 1.0], [0.0, -wheelbase]], [0.0, moment])


@authority
def locked_axle_front_force(moment, wheelbase):
    return _axle_changes(moment, wheelbase)[0]


@authority
def locked_axle_extra_steer(moment, wheelbase, front, rear=0.0):
    by_front, by_rear = _axle_changes(moment, wheelbase)
    # Steer is the turn's own angle, and the front slip angle less the rear one.
    return by_front / front - (by_rear / rear if rear else 0.0)


@authority
def beam_camber_gain(track):
    # The slope of the exact tilt, differentiated by mpmath at no rise.
    with mpmath.workdps(30):
        return float(-mpmath.degrees(mpmath.diff(lambda h: mpmath.asin(h / mpmath.mpf(track)), 0)))


@authority
def beam_camber_in_bump(track, rise):
    return Beam(track).change("left", rise)
