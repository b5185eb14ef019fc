"""Outside values of the formulas for setting a car up.

Importing this adds them to `VALUE` of `tests/catalogue/independent.py`.
"""

import math

import numpy as np
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from tests.authorities.adjusted_by_scipy import Adjusted
from tests.authorities.closure_by_complex_step import derivative
from tests.authorities.rims_by_rotation import Rim, caster_of_swing, inclination_of_swing
from tests.authorities.scales_by_statics import height_of_weight, load_on_blocks, one_perch
from tests.catalogue.independent import authority, measured
from tests.support.corners import Corners

# The camber with which toe is measured, and the toe with which camber is: neither must matter.
CAMBER, TOE = -1.7, 0.6


def _difference(angle, place, diameter):
    """How much farther inboard one place of a rim is than the one opposite."""
    rim = Rim(angle, CAMBER, diameter) if place == "hub" else Rim(TOE, angle, diameter)
    if place == "hub":
        front, rear = rim.at_hub_height()
        return rear[1] - front[1]
    top, bottom = rim.top_and_bottom()
    return (top - bottom) @ rim.level_outboard()


def _angle(difference, place, diameter):
    return brentq(lambda a: _difference(a, place, diameter) - difference, -44.0, 44.0, xtol=1e-14)


@authority
def toe_from_rims(front_distance, rear_distance, rim_diameter):
    return _angle(0.5 * (rear_distance - front_distance), "hub", rim_diameter)


@authority
def rims_from_toe(toe, rim_diameter):
    # The other wheel is this one's mirror, so far away that the sign is plain.
    front, rear = np.add(Rim(toe, CAMBER, rim_diameter).at_hub_height(), [0.0, 500.0, 0.0])
    mirror = [1.0, -1.0, 1.0]
    return np.linalg.norm(rear - rear * mirror) - np.linalg.norm(front - front * mirror)


@authority
def toe_from_string(front_gap, rear_gap, rim_diameter, string_angle=0.0):
    return _angle(front_gap - rear_gap, "hub", rim_diameter) - string_angle


@authority
def string_from_toe(toe, rim_diameter):
    return _difference(toe, "hub", rim_diameter)


@authority
def camber_from_rule(upper_gap, lower_gap, rim_diameter):
    return _angle(lower_gap - upper_gap, "slope", rim_diameter)


@authority
def rule_from_camber(camber, rim_diameter):
    return _difference(camber, "slope", rim_diameter)


@authority
def caster_from_swing(camber_in, camber_out, turned_in, turned_out, inclination):
    return caster_of_swing(camber_in, camber_out, turned_in, turned_out, inclination)


@authority
def caster_by_small_angles(camber_in, camber_out, turned_in, turned_out):
    # The slope of what a swing says where there is no lean at all, by differences.
    def slope(small):
        half = 0.5 * small * (camber_out - camber_in)
        return caster_of_swing(-half, half, turned_in, turned_out, 0.0) / small

    return (4.0 * slope(0.01) - slope(0.02)) / 3.0


@authority
def inclination_from_swing(camber_in, camber_straight, camber_out, turned_in, turned_out):
    return inclination_of_swing(camber_in, camber_straight, camber_out, turned_in, turned_out)


@authority
def cross_weight(front_left, front_right, rear_left, rear_right):
    loads = [front_left, front_right, rear_left, rear_right]
    return 100.0 * np.average([0.0, 1.0, 1.0, 0.0], weights=loads)


@authority
def perch_load_change(wheel, perch, perch_rise, rate_front, rate_rear, track_front, track_rear):
    rates, tracks = (rate_front, rate_rear), (track_front, track_rear)
    return one_perch(wheel, perch, perch_rise, rates, tracks)[0]


@authority
def perch_height_change(wheel, perch, perch_rise, rate_front, rate_rear, track_front, track_rear):
    rates, tracks = (rate_front, rate_rear), (track_front, track_rear)
    return one_perch(wheel, perch, perch_rise, rates, tracks)[1]


@authority
def perch_rise_for_cross(
    perch, cross_change, weight, rate_front, rate_rear, track_front, track_rear
):
    def missing(rise):
        car = (perch, rise, (rate_front, rate_rear), (track_front, track_rear))
        diagonal = one_perch("front right", *car)[0] + one_perch("rear left", *car)[0]
        return 100.0 * diagonal / weight - cross_change

    return brentq(missing, -1000.0, 1000.0, xtol=1e-12)


@authority
def cg_height_from_lift(weight, load_level, load_lifted, wheelbase, lift, radius, other=0.0):
    return height_of_weight(
        weight, load_level, load_lifted, wheelbase, lift, radius, other or radius
    )


@authority
def load_when_lifted(weight, load_level, cg_height, wheelbase, lift, radius, other=0.0):
    return load_on_blocks(weight, load_level, cg_height, wheelbase, lift, radius, other or radius)


@authority
def loaded_radius(free_radius, load, tyre_rate):
    return brentq(lambda r: (free_radius - r) * tyre_rate - load, 0.0, free_radius, xtol=1e-12)


@authority
def tyre_rate_from_radius(free_radius, loaded_radius, load):
    return np.polyfit([free_radius, loaded_radius], [0.0, load], 1)[0] * -1.0


@authority
def rolling_radius(distance, revolutions):
    return brentq(lambda r: math.tau * r * revolutions - distance, 0.0, distance, xtol=1e-12)


def _adjusted_by(corner, quantity, adjuster, way):
    drawn = Corners.of_rows(corner).one(0)
    before = Adjusted(drawn).measured(0.0, 0.0)
    after = Adjusted(drawn, (adjuster, way)).measured(0.0, 0.0)
    return float(getattr(after, quantity) - getattr(before, quantity))


@authority
def adjusted_change(corner, quantity, adjuster, dx, dy, dz, steps):
    return _adjusted_by(corner, quantity, adjuster, steps * np.array([dx, dy, dz]))


@authority
def adjuster_steps(corner, quantity, least, most, adjuster, dx, dy, dz, fewest, largest):
    # Every number of steps, the fewest first.
    for steps in sorted(range(int(fewest), int(largest) + 1), key=abs):
        if (
            least
            <= _adjusted_by(corner, quantity, adjuster, steps * np.array([dx, dy, dz]))
            <= most
        ):
            return ((float(steps),),)
    raise AssertionError("the example cannot be reached")


def _places(block):
    return {row[0].lower(): np.array(row[1:], dtype=float) for row in block if row[2] != ""}


def _between(one, other):
    # By the law of cosines, the lengths found by themselves.
    a, b, c = (np.sqrt(np.sum(np.square(way))) for way in (one, other, one - other))
    return math.degrees(math.acos((a * a + b * b - c * c) / (2.0 * a * b)))


@authority
def point_distance(block, from_point, to_point, to_side="same"):
    at = _places(block)
    mirror = [1.0, -1.0 if to_side == "other" else 1.0, 1.0]
    return math.dist(at[from_point], at[to_point] * mirror)


@authority
def angle_at_point(block, point, from_point, to_point):
    at = _places(block)
    return _between(at[from_point] - at[point], at[to_point] - at[point])


@authority
def line_angle(block, from_point, to_point, axis, turned=0.0, raised=0.0):
    at = _places(block)
    axes = Rotation.from_euler("ZY", [turned, -raised], degrees=True)
    way = np.array(at[to_point]) - np.array(at[from_point])
    return _between(way, axes.apply(np.eye(3)["xyz".index(axis)]))


@authority
def distance_leeway(corner, from_point, to_point, quantity, band_from, band_to):
    one = Corners.of_rows(corner).one(0)
    way = one[to_point] - one[from_point]
    way = way / np.linalg.norm(way)
    slopes = [
        abs(sum(derivative(one, point, i, quantity) * way[i] for i in range(3)))
        for point in (from_point, to_point)
    ]
    now = getattr(measured(corner, 0.0, 0.0), quantity)
    return min(band_to - now, now - band_from) / max(slopes)


@authority
def point_from_datum(
    block, point, axis, datum_x, datum_y, datum_z, turned=0.0, raised=0.0, to_side="same"
):
    """In axes turned about z, then about their own y: SciPy's rotations from the axes it is in."""
    at = np.array(Corners.of_rows(block).one(0)[point])
    if to_side == "other":
        at = at * [1.0, -1.0, 1.0]
    # A front that rises turns the other way round than ISO 8855 counts about y.
    axes = Rotation.from_euler("ZY", [turned, -raised], degrees=True)
    found = axes.inv().apply(at - [datum_x, datum_y, datum_z])
    return found["xyz".index(axis)]


@authority
def survey_as_drawn(block, what, from_points, to_points, measured):
    """Of one row, a distance across the car: the right side is the left one's mirror."""
    at = _places(block)
    assert what == "distance" and to_points.startswith("right ")
    one = np.array(at[from_points])
    other = np.array(at[to_points.removeprefix("right ")]) * [1.0, -1.0, 1.0]
    drawn = float(np.linalg.norm(other - one))
    return ((drawn, measured - drawn, ""),)
