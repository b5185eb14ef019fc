"""What members carry against the forces that a rigid-body engine's constraints give."""

import numpy as np
import pytest
from cornerbook.geometry.forces import loads
from cornerbook.geometry.vec import Vec

from tests.authorities.actuation_by_mpmath import Actuated, NotClosed
from tests.authorities.corner_by_free_bodies import FreeBodies
from tests.authorities.forces_by_mujoco import Engine
from tests.support.actuations import actuation_of, arms_at, random_load
from tests.support.corners import random_corners

CORNERS = 60


@pytest.fixture(scope="module")
def compared():
    """(ours, the engine, its forces, the size of the load, mount) at random poses."""
    draw = np.random.default_rng(8801)
    corners = random_corners(8802, CORNERS)
    found = []
    for i in range(CORNERS):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points, travel, rack, load = random_load(draw, one)
        whole = {**one, **points}
        try:
            bodies = FreeBodies(whole, Actuated(whole, mount), travel, rack)
        except NotClosed:
            continue
        pose = linkage.pose(travel, rack)
        places = actuation_of(one, linkage, mount, points).places(pose)
        applied = loads.load_on_upright(pose, *load)
        ours = loads.Carried(pose, *arms_at(one, pose), applied, mount, places)
        if ours.rod != ours.rod:
            continue
        engine = Engine(bodies)
        theirs = engine.solve(bodies.load(*load))
        found.append((ours, engine, theirs, applied, mount))
    return found


def _named(ours):
    found = {
        "tie rod": ours.tie, "rod": ours.rod, "spring": ours.spring,
        "lower ball joint": ours.at_lower, "upper ball joint": ours.at_upper,
    }  # fmt: skip
    for upper, arm in enumerate((ours.lower, ours.upper)):
        which = "upper" if upper else "lower"
        for end, force in zip(("front", "rear"), ours.on_pickups(upper), strict=True):
            found[f"{which} {end} pickup"] = force - arm.hinge * force.dot(arm.hinge)
    return found


def test_enough_are_compared(compared):
    assert len(compared) > 0.5 * CORNERS
    assert {mount for *_, mount in compared} == {"lower arm", "upper arm", "upright"}
    assert len({engine.rocker for _, engine, *_ in compared}) == 2


def test_every_force_is_what_the_constraints_give(compared):
    """Within what the engine's own bodies are left to accelerate by (`Engine.room`)."""
    near = 0
    for ours, engine, theirs, *_ in compared:
        mine = _named(ours)
        assert set(mine) == set(theirs)
        for name, value in theirs.items():
            one = np.array([*mine[name]]) if isinstance(mine[name], Vec) else mine[name]
            assert np.linalg.norm(one - value) <= engine.room, name
        largest = max(np.linalg.norm(value) for value in theirs.values())
        near += engine.room < 1e-5 * largest
    # Where the room is so small, another sign or lever would not pass.
    assert near > 0.5 * len(compared)


def test_sums_of_forces_and_moments_vanish(compared):
    """What the frame is given less the load, to a part in 1e9 of the largest force."""
    for ours, _, _, applied, _ in compared:
        given = [(ours.pose.tie_inner, ours.on_rack()),
                 (ours.places.frame, ours.on_spring_frame())]  # fmt: skip
        couple = Vec(0.0, 0.0, 0.0)
        for upper, arm in enumerate((ours.lower, ours.upper)):
            given += zip((arm.front, arm.rear), ours.on_pickups(upper), strict=True)
        if ours.places.axis is not None:
            bearing = ours.on_bearing()
            given.append((bearing.about, bearing.force))
            couple = bearing.moment
        size = max(force.length() for _, force in given)
        load = applied.moved(Vec(0.0, 0.0, 0.0))
        total, moment = -load.force, couple - load.moment
        for point, force in given:
            total, moment = total + force, moment + point.cross(force)
        assert total.length() < 1e-9 * size
        assert moment.length() < 1e-9 * size * 1000.0
