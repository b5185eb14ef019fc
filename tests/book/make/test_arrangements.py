"""The sheet Arrangements: blank cells inherit, typed ones stand in their place."""

import io

import pytest
from cornerbook.book.make.new import make

from tests.authorities.masses_by_mujoco import joined
from tests.book.make.test_own_template import named
from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import changed, stopped, written
from tests.catalogue.independent_masses import boxes
from tests.support.looking import looked_into

CHAPTERS = 'title = "Mine"\nchapters = ["car", "wanted", "front-corner", "masses", "bump", ' \
    '"movement", "springs", "cornering", "arrangements"]\n'  # fmt: skip


@pytest.fixture
def made(tmp_path):
    """A function of a scenario's text: the values of a workbook made of it."""

    def run(scenario):
        paths = written(tmp_path, mine=CHAPTERS, lapwing=scenario)
        return looked_into(io.BytesIO(make(*paths)), data_only=True)

    return run


def rows_of(book, name):
    """The rows of a named range that have a mass, blanks as ''."""
    sheet, area = next(book.defined_names[name].destinations)
    found = []
    for row in book[sheet][area.replace("$", "")]:
        cells = ["" if cell.value is None else cell.value for cell in row]
        if cells[1] != "":
            found.append(cells)
    return found


def test_each_arrangement_is_the_body_of_its_parts(made):
    """Masses, centre and inertia of what stands there, by a rigid-body engine."""
    book = made(LAPWING)
    drawn = rows_of(book, "Parts")
    moved = {"B": {"Motor and final drive": -1820.0}, "A": {}}
    for letter, places in moved.items():
        parts = rows_of(book, f"Parts_{letter}")
        wanted = [[n, m, places.get(n, x), *rest] for n, m, x, *rest in drawn]
        assert parts == wanted
        mass, centre, inertia = joined(boxes(parts))
        assert named(book, f"Mass{letter}") == pytest.approx(mass)
        assert named(book, f"Height{letter}") == pytest.approx(centre[2])
        assert named(book, f"Yaw{letter}") == pytest.approx(inertia[2, 2], rel=1e-9)
        assert named(book, f"Share{letter}") == pytest.approx(1.0 + centre[0] / 1580.0)


def test_the_wheelbase_is_inherited_too(made):
    book = made(LAPWING)
    assert [named(book, f"Base{letter}") for letter in "ABC"] == [1580.0, 1580.0, 1700.0]


def test_a_place_of_nought_is_a_place(made):
    book = made(changed(LAPWING, '["Battery", "", "", "",', '["Battery", "", 0, "",'))
    (battery,) = [row for row in rows_of(book, "Parts_A") if row[0] == "Battery"]
    assert battery[2:5] == [-657, 0, 130]


def test_a_part_that_is_not_there(tmp_path):
    text = changed(LAPWING, '["Battery", "", "", ""', '["Batery", "", "", ""')
    said = stopped(tmp_path, CHAPTERS, text)
    assert 'arrangements.places: there is no part named "Batery"' in said
