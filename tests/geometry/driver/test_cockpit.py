"""Room about a driver: a limb and a bar across the car, against the nearest of many places."""

import numpy as np
import pytest
from cornerbook.geometry.driver import cockpit
from cornerbook.geometry.vec import Vec


def test_a_limb_and_a_bar_against_many_places_on_the_limb():
    """A place between two that are looked at is nearer by no more than half a step of the limb."""
    draw = np.random.default_rng(61)
    ends, beyond = 0, 0
    for _ in range(300):
        upper, lower, bar = draw.uniform(-400.0, 400.0, (3, 2))
        ours = cockpit.limb_to_bar(upper.tolist(), lower.tolist(), 50.0, *bar.tolist(), 20.0) + 70.0
        share = np.linspace(0.0, 1.0, 20001)[:, None]
        ways = np.linalg.norm(upper + share * (lower - upper) - bar, axis=1)
        step = np.linalg.norm(lower - upper) / 20000.0
        assert ways.min() - step <= ours <= ways.min() + 1e-9
        at_end = np.argmin(ways) in (0, 20000)
        ends += at_end
        beyond += not at_end
    assert ends > 50 and beyond > 50


def test_by_hand():
    """A level limb 100 below the bar: 100 less both radii; past its end the way to that end."""
    under = cockpit.limb_to_bar((0.0, 0.0), (400.0, 0.0), 50.0, 200.0, 100.0, 20.0)
    assert under == pytest.approx(30.0)
    past = cockpit.limb_to_bar((0.0, 0.0), (400.0, 0.0), 50.0, 430.0, 40.0, 20.0)
    assert past == pytest.approx(50.0 - 70.0)


def test_arrays_agree_with_floats():
    at = np.array([-50.0, 200.0, 460.0])
    many = cockpit.limb_to_bar((0.0, 0.0), (400.0, 30.0), 50.0, at, 90.0, 20.0)
    for one, x in zip(many, at.tolist(), strict=True):
        alone = cockpit.limb_to_bar((0.0, 0.0), (400.0, 30.0), 50.0, x, 90.0, 20.0)
        assert one == pytest.approx(alone, rel=1e-12)


def test_a_limb_and_a_box_against_many_places_on_the_limb():
    """The way from a place to a box is known: what it is outside by, along each axis."""
    draw = np.random.default_rng(62)
    met, apart, beside = 0, 0, 0
    for _ in range(400):
        upper, lower = draw.uniform(-400.0, 400.0, (2, 2))
        y, centre = draw.uniform(0.0, 300.0), draw.uniform(-200.0, 200.0, 3)
        sides = draw.uniform(50.0, 400.0, 3)
        ours = cockpit.limb_to_box(
            upper.tolist(), lower.tolist(), y, 50.0, Vec(*centre.tolist()), Vec(*sides.tolist())
        ) + 50.0  # fmt: skip
        share = np.linspace(0.0, 1.0, 20001)[:, None]
        way = np.insert(upper + share * (lower - upper), 1, y, axis=1)
        off = np.maximum(np.abs(way - centre) - sides / 2.0, 0.0)
        ways = np.linalg.norm(off, axis=1)
        step = np.linalg.norm(lower - upper) / 20000.0
        assert ways.min() - step <= ours <= ways.min() + 1e-9
        met += ours == 0.0
        apart += ours > 0.0
        beside += bool(off[0, 1] > 0.0)
    assert met > 20 and apart > 100 and beside > 50
