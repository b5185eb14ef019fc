"""Dual numbers: their slopes against SymPy's derivatives, and second derivatives of a linkage."""

import math

import numpy as np
import pytest
import sympy as sp
from cornerbook.book.plain.recorded.steps import Recorder
from cornerbook.book.plain.recorded.work import evaluated
from cornerbook.geometry import numbers
from cornerbook.geometry.corner import motion
from cornerbook.geometry.corner.dual import Dual, moving, moving_pose, still
from cornerbook.geometry.vec import Vec

from tests.support.corners import random_corners
from tests.support.sampling import random_poses

# Each as a function of a number x, and the same in SymPy.
FUNCTIONS = {
    "sum": (lambda x: x + x + 3.0, lambda x: 2 * x + 3),
    "sum from the left": (lambda x: 3.0 + x, lambda x: 3 + x),
    "difference": (lambda x: x - x * x - 2.0, lambda x: x - x**2 - 2),
    "difference from the left": (lambda x: 3.0 - x, lambda x: 3 - x),
    "product": (lambda x: x * (x + 1.0) * 2.0, lambda x: 2 * x * (x + 1)),
    "product from the left": (lambda x: 2.5 * x, lambda x: sp.Rational(5, 2) * x),
    "quotient": (lambda x: (x + 1.0) / (x * x + 2.0), lambda x: (x + 1) / (x**2 + 2)),
    "quotient by a float": (lambda x: x / 7.0, lambda x: x / 7),
    "quotient from the left": (lambda x: 3.0 / x, lambda x: 3 / x),
    "opposite": (lambda x: -x * x, lambda x: -(x**2)),
    "square root": (lambda x: numbers.sqrt(x * x + 1.0), lambda x: sp.sqrt(x**2 + 1)),
    "sine": (lambda x: numbers.sin(3.0 * x), lambda x: sp.sin(3 * x)),
    "cosine": (lambda x: numbers.cos(3.0 * x), lambda x: sp.cos(3 * x)),
    "tangent": (lambda x: numbers.tan(0.5 * x), lambda x: sp.tan(x / 2)),
    "angle": (lambda x: numbers.atan2(x * x, x - 3.0), lambda x: sp.atan2(x**2, x - 3)),
    "angle, x alone": (lambda x: numbers.atan2(x, still(2.0)), lambda x: sp.atan2(x, 2)),
    "size": (lambda x: numbers.absolute(x - 1.0), lambda x: sp.Abs(x - 1)),
    "larger": (lambda x: numbers.larger(x * x, 1.0), lambda x: sp.Max(x**2, 1)),
    "choice": (
        lambda x: numbers.where(x > 1.0, x * x, Dual(5.0, 0.0)),
        lambda x: sp.Piecewise((x**2, x > 1), (5, True)),
    ),
    "sign": (lambda x: x * numbers.sign(x - 1.0), lambda x: x * sp.sign(x - 1)),
    "ratio": (lambda x: numbers.ratio(1.0 + x, x, 0.0), lambda x: (1 + x) / x),
}  # fmt: skip
PLACES = (0.3, 0.9, 1.4, 2.6)


def derivatives(name):
    """(values, slopes) by SymPy, in 30 digits."""
    x = sp.Symbol("x", real=True)
    wanted = FUNCTIONS[name][1](x)
    at = [sp.Float(place, 30) for place in PLACES]
    slope = sp.diff(wanted, x)
    return (
        [float(wanted.subs(x, a)) for a in at],
        [float(slope.subs(x, a).doit()) for a in at],
    )


@pytest.mark.parametrize("name", FUNCTIONS)
def test_slopes_are_derivatives(name):
    values, slopes = derivatives(name)
    for place, value, slope in zip(PLACES, values, slopes, strict=True):
        # x runs at a speed of two.
        found = FUNCTIONS[name][0](Dual(place, 2.0))
        assert found.value == pytest.approx(value, rel=1e-14)
        assert found.slope == pytest.approx(2.0 * slope, rel=1e-13, abs=1e-14)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_arrays(name):
    values, slopes = derivatives(name)
    found = FUNCTIONS[name][0](Dual(np.array(PLACES), 1.0))
    assert found.value == pytest.approx(values, rel=1e-14)
    assert found.slope + np.zeros(4) == pytest.approx(slopes, rel=1e-13, abs=1e-14)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_recorded_steps(name):
    recorder = Recorder()
    found = FUNCTIONS[name][0](Dual(recorder.input("x"), 1.0))
    for place, value, slope in zip(PLACES, *derivatives(name), strict=True):
        for step, wanted in ((found.value, value), (found.slope, slope)):
            got = evaluated(recorder.step(step), lambda _, place=place: place, {})
            assert got == pytest.approx(wanted, rel=1e-13, abs=1e-14)


def test_duals_of_duals():
    """The second derivative of 1/x + sqrt(x)."""
    x = Dual(Dual(1.7, 1.0), Dual(1.0, 0.0))
    found = 1.0 / x + numbers.sqrt(x)
    assert found.slope.slope == pytest.approx(2.0 / 1.7**3 - 0.25 * 1.7**-1.5, rel=1e-14)


def test_an_array_on_the_left_leaves_the_work_to_the_dual():
    found = np.array([1.0, 2.0]) * Dual(np.array([3.0, 4.0]), 1.0)
    assert isinstance(found, Dual)
    assert found.value.tolist() == [3.0, 8.0]
    assert found.slope.tolist() == [1.0, 2.0]


def test_comparisons_are_of_values():
    one, other = Dual(1.0, 5.0), Dual(2.0, -5.0)
    assert one < other and other > one and one <= 1.0 and other >= 2.0
    assert one == Dual(1.0, 0.0) and one != other
    with pytest.raises(TypeError):
        hash(one)


def test_what_has_no_real_answer_is_nan():
    found = numbers.sqrt(Dual(-1.0, 1.0))
    assert math.isnan(found.value) and math.isnan(found.slope)
    assert math.isnan(numbers.larger(Dual(math.nan, 1.0), 0.0).value)


def test_rotation():
    """A turning direction keeps its length; its slope is square to it."""
    spin, way = Vec(0.1, -0.3, 0.7), Vec(0.2, 0.9, -0.1)
    turning = moving(way, spin.cross(way))
    assert turning.length().slope == pytest.approx(0.0, abs=1e-16)
    assert turning.unit().dot(still(way)).slope == pytest.approx(0.0, abs=1e-16)


@pytest.mark.parametrize("rack", [0.0, 12.0])
def test_second_derivatives_of_a_linkage(rack):
    """By travel on a moving pose, against high-order differences of velocities."""
    corners = random_corners(911, 25)
    step = 1.5
    # Central differences of eighth order.
    weights = {1: 4 / 5, 2: -1 / 5, 3: 4 / 105, 4: -1 / 280}
    for i in range(25):
        linkage = corners.linkage(i)

        def moved(travel, linkage=linkage):
            pose = linkage.pose(travel, rack)
            return pose, motion.by_travel(linkage, pose)

        pose, move = moved(10.0)
        found = motion.by_travel(still(linkage), moving_pose(pose, move))
        for name in ("spin", "lower", "lower_at"):
            for axis in "xyz":
                dual = getattr(getattr(found, name), axis)

                def there(travel, name=name, axis=axis, moved=moved):
                    return getattr(getattr(moved(travel)[1], name), axis)

                slope = (
                    sum(
                        w * (there(10.0 + n * step) - there(10.0 - n * step))
                        for n, w in weights.items()
                    )
                    / step
                )
                assert dual.value == there(10.0)
                assert dual.slope == pytest.approx(slope, rel=1e-8, abs=1e-11)


def test_arrays_of_poses_agree_with_floats():
    corners = random_corners(912, 1)
    linkage = corners.linkage(0)
    travels, racks = (each[0] for each in random_poses(913, corners, 20))
    pose = linkage.pose(travels, racks)
    many = motion.by_travel(still(linkage), moving_pose(pose, motion.by_travel(linkage, pose)))
    for i, (travel, rack) in enumerate(zip(travels.tolist(), racks.tolist(), strict=True)):
        pose = linkage.pose(travel, rack)
        one = motion.by_travel(still(linkage), moving_pose(pose, motion.by_travel(linkage, pose)))
        assert many.spin.x.slope[i] == pytest.approx(one.spin.x.slope, rel=1e-9, nan_ok=True)
