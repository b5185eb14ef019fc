"""The sheet Masses: what was measured, what the parts come to, and the guess, in that order."""

import io
import math

import pytest
from cornerbook.book.make.new import make

from tests.book.make.test_own_template import named
from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import changed, line_of, stopped, written
from tests.support.looking import looked_into

CHAPTERS = 'title = "Mine"\nchapters = ["car", "wanted", "masses"]\n'
DRIVER = '["Driver", "=DriverMass or 78", "=DriverX or -1008.4", 0, "=DriverZ or 353.1"'
PARTS = LAPWING[LAPWING.index("parts = [") : LAPWING.index("# What the sheets look over:")]


@pytest.fixture
def made(tmp_path):
    """A function of a scenario's text: the values of a workbook made of it."""

    def run(scenario):
        paths = written(tmp_path, mine=CHAPTERS, lapwing=scenario)
        return looked_into(io.BytesIO(make(*paths)), data_only=True)

    return run


def test_the_parts_come_to_what_was_guessed(made):
    """So the demonstration is one car: its guesses were good."""
    book = made(LAPWING)
    for used, guess in (("CarMass", 280.0), ("FrontShare", 0.43), ("CgHeight", 295.0),
                        ("UnsprungFront", 24.0), ("UnsprungRear", 0.0)):  # fmt: skip
        # The driver's part is that of a figure, so the sums are round to what a sheet shows.
        assert named(book, used) == pytest.approx(guess, rel=2e-4)
    assert named(book, "CarWeight") == pytest.approx(280.0 * 9.80665)


def test_without_parts_the_guess_is_used(made):
    book = made(changed(changed(LAPWING, PARTS, ""), "mass = 280", "mass = 271"))
    assert named(book, "PartsCount") == 0
    assert named(book, "CarMass") == 271.0
    assert named(book, "PartsMass") == "no parts"
    assert named(book, "FrontShare") == 0.43
    assert not named(book, "YawInertia")


@pytest.mark.parametrize(("part", "missing"), [('["Motor", "", -1500]', "mass"),
                                                ('["Motor", 40]', "x")])  # fmt: skip
def test_a_part_half_typed_is_not_passed_over_for_the_guess(made, part, missing):
    without = LAPWING[: LAPWING.index(PARTS)], LAPWING[LAPWING.index(PARTS) + len(PARTS) :]
    book = made(f"parts = [{part}]\n".join(without))
    for name in ("CarMass", "FrontShare", "CgHeight"):
        assert named(book, name).startswith(f"# parts: the {missing} of Motor is missing"), name


def test_what_was_measured_goes_first(made):
    book = made(changed(LAPWING, PARTS, "measured_mass = 284.5\n" + PARTS))
    assert named(book, "CarMass") == 284.5
    assert named(book, "PartsMass") == pytest.approx(280.0)
    assert named(book, "CgHeight") == pytest.approx(295.0, rel=2e-4)
    assert named(book, "CarWeight") == pytest.approx(284.5 * 9.80665)


def test_a_heavier_driver_is_felt(made):
    book = made(changed(LAPWING, DRIVER, '["Driver", 98, -850, 0, 340'))
    assert named(book, "CarMass") == pytest.approx(300.0)
    others = 280.0 * (1.0 - named(made(LAPWING), "FrontShare")) * 1580.0 - 78.0 * 1008.4
    behind = (others + 98.0 * 850.0) / 300.0
    assert named(book, "FrontShare") == pytest.approx(1.0 - behind / 1580.0)


def test_a_wrong_part_is_said_everywhere_and_no_number_shown(made):
    book = made(changed(LAPWING, DRIVER, '["Driver", 78, "", 0, 340'))
    for name in ("CarMass", "CgHeight", "CarWeight", "FrontShare", "YawInertia"):
        assert named(book, name) == (
            "# parts: the x of Driver is missing, where the row has other numbers"
        ), name


def test_an_inch_workbook_weighs_the_same(tmp_path):
    paths = written(tmp_path, mine=CHAPTERS, lapwing=LAPWING)
    book = looked_into(io.BytesIO(make(*paths, system="in")), data_only=True)
    assert named(book, "CarMass") * 0.45359237 == pytest.approx(280.0, rel=1e-10)
    assert named(book, "CarWeight") == pytest.approx(named(book, "CarMass"))
    assert named(book, "CgHeight") * 25.4 == pytest.approx(295.0, rel=2e-4)
    (answer,) = [
        r[1].value
        for r in book["Masses"]
        if r[0].value == "Yaw acceleration for side force in front"
    ]
    # The same car in SI: arm over inertia, of a force of one pound.
    inertia = named(book, "YawInertia") * 0.45359237 * 0.0254**2
    arm = (1.0 - named(book, "FrontShare")) * 1.580
    wanted = math.degrees(arm / inertia) * 0.45359237 * 9.80665
    assert answer == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (DRIVER, '["Driver", 78, "back", 0, 370',
         'masses.parts: row 1 is wrong at place 3: it is the text "back"; a number was expected'),
        ('["Driver", "=DriverMass', '[12, "=DriverMass',
         "row 1 is wrong at place 1: it is a number; a text"),
        ("262, 524, 90, 524, 1]", "262, 524, 90, 524, 1, 1, 1]", "row 12 has 11 places; 9 at most"),
        ('["Frame", 38, -622, 0, 257, 1900, 560, 400]', '"Frame"', "row 2 is a text; a list of 9"),
    ],
)  # fmt: skip
def test_a_mistake_in_the_rows_of_a_scenario(tmp_path, old, new, sentence):
    text = changed(LAPWING, old, new)
    said = stopped(tmp_path, CHAPTERS, text)
    assert sentence in said
    assert f"lapwing.toml, line {line_of(text, 'parts = [')}" in said


def test_too_many_rows(tmp_path):
    many = "parts = [" + ", ".join(['["A", 1, 0, 0, 1]'] * 31) + "]\n\n"
    said = stopped(tmp_path, CHAPTERS, changed(LAPWING, PARTS, many))
    assert "masses.parts has 31 rows; the block has room for 30" in said


def test_a_list_of_rows_was_expected(tmp_path):
    said = stopped(tmp_path, CHAPTERS, changed(LAPWING, PARTS, "parts = 3\n\n"))
    assert "masses.parts is a number; a list of rows was expected" in said


def test_a_part_follows_a_cell_where_the_workbook_has_it(made, tmp_path):
    """The cell is that name's formula; without that sheet it is the number, in any unit."""
    book = made(LAPWING)
    assert rows_of(book)["Driver"][:3] == [78, -1008.4, 0]
    own = (
        '\n[[sheet]]\nname = "Mine"\n\n[[sheet.block]]\nkind = "inputs"\nrows = [\n'
        '{ label = "Mass", name = "DriverMass", value = 91, kind = "mass" }]\n'
    )
    paths = written(tmp_path, mine=CHAPTERS + own, lapwing=LAPWING)
    book = looked_into(io.BytesIO(make(*paths, system="in")), data_only=True)
    mass, x, _ = rows_of(book)["Driver"][:3]
    assert mass == pytest.approx(91 / 0.45359237)
    assert x == pytest.approx(-1008.4 / 25.4)
    text = changed(LAPWING, "=DriverMass or 78", "=NoSuchCell")
    assert "NoSuchCell is neither a name nor cells" in stopped(tmp_path, CHAPTERS, text)


def rows_of(book):
    """The cells of each row of the parts by its name."""
    sheet, area = next(book.defined_names["Parts"].destinations)
    return {row[0].value: [c.value for c in row[1:]] for row in book[sheet][area.replace("$", "")]}
