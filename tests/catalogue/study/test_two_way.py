"""Two-way tables, cell by cell against the changed corner closed by SciPy and against AT."""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.authorities.closure_by_scipy import Closure
from tests.authorities.measures_by_scipy_rotation import Measured
from tests.catalogue.independent_sensitivity import changed
from tests.catalogue.test_bad_input import said
from tests.support.corners import Corners, random_corners


def wheel(rows, travel, rack):
    """The wheel of a block, closed by SciPy."""
    corner = Corners.of_rows(rows).one(0)
    return Measured(corner, *Closure(corner).solve(travel, rack))


@pytest.mark.parametrize("i", range(3))
def test_over_two_coordinates_of_random_corners(i):
    rows = random_corners(58, 3).rows(i)
    cells = {row[0].lower(): row[1:] for row in rows}
    z, x = cells["upper front pickup"][2], cells["lower ball joint"][0]
    table = call(
        "TWO_WAY", rows, "toe", "Upper front pickup z", z - 6.0, z + 6.0, 3,
        "lower-ball-joint X", x - 4.0, x + 4.0, 2, 22.0, -9.0,
    )  # fmt: skip
    assert table[0] == ("toe", x - 4.0, x + 4.0)
    assert [row[0] for row in table[1:]] == [z - 6.0, z, z + 6.0]
    for row in table[1:]:
        for at, value in zip(table[0][1:], row[1:], strict=True):
            other = changed(rows, "upper front pickup", 2, row[0])
            other = changed(other, "lower ball joint", 0, at)
            assert value == pytest.approx(wheel(other, 22.0, -9.0).toe, abs=1e-8)


def test_over_travel_and_rack():
    table = call("TWO_WAY", EXAMPLE, "camber", "rack", -20, 20, 3, "travel", -30, 30, 4)
    for row in table[1:]:
        for travel, value in zip(table[0][1:], row[1:], strict=True):
            assert value == pytest.approx(wheel(EXAMPLE, travel, row[0]).camber, abs=1e-9)


PAIRS = [
    ("tyre radius", 250.0, 270.0, "static camber", -2.0, 0.0),
    ("travel", -20.0, 20.0, "tie rod inner z", 180.0, 190.0),
    ("static toe", -0.5, 0.5, "rack", -15.0, 25.0),
    ("rod inner z", 448.0, 456.0, "spring frame y", 10.0, 20.0),
]


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: f"{pair[0]}, {pair[3]}")
@pytest.mark.parametrize(
    "quantity", ["trail", "roll centre", "motion ratio", "motion ratio change", "rocker angle",
                 "steer right", "spring length", "bump steer"],
)  # fmt: skip
def test_a_cell_is_what_at_gives_for_the_changed_block(pair, quantity):
    over_rows, low, high, over_columns, left, right = pair
    table = call(
        "TWO_WAY", EXAMPLE, quantity, over_rows, low, high, 3, over_columns, left, right, 2,
        12.0, -7.0, 1600.0,
    )  # fmt: skip
    differ = set()
    for row in table[1:]:
        for along, value in zip(table[0][1:], row[1:], strict=True):
            rows, at = EXAMPLE, {"travel": 12.0, "rack": -7.0}
            for name, number in ((over_rows, row[0]), (over_columns, along)):
                if name in at:
                    at[name] = number
                else:
                    point, _, axis = name.rpartition(" ")
                    single = axis not in ("x", "y", "z")
                    rows = changed(
                        rows, name if single else point, 0 if single else "xyz".index(axis), number
                    )
            expected = call("AT", rows, quantity, at["travel"], at["rack"], 1600.0)
            assert value == pytest.approx(expected, rel=1e-12)
            differ.add(value)
    # The table is no repeated cell, but for what has nothing to do with the two inputs.
    unmoved = over_rows == "rod inner z" and quantity in ("trail", "roll centre", "steer right",
                                                          "bump steer")  # fmt: skip
    assert (len(differ) == 1) == unmoved or over_rows in ("tyre radius", "static toe")


def test_without_a_rocker_the_spring_is_worked_out_too():
    direct = tuple(row for row in EXAMPLE if row[0] not in
                   ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker"))  # fmt: skip
    table = call("TWO_WAY", direct, "motion ratio", "travel", 0, 20, 2, "rack", 5, 10, 2)
    assert table[2][2] == pytest.approx(call("MOTION_RATIO", direct, 20.0, 10.0), rel=1e-12)


def test_what_cannot_be_reached_or_made_is_not_available():
    table = call("TWO_WAY", EXAMPLE, "camber", "travel", -300, 300, 5, "rack", -10, 10, 2)
    assert [row[1] is None for row in table[1:]] == [True, False, False, False, True]
    # At 150 the upper ball joint is no higher than the lower one; no radius is below 0.
    table = call("TWO_WAY", EXAMPLE, "trail", "upper ball joint z", 140, 380, 3,
                 "tyre radius", -260, 260, 2, 10)  # fmt: skip
    assert [[cell is None for cell in row[1:]] for row in table[1:]] == [
        [True, True], [True, False], [True, False],
    ]  # fmt: skip


def test_the_corner_itself_is_left_as_it_was():
    before = call("CAMBER", EXAMPLE, 21.0, 3.0)
    call("TWO_WAY", EXAMPLE, "camber", "travel", 21, 22, 2, "upper ball joint z", 360, 370, 2, 0, 3)
    assert call("CAMBER", EXAMPLE, 21.0, 3.0) == before


def test_two_hundred_by_two():
    table = call("TWO_WAY", EXAMPLE, "toe", "travel", -30, 30, 200, "rack", 0, 10, 2)
    assert np.shape([row[1:] for row in table[1:]]) == (200, 2)


GOOD = ("camber", "travel", -20.0, 20.0, 3, "rack", -5.0, 5.0, 2)


@pytest.mark.parametrize(
    "place, value, words",
    [
        (0, "colour", ("quantity", "colour")),
        (1, "uper ball joint z", ("over_rows", "upper ball joint")),
        (1, "upper ball joint", ("over_rows", "which coordinate")),
        (5, "travel", ("over_rows", "over_columns", "same")),
        (5, "spring rate", ("over_columns", "spring rate")),
        (4, 1, ("rows", "between")),
        (8, 201, ("columns", "between")),
        (8, 2.5, ("columns", "whole")),
        (0, "ackermann", ("wheelbase",)),
    ],
)
def test_what_cannot_be_asked(place, value, words):
    assert isinstance(call("TWO_WAY", EXAMPLE, *GOOD), tuple)
    arguments = [*GOOD[:place], value, *GOOD[place + 1 :]]
    said(call("TWO_WAY", EXAMPLE, *arguments), *words)


def test_a_row_that_the_block_lacks():
    bare = tuple(row for row in EXAMPLE if row[0] != "Rod inner")
    said(call("TWO_WAY", bare, "camber", "rod inner z", 1, 2, 2, "rack", 0, 1, 2), "rod inner")
