"""Lengths and angles of drawn points, and how far a distance may be off."""

import numpy as np
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.test_bad_input import block, said
from tests.support.corners import random_corners

CORNERS = random_corners(1751, 6)


@pytest.mark.parametrize("i", range(CORNERS.count))
@pytest.mark.parametrize("quantity", ["camber gain", "bump steer", "roll centre"])
@pytest.mark.parametrize("pair", [("lower front pickup", "tie rod inner"),
                                  ("upper rear pickup", "lower rear pickup")])  # fmt: skip
def test_moved_by_a_little_it_goes_that_part_of_its_room(i, quantity, pair):
    """A point moved by a thousandth of the leeway takes a thousandth of the room, at most."""
    rows, corner = CORNERS.rows(i), CORNERS.one(i)
    now = call("AT", rows, quantity)
    room = 0.1 * abs(now) + 1e-4
    leeway = call("DISTANCE_LEEWAY", rows, *pair, quantity, now - room, now + 2.0 * room)
    assert leeway > 0.0
    way = corner[pair[1]] - corner[pair[0]]
    way = 1e-3 * leeway * way / np.linalg.norm(way)
    taken = []
    for point in pair:
        moved = tuple(
            (row[0], *(np.add(row[1:], way).tolist() if row[0].lower() == point else row[1:]))
            for row in rows
        )
        taken.append(abs(call("AT", moved, quantity) - now) / room)
    assert max(taken) == pytest.approx(1e-3, rel=0.02)


def test_lengths_go_both_ways_and_across():
    for one, other in (("lower front pickup", "tie rod inner"), ("rod outer", "spring frame")):
        here = call("POINT_DISTANCE", EXAMPLE, one, other)
        assert here == call("POINT_DISTANCE", EXAMPLE, other, one, "same")
        assert call("POINT_DISTANCE", EXAMPLE, one, other, "other") > here
    assert call("POINT_DISTANCE", EXAMPLE, "tie rod inner", "tie rod inner", "other") == 430.0


def test_the_angles_with_the_axes_are_those_of_one_direction():
    ends = ("lower rear pickup", "upper front pickup")
    angles = [call("LINE_ANGLE", EXAMPLE, *ends, axis) for axis in "xyz"]
    assert sum(np.cos(np.radians(angles)) ** 2) == pytest.approx(1.0)
    back = [call("LINE_ANGLE", EXAMPLE, *ends[::-1], axis) for axis in "xyz"]
    assert np.add(angles, back) == pytest.approx(180.0)


@pytest.mark.parametrize(
    "name, arguments, words",
    [
        ("POINT_DISTANCE", ("lower frunt pickup", "tie rod inner"), ("lower frunt pickup",)),
        ("ANGLE_AT_POINT", ("tie rod inner", "tie rod inner", "rod outer"), ("one place",)),
        ("LINE_ANGLE", ("tie rod inner", "rod outer", "up"), ("axis", "x, y, z")),
        ("DISTANCE_LEEWAY", ("rod outer", "rod inner", "toe", -1.0, 1.0), ("does not depend",)),
        ("DISTANCE_LEEWAY", ("tie rod inner", "rod inner", "toe", 1.0, 2.0), ("outside its band",)),
        ("DISTANCE_LEEWAY", ("tie rod inner", "rod inner", "colour", 1.0, 2.0), ("colour",)),
    ],
)  # fmt: skip
def test_what_cannot_be_asked(name, arguments, words):
    said(call(name, EXAMPLE, *arguments), *words)


def test_an_unfinished_block_will_do_for_a_length():
    rows = block(Upper_ball_joint=None, Tyre_radius=None)
    assert call("POINT_DISTANCE", rows, "tie rod inner", "lower ball joint") == call(
        "POINT_DISTANCE", EXAMPLE, "tie rod inner", "lower ball joint"
    )


def column(*cells):
    return tuple((cell,) for cell in cells)


def test_a_survey_reads_as_drawn_what_the_points_say():
    rows = {row[0].lower(): np.array(row[1:4], dtype=float) for row in EXAMPLE if row[3] != ""}
    found = call(
        "SURVEY_AS_DRAWN", EXAMPLE,
        column("", "height", "Y", "x", "distance", "", ""),
        column("Upper ball joint", "right wheel centre", "right tie rod inner", "rod-outer",
               "left tie rod inner", "", "rod outer"),
        column("left lower ball joint", "", "", "", "right tie rod inner", "", ""),
        column(230.0, 261.0, "", 3.0, 431.0, "", ""),
    )  # fmt: skip
    apart = np.linalg.norm(rows["upper ball joint"] - rows["lower ball joint"])
    wanted = [
        (apart, 230.0 - apart), (260.0, 1.0), (-rows["tie rod inner"][1], ""),
        (rows["rod outer"][0], 3.0 - rows["rod outer"][0]), (430.0, 1.0), ("", ""), ("", ""),
    ]  # fmt: skip
    for row, (drawn, more) in zip(found, wanted, strict=True):
        assert row[0] == (pytest.approx(drawn) if drawn != "" else "")
        assert row[1] == (pytest.approx(more) if more != "" else "")
        assert row[2] == ""


@pytest.mark.parametrize(
    "row, words",
    [
        (("", "uper ball joint", "tie rod inner", 1.0), ("from", "did you mean upper ball joint")),
        (("", "upper ball joint", "left left", 1.0), ("to", "no row")),
        (("dist", "upper ball joint", "tie rod inner", 1.0), ("what", "dist", "height")),
        (("x", "upper ball joint", "tie rod inner", 1.0), ("one point", "leave to blank")),
        (("", "upper ball joint", "left upper ball joint", 1.0), ("one place",)),
        (("", "upper ball joint", "tie rod inner", "27o"), ("measured", "27o", "a number")),
        (("", 5.0, "tie rod inner", 1.0), ("from", "5", "a text")),
        ((5.0, "upper ball joint", "tie rod inner", 1.0), ("what", "5", "a text")),
    ],
)
def test_a_wrong_row_of_a_survey_is_said_beside_it(row, words):
    ((drawn, more, remark),) = call("SURVEY_AS_DRAWN", EXAMPLE, *row)
    assert drawn == more == ""
    said(remark, *words)
