"""A template of the user's own: sheets in the file itself, our chapters, his, or a mixture."""

import io

import openpyxl
import pytest
from cornerbook.book.make.new import make
from cornerbook.book.make.texts.places import find

from tests.book.make.flat import flat
from tests.support.looking import looked_into

BRAKES = """about = "Braking: how far the car rolls on."
needs = ["car"]
gives = ["StopFrom", "StopIn"]

[[sheet]]
name = "Brakes"

[[sheet.block]]
kind = "inputs"
rows = [{ label = "Speed", name = "StopFrom", value = 12, kind = "ratio" }]

[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [
  { label = "Way", name = "StopIn", kind = "ratio", formula = "=StopFrom^2/(20*FrontBrakeShare)" },
]
"""

OWN_SHEET = """
[[sheet]]
name = "Mine"

[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [{ label = "Half of it", name = "HalfStop", kind = "ratio", formula = "=StopIn/2" }]
"""


def written(folder, template, **chapters):
    """A template's path, with chapters of the user's own beside it in `parts`."""
    (folder / "parts").mkdir(parents=True)
    for name, text in chapters.items():
        (folder / "parts" / (name + ".toml")).write_text(text, encoding="utf-8")
    path = folder / "mine.toml"
    path.write_text(template, encoding="utf-8")
    return str(path)


def values(content):
    return looked_into(io.BytesIO(content), data_only=True)


def named(book, name):
    sheet, cell = next(book.defined_names[name].destinations)
    return book[sheet][cell.replace("$", "")].value


def test_sheets_in_the_file_itself_give_the_same_workbook(tmp_path, starter):
    path = written(tmp_path / "flat", flat("car"))
    assert make(path) == starter.read_bytes()


def test_ours_and_his_and_sheets_in_the_file(tmp_path, monkeypatch):
    """By name, by a path from the template's own folder wherever it runs, and at the end."""
    listed = 'title = "Mine"\nchapters = ["car", "parts/brakes.toml"]\n' + OWN_SHEET
    path = written(tmp_path / "mixed", listed, brakes=BRAKES)
    monkeypatch.chdir(tmp_path)
    book = values(make(path))
    assert book.sheetnames == ["Car", "Brakes", "Mine"]
    share = named(book, "FrontBrakeShare")
    assert 0 < share <= 1
    assert named(book, "StopIn") == pytest.approx(144 / (20 * share))
    assert named(book, "HalfStop") == pytest.approx(named(book, "StopIn") / 2)


def test_sheets_of_the_file_may_use_a_table_of_a_chapter(tmp_path):
    chart = '[[sheet]]\nname = "Mine"\n[[sheet.block]]\nkind = "chart"\ntable = "bump"\n'
    chart += 'title = "Trail"\nquantities = ["trail"]\n'
    listed = 'title = "Mine"\nchapters = ["car", "front-corner", "bump"]\n' + chart
    book = openpyxl.load_workbook(io.BytesIO(make(written(tmp_path / "chart", listed))))
    (drawn,) = book["Mine"]._charts
    assert drawn.series[0].yVal.numRef.f.startswith("Bump!")


def test_his_chapter_stands_in_the_place_of_ours_by_its_name(tmp_path):
    """Other chapters need a chapter by its name, not by whose it is."""
    ours = find("chapters", "front-corner").read_text(encoding="utf-8")
    his = ours.replace("Points of the left front corner", "My points")
    assert his != ours
    listed = 'title = "Mine"\nchapters = ["car", "parts/front-corner.toml", "bump"]\n'
    path = written(tmp_path / "place", listed, **{"front-corner": his})
    book = values(make(path))
    assert book["Front corner"]["A1"].value == "My points"
    assert book["Bump"]["F7"].value == values(make(chapters=["bump"]))["Bump"]["F7"].value


def test_a_chapter_may_follow_in_any_order_that_its_needs_allow(tmp_path):
    listed = 'title = "Mine"\nchapters = ["front-corner", "car", "overview", "self-check"]\n'
    assert values(make(written(tmp_path / "order", listed))).sheetnames == [
        "Front corner", "Car", "Overview", "Self-check",
    ]  # fmt: skip
