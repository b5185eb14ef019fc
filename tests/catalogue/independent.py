"""For every formula, its value by an authority outside the package.

`VALUE` maps a formula's name to a function of the formula's own arguments, the optional
ones as the example gives them. A new formula needs an entry here; a test says so.
"""

import math
from functools import cache

import numpy as np
from scipy.spatial.transform import Rotation

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.jacking_by_bars import across_heading, inner_ends, line_of_force
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.movement_by_rigid_body import Moving
from tests.authorities.rates_by_sympy import rates
from tests.authorities.turn_by_scipy_rotation import Turned
from tests.authorities.turn_of_two_wheels import Turn, outer_by_cotangents
from tests.support.corners import Corners

VALUE = {}


def authority(function):
    """Keep a function as the authority of the formula that it is named after."""
    VALUE[function.__name__.upper()] = function
    return function


@cache
def measured(block, travel, rack, right=False):
    """The example's wheel, closed by SciPy; the right-hand one as the mirrored points."""
    corner = Corners.of_rows(block).one(0)
    if right:
        corner = {n: at * [1, -1, 1] if np.ndim(at) else at for n, at in corner.items()}
        corner["static camber"] *= -1.0
        corner["static toe"] *= -1.0
    return Measured(corner, *Closure(corner).solve(travel, rack, stages=8))


def _rates(block, travel, rack):
    corner = Corners.of_rows(block).one(0)
    drawn = Measured(corner, corner["wheel centre"], np.zeros(3))
    here = measured(block, travel, rack)
    return rates(corner, here.centre, here.turned.as_rotvec(), rack, drawn.spindle)


@cache
def moving(block, travel, rack):
    """The example's upright on the move, by SymPy's rates at SciPy's pose."""
    return Moving(measured(block, travel, rack), _rates(block, travel, rack))


def _front_arm(corner, travel, rack):
    """From the contact centre to the front-view instant centre: (inboard, up)."""
    way = moving(corner, travel, rack).instant_centre((1, 2))
    way = way - measured(corner, travel, rack).contact_centre
    return -way[1], way[2]


def _side_arm(corner, travel, rack):
    """From the contact centre to the side-view instant centre: (rearward, up)."""
    way = moving(corner, travel, rack).instant_centre((0, 2))
    way = way - measured(corner, travel, rack).contact_centre
    return -way[0], way[2]


def _turn(block, wheelbase, rack, travel):
    left, right = measured(block, travel, rack), measured(block, travel, rack, right=True)
    rear = Corners.of_rows(block).one(0)["wheel centre"][0] - wheelbase
    return Turn(left.contact_centre[:2], right.contact_centre[:2], -left.toe, -right.toe, rear)


@authority
def trail_from_caster(caster, radius, hub_ahead=0.0, camber=0.0):
    contact, at_ground = _axis_beside_hub(radius, camber, caster, 0.0, hub_ahead, 0.0)
    return (at_ground - contact)[0]


@authority
def scrub_from_inclination(inclination, radius, hub_outboard, camber=0.0):
    contact, at_ground = _axis_beside_hub(radius, camber, 0.0, inclination, 0.0, hub_outboard)
    return (contact - at_ground)[1]


def _axis_beside_hub(radius, camber, caster, inclination, ahead, outboard):
    """(contact centre, axis at ground), (3,) each, of a left wheel whose hub is the origin.

    The disc is leaned by a rotation; the axis is a line through two points, in the ground's
    plane by interpolation.
    """
    contact = Rotation.from_euler("X", -camber, degrees=True).apply([0.0, 0.0, -radius])
    hub_high = np.array([-ahead, -outboard, 0.0])
    below = hub_high + 500.0 * np.array(
        [np.tan(np.radians(caster)), np.tan(np.radians(inclination)), -1.0]
    )
    heights = [below[2], hub_high[2]]
    at_ground = [np.interp(contact[2], heights, [low, high])
                 for low, high in zip(below, hub_high, strict=True)]  # fmt: skip
    return contact, np.array(at_ground)


@authority
def outer_from_inner(inner, track, wheelbase):
    return outer_by_cotangents(inner, track, wheelbase)


@authority
def camber_at_steer(steer, caster, inclination, camber=0.0):
    return Turned(steer, caster, inclination, camber).camber


@authority
def rise_at_steer(steer, caster, inclination, camber, radius, hub_outboard, hub_ahead=0.0):
    return Turned(steer, caster, inclination, camber).rise(radius, hub_outboard, hub_ahead)


@authority
def caster(corner, travel=0.0, rack=0.0):
    return measured(corner, travel, rack).caster


@authority
def kpi(corner, travel=0.0, rack=0.0):
    return measured(corner, travel, rack).inclination


@authority
def trail(corner, travel=0.0, rack=0.0):
    return measured(corner, travel, rack).trail


@authority
def scrub(corner, travel=0.0, rack=0.0):
    return measured(corner, travel, rack).scrub


@authority
def camber(corner, travel=0.0, rack=0.0):
    return measured(corner, travel, rack).camber


@authority
def toe(corner, travel=0.0, rack=0.0):
    return measured(corner, travel, rack).toe


@authority
def point(corner, point, travel=0.0, rack=0.0, coordinate="all"):
    place = measured(corner, travel, rack)
    at = {
        "contact centre": place.contact_centre,
        "axis at ground": place.axis_at_ground,
        "wheel centre": place.centre,
    }
    for name in ("lower ball joint", "upper ball joint", "tie rod outer"):
        at[name] = place.at(name)
    if point.endswith("instant centre"):
        plane = (0, 2) if point.startswith("side") else (1, 2)
        at[point] = moving(corner, travel, rack).instant_centre(plane)
    if coordinate == "all":
        return (tuple(map(float, at[point])),)
    return at[point]["xyz".index(coordinate)]


@authority
def camber_gain(corner, travel=0.0, rack=0.0):
    return _rates(corner, travel, rack)["camber"][0]


@authority
def bump_steer(corner, travel=0.0, rack=0.0):
    return _rates(corner, travel, rack)["toe"][0]


@authority
def camber_gain_average(corner, from_travel, to_travel, rack=0.0):
    change = measured(corner, to_travel, rack).camber - measured(corner, from_travel, rack).camber
    return change / (to_travel - from_travel)


@authority
def bump_steer_average(corner, from_travel, to_travel, rack=0.0):
    change = measured(corner, to_travel, rack).toe - measured(corner, from_travel, rack).toe
    return change / (to_travel - from_travel)


@authority
def roll_centre(corner, travel=0.0, rack=0.0):
    # Where the line from the contact to the instant centre crosses the car's middle.
    inboard, up = _front_arm(corner, travel, rack)
    return measured(corner, travel, rack).contact_centre[1] * up / inboard


@authority
def roll_centre_by_force(corner, travel=0.0, rack=0.0):
    # The bars that hold the upright carry a force along this line alone; mid-car it is so high.
    at = measured(corner, travel, rack)
    inner = inner_ends(Corners.of_rows(corner).one(0), rack)
    across, up = line_of_force(at, inner, across_heading(at))
    return -at.contact_centre[1] * up / across


@authority
def swing_arm_length(corner, travel=0.0, rack=0.0):
    return _front_arm(corner, travel, rack)[0]


@authority
def swing_arm_angle(corner, travel=0.0, rack=0.0):
    inboard, up = _front_arm(corner, travel, rack)
    return math.degrees(math.atan(up / inboard))


@authority
def side_swing_arm_length(corner, travel=0.0, rack=0.0):
    return _side_arm(corner, travel, rack)[0]


@authority
def side_swing_arm_angle(corner, travel=0.0, rack=0.0):
    rearward, up = _side_arm(corner, travel, rack)
    return math.degrees(math.atan(up / rearward))


@authority
def scrub_rate(corner, travel=0.0, rack=0.0):
    return moving(corner, travel, rack).contact_velocity()[1]


@authority
def track_change(corner, travel=0.0, rack=0.0):
    moved, drawn = measured(corner, travel, rack), measured(corner, 0.0, 0.0)
    return 2.0 * (moved.contact_centre[1] - drawn.contact_centre[1])


@authority
def anti_dive(corner, wheelbase, cg_height, brake_share, travel=0.0, rack=0.0):
    # Per unit of braking force: what the inclined links hold up, against what weight moves.
    rearward, up = _side_arm(corner, travel, rack)
    held, moved = brake_share * up / rearward, cg_height / wheelbase
    return 100.0 * held / moved


@authority
def anti_lift(brake_share, centre_ahead, centre_height, wheelbase, cg_height):
    # Statics of the axle with its links, cut free: a rearward force F at the contact, a pin at
    # the instant centre that passes on level and upright forces, and no moment about the pin.
    force = brake_share
    level, upright, _ = np.linalg.solve(
        [[1.0, 0.0, 0.0], [0.0, 1.0, 1.0], [0.0, 0.0, centre_ahead]],
        [force, 0.0, force * centre_height],
    )
    assert level == force
    return 100.0 * -upright / (cg_height / wheelbase)


@authority
def steer_left(corner, wheelbase, rack, travel=0.0):
    return -measured(corner, travel, rack).toe


@authority
def steer_right(corner, wheelbase, rack, travel=0.0):
    return -measured(corner, travel, rack, right=True).toe


@authority
def ideal_outer(corner, wheelbase, rack, travel=0.0):
    return _turn(corner, wheelbase, rack, travel).ideal_outer


@authority
def ackermann(corner, wheelbase, rack, travel=0.0):
    return _turn(corner, wheelbase, rack, travel).percentage


@authority
def turning_radius(corner, wheelbase, rack, travel=0.0):
    return _turn(corner, wheelbase, rack, travel).radius


def _by_name(name, corner, travel, rack, wheelbase):
    found = VALUE[name.strip().upper().replace(" ", "_")]
    if found.__code__.co_varnames[1] == "wheelbase":
        return found(corner, wheelbase, rack, travel)
    return found(corner, travel, rack)


@authority
def at(corner, quantity, travel=0.0, rack=0.0, wheelbase=0.0):
    return _by_name(quantity, corner, travel, rack, wheelbase)


@authority
def sweep(corner, quantities, over, start, end, points, held=0.0, wheelbase=0.0):
    rows = []
    for value in np.linspace(start, end, int(points)).tolist():
        travel, rack = (value, held) if over == "travel" else (held, value)
        names = quantities.split(",")
        rows.append((value, *(_by_name(n, corner, travel, rack, wheelbase) for n in names)))
    return tuple(rows)


@authority
def check(corner, unit="any"):
    return "ok"  # nothing is wrong with the example corner, which is made up to be sound


@authority
def axle_as_built(left, right, quantity, wheelbase, rack, travel=0.0):
    """Each wheel closed by SciPy from its own points, the right one's mirrored."""
    wheels = measured(left, travel, rack), measured(right, travel, rack, right=True)
    places = [wheel.contact_centre for wheel in wheels]
    fronts = [Corners.of_rows(block).one(0)["wheel centre"][0] for block in (left, right)]
    turn = Turn(
        places[0][:2], places[1][:2], -wheels[0].toe, -wheels[1].toe, np.mean(fronts) - wheelbase
    )
    if quantity == "toe sum":
        return wheels[0].toe - wheels[1].toe
    if quantity == "track":
        return places[0][1] - places[1][1]
    return {
        "steer left": lambda: -wheels[0].toe,
        "steer right": lambda: -wheels[1].toe,
        "ideal outer": lambda: turn.ideal_outer,
        "ackermann": lambda: turn.percentage,
        "turning radius": lambda: turn.radius,
    }[quantity]()
