"""Outside values of the moments about the steering axis and of what reaches the hands.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import math
from functools import cache

import mpmath
import numpy as np
from scipy.optimize import brentq

from tests.authorities import patch_by_integration
from tests.authorities.upright_by_statics import Upright
from tests.catalogue.independent import _rates, authority, measured
from tests.support.corners import Corners


@cache
def upright(block, travel=0.0, rack=0.0):
    """The example's upright at a pose, closed by SciPy."""
    return Upright(Corners.of_rows(block).one(0), measured(block, travel, rack), rack)


@authority
def lateral_force_arm(corner, travel=0.0, rack=0.0):
    return upright(corner, travel, rack).moment(0.0, 1.0, 0.0)


@authority
def longitudinal_force_arm(corner, travel=0.0, rack=0.0):
    return upright(corner, travel, rack).moment(1.0, 0.0, 0.0)


@authority
def wheel_centre_force_arm(corner, travel=0.0, rack=0.0):
    return upright(corner, travel, rack).moment(1.0, 0.0, 0.0, "inboard")


@authority
def vertical_load_arm(corner, travel=0.0, rack=0.0):
    return upright(corner, travel, rack).moment(0.0, 0.0, 1.0)


@authority
def caster_load_arm(corner, travel=0.0, rack=0.0):
    return _load_beside(corner, travel, rack, along=False)


@authority
def inclination_load_arm(corner, travel=0.0, rack=0.0):
    return _load_beside(corner, travel, rack, along=True)


def _load_beside(corner, travel, rack, along):
    """Work of a unit load straight ahead of or beside where the axis meets the ground."""
    held = upright(corner, travel, rack)
    way = held.heading if along else held.outboard
    on_axis = held.at.axis_at_ground
    place = on_axis + way * ((held.at.contact_centre - on_axis) @ way)
    return held.work_slope(place, np.array([0.0, 0.0, 1.0]))


def _hub(corner, travel, rack):
    # Where the axis passes the hub's height, looked for along it.
    held = upright(corner, travel, rack)
    below, above, centre = held.at.lower, held.at.upper, held.at.centre
    share = brentq(lambda s: (below + s * (above - below) - centre)[2], -5.0, 5.0, xtol=1e-15)
    return held, centre - below - share * (above - below)


@authority
def hub_outboard(corner, travel=0.0, rack=0.0):
    held, way = _hub(corner, travel, rack)
    return way @ held.outboard


@authority
def hub_ahead(corner, travel=0.0, rack=0.0):
    held, way = _hub(corner, travel, rack)
    return way @ held.heading


@authority
def rack_lever(corner, travel=0.0, rack=0.0):
    return 1.0 / upright(corner, travel, rack).push_of_moment(1.0)


@authority
def steer_rate(corner, travel=0.0, rack=0.0):
    return _rates(corner, travel, rack)["toe"][1]


@authority
def steering_moment(corner, longitudinal, lateral, vertical, travel=0.0, rack=0.0,
                    reacted="upright", pneumatic_trail=0.0, unsprung=0.0):  # fmt: skip
    forces = (longitudinal, lateral, vertical, reacted, pneumatic_trail, unsprung)
    return upright(corner, travel, rack).moment(*forces)


@authority
def rack_force(corner, moment_left, moment_right, travel=0.0, rack=0.0):
    # Seen in a mirror, the right-hand wheel pushes its rack the other way.
    left = upright(corner, travel, rack).push_of_moment(moment_left)
    return left - upright(corner, travel, -rack).push_of_moment(moment_right)


@authority
def steering_ratio(corner, pinion_radius, rack=0.0, travel=0.0):
    mean = sum(_rates(corner, travel, side * rack)["toe"][1] for side in (1.0, -1.0)) / 2.0
    return abs(math.degrees(1.0) / (mean * pinion_radius))


@authority
def pinion_torque(rack_force, pinion_radius, efficiency=1.0):
    # Work of the hands over one turn, of which the share reaches the rack.
    work = rack_force * math.tau * pinion_radius
    return brentq(lambda torque: torque * math.tau * efficiency - work, -1e7, 1e7, xtol=1e-9,
                  rtol=1e-15)  # fmt: skip


@authority
def pinion_radius_from_travel(rack_per_turn):
    return brentq(lambda radius: math.tau * radius - rack_per_turn, 0.0, 1e6, xtol=1e-12)


@cache
def _slide(angle, lever, link):
    """Where the slide is, in 40 digits: the link's end on the line, at its length."""
    turn = mpmath.radians(angle)
    end = (lever * mpmath.sin(turn), -lever * mpmath.cos(turn))

    def missed(place):
        return (place - end[0]) ** 2 + (-lever - end[1]) ** 2 - link**2

    return mpmath.findroot(missed, link + end[0])


@authority
def drop_link_travel(angle, lever_length, link_length):
    with mpmath.workdps(40):
        lever, link = mpmath.mpf(lever_length), mpmath.mpf(link_length)
        return float(_slide(mpmath.mpf(angle), lever, link) - link)


@authority
def drop_link_lever(angle, lever_length, link_length):
    with mpmath.workdps(40):
        lever, link, h = mpmath.mpf(lever_length), mpmath.mpf(link_length), mpmath.mpf("1e-8")
        step = mpmath.degrees(h)
        ahead, behind = (_slide(mpmath.mpf(angle) + s * step, lever, link) for s in (1, -1))
        return float((ahead - behind) / (2 * h))


@authority
def parking_moment(
    load, friction, length, width, trail=0.0, scrub=0.0, caster=0.0, inclination=0.0
):  # fmt: skip
    # The axis lies in both planes that its two leans say: one across the car, one along it.
    leans = np.radians([caster, inclination])
    axis = np.cross(
        [0.0, np.cos(leans[1]), np.sin(leans[1])], [np.cos(leans[0]), 0.0, np.sin(leans[0])]
    )
    upright = patch_by_integration.moment(load, friction, length, width, trail, scrub)
    return abs(axis[2]) / np.linalg.norm(axis) * upright


@authority
def rim_force(torque, wheel_radius):
    # The same work over one turn.
    return torque * math.tau / (math.tau * wheel_radius)


@authority
def turns_lock_to_lock(rack_lock, pinion_radius):
    # A point of the pitch circle runs the whole way of the rack.
    circumference = abs(2.0 * math.pi * pinion_radius)
    return np.interp(2.0 * rack_lock, [0.0, 100.0 * circumference], [0.0, 100.0])
