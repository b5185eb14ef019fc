"""Places from targets: placed, measured again, and the target comes out.

The measures have their own tests against outside authorities; what a place is, by SciPy the long
way round, is in tests/catalogue/independent_placing.py. Here: random corners, both ways.
"""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.geometry.corner.linkage import Linkage
from cornerbook.geometry.corner.pose import Pose
from cornerbook.geometry.placing import ackermann, held_toe, square
from cornerbook.geometry.vec import Vec

from tests.catalogue.independent import VALUE
from tests.catalogue.independent_placing import at, moved
from tests.support.corners import random_corners

COUNT = 1000
CORNERS = random_corners(20, COUNT)
PICKUPS = ["lower front", "lower rear", "upper front", "upper rear"]
RODS = ["as drawn", "no bump steer"]


def targets(seed, *ranges):
    """A corner's rows with random targets for it, `COUNT` times."""
    draw = np.random.default_rng(seed)
    for i in range(COUNT):
        yield CORNERS.rows(i), [float(draw.uniform(*limits)) for limits in ranges]


def placed(block, places):
    """The block with the places that formulas gave; None if one of them gave a sentence."""
    if any(isinstance(place, str) for place in places.values()):
        assert all(place.startswith("# ") for place in places.values() if isinstance(place, str))
        return None
    return moved(block, **{name.replace(" ", "_"): place[0] for name, place in places.items()})


class Score:
    """How far measures were off at the worst, and how many places there were."""

    def __init__(self):
        self.found = 0

    def add(self, block, *wanted):
        self.found += 1
        for name, arguments, want in wanted:
            got = call(name, block, *arguments)
            # Sentences, and numbers that are wrong, both fail here.
            assert got == pytest.approx(want, abs=1e-9), (name, block)


def without_bump_steer(block):
    return placed(block, {"tie rod inner": call("PLACE_TIE_ROD_INNER", block)})


def test_the_steering_axis():
    score = Score()
    ranges = [(-5, 15), (-2, 18), (-20, 60), (-30, 80), (90, 180), (320, 420)]
    for block, (caster, kpi, trail, scrub, low, high) in targets(1, *ranges):
        wanted = (block, caster, kpi, trail, scrub)
        axis = placed(block, {
            "lower ball joint": call("PLACE_LOWER_BALL_JOINT", *wanted, low),
            "upper ball joint": call("PLACE_UPPER_BALL_JOINT", *wanted, high),
        })  # fmt: skip
        score.add(
            axis, ("CASTER", (), caster), ("KPI", (), kpi), ("TRAIL", (), trail),
            ("SCRUB", (), scrub), ("POINT", ("lower ball joint", 0.0, 0.0, "z"), low),
        )  # fmt: skip
    assert score.found == COUNT


def test_first_layout_and_back():
    draw = np.random.default_rng(2)
    for scrub, offset, radius, angle in draw.uniform(
        [-30, -20, 200, -20], [70, 90, 320, 20], (COUNT, 4)
    ).tolist():
        kpi = call("INCLINATION_FOR_SCRUB", scrub, radius, offset)
        assert VALUE["SCRUB_FROM_INCLINATION"](kpi, radius, offset) == pytest.approx(scrub)
        caster = call("CASTER_FOR_TRAIL", scrub, radius, offset)
        assert VALUE["TRAIL_FROM_CASTER"](caster, radius, offset) == pytest.approx(scrub)
        outboard = call("HUB_OUTBOARD_FOR_SCRUB", scrub, angle, radius)
        assert VALUE["SCRUB_FROM_INCLINATION"](angle, radius, outboard) == pytest.approx(scrub)
        ahead = call("HUB_AHEAD_FOR_TRAIL", scrub, angle, radius)
        assert VALUE["TRAIL_FROM_CASTER"](angle, radius, ahead) == pytest.approx(scrub)


@pytest.mark.parametrize("rod", RODS)
def test_all_four_pickups(rod):
    score = Score()
    for block, (gain, centre) in targets(3, (-0.06, -0.005), (-20, 90)):
        block_placed = placed(block, {
            name + " pickup": call("PLACE_PICKUP", block, name, gain, centre, rod)
            for name in PICKUPS
        })  # fmt: skip
        if block_placed is None:
            continue
        steered = () if rod == "as drawn" else (("BUMP_STEER", (), 0.0),)
        if rod != "as drawn":
            block_placed = without_bump_steer(block_placed)
        side = call("SIDE_SWING_ARM_ANGLE", block)
        score.add(
            block_placed, ("CAMBER_GAIN", (), gain), ("ROLL_CENTRE", (), centre),
            ("SIDE_SWING_ARM_ANGLE", (), side), *steered,
        )  # fmt: skip
    assert score.found > 0.9 * COUNT


@pytest.mark.parametrize("rod", RODS)
@pytest.mark.parametrize(
    "formula, measure, limits",
    [("PLACE_UPPER_PICKUP_FOR_CAMBER", "CAMBER_GAIN", (-0.06, -0.005)),
     ("PLACE_UPPER_PICKUP_FOR_ROLL", "ROLL_CENTRE", (-20, 90))],
)  # fmt: skip
def test_the_upper_pickups_alone(formula, measure, limits, rod):
    score = Score()
    for block, (want,) in targets(4, limits):
        upper = {f"upper {e} pickup": call(formula, block, e, want, rod) for e in ("front", "rear")}
        block_placed = placed(block, upper)
        if block_placed is not None and rod != "as drawn":
            block_placed = without_bump_steer(block_placed)
        if block_placed is not None:
            score.add(block_placed, (measure, (), want))
    assert score.found > 0.9 * COUNT


def test_what_is_measured_already_stays_where_it_is():
    for block, _ in targets(5):
        gain, centre = call("CAMBER_GAIN", block), call("ROLL_CENTRE", block)
        for name in PICKUPS:
            here = at(block, name + " pickup")
            found = call("PLACE_PICKUP", block, name, gain, centre)
            assert found[0] == pytest.approx(here, abs=1e-8)
        for end in ("front", "rear"):
            here = at(block, f"upper {end} pickup")
            found = call("PLACE_UPPER_PICKUP_FOR_CAMBER", block, end, gain)
            assert found[0] == pytest.approx(here, abs=1e-8)


def test_no_bump_steer():
    score = Score()
    for block, _ in targets(6):
        score.add(without_bump_steer(block), ("BUMP_STEER", (), 0.0))
    assert score.found == COUNT


def test_the_toe_at_both_ends_of_a_range():
    score, better = Score(), 0
    for block, (low, high) in targets(7, (-40, -10), (10, 40)):
        new = placed(
            block, {"tie rod inner": call("PLACE_TIE_ROD_INNER_FOR_RANGE", block, low, high)}
        )
        if new is None:
            continue
        toe = call("TOE", block)
        score.add(new, ("TOE", (low,), toe), ("TOE", (high,), toe))
        only_height = without_bump_steer(block)
        better += _swing(new, low, high, toe) <= _swing(only_height, low, high, toe) + 1e-9
    assert score.found > 0.9 * COUNT
    # Between its ends too the range is calmer than with the height alone, all but always.
    assert better > 0.98 * score.found


def _swing(block, low, high, toe):
    return max(abs(call("TOE", block, t) - toe) for t in np.linspace(low, high, 9).tolist())


def test_ackermann():
    score = Score()
    ranges = [(10, 25), (-20, 110), (1400, 1900)]
    for block, (rack, wanted, base) in targets(8, *ranges):
        rack = rack if wanted % 2 > 1 else -rack
        place = call("PLACE_TIE_ROD_OUTER", block, base, rack, wanted)
        new = placed(block, {"tie rod outer": place})
        if new is not None:
            score.add(new, ("ACKERMANN", (base, rack), wanted))
            assert place[0][::2] == tuple(at(block, "tie rod outer")[::2])
    assert score.found > 0.98 * COUNT


def test_ackermann_by_the_rack_s_place():
    """Where a place is found and sensible, it gives the percentage, y and z kept."""
    score = Score()
    ranges = [(10, 25), (-10, 40), (1400, 1900)]
    for block, (rack, more, base) in targets(8, *ranges):
        now = call("ACKERMANN", block, base, rack)
        if isinstance(now, str):
            continue
        place = call("PLACE_RACK", block, base, rack, now + more)
        new = placed(block, {"tie rod inner": place})
        if new is not None:
            score.add(new, ("ACKERMANN", (base, rack), now + more))
            assert place[0][1:] == tuple(at(block, "tie rod inner")[1:])
    assert score.found > 0.98 * COUNT


def test_a_step_goes_where_the_quotient_through_three_places_is_nothing():
    """By the formula of P. Dierckx's FPRATI (FITPACK, netlib.org/dierckx/fprati.f)."""
    draw = np.random.default_rng(13)
    for _ in range(200):
        p, f = draw.uniform(-50.0, 50.0, 3), draw.uniform(-90.0, 90.0, 3)
        h = [f[i] * (f[(i + 1) % 3] - f[(i + 2) % 3]) for i in range(3)]
        zero = -(p[0] * p[1] * h[2] + p[1] * p[2] * h[0] + p[2] * p[0] * h[1]) / (p @ h)
        latest, *others = [(float(x), float(y)) for x, y in zip(p, f, strict=True)]
        slope = ackermann.slope_to_nothing(latest, *others)
        assert latest[0] - latest[1] / slope == pytest.approx(zero, rel=1e-6)


def _all_found(find, rack, base, wanted):
    """Where `find` places a rod's end in each of the corners; NaN where it finds no place."""
    linkage = CORNERS.linkages()
    points = {
        name: Vec(*(at[:, axis, None] for axis in range(3))) for name, at in CORNERS.points.items()
    }
    pose = Pose(
        points["lower ball joint"], points["upper ball joint"], points["tie rod outer"],
        points["tie rod inner"], points["wheel centre"], linkage.drawn_spindle, linkage.radius,
    )  # fmt: skip
    named = {
        f"{arm}_{end}": points[f"{arm} {end} pickup"]
        for arm in ("lower", "upper")
        for end in ("front", "rear")
    }
    named.update(
        lower_ball=pose.lower, upper_ball=pose.upper, tie_inner=pose.tie_inner,
        wheel_centre=pose.wheel_centre,
    )  # fmt: skip
    return find(named, pose, base, rack, wanted)


@pytest.mark.parametrize("find", [ackermann.tie_rod_outer_for, ackermann.rack_place_for])
def test_the_few_steps_of_cells_find_nearly_all(find, monkeypatch):
    """What is recorded takes `STEPS_AT_ONCE`; here arrays do."""
    draw = np.random.default_rng(12)
    asked = [draw.uniform(*ends, (COUNT, 1)) for ends in [(10, 25), (1400, 1900), (-20, 110)]]
    most = _all_found(find, *asked)
    monkeypatch.setattr(ackermann, "STEPS", ackermann.STEPS_AT_ONCE)
    few = _all_found(find, *asked)
    found = np.isfinite(few)
    assert found.sum() > 0.99 * np.isfinite(most).sum()
    assert few[found] == pytest.approx(most[found], rel=1e-8, abs=1e-6)


def test_the_rack_for_an_angle():
    score = Score()
    for block, (angle, travel) in targets(9, (2, 32), (-25, 25)):
        for turn, name in ((angle, "STEER_LEFT"), (-angle, "STEER_RIGHT")):
            rack = call("RACK_FOR_INNER_ANGLE", block, turn, travel)
            if not isinstance(rack, str):
                score.add(block, (name, (1600.0, rack, travel), turn))
                # A tie rod ahead of the axis steers the way the rack goes.
                ahead = at(block, "tie rod outer")[0] > at(block, "lower ball joint")[0]
                assert (rack > 0.0) == ((turn > 0.0) == ahead)
    assert score.found > 1.9 * COUNT


def _as_arrays(count=50):
    points = {
        name: Vec(*(CORNERS.points[name][:count, axis] for axis in range(3)))
        for name in CORNERS.points
    }
    return points, {name: value[:count] for name, value in CORNERS.values.items()}


def test_floats_and_arrays_alike():
    """The held toe and the arms' motion, all corners in one go against one by one."""
    linkage = CORNERS.linkages()
    drawn = linkage.pose(0.0 * linkage.radius, 0.0 * linkage.radius)
    many = held_toe.inner_for_range(held_toe.HeldToe(linkage, drawn), drawn, -20.0, 25.0)
    racks = held_toe.rack_for_inner_angle(
        held_toe.HeldToe(linkage, drawn), drawn, np.array([[-20.0, 15.0]]), 5.0
    )
    for i in range(0, COUNT, 10):
        one = CORNERS.linkage(i)
        assert isinstance(one, Linkage)
        pose = one.pose(0.0, 0.0)
        held = held_toe.HeldToe(one, pose)
        place = held_toe.inner_for_range(held, pose, -20.0, 25.0)
        assert place == pytest.approx([many[0][i, 0], many[1][i, 0]], rel=1e-7)
        found = [held_toe.rack_for_inner_angle(held, pose, a, 5.0) for a in (-20.0, 15.0)]
        assert found == pytest.approx(racks[i], abs=1e-8, nan_ok=True)


def test_arms_as_arrays():
    points, values = _as_arrays()

    class Drawn:
        lower, upper = points["lower ball joint"], points["upper ball joint"]
        tie_outer, tie_inner = points["tie rod outer"], points["tie rod inner"]
        wheel_centre, radius = points["wheel centre"], values["tyre radius"]
        spindle = Vec(
            np.sin(np.radians(values["static toe"])) * np.cos(np.radians(values["static camber"])),
            np.cos(np.radians(values["static toe"])) * np.cos(np.radians(values["static camber"])),
            -np.sin(np.radians(values["static camber"])),
        )

    ways = [
        square.way_of(
            points[f"{arm} ball joint"], points[f"{arm} front pickup"], points[f"{arm} rear pickup"]
        )
        for arm in ("lower", "upper")
    ]
    heights = square.tie_rod_inner_height(Drawn, *ways)
    for i, height in enumerate(heights):
        assert height == pytest.approx(call("PLACE_TIE_ROD_INNER", CORNERS.rows(i), "z"), rel=1e-12)


def test_another_unit_of_length():
    """The same places, in that unit."""
    corners = CORNERS.scaled(1.0 / 25.4)
    for i in range(20):
        block, inch = CORNERS.rows(i), corners.rows(i)
        here = call("PLACE_PICKUP", block, "upper rear", -0.03, 30.0, "as drawn", "z")
        there = call("PLACE_PICKUP", inch, "upper rear", -0.03 * 25.4, 30.0 / 25.4, "as drawn", "z")
        assert there * 25.4 == pytest.approx(here, rel=1e-9)


@pytest.mark.parametrize(
    "name, arguments",
    [("PLACE_LOWER_BALL_JOINT", (5.0, 8.0, 15.0, 30.0, 140.0)),
     *(("PLACE_PICKUP", (p, -0.025, 35.0, r)) for p, r in zip(PICKUPS, RODS * 2, strict=True)),
     ("PLACE_UPPER_PICKUP_FOR_CAMBER", ("rear", -0.025, "no bump steer")),
     ("PLACE_UPPER_PICKUP_FOR_ROLL", ("front", 35.0, "as drawn")),
     ("PLACE_TIE_ROD_INNER", ()),
     ("PLACE_TIE_ROD_INNER_FOR_RANGE", (-25.0, 30.0)),
     ("PLACE_TIE_ROD_OUTER", (1600.0, 25.0, 40.0)),
     ("PLACE_RACK", (1600.0, 25.0, 40.0)),
     ("RACK_FOR_INNER_ANGLE", (-15.0, 10.0))],
)  # fmt: skip
def test_scipy_finds_the_same_place(name, arguments):
    """The authorities alone, on random corners whose steering goes either way."""
    compared = 0
    for i in range(4):
        block = CORNERS.rows(i)
        mine = call(name, block, *arguments)
        if isinstance(mine, str):
            continue
        other = VALUE[name](block, *arguments)
        mine, other = (np.ravel(value) for value in (mine, other))
        assert mine == pytest.approx(other, rel=1e-8)
        compared += 1
    assert compared >= 2
