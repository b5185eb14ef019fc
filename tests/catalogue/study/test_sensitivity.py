"""Sensitivities against derivatives by the complex-step method, differences, and invariance."""

import functools

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.quantity import quantities

from tests.authorities.closure_by_complex_step import STEP, Wheel
from tests.catalogue.independent_sensitivity import changed
from tests.catalogue.test_bad_input import block, said
from tests.support.corners import POINTS, VALUES, random_corners

CORNERS = random_corners(731, 4)
MEASURES = ("camber", "toe", "caster", "kpi", "trail")
COORDINATES = [(p, i) for p in POINTS for i in range(3)] + [(v, None) for v in VALUES]
NAMES = [p if i is None else f"{p} {'xyz'[i]}" for p, i in COORDINATES]
POSES = [(0.0, 0.0), (25.0, -8.0), (-30.0, 12.0)]


def asked(point, index):
    """The point and the coordinate as SENSITIVITY takes them."""
    return point, "value" if index is None else "xyz"[index]


@functools.cache
def slopes(i, point, index, travel, rack):
    """{measure: derivative} of a random corner, by the complex-step method."""
    corner = {name: np.array(at, dtype=complex) for name, at in CORNERS.one(i).items()}
    if index is None:
        corner[point] = corner[point] + 1j * STEP
    else:
        corner[point][index] += 1j * STEP
    wheel = Wheel(corner, travel, rack)
    return {name: float(getattr(wheel, name).imag / STEP) for name in MEASURES}


@pytest.mark.parametrize("i", range(CORNERS.count))
@pytest.mark.parametrize("travel, rack", POSES)
def test_derivatives_are_those_of_the_complex_step(i, travel, rack):
    rows = CORNERS.rows(i)
    for point, index in COORDINATES:
        exact = slopes(i, point, index, travel, rack)
        for measure in MEASURES:
            found = call("SENSITIVITY", rows, measure, *asked(point, index), travel, rack)
            assert found == pytest.approx(exact[measure], rel=1e-8, abs=1e-10), (point, measure)


@pytest.mark.parametrize("travel, rack", POSES)
def test_the_table_has_the_same_derivatives_ranked(travel, rack):
    table = call("SENSITIVITIES", CORNERS.rows(1), "toe, trail", travel, rack)
    sizes = [abs(row[1]) for row in table]
    assert sizes == pytest.approx(sorted(sizes, reverse=True), rel=1e-8)
    found = {row[0]: row[1:] for row in table}
    assert len(found) == len(table)
    for name, (point, index) in zip(NAMES, COORDINATES, strict=True):
        exact = slopes(1, point, index, travel, rack)
        wanted = (exact["toe"], exact["trail"])
        assert found.get(name, (0.0, 0.0)) == pytest.approx(wanted, rel=1e-8, abs=1e-10)


def test_every_quantity_has_the_derivative_that_its_differences_tend_to():
    travel, rack, wheelbase, step = 25.0, -20.0, 1600.0, 1e-2
    cells = {row[0].lower(): row[1:] for row in EXAMPLE}
    some = [("upper ball joint", 2), ("tie rod inner", 2), ("lower front pickup", 1),
            ("rod inner", 1), ("wheel centre", 0), ("static toe", None)]  # fmt: skip
    moved = 0
    for point, index in some:
        at = 0 if index is None else index
        blocks = [changed(EXAMPLE, point, at, cells[point][at] + n * step) for n in (-2, -1, 1, 2)]
        for name in quantities():
            exact = call(
                "SENSITIVITY", EXAMPLE, name, *asked(point, index), travel, rack, wheelbase
            )
            a, b, c, d = (call("AT", other, name, travel, rack, wheelbase) for other in blocks)
            # Central differences of fourth order.
            difference = (a - 8.0 * b + 8.0 * c - d) / (12.0 * step)
            size = max(abs(call("AT", EXAMPLE, name, travel, rack, wheelbase)), 1.0)
            assert exact == pytest.approx(difference, rel=1e-6, abs=1e-9 * size), (name, point)
            moved += exact != 0.0
    assert moved > 3 * len(quantities())


@pytest.mark.parametrize(
    "quantity", ["camber", "toe", "bump steer", "trail", "lower ball joint angle"]
)
@pytest.mark.parametrize("axis", "xyz")
def test_to_move_the_whole_corner_changes_nothing(quantity, axis):
    """Every point moved alike: the derivatives along one axis add up to nothing."""
    every = [call("SENSITIVITY", CORNERS.rows(2), quantity, p, axis, 20.0, 9.0) for p in POINTS]
    assert sum(every) == pytest.approx(0.0, abs=1e-9 * max(map(abs, every)))
    assert max(map(abs, every)) > 0.0


@pytest.mark.parametrize("quantity", ["camber gain", "motion ratio", "roll centre"])
def test_another_unit_of_length(quantity):
    """Dimensions: a derivative by a length has a length less than its quantity."""
    power = {"camber gain": -2.0, "motion ratio": -1.0, "roll centre": 0.0}[quantity]
    small = tuple(
        (row[0], *(c / 25.4 if isinstance(c, float) and "Static" not in row[0] else c
                   for c in row[1:]))
        for row in EXAMPLE
    )  # fmt: skip
    there = call("SENSITIVITY", EXAMPLE, quantity, "lower ball joint", "z", 25.4)
    here = call("SENSITIVITY", small, quantity, "lower ball joint", "z", 1.0)
    assert here == pytest.approx(there * 25.4**-power, rel=1e-9)


def test_as_drawn_camber_and_toe_are_what_is_typed():
    table = call("SENSITIVITIES", EXAMPLE, "camber, toe")
    assert [row[0] for row in table] == ["static camber", "static toe"]
    assert table[0][1:] == pytest.approx((1.0, 0.0), abs=1e-12)
    assert table[1][1:] == pytest.approx((0.0, 1.0), abs=1e-12)


def test_signs_as_the_axis_leans():
    # The top of the axis forward is less caster; outward is less inclination.
    assert call("SENSITIVITY", EXAMPLE, "caster", "upper ball joint", "x") < 0.0
    assert call("SENSITIVITY", EXAMPLE, "kpi", "upper ball joint", "y") < 0.0


def test_what_does_not_matter_is_nothing():
    assert call("SENSITIVITY", EXAMPLE, "camber", "spring frame", "z", 20.0) == 0.0
    names = [row[0] for row in call("SENSITIVITIES", EXAMPLE, "camber", 20.0)]
    assert not [name for name in names if name.startswith(("rod ", "rocker", "spring", "tyre"))]


def test_rows_of_the_spring_may_be_missing_or_unfinished():
    unfinished = block(Rod_outer=("", "", ""), Rocker_pivot=None)
    assert call("SENSITIVITIES", unfinished, "camber", 20.0) == call(
        "SENSITIVITIES", EXAMPLE, "camber", 20.0
    )


@pytest.mark.parametrize(
    "arguments, words",
    [
        (("colour", "upper ball joint", "z"), ("quantity", "colour", "bump steer")),
        (("camber", "uper ball joint", "z"), ("point", "upper ball joint")),
        (("camber", "upper ball joint", "value"), ("coordinate", "x, y or z")),
        (("camber", "tyre radius", "z"), ("coordinate", "tyre radius", "value")),
        (("camber", "upper ball joint", "w"), ("coordinate", "w")),
        (("ackermann", "upper ball joint", "z", 0.0, 20.0), ("wheelbase",)),
        (("camber", "upper ball joint", "z", 300.0), ("travel 300", "arms end")),
        (("ackermann", "upper ball joint", "z", 0.0, 0.0, 1600.0), ("straight ahead",)),
        (("camber", "upper ball joint", "z", 0.0, 200.0), ("rack", "lock")),
    ],
)
def test_what_cannot_be_asked(arguments, words):
    said(call("SENSITIVITY", EXAMPLE, *arguments), *words)


def test_a_table_that_cannot_be_had():
    said(call("SENSITIVITIES", EXAMPLE, "camber, colour"), "quantities", "colour")
    said(call("SENSITIVITIES", EXAMPLE, "camber, toe", 300.0), "travel 300")
    said(call("SENSITIVITIES", EXAMPLE, "camber, ackermann", 0.0, 20.0), "wheelbase")
    said(
        call("SENSITIVITY", block(Rod_outer=None), "camber", "rod outer", "z"),
        "rod outer",
        "missing",
    )
