"""Toe, camber and caster as measured: of random wheels whose rims are turned by SciPy."""

import numpy as np
import pytest
from cornerbook.geometry.set_up import alignment

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.authorities.rims_by_rotation import Rim, swung
from tests.support.corners import random_corners

DRAW = np.random.default_rng(1701)
WHEELS = np.column_stack([DRAW.uniform(-4, 4, 100), DRAW.uniform(-6, 6, 100)]).tolist()


@pytest.mark.parametrize("toe, camber", WHEELS)
def test_what_is_measured_at_a_rim_is_its_toe_and_camber(toe, camber):
    rim = Rim(toe, camber, 406.0)
    front, rear = rim.at_hub_height()
    # A string 700 mm out; the gap is larger where the rim is farther inboard.
    gaps = (700.0 - front[1]) - (700.0 - rear[1])
    assert alignment.angle_of_gaps(gaps, 406.0) == pytest.approx(toe, abs=1e-10)
    assert alignment.gaps_of_angle(toe, 406.0) == pytest.approx(gaps, abs=1e-10)
    top, bottom = rim.top_and_bottom() @ rim.level_outboard()
    gaps = (700.0 - bottom) - (700.0 - top)
    assert alignment.angle_of_gaps(gaps, 406.0) == pytest.approx(camber, abs=1e-10)


@pytest.mark.parametrize("i", range(100))
def test_a_swing_tells_the_axis(i):
    draw = np.random.default_rng([1702, i])
    caster, inclination, straight = draw.uniform(-3, 12), draw.uniform(-2, 16), draw.uniform(-4, 4)
    turned_in, turned_out = draw.uniform(10, 35, 2).tolist()
    camber_in, camber_out = swung(caster, inclination, straight, turned_in, turned_out)
    ends = (camber_in, camber_out, turned_in, turned_out)
    assert alignment.caster_by_swing(*ends, inclination) == pytest.approx(caster, abs=1e-8)
    found = alignment.inclination_by_swing(camber_in, straight, *ends[1:])
    assert found == pytest.approx(inclination, abs=1e-7)


def test_the_rule_for_small_angles_is_near_for_small_angles_alone():
    for caster, most in ((0.2, 2e-3), (6.0, 0.2)):
        ends = (*swung(caster, 9.0, -1.0, 20.0, 20.0), 20.0, 20.0)
        assert abs(alignment.caster_by_small_angles(*ends) - caster) < most
    # Farther off with unequal turns, of which inclination makes camber too.
    ends = (*swung(6.0, 9.0, -1.0, 25.0, 15.0), 25.0, 15.0)
    assert abs(alignment.caster_by_small_angles(*ends) - 6.0) > 0.3
    assert alignment.caster_by_swing(*ends, 9.0) == pytest.approx(6.0, abs=1e-8)


CORNERS = random_corners(1703, 6)


@pytest.mark.parametrize("i", range(CORNERS.count))
def test_a_corner_turned_by_its_rack_reads_nearly_its_caster(i):
    """The linkage closed by SciPy at both racks: arms move a little, so nearly is all."""
    corner = CORNERS.one(i)
    corner["static toe"] = 0.0
    closure = Closure(corner)
    drawn, one, other = (
        Measured(corner, *closure.solve(0.0, rack, stages=8)) for rack in (0.0, 12.0, -12.0)
    )
    inner, outer = sorted((one, other), key=lambda wheel: -wheel.toe)
    found = alignment.caster_by_swing(
        inner.camber, outer.camber, inner.toe, -outer.toe, drawn.inclination
    )
    assert found == pytest.approx(drawn.caster, abs=0.4)


def test_floats_and_arrays_agree():
    numbers = np.array([[-2.6, 1.6, 20.0, 19.0, 9.0], [-1.0, 2.5, 15.0, 25.0, 12.0]])
    at_once = alignment.caster_by_swing(*numbers.T)
    assert at_once.tolist() == [alignment.caster_by_swing(*row) for row in numbers.tolist()]
