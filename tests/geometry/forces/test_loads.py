"""What members carry, against free bodies solved by numpy, virtual work, and a case by hand."""

import numpy as np
import pytest
from cornerbook.geometry.forces import loads
from cornerbook.geometry.vec import Vec

from tests.authorities.actuation_by_mpmath import Actuated, NotClosed
from tests.authorities.corner_by_free_bodies import FreeBodies, wrench
from tests.authorities.forces_in_a_corner import force_at_the_wheel
from tests.support.actuations import actuation_of, arms_at, random_actuation, random_load
from tests.support.corners import random_corners

CORNERS = 200


def carried(one, linkage, mount, points, travel, rack, *load):
    """The package's `Carried` of a corner: name to (3,) array or value."""
    pose = linkage.pose(travel, rack)
    actuation = actuation_of(one, linkage, mount, points)
    applied = loads.load_on_upright(pose, *load)
    return loads.Carried(pose, *arms_at(one, pose), applied, mount, actuation.places(pose))


def cases(seed, n):
    """(ours, the authority's bodies, the load's wrench there, load, mount) at random poses."""
    draw = np.random.default_rng(seed)
    corners = random_corners(seed + 1, n)
    for i in range(n):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points, travel, rack, load = random_load(draw, one)
        try:
            bodies = FreeBodies({**one, **points}, Actuated({**one, **points}, mount), travel, rack)
        except NotClosed:
            continue
        ours = carried(one, linkage, mount, points, travel, rack, *load)
        if ours.rod == ours.rod:
            yield ours, bodies, bodies.load(*load), load, mount


@pytest.fixture(scope="module")
def compared():
    return list(cases(5101, CORNERS))


def _array(vector):
    return np.array([*vector])


def _named(ours):
    """Our forces by the authority's names."""
    found = {
        "tie rod": ours.tie, "rod": ours.rod, "spring": ours.spring,
        "lower ball joint": ours.at_lower, "upper ball joint": ours.at_upper,
        "tie rod inner": ours.on_rack(), "rod outer": -ours.rod_on_mount(),
        "spring frame": ours.on_spring_frame(),
    }  # fmt: skip
    for upper, which in enumerate(("lower", "upper")):
        pickups = ours.on_pickups(upper)
        for rear, end in enumerate(("front", "rear")):
            found[f"{which} {end} pickup"] = pickups[rear]
            found[f"{which} {end}"] = ours.leg(upper, rear)
    if ours.places.axis is not None:
        found["rocker pivot"] = ours.on_bearing().force
        found["couple"] = ours.on_bearing().moment
    return found


def _size(forces):
    """The largest force of a solution: what is small beside it may be lost in rounding."""
    return max(np.abs(np.append(value, 1.0)).max() for value in forces.values())


def test_enough_are_compared(compared):
    assert len(compared) > 0.6 * CORNERS
    assert {mount for *_, mount in compared} == {"lower arm", "upper arm", "upright"}
    assert {load[0] for *_, load, _ in compared} == set(loads.ACTS)
    assert len({bodies.rocker for _, bodies, *_ in compared}) == 2


def test_every_force_against_free_bodies(compared):
    for ours, bodies, applied, _, _ in compared:
        theirs, found = bodies.solve(applied), _named(ours)
        assert set(theirs) == set(found)
        near = 1e-8 * _size(theirs)
        for name, value in theirs.items():
            mine = _array(found[name]) if isinstance(found[name], Vec) else found[name]
            # A couple is as large as its forces times their arms.
            room = 300.0 * near if name == "couple" else near
            assert mine == pytest.approx(value, abs=room), name


def test_bending_is_that_of_the_pickups_side(compared):
    for ours, bodies, applied, _, mount in compared:
        theirs = bodies.solve(applied)
        near = 1e-8 * _size(theirs) * 300.0
        assert ours.bending() == pytest.approx(bodies.bending(theirs), abs=near)
        if mount == "upright":
            assert ours.bending() == 0.0


def test_what_the_frame_is_given_is_the_load(compared):
    """Our own forces at our own points: nothing is lost to a part in 1e9 of the load."""
    for ours, _, _, load, mount in compared:
        applied = loads.load_on_upright(ours.pose, *load).moved(Vec(0.0, 0.0, 0.0))
        force, moment = Vec(0.0, 0.0, 0.0), Vec(0.0, 0.0, 0.0)
        given = [(ours.pose.tie_inner, ours.on_rack())]
        given.append((ours.places.frame, ours.on_spring_frame()))
        for upper, arm in enumerate((ours.lower, ours.upper)):
            given += zip((arm.front, arm.rear), ours.on_pickups(upper), strict=True)
        if ours.places.axis is not None:
            bearing = ours.on_bearing()
            given.append((bearing.about, bearing.force))
            moment = moment + bearing.moment
        for point, one in given:
            force, moment = force + one, moment + point.cross(one)
        size = max(one.length() for _, one in given)
        assert (force - applied.force).length() < 1e-9 * size, mount
        assert (moment - applied.moment).length() < 1e-9 * size * 1000.0, mount


def test_arms_do_not_turn_and_struts_pull_along_themselves(compared):
    for ours, _, _, _, mount in compared:
        size = max(ours.at_lower.length(), ours.at_upper.length(), abs(ours.rod), 1.0)
        for upper, arm in enumerate((ours.lower, ours.upper)):
            if mount == ("upper arm" if upper else "lower arm"):
                continue
            for pickup, one in zip((arm.front, arm.rear), ours.on_pickups(upper), strict=True):
                across = one.cross((arm.ball - pickup).unit())
                assert across.length() < 1e-9 * size


def test_the_spring_by_the_work_of_the_load():
    """Spring pull x how much it lengthens is the load's work, the wheel raised a little.

    The wheel's place, its attitude and the spring's length are the authority's at three travels;
    the load of a wheel centre does work on that point alone.
    """
    tried = 0
    for ours, bodies, actuated, travel, rack, load in _worked(5201, 40):
        step = 1e-3
        low, high = (FreeBodies(bodies.corner, actuated, travel + s, rack) for s in (-step, step))
        gone = (high.wheel.centre - low.wheel.centre) / (2.0 * step)
        force = bodies.load("wheel centre", *load)[:3]
        longer = float(
            actuated.spring(travel + step, rack) - actuated.spring(travel - step, rack)
        ) / (2.0 * step)
        if abs(longer) < 0.1:
            continue
        assert ours.spring == pytest.approx(force @ gone / longer, rel=1e-5)
        tried += 1
    assert tried > 20


def test_the_rack_by_the_work_of_the_load():
    """What the tie rod gives the rack, the rack moved a little and the travel held."""
    tried = 0
    for ours, bodies, actuated, travel, rack, load in _worked(5301, 40):
        step = 1e-3
        low, high = (FreeBodies(bodies.corner, actuated, travel, rack + s) for s in (-step, step))
        gone = (high.wheel.centre - low.wheel.centre) / (2.0 * step)
        force = bodies.load("wheel centre", *load)[:3]
        longer = float(
            actuated.spring(travel, rack + step) - actuated.spring(travel, rack - step)
        ) / (2.0 * step)
        # The rack's movement takes in what load and spring do not.
        taken = force @ gone - ours.spring * longer
        size = max(abs(ours.tie), abs(ours.spring), 1.0)
        assert ours.on_rack().y == pytest.approx(taken, abs=1e-5 * size)
        tried += 1
    assert tried > 20


def _worked(seed, n):
    draw = np.random.default_rng(seed)
    corners = random_corners(seed + 1, n)
    for i in range(n):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points = random_actuation(draw, one, rocker=bool(draw.integers(4)))
        travel, rack = float(draw.uniform(-20, 20)), float(draw.uniform(-10, 10))
        load = draw.uniform(-1000.0, 1000.0, 3).tolist()
        actuated = Actuated({**one, **points}, mount)
        try:
            bodies = FreeBodies({**one, **points}, actuated, travel, rack)
        except NotClosed:
            continue
        ours = carried(one, linkage, mount, points, travel, rack, "wheel centre", *load)
        if ours.rod == ours.rod:
            yield ours, bodies, actuated, travel, rack, load


def test_a_vertical_load_as_drawn_against_the_older_authority():
    draw = np.random.default_rng(5401)
    corners = random_corners(5402, 20)
    for i in range(20):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points = random_actuation(draw, one)
        ours = carried(one, linkage, mount, points, 0.0, 0.0, "wheel centre", 0.0, 0.0, 1000.0)
        pushed = force_at_the_wheel({**one, **points}, mount, -ours.spring)
        assert pushed == pytest.approx(1000.0, rel=1e-7)


def _flat_corner(**changes):
    """A corner whose forces can be worked out on paper, in mm.

    Both arms level and square to the car, 300 long with pickups 150 ahead and behind; upright
    200 high and upright, the wheel 100 outboard of it, its centre midway, its radius 250; the
    steering arm 100 rearward at the height of the lower ball joint, the tie rod straight across.
    """
    corner = {
        "wheel centre": np.array([0.0, 600.0, 250.0]), "tyre radius": 250.0,
        "static camber": 0.0, "static toe": 0.0,
        "lower ball joint": np.array([0.0, 500.0, 150.0]),
        "lower front pickup": np.array([150.0, 200.0, 150.0]),
        "lower rear pickup": np.array([-150.0, 200.0, 150.0]),
        "upper ball joint": np.array([0.0, 500.0, 350.0]),
        "upper front pickup": np.array([150.0, 200.0, 350.0]),
        "upper rear pickup": np.array([-150.0, 200.0, 350.0]),
        "tie rod outer": np.array([-100.0, 500.0, 150.0]),
        "tie rod inner": np.array([-100.0, 200.0, 150.0]),
    }  # fmt: skip
    corner.update(changes)
    return corner


def _linkage(corner):
    from tests.support.corners import POINTS, VALUES, Corners

    points = {name: corner[name][None, :] for name in POINTS}
    return Corners(points, {name: np.array([corner[name]]) for name in VALUES}).linkage(0)


SPRING = {"rod outer": np.array([0.0, 400.0, 150.0]), "spring frame": np.array([0.0, 400.0, 450.0])}


def test_a_load_upward_by_hand():
    """1000 N up at the contact centre, an upright spring two thirds along the lower arm.

    Moments of the upright about the lower ball joint: 1000 x 100 outboard = 200 x upper force,
    so the upright pushes the upper arm inboard by 500 and pulls the lower one outboard by 500.
    Spring: 1000 x 300 / 200 = 1500, a push. Legs run 300 in and 150 along: length 335.41, so
    each upper leg pushes 500 / 2 x 335.41 / 300 = 279.51 and each lower one pulls as much.
    The pickups of the lower arm hold it down with 500 together; bending at the eye 1000 x 100.
    """
    corner = _flat_corner()
    ours = carried(corner, _linkage(corner), "lower arm", SPRING, 0.0, 0.0,
                   "contact centre", 0.0, 0.0, 1000.0)  # fmt: skip
    assert ours.spring == pytest.approx(-1500.0)
    assert ours.tie == pytest.approx(0.0, abs=1e-9)
    assert [*ours.at_upper] == pytest.approx([0.0, -500.0, 0.0])
    assert [*ours.at_lower] == pytest.approx([0.0, 500.0, 1000.0])
    for rear in (False, True):
        assert ours.leg(True, rear) == pytest.approx(-279.508497)
        assert [*ours.on_pickups(False)[rear]] == pytest.approx(
            [-125.0 if not rear else 125.0, 250.0, -250.0]
        )
    assert ours.bending() == pytest.approx(100_000.0)


def test_braking_by_hand():
    """1000 N rearward at the ground, the brake on the upright, and the same through a shaft.

    About the line across the car through the lower ball joint: the force 150 below it, on the
    upright with its torque, is taken by the upper arm 200 above: 750 forward there. Through a
    shaft the force stands at the wheel centre, 100 above the lower ball joint: 500 rearward.
    About the steering axis: 1000 x 100 outboard against the tie rod 100 behind: 1000; braking
    turns the wheel toward toe-out, which a steering arm behind the axis turns into a push.
    """
    corner = _flat_corner()
    linkage = _linkage(corner)
    ours = carried(corner, linkage, "lower arm", SPRING, 0.0, 0.0, "brake", -1000.0, 0.0, 0.0)
    assert ours.at_upper.x == pytest.approx(750.0)
    assert ours.at_lower.x == pytest.approx(-1750.0)
    assert ours.tie == pytest.approx(-1000.0)
    for acts in ("contact centre", "wheel centre"):
        shaft = carried(corner, linkage, "lower arm", SPRING, 0.0, 0.0, acts, -1000.0, 0.0, 0.0)
        assert shaft.at_upper.x == pytest.approx(-500.0)
        assert shaft.at_lower.x == pytest.approx(-500.0)
        assert shaft.tie == pytest.approx(-1000.0)


def test_a_side_force_by_hand():
    """1000 N inward at the ground beside 1000 N up: the planar case of an outer wheel.

    Seen from behind, as texts on suspension work a double wishbone (from memory: the method of
    Reimpell et al., The Automotive Chassis, forces on the upright; the numbers are ours). Moments
    about the lower ball joint, 150 above the ground: 1000 x 150 = 200 x upper force, so the side
    force alone pulls the upper arm outboard by 750 and pushes the lower one inboard by 1750. The
    load takes 500 from the one and 500 from the other: 250 and 1250. The spring, whose lever does
    not see the side force, holds 1500 as before, and without trail the tie rod nothing.
    """
    corner = _flat_corner()
    linkage = _linkage(corner)
    for upward, upper, lower, spring in (
        (0.0, 750.0, -1750.0, 0.0),
        (1000.0, 250.0, -1250.0, -1500.0),
    ):
        ours = carried(corner, linkage, "lower arm", SPRING, 0.0, 0.0,
                       "contact centre", 0.0, -1000.0, upward)  # fmt: skip
        assert [*ours.at_upper] == pytest.approx([0.0, upper, 0.0], abs=1e-9)
        assert [*ours.at_lower] == pytest.approx([0.0, lower, upward], abs=1e-9)
        assert ours.spring == pytest.approx(spring, abs=1e-9)
        assert ours.tie == pytest.approx(0.0, abs=1e-9)
        for rear in (False, True):
            # Two legs, each 335.41 long and 300 of it inward.
            assert ours.leg(True, rear) == pytest.approx(upper / 2 * 335.410197 / 300)


def test_arrays_of_poses_agree_with_floats():
    corner = _flat_corner()
    linkage = _linkage(corner)
    travel = np.linspace(-20.0, 20.0, 5)
    load = ("brake", -300.0, 200.0, 900.0)
    many = carried(corner, linkage, "lower arm", SPRING, travel, 4.0, *load)
    for i, one in enumerate(travel.tolist()):
        alone = carried(corner, linkage, "lower arm", SPRING, one, 4.0, *load)
        assert many.spring[i] == pytest.approx(alone.spring, rel=1e-12)
        assert many.leg(True, True)[i] == pytest.approx(alone.leg(True, True), rel=1e-9)


def test_the_authority_is_in_equilibrium_itself(compared):
    for _, bodies, applied, _, _ in compared:
        theirs = bodies.solve(applied)
        missed = bodies.on_frame(theirs) - applied
        assert np.abs(missed[:3]).max() < 1e-8 * _size(theirs)
        assert np.abs(missed[3:]).max() < 1e-8 * _size(theirs) * 1000.0
    assert wrench(np.array([1.0, 0.0, 0.0]), np.array([0.0, 2.0, 0.0]))[5] == 2.0
