"""Roll steer in front, of some hundreds of corners, against both wheels closed by SciPy."""

import numpy as np
import pytest
from cornerbook.catalogue import call

from tests.authorities.closure_by_scipy import Closure, NotClosed
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.support.corners import random_corners

CORNERS = 300
ROLL = 0.1


def steer_by_roll(closure, corner, track, roll):
    """Mean steer of both wheels into the turn for each degree, the body's left side up by a roll.

    The left wheel drops and the right one, its mirror, rises by half the track times the roll.
    Toe-in turns the left wheel to the right and the right one to the left, into this turn.
    """
    travel = 0.5 * track * np.tan(np.radians(roll))
    left, right = (
        Measured(corner, *closure.solve(way, 0.0, stages=1)).toe for way in (-travel, travel)
    )
    return (-left + right) / 2.0 / roll


def test_roll_steer_of_many_corners():
    """Steers at a roll and at twice it: what they differ by bounds what is left of their slope."""
    corners = random_corners(9101, CORNERS)
    tried, turned = 0, []
    for i in range(CORNERS):
        corner, block = corners.one(i), tuple(corners.rows(i))
        closure = Closure(corner)
        track = 2.0 * float(corner["wheel centre"][1])
        try:
            one, two = (steer_by_roll(closure, corner, track, n * ROLL) for n in (1, 2))
        except NotClosed:
            continue
        bump_steer = call("BUMP_STEER", block)
        if isinstance(bump_steer, str):
            continue
        ours = call("FRONT_ROLL_STEER", bump_steer, track)
        # Links that miss their lengths by 1e-8 mm at arms of 50 mm and more turn a wheel by some
        # 1e-8 degrees; over the roll that is a part in 1e7.
        assert ours == pytest.approx(one, abs=abs(one - two) + 1e-6)
        tried += 1
        turned.append((ours, abs(one - two)))
    assert tried > 0.8 * CORNERS
    # The bound would let no other sign pass for most of them.
    assert sum(abs(ours) > 20.0 * room for ours, room in turned) > 0.8 * tried
    assert min(turned)[0] < 0.0 < max(turned)[0]
