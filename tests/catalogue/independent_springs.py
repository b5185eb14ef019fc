"""The independent values of the formulas for springs; `independent.py` says how they are used."""

import math
from functools import cache

import mpmath
import numpy as np
from scipy.linalg import eigh, solve
from scipy.optimize import brentq

from tests.authorities import quarter_car_by_eigenvalues, ride_by_eigenvectors, stroke_by_energy
from tests.authorities.actuation_by_mpmath import ROCKER, Actuated
from tests.catalogue.independent import authority
from tests.support.corners import Corners

_POINTS = ("rod outer", "spring frame", *ROCKER)


@cache
def actuated(block):
    """The example's corner with its actuation."""
    cells = {row[0].lower(): row[1:] for row in block}
    corner = Corners.of_rows(block).one(0)
    corner.update({name: np.array(cells[name][:3], dtype=float) for name in _POINTS})
    return Actuated(corner, cells["rod mount"][0])


@authority
def spring_length(corner, travel=0.0, rack=0.0):
    return float(actuated(corner).spring(travel, rack))


@authority
def motion_ratio(corner, travel=0.0, rack=0.0):
    return actuated(corner).length_and_ratio(travel, rack)[1]


@authority
def motion_ratio_change(corner, travel=0.0, rack=0.0):
    return actuated(corner).length_and_ratio(travel, rack)[2]


@authority
def rocker_angle(corner, travel=0.0, rack=0.0):
    return actuated(corner).rocker_turn(travel, rack)


@authority
def rocker_margin(corner, travel=0.0, rack=0.0):
    return min(actuated(corner).margins(travel, rack))


@authority
def over_centre(corner, from_travel, to_travel, rack=0.0):
    # Where the rocker is over centre, a margin has changed its sign.
    places = np.linspace(from_travel, to_travel, 7).tolist()
    fine = all(min(actuated(corner).margins(travel, rack)) > 0.0 for travel in places)
    return "ok" if fine else "over centre"


@authority
def wheel_force(corner, spring_rate, free_length, travel=0.0, rack=0.0, *stops):
    return actuated(corner).force_and_rate(spring_rate, free_length, travel, rack, *stops)[0]


@authority
def wheel_rate(corner, spring_rate, free_length, travel=0.0, rack=0.0, *stops):
    return actuated(corner).force_and_rate(spring_rate, free_length, travel, rack, *stops)[1]


@authority
def pitch_bounce_frequency(mode, *body):
    return ride_by_eigenvectors.motions(*body)[mode][0]


@authority
def pitch_bounce_centre(mode, *body):
    return ride_by_eigenvectors.motions(*body, 9806.65)[mode][1]


@authority
def travel_at_length(stroke, length):
    return stroke_by_energy.travel_at_length(stroke, length)


@authority
def travel_at_load(stroke, rate, free_length, load, *stops):
    return stroke_by_energy.travel_at_load(stroke, load, rate, free_length, *stops)


@authority
def ride_rate(wheel_rate, tyre_rate):
    # Body and hub on two springs: the body is pushed by one, the hub is free.
    stiffness = [[wheel_rate, -wheel_rate], [-wheel_rate, wheel_rate + tyre_rate]]
    return 1.0 / solve(stiffness, [1.0, 0.0])[0]


@authority
def ride_frequency(rate, load, gravity):
    (square,) = eigh([[rate]], [[load / gravity]], eigvals_only=True)
    return math.sqrt(square) / math.tau


@authority
def static_deflection(rate, load):
    return brentq(lambda x: rate * x - load, 0.0, 2.0 * load / rate, xtol=1e-12)


@authority
def damping_ratio(damper_rate, motion_ratio, rate, load, gravity, tyre_rate, unsprung):
    # Energy lost per speed squared at the wheel is that of the damper.
    damping = damper_rate * motion_ratio**2
    root = quarter_car_by_eigenvalues.body_mode(
        rate, damping, load / gravity, tyre_rate, unsprung / gravity
    )
    return -root.real / abs(root)


@authority
def preload(free_length, installed_length, spring_rate):
    return _slope_of_energy(spring_rate, free_length, installed_length)


def _slope_of_energy(rate, free_length, length):
    return -float(mpmath.diff(lambda x: rate * (free_length - x) ** 2 / 2, length))


@authority
def spring_free_length(open_length, preload_force, spring_rate):
    def missed(free_length):
        return spring_rate * (free_length - open_length) - preload_force

    return brentq(missed, open_length, open_length + 1e3, xtol=1e-12)


@authority
def spring_load(load, motion_ratio):
    # One unit of travel does the work of the load; the spring's end goes by the ratio.
    return brentq(lambda force: force * motion_ratio - load, 0.0, 1e6, xtol=1e-10)


@authority
def spring_length_at_rest(free_length, preload_force, spring_rate, spring_load):
    # The damper's stop is a spring a million million times as stiff, which pulls only.
    stop = free_length - preload_force / spring_rate

    def missed(length):
        held = 1e12 * spring_rate * max(length - stop, 0.0)
        return spring_rate * (free_length - length) - held - spring_load

    return brentq(missed, 1e-6, free_length, xtol=1e-12)


@authority
def droop_travel(rest_length, open_length, motion_ratio):
    return _travel_until(lambda travel: rest_length + motion_ratio * travel < open_length)


@authority
def bump_travel(rest_length, shortest_length, solid_length, motion_ratio):
    return _travel_until(
        lambda travel: (
            rest_length - motion_ratio * travel > shortest_length
            and rest_length - motion_ratio * travel > solid_length
        )
    )


def _travel_until(free):
    """The travel at which the spring-damper is no longer free, by halving."""
    low, high = 0.0, 1000.0
    for _ in range(100):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if free(middle) else (low, middle)
    return low


@authority
def ride_height_change(drawn_length, rest_length, motion_ratio):
    # The wheel, on the road, falls against a body that rises.
    return brentq(lambda rise: drawn_length + motion_ratio * rise - rest_length, -1e3, 1e3,
                  xtol=1e-12)  # fmt: skip


def _moment_per_degree(energy):
    """Second derivative by roll of an energy, in moment per degree."""
    return float(mpmath.diff(energy, 0, 2)) * math.pi / 180.0


@authority
def roll_stiffness(rate, base):
    return _moment_per_degree(lambda roll: 2 * rate * (base / 2 * mpmath.sin(roll)) ** 2 / 2)


@authority
def anti_roll_rate(bar_end_rate, motion_ratio, track):
    def energy(roll):
        left, right = (side * motion_ratio * track / 2 * mpmath.sin(roll) for side in (1, -1))
        return bar_end_rate * (left - right) ** 2 / 2

    return _moment_per_degree(energy)
