"""A pose that several cells ask for is solved once."""

import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from cornerbook.geometry.corner.linkage import Linkage


@pytest.fixture
def solved(monkeypatch):
    """The list of (travel, rack) that the linkage was asked for."""
    asked = []
    pose = Linkage.pose

    def counted(self, travel, rack):
        asked.append((travel, rack))
        return pose(self, travel, rack)

    monkeypatch.setattr(Linkage, "pose", counted)
    return asked


def _own_block(lift):
    """A block that no other test has used, as a host would pass it."""
    return tuple(
        (row[0], *(cell + lift if isinstance(cell, float) and i == 2 else cell
                   for i, cell in enumerate(row[1:])))
        for row in EXAMPLE
    )  # fmt: skip


def test_many_formulas_at_one_pose(solved):
    corner = _own_block(0.125)
    for name in ("CASTER", "KPI", "TRAIL", "SCRUB", "CAMBER", "TOE", "CAMBER_GAIN", "BUMP_STEER"):
        assert isinstance(call(name, corner, 25.0, 10.0), float)
    assert isinstance(call("POINT", corner, "tie rod outer", 25.0, 10.0, "x"), float)
    assert solved == [(25.0, 10.0)]


def test_an_equal_block_is_the_same_corner(solved):
    call("CAMBER", _own_block(0.25), 25.0, 10.0)
    call("TOE", [list(row) for row in _own_block(0.25)], 25.0, 10.0)
    assert len(solved) == 1


def test_another_block_is_not(solved):
    first = call("CAMBER", _own_block(0.375), 25.0, 10.0)
    changed = [list(row) for row in _own_block(0.375)]
    changed[7][3] += 5.0
    assert call("CAMBER", changed, 25.0, 10.0) != first
    assert len(solved) == 2


def test_both_wheels_of_an_axle(solved):
    corner = _own_block(0.5)
    for name in ("STEER_LEFT", "STEER_RIGHT", "IDEAL_OUTER", "ACKERMANN", "TURNING_RADIUS"):
        assert isinstance(call(name, corner, 1600.0, -30.0), float)
    assert sorted(solved) == [(0.0, -30.0), (0.0, 30.0)]


def test_as_drawn_nothing_is_solved(solved):
    call("TRAIL", _own_block(0.625))
    assert solved == []


def test_a_sweep_solves_a_pose_once_for_all_its_columns(solved):
    call("SWEEP", _own_block(0.75), "camber, toe, trail, camber gain", "travel", -20, 20, 6)
    assert len(solved) == 6
