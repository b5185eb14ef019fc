"""The independent values of the formulas that place points; `independent.py` says how.

Each place is found the long way round: SciPy tries places until what the authorities measure of
the changed block (SciPy's closure, SymPy's rates) is what is wanted.
"""

import numpy as np
from scipy.optimize import brentq, newton, root

from tests.authorities.measures_by_scipy_rotation import Measured
from tests.catalogue.independent import VALUE, authority, measured, moving
from tests.support.corners import Corners

ENDS = ("front", "rear")


def at(block, name):
    """A row's x, y, z."""
    return np.array(next(row[1:4] for row in block if row[0].lower() == name), dtype=float)


def moved(block, **places):
    """The block with points moved; underscores stand for spaces."""
    names = {name.replace("_", " "): place for name, place in places.items()}
    return tuple(
        (row[0], *map(float, names[row[0].lower()])) if row[0].lower() in names else row
        for row in block
    )


def _lifted(block, names, heights):
    places = {}
    for name, height in zip(names, heights, strict=True):
        places[name.replace(" ", "_")] = (*at(block, name)[:2], height)
    return moved(block, **places)


def _solved(missed, first, scale):
    """The root of some measures, each wanted to within its own scale."""
    found = root(lambda x: np.array(missed(x)) / scale, first, tol=1e-13)
    worst = np.abs(found.fun).max()
    assert worst < 1e-9, worst
    return found.x


def _given(place, coordinate):
    if coordinate == "all":
        return (tuple(map(float, place)),)
    return float(place["xyz".index(coordinate)])


def _axis(corner, caster, inclination, trail, scrub, height):
    """The ball joint at a height, together with another one anywhere on the same axis."""
    one = Corners.of_rows(corner).one(0)
    low, high = (height, height + 200.0) if height < one["wheel centre"][2] else (150.0, height)

    def missed(x):
        one["lower ball joint"] = np.array([x[0], x[1], low])
        one["upper ball joint"] = np.array([x[2], x[3], high])
        m = Measured(one, one["wheel centre"], np.zeros(3))
        return m.caster - caster, m.inclination - inclination, m.trail - trail, m.scrub - scrub

    x = _solved(missed, [0.0, 500.0, 0.0, 480.0], [1.0, 1.0, 10.0, 10.0])
    return (*x[:2], height) if height == low else (*x[2:], height)


@authority
def place_lower_ball_joint(corner, *wanted):
    *wanted, coordinate = wanted if isinstance(wanted[-1], str) else (*wanted, "all")
    return _given(_axis(corner, *wanted), coordinate)


VALUE["PLACE_UPPER_BALL_JOINT"] = place_lower_ball_joint


@authority
def inclination_for_scrub(scrub, radius, hub_outboard):
    found = VALUE["SCRUB_FROM_INCLINATION"]
    return brentq(lambda a: found(a, radius, hub_outboard) - scrub, -60, 60, xtol=1e-14)


@authority
def caster_for_trail(trail, radius, hub_ahead=0.0):
    found = VALUE["TRAIL_FROM_CASTER"]
    return brentq(lambda a: found(a, radius, hub_ahead) - trail, -60, 60, xtol=1e-14)


@authority
def hub_outboard_for_scrub(scrub, inclination, radius):
    found = VALUE["SCRUB_FROM_INCLINATION"]
    return brentq(lambda h: found(inclination, radius, h) - scrub, -1e3, 1e3, xtol=1e-13)


@authority
def hub_ahead_for_trail(trail, caster, radius):
    found = VALUE["TRAIL_FROM_CASTER"]
    return brentq(lambda h: found(caster, radius, h) - trail, -1e3, 1e3, xtol=1e-13)


def _side_view(block):
    """How the upright turns about the car's cross axis, and the slope of the contact's path."""
    motion = moving(block, 0.0, 0.0)
    velocity = motion.velocity(motion.measured.contact_centre)
    return motion.spin[1], velocity[0] / velocity[2]


@authority
def place_pickup(corner, pickup, camber_gain, roll_centre, tie_rod="as drawn", coordinate="all"):
    names = [f"{arm} {end} pickup" for arm in ("lower", "upper") for end in ENDS]
    moves = [*names, "tie rod inner"] if tie_rod == "no bump steer" else names
    pitch, slope = _side_view(corner)

    def missed(heights):
        block = _lifted(corner, moves, heights)
        gained, centred = VALUE["CAMBER_GAIN"](block), VALUE["ROLL_CENTRE"](block)
        turned, sloped = _side_view(block)
        wrong = [gained - camber_gain, centred - roll_centre, turned - pitch, sloped - slope]
        return [*wrong, VALUE["BUMP_STEER"](block)][: len(moves)]

    first = [at(corner, name)[2] for name in moves]
    heights = _solved(missed, first, [0.01, 10.0, 1e-4, 0.01, 0.01][: len(moves)])
    name = pickup + " pickup"
    return _given((*at(corner, name)[:2], heights[names.index(name)]), coordinate)


def _slope_along(block):
    """The upper arm's slope along the car: of the line in which its plane meets one along it."""
    ball = at(block, "upper ball joint")
    front, rear = (at(block, f"upper {end} pickup") for end in ENDS)
    x, _, z = np.cross(front - ball, rear - ball)
    return -x / z


def _upper(corner, end, name, wanted, scale, tie_rod, coordinate):
    names = [f"upper {e} pickup" for e in ENDS]
    moves = [*names, "tie rod inner"] if tie_rod == "no bump steer" else names
    slope = _slope_along(corner)

    def missed(heights):
        block = _lifted(corner, moves, heights)
        wrong = [VALUE[name](block) - wanted, _slope_along(block) - slope]
        return [*wrong, VALUE["BUMP_STEER"](block)][: len(moves)]

    first = [at(corner, move)[2] for move in moves]
    heights = _solved(missed, first, [scale, 0.01, 0.01][: len(moves)])
    place = ENDS.index(end)
    return _given((*at(corner, names[place])[:2], heights[place]), coordinate)


@authority
def place_upper_pickup_for_camber(corner, end, camber_gain, tie_rod="as drawn", coordinate="all"):
    return _upper(corner, end, "CAMBER_GAIN", camber_gain, 0.01, tie_rod, coordinate)


@authority
def place_upper_pickup_for_roll(corner, end, roll_centre, tie_rod="as drawn", coordinate="all"):
    return _upper(corner, end, "ROLL_CENTRE", roll_centre, 10.0, tie_rod, coordinate)


@authority
def place_tie_rod_inner(corner, coordinate="all"):
    x, y, z = at(corner, "tie rod inner")

    def steered(height):
        return VALUE["BUMP_STEER"](moved(corner, tie_rod_inner=(x, y, height)))

    return _given((x, y, brentq(steered, z - 60.0, z + 60.0, xtol=1e-12)), coordinate)


@authority
def place_tie_rod_inner_for_range(corner, from_travel, to_travel, coordinate="all"):
    x, *first = at(corner, "tie rod inner")
    toe = Corners.of_rows(corner).one(0)["static toe"]

    def missed(place):
        block = moved(corner, tie_rod_inner=(x, *place))
        return [measured(block, t, 0.0).toe - toe for t in (from_travel, to_travel)]

    return _given((x, *_solved(missed, first, [0.1, 0.1])), coordinate)


@authority
def place_tie_rod_outer(corner, wheelbase, rack, ackermann, coordinate="all"):
    x, y, z = at(corner, "tie rod outer")

    def missed(place):
        block = moved(corner, tie_rod_outer=(x, place[0], z))
        return [VALUE["ACKERMANN"](block, wheelbase, rack) - ackermann]

    return _given((x, _solved(missed, [y], [10.0])[0], z), coordinate)


@authority
def place_rack(corner, wheelbase, rack, ackermann, coordinate="all"):
    x, y, z = at(corner, "tie rod inner")

    def missed(place):
        block = moved(corner, tie_rod_inner=(place[0], y, z))
        return [VALUE["ACKERMANN"](block, wheelbase, rack) - ackermann]

    return _given((_solved(missed, [x], [10.0])[0], y, z), coordinate)


@authority
def rack_for_inner_angle(corner, angle, travel=0.0):
    def missed(rack):
        wheel = measured(corner, travel, float(rack), right=angle < 0.0)
        return -wheel.toe - angle

    return newton(missed, 0.0, x1=-10.0, tol=1e-12, rtol=1e-14)
