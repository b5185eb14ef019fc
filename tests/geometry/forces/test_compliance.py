"""What gives, against bodies on springs, against linkages closed anew, and a case by hand."""

import numpy as np
import pytest
from cornerbook.geometry.forces import compliance, loads

from tests.authorities.actuation_by_mpmath import Actuated, NotClosed
from tests.authorities.compliance_by_reclosing import Reclosed
from tests.authorities.compliance_by_springs import Springs
from tests.authorities.corner_by_free_bodies import FreeBodies
from tests.geometry.forces.test_loads import SPRING, _flat_corner, _linkage
from tests.support.actuations import actuation_of, arms_at, random_load
from tests.support.corners import random_corners


def changes(one, linkage, mount, points, pose, load, stiffness):
    """{angle: change} of ours."""
    places = actuation_of(one, linkage, mount, points).places(pose)
    applied = loads.load_on_upright(pose, *load)
    arms = arms_at(one, pose)
    given = [stiffness[place] for place in compliance.PLACES]
    return {
        angle: sum(compliance.change_of(angle, pose, applied, given, arms, mount, places))
        for angle in compliance.ANGLES
    }


def drawn(seed, n, share_rigid):
    """(ours, the bodies, their load, the stiffnesses) at random poses of random corners."""
    draw = np.random.default_rng(seed)
    corners = random_corners(seed + 1, n)
    for i in range(n):
        one, linkage = corners.one(i), corners.linkage(i)
        mount, points, travel, rack, load = random_load(draw, one)
        stiffness = {place: float(draw.uniform(500.0, 9000.0)) for place in compliance.PLACES}
        for place in compliance.PLACES:
            if draw.uniform() < share_rigid:
                stiffness[place] = 0.0
        try:
            bodies = FreeBodies({**one, **points}, Actuated({**one, **points}, mount), travel, rack)
        except NotClosed:
            continue
        pose = linkage.pose(travel, rack)
        ours = changes(one, linkage, mount, points, pose, load, stiffness)
        # Near a lock or over centre forces have no bounds, and small is not small.
        if all(abs(value) < 2.0 for value in ours.values()):
            yield ours, bodies, bodies.load(*load), stiffness


def test_every_angle_against_rigid_bodies_on_springs():
    tried, rockers = 0, set()
    for ours, bodies, applied, stiffness in drawn(6101, 60, 0.0):
        theirs = Springs(bodies, stiffness).changes(applied)
        for angle, value in theirs.items():
            assert ours[angle] == pytest.approx(value, rel=1e-6, abs=1e-7), angle
        tried += 1
        rockers.add(bodies.rocker)
    assert tried > 30
    assert len(rockers) == 2


def test_every_angle_against_a_linkage_closed_anew():
    tried = 0
    for ours, bodies, applied, stiffness in drawn(6201, 30, 0.4):
        theirs = Reclosed(bodies, stiffness).changes(applied)
        for angle, value in theirs.items():
            assert ours[angle] == pytest.approx(value, rel=1e-5, abs=1e-6), angle
        tried += 1
    assert tried > 14


def test_what_is_rigid_does_nothing():
    rigid = dict.fromkeys(compliance.PLACES, 0.0)
    for ours, *_ in drawn(6301, 3, 1.0):
        assert set(ours.values()) == {0.0}
    assert rigid.keys() == set(compliance.PLACES)


def test_a_tie_rod_by_hand():
    """Braking as in the loads' case by hand pushes the tie rod with 1000 N.

    A rod of 500 N/mm shortens by 2 mm; its lever of 100 mm turns the wheel toward toe-out by 2/100.
    """
    corner = _flat_corner()
    stiffness = {**dict.fromkeys(compliance.PLACES, 0.0), "tie rod": 500.0}
    linkage, load = _linkage(corner), ("brake", -1000.0, 0.0, 0.0)
    pose = linkage.pose(0.0, 0.0)
    ours = changes(corner, linkage, "lower arm", SPRING, pose, load, stiffness)
    assert ours["toe"] == pytest.approx(np.degrees(-0.02))
    assert ours["camber"] == pytest.approx(0.0, abs=1e-12)
    assert ours["caster"] == pytest.approx(0.0, abs=1e-12)
