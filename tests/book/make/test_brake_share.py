"""The front share of the braking: what the brakes' parts make, unless a number is typed."""

import io

import pytest
from cornerbook.book.make.new import make

from tests.book.make.test_own_template import named
from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import changed, written
from tests.support.looking import looked_into

FOLLOWS = 'front_brake_share = "=BrakeShareMade or 0.7375"'
ALONE = 'title = "Mine"\nchapters = ["car"]\n'
WITH_BRAKES = (
    'title = "Mine"\nchapters = ["car", "wanted", "masses", "front-corner", "bump", "movement", '
    '"springs", "cornering", "brakes"]\n'
)

# Two front brakes and one behind: each the area of its piston over the master, times the radius.
FRONT, REAR = 2 * (31.8 / 15.9) ** 2 * 100, (28.6 / 15.9) ** 2 * 88


def book_of(folder, chapters, scenario):
    paths = written(folder, mine=chapters, lapwing=scenario)
    return looked_into(io.BytesIO(make(*paths)), data_only=True)


def test_the_share_of_the_parts_is_used(tmp_path):
    book = book_of(tmp_path, WITH_BRAKES, LAPWING)
    assert named(book, "FrontBrakeShare") == pytest.approx(FRONT / (FRONT + REAR))
    fewer = changed(LAPWING, "front_slave = 31.8", "front_slave = 28.6")
    smaller = book_of(tmp_path, WITH_BRAKES, fewer)
    front = FRONT * (28.6 / 31.8) ** 2
    assert named(smaller, "FrontBrakeShare") == pytest.approx(front / (front + REAR))
    # What follows from it does so too.
    assert named(smaller, "FrontLock") > named(book, "FrontLock")


def test_a_share_that_is_typed_goes_first(tmp_path):
    book = book_of(tmp_path, WITH_BRAKES, changed(LAPWING, FOLLOWS, "front_brake_share = 0.65"))
    assert named(book, "FrontBrakeShare") == 0.65
    assert named(book, "BrakeShareMade") == pytest.approx(FRONT / (FRONT + REAR))


def test_without_the_sheet_brakes_it_is_the_number(tmp_path):
    assert named(book_of(tmp_path, ALONE, LAPWING), "FrontBrakeShare") == 0.7375
