"""The sheet Rules: words, a measure, from and to, a verdict that stands on the Overview."""

import io

import pytest
from cornerbook.book.make.new import make
from cornerbook.book.study.recalculate import Recalculation

from tests.book.make.test_scenario_keys import LAPWING
from tests.book.make.texts import changed, stopped, written
from tests.support.looking import looked_into

SHEETS = """title = "Mine"
chapters = ["car"]

[[sheet]]
name = "Overview"

[[sheet.block]]
kind = "verdicts"

[[sheet]]
name = "Rules"

[[sheet.block]]
kind = "rules"
from = "rules.rows"
count = 5

[[sheet.block]]
kind = "rules"
from = "rules.intents"
count = 3
weighs = true
"""

START, END = LAPWING.index("[rules]"), LAPWING.index("# What the sheets look over:")

RULES = """[rules]
rows = [
  ["Long enough", "=Wheelbase", "length", 1500, "", "", "by the club"],
  ["Narrow enough", "=MAX(FrontTrack,RearTrack)", "length", "", 1100],
  ["To be measured", "", "length", 10],
]
intents = [
  ["Short", "=Wheelbase", "length", "", 1590, 3],
  ["Very short", "=Wheelbase", "length", "", 1400, 2],
]

"""


def book_of(tmp_path, text=RULES, **how):
    paths = written(tmp_path, mine=SHEETS, lapwing=LAPWING[:START] + text + LAPWING[END:])
    return looked_into(io.BytesIO(make(*paths, **how)), data_only=True)


def row_of(sheet, label):
    return next([c.value for c in row] for row in sheet.iter_rows() if row[0].value == label)


def test_each_rule_is_judged_by_its_measure(tmp_path):
    sheet = book_of(tmp_path)["Rules"]
    assert row_of(sheet, "Long enough")[1:6] == [1580.0, "mm", 1500.0, None, "pass"]
    assert row_of(sheet, "Narrow enough")[1:6] == [1120.0, "mm", None, 1100.0, "look here"]
    assert row_of(sheet, "To be measured")[5] == "not known"
    assert row_of(sheet, "Weight of what is met, of all")[1] == "3 of 5"


@pytest.mark.parametrize("weight", [-2.0, "much"])
def test_a_weight_that_is_none_is_said(tmp_path, weight):
    """Left out of the sum, or taken off it, it would say of the intents what is not so."""
    path = tmp_path / "rules.xlsx"
    lapwing = LAPWING[:START] + RULES + LAPWING[END:]
    path.write_bytes(make(*written(tmp_path, mine=SHEETS, lapwing=lapwing)))
    sheet = looked_into(path)["Rules"]
    at = {row[0].value: row[0].row for row in sheet.iter_rows()}
    asked = [("Rules", f"B{at['Weight of what is met, of all']}")]
    said = Recalculation.read(path).function([("Rules", f"G{at['Very short']}")], asked)
    assert said([weight]) == ["# a weight is not a number of 0 or more"]
    assert said([4.0]) == ["3 of 7"]


def test_they_stand_on_the_overview_and_blank_rows_say_nothing(tmp_path):
    sheet = book_of(tmp_path)["Overview"]
    assert row_of(sheet, "Narrow enough")[1:6] == [1120.0, "mm", None, 1100.0, "look here"]
    assert sheet["A1"].value == "2 of 5 within what is wanted, 1 not known"


def test_an_inch_workbook_judges_alike(tmp_path):
    sheet = book_of(tmp_path, system="in")["Rules"]
    found = row_of(sheet, "Long enough")
    assert found[1] * 25.4 == pytest.approx(1580.0)
    assert found[3] * 25.4 == pytest.approx(1500.0)
    assert found[2] == "in"


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('"=Wheelbase", "length", 1500', '"=Wheelbase", "lenght", 1500', 'did you mean "length"?'),
        ('"=Wheelbase", "length", 1500', '"=Weelbase", "length", 1500', 'mean "Wheelbase"?'),
        ('"length", 1500', '"length", "1500"', "row 1 is wrong at place 4: it is the text"),
    ],
)  # fmt: skip
def test_a_mistake_in_a_rule(tmp_path, old, new, sentence):
    text = LAPWING[:START] + changed(RULES, old, new) + LAPWING[END:]
    assert sentence in stopped(tmp_path, SHEETS, text)
