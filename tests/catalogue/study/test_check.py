"""CHECK: what people do wrong as they type is said, and a plausible car is left alone."""

import math
import re

import pytest
from cornerbook.catalogue import call
from cornerbook.cells import usual
from cornerbook.cells.block import ACTUATION_POINTS, POINTS
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.findings import findings
from cornerbook.cells.inputs import corner_of
from cornerbook.cells.judge import BUT_LOOK, LOOK, WRONG

from tests.support import mistakes
from tests.support.cars import in_inches, plausible_cars
from tests.support.mistakes import MISTAKES

CARS = 5000


@pytest.fixture(scope="module")
def cars():
    return plausible_cars(821, CARS)


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_said(name):
    rows, start, *words = MISTAKES[name]
    said = call("CHECK", rows, "mm")
    assert said.startswith(start), said
    assert all(word in said for word in words), said


def test_there_are_many_mistakes_and_each_says_something():
    assert len(MISTAKES) >= 60
    for rows, start, *words in MISTAKES.values():
        assert start in (mistakes.WRONG, BUT_LOOK)
        assert words
        assert all(len(word) > 4 for word in words)
        assert rows != mistakes.CORNER


@pytest.mark.parametrize("rows", [mistakes.CORNER, mistakes.BARE, EXAMPLE])
def test_the_corner_in_which_they_are_made_is_sound(rows):
    assert call("CHECK", rows, "mm") == "ok"


def test_plausible_cars_in_millimetres(cars):
    assert [rows for rows in cars if call("CHECK", rows, "mm") != "ok"] == []


def test_plausible_cars_in_inches(cars):
    assert [rows for rows in cars if call("CHECK", in_inches(rows), "in") != "ok"] == []


def test_plausible_cars_whose_unit_is_not_said(cars):
    for rows in cars[:500]:
        assert call("CHECK", rows) == "ok"
        assert call("CHECK", in_inches(rows)) == "ok"


def test_the_plausible_cars_are_wide(cars):
    """Every kind of car that the generator speaks of is among them."""
    found = [{row[0]: row[1:] for row in rows} for rows in cars]
    radius = [car["Tyre radius"][0] for car in found]
    assert min(radius) < 205
    assert max(radius) > 335
    track = [2 * car["Wheel centre"][1] for car in found]
    assert min(track) < 720
    assert max(track) > 1480
    ahead = [car["Tie rod outer"][0] > car["Lower ball joint"][0] for car in found]
    low = [car["Tie rod outer"][2] < car["Wheel centre"][2] for car in found]
    far_in = [car["Tie rod inner"][1] < 0.2 * car["Tie rod outer"][1] for car in found]
    for share in (ahead, low, far_in):
        assert 0.03 < sum(share) / CARS < 0.97
    mounts = [car["Rod mount"][0] for car in found if "Rod mount" in car]
    assert {mount: mounts.count(mount) > 500 for mount in set(mounts)} == dict.fromkeys(
        ("lower arm", "upper arm", "upright"), True
    )
    assert CARS - len(mounts) > 500
    direct = sum("Rod outer" in car and "Rod inner" not in car for car in found)
    assert 500 < direct < CARS - 500
    turned = [car["Static toe"][0] * car["Static camber"][0] for car in found]
    assert min(turned) < 0 < max(turned)


@pytest.mark.parametrize("unit", ["mm", "any"])
def test_sentences_are_fit_for_a_cell(unit):
    """Each says what to do, and no part of it is too long for a text in a formula (255)."""
    seen = 0
    for kind, _, sentence, values in findings(corner_of(EXAMPLE), unit):
        seen += 1
        assert kind in (WRONG, LOOK)
        assert sentence.count("%s") == len(values)
        assert all(len(part) < 200 for part in sentence.split("%s"))
        assert "wrong" in sentence or sentence.endswith(("?", "%s", "apart")) or "give" in sentence
    assert seen > 80


def test_limits_part_what_is_rare_from_what_is_never():
    assert usual.CAMBER[0] < usual.CAMBER[1]
    assert usual.TOE[0] < usual.TOE[1]
    assert usual.CLOSEST < usual.SPAN[0]
    assert usual.SPRING[1] < usual.LONGEST_SPRING
    ever, usually = usual.HALF_TRACK_EVER, usual.HALF_TRACK
    assert ever[0] < usually[0] < usually[1] < ever[1]
    assert set(usual.FARTHEST) == set(POINTS[1:]) == set(usual.HIGHEST)
    assert set(usual.FARTHEST_OF_SPRING) == set(ACTUATION_POINTS)


def test_each_limit_says_where_it_comes_from():
    """Above each group of limits stands its source."""
    with open(usual.__file__, encoding="utf-8") as file:
        groups = re.split(r"\n\n+", file.read().partition('"""\n\n')[2])
    for group in groups:
        comment = " ".join(line.lstrip("# ") for line in group.splitlines() if line[:1] == "#")
        source = "common practice, no source" in comment.lower() or "geometry" in comment.lower()
        assert source or group.startswith("# Lengths of one millimetre"), group


def test_several_things_are_said_in_one_sentence():
    rows = mistakes.value("Static camber", 8.0)
    rows = mistakes.at("Tie rod outer", "x", 95.0, rows)
    said = call("CHECK", rows, "mm")
    assert said.startswith("ok, but look: static camber: 8 degrees")
    assert "; tie rod: seen from above" in said


def test_what_is_wrong_comes_before_what_is_unlikely():
    rows = mistakes.value("Static camber", 8.0)
    rows = mistakes.swapped("Lower front pickup", "Lower rear pickup", rows)
    said = call("CHECK", rows, "mm")
    assert said.startswith("# lower front pickup: x is -150")
    assert "camber" not in said


def test_a_wheel_that_is_none_hides_what_is_measured_by_it():
    for unit in ("mm", "any"):
        said = call("CHECK", mistakes.by(mistakes.INCH, "Tyre radius"), unit)
        assert "wheel centre: y is 550, which does not go with a tyre radius of 10.2" in said
        assert "pickup" not in said


def test_the_ground_is_looked_at_with_the_static_camber():
    """The wheel's lowest point is the radius times the cosine of the camber below its centre."""
    most = 260.0 * usual.OFF_GROUND
    for camber in (0.0, -4.9):
        standing = 260.0 * math.cos(math.radians(camber))
        rows = mistakes.value("Static camber", camber)
        for off, said in ((-1.02 * most, "at z -5.3"), (1.02 * most, "at z 5.3")):
            off_ground = mistakes.at("Wheel centre", "z", standing + off, rows)
            assert f"the tyre's lowest point is {said}" in call("CHECK", off_ground, "mm")
            near = mistakes.at("Wheel centre", "z", standing + 0.96 * off, rows)
            assert call("CHECK", near, "mm") == "ok"


def test_what_is_far_inside_the_limits_is_fine_whatever_the_order_of_rows():
    rows = tuple(reversed(EXAMPLE))
    assert call("CHECK", rows, "mm") == "ok"
