"""Outside values of the formulas for roll, the car in a turn, and the rear solid axle.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import cmath
import math
from functools import cache

import numpy as np
from scipy.optimize import brentq

from tests.authorities import road_by_scipy, solid_axle_by_velocities
from tests.authorities.car_by_statics import Statics
from tests.authorities.jacking_by_bars import across_heading, vertical_beside
from tests.authorities.turn_of_two_wheels import Turn
from tests.catalogue.independent import authority
from tests.support.corners import Corners


@cache
def on_road(block, side, roll, heave, rack):
    """A wheel of the example on the road."""
    corner = Corners.of_rows(block).one(0)
    return road_by_scipy.OnRoad(corner, roll, heave, rack, right=side == "right")


def _both(corner, roll, heave, rack):
    return tuple(on_road(corner, side, roll, heave, rack) for side in ("left", "right"))


_MEASURES = {
    "camber": "camber", "toe": "toe", "caster": "caster", "kpi": "inclination",
    "trail": "trail", "scrub": "scrub", "wheel travel": "travel",
}  # fmt: skip


@authority
def in_roll(corner, quantity, side, roll, heave=0.0, rack=0.0):
    place = on_road(corner, side, roll, heave, rack)
    return place.travel if quantity == "wheel travel" else place.value(_MEASURES[quantity])


@authority
def wheel_travel_in_roll(corner, side, roll, heave=0.0, rack=0.0):
    return on_road(corner, side, roll, heave, rack).travel


@authority
def track_in_roll(corner, roll, heave=0.0, rack=0.0):
    left, right = _both(corner, roll, heave, rack)
    return left.contact[1] - right.contact[1]


@authority
def roll_centre_height_in_roll(corner, roll, heave=0.0, rack=0.0):
    return road_by_scipy.roll_centre(*_both(corner, roll, heave, rack))[1]


@authority
def roll_centre_lateral_in_roll(corner, roll, heave=0.0, rack=0.0):
    return road_by_scipy.roll_centre(*_both(corner, roll, heave, rack))[0]


@authority
def roll_centre_by_force_in_roll(corner, roll, heave=0.0, rack=0.0):
    return road_by_scipy.roll_centre_by_force(*_both(corner, roll, heave, rack))[1]


@authority
def steer_in_roll(corner, side, roll, heave=0.0, rack=0.0):
    toe = on_road(corner, side, roll, heave, rack).value("toe")
    return {"left": -toe, "right": toe}[side]


def _crawl_in_roll(corner, wheelbase, roll, heave, rack):
    left, right = _both(corner, roll, heave, rack)
    rear = left.left_corner["wheel centre"][0] - wheelbase
    steer = [-left.measured.toe, -right.measured.toe]
    return Turn(left.contact[:2], right.contact[:2], *steer, rear)


@authority
def ideal_outer_in_roll(corner, wheelbase, roll, heave=0.0, rack=0.0):
    return _crawl_in_roll(corner, wheelbase, roll, heave, rack).ideal_outer


@authority
def ackermann_in_roll(corner, wheelbase, roll, heave=0.0, rack=0.0):
    return _crawl_in_roll(corner, wheelbase, roll, heave, rack).percentage


def _upright(corner, side, roll, heave, rack):
    return road_by_scipy.upright(on_road(corner, side, roll, heave, rack))


@authority
def steering_moment_in_roll(corner, side, longitudinal, lateral, vertical, roll, heave=0.0,
                            rack=0.0, reacted="upright", pneumatic_trail=0.0,
                            unsprung=0.0):  # fmt: skip
    sign = {"left": 1.0, "right": -1.0}[side]
    forces = (longitudinal, sign * lateral, vertical, reacted, pneumatic_trail, unsprung)
    return sign * _upright(corner, side, roll, heave, rack).moment(*forces)


@authority
def rack_force_in_roll(corner, moment_left, moment_right, roll, heave=0.0, rack=0.0):
    left = _upright(corner, "left", roll, heave, rack).push_of_moment(moment_left)
    return left + _upright(corner, "right", roll, heave, rack).push_of_moment(-moment_right)


@authority
def jacking_force(corner, side, lateral, roll, heave=0.0, rack=0.0):
    place = on_road(corner, side, roll, heave, rack)
    sign = {"left": 1.0, "right": -1.0}[side]
    force = sign * lateral * across_heading(place.measured)
    return vertical_beside(place.measured, place.inner, force)


@authority
def axle_sink(axle_load, anti, wheel_rate, tyre_rate):
    # The least energy of one wheel's spring upon its tyre, each half of the load doing its work.
    half = 0.5 * axle_load
    through = half - half * anti / 100.0
    spring, on_tyre = np.linalg.solve(np.diag([wheel_rate, tyre_rate]), [through, half])
    return spring + on_tyre


@authority
def pitch_angle(sink_front, sink_rear, wheelbase):
    # The line through both places, its ends lowered.
    line = complex(wheelbase, sink_front - sink_rear)
    return math.degrees(cmath.phase(line))


@authority
def roll_axis_height(roll_centre_front, roll_centre_rear, front_share):
    return np.interp(1.0 - front_share, [0.0, 1.0], [roll_centre_front, roll_centre_rear])


@authority
def roll_stiffness_share(roll_stiffness_front, roll_stiffness_rear):
    # The same roll: each end's moment is as its stiffness.
    front, rear = (k * 1.5 for k in (roll_stiffness_front, roll_stiffness_rear))
    return 100.0 * front / (front + rear)


def _body(weight, cg_height, axis, front, rear):
    return Statics(weight, cg_height, 0.5, axis, axis, front, rear, 1000.0, 1000.0)


@authority
def roll_angle(lateral, weight, cg_height, axis, front, rear):
    return math.degrees(_body(weight, cg_height, axis, front, rear).roll(lateral))


@authority
def roll_gradient(weight, cg_height, axis, front, rear):
    # The slope at nought of an odd function, by Richardson's extrapolation.
    body = _body(weight, cg_height, axis, front, rear)
    one, two, three = (math.degrees(body.roll(a)) / a for a in (0.01, 0.02, 0.04))
    first, second = (4.0 * one - two) / 3.0, (4.0 * two - three) / 3.0
    return (16.0 * first - second) / 15.0


@authority
def geometric_load_transfer(lateral, axle_weight, roll_centre_height, track):
    # Moments about the left contact, then the right: what a sideways push at a height adds.
    loads = np.linalg.solve(
        [[1.0, 1.0], [0.5 * track, -0.5 * track]],
        [axle_weight, -lateral * axle_weight * roll_centre_height],
    )
    return 0.5 * (loads[1] - loads[0])


@authority
def elastic_load_transfer(roll, axle_roll_stiffness, track):
    loads = np.linalg.solve(
        [[1.0, 1.0], [0.5 * track, -0.5 * track]], [0.0, -roll * axle_roll_stiffness]
    )
    return loads[1]


@authority
def wheel_load(axle, side, lateral, *car):
    place = 2 * ("front", "rear").index(axle) + ("left", "right").index(side)
    return Statics(*car).loads(lateral)[place]


@authority
def lift_acceleration(axle, *car):
    return Statics(*car).lifts()[("front", "rear").index(axle)]


@authority
def rollover_threshold(track, cg_height):
    # NHTSA's static stability factor (49 CFR 575, from memory): half the track over the height.
    return 0.5 * track / cg_height


@authority
def rollover_with_roll(track, cg_height, roll_axis_height, roll_gradient):
    # Moments about the outer wheels' contact, none left on the inner ones.
    def moment(lateral):
        outward = (cg_height - roll_axis_height) * math.radians(roll_gradient * lateral)
        return lateral * cg_height - (0.5 * track - outward)

    return brentq(moment, 0.0, 10.0, xtol=1e-14)


@authority
def turn_check(friction, *car):
    assert min(Statics(*car).lifts()) > friction
    return "ok"


@authority
def panhard_roll_centre(axle_y, axle_z, body_y, body_z):
    return solid_axle_by_velocities.height_held_by_rod((axle_y, axle_z), (body_y, body_z))


@authority
def watt_roll_centre(pivot_height, pivot_on, heave=0.0):
    # The lever's two rods, alike and opposite in their heights over the pivot.
    heights = [pivot_height + 60.0, pivot_height - 60.0]
    return sum(heights) / 2.0 + {"body": heave, "axle": 0.0}[pivot_on]


@authority
def a_arm_roll_centre(apex_height, apex_ahead=0.0, link_slope=0.0):
    return solid_axle_by_velocities.height_held_by_apex(apex_height, apex_ahead, link_slope)


@authority
def roll_steer(ax, ay, az, bx, by, bz, roll_centre):
    return solid_axle_by_velocities.yaw_per_roll((ax, ay, az), (bx, by, bz), roll_centre)


@authority
def bolted_axle_roll_stiffness(tyre_rate, track):
    # Each tyre gives way by half the track times the angle, and pulls at that arm.
    force = tyre_rate * 0.5 * track * math.radians(1.0)
    return 2.0 * force * 0.5 * track


@authority
def roll_stiffness_on_tyres(axle_roll_stiffness, tyre_rate, track):
    moment = 1000.0
    roll = moment / axle_roll_stiffness + moment / bolted_axle_roll_stiffness(tyre_rate, track)
    return moment / roll
