"""Tables of yellow cells read back: parts, arrangements, rules, adjusters, cases, the survey. What
comes back is held cell by cell by openpyxl."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.make.kinds.rules import row_said
from cornerbook.book.make.new import made
from cornerbook.book.study.begin.options import given_by
from cornerbook.book.study.begin.run import begin

from tests.book.study.test_typed import again, put
from tests.support.looking import looked_into
from tests.support.yellow import edited, hold_alike, yellow_of, yellow_once

# The sheets with such tables.
FEW = ("arrangements", "drive", "rules", "loads", "adjusters", "survey")
RULES = ("rules",)
ADJUSTERS = ("adjusters",)


@pytest.fixture(scope="module")
def starter(once):
    """The demonstration car's workbook, of the sheets that are looked at here."""
    return once.workbook(chapters=FEW)


@pytest.fixture(scope="module")
def ruled(once):
    """That with the rules alone."""
    return once.workbook(chapters=RULES)


@pytest.fixture(scope="module")
def adjusted(once):
    """That with the adjusters alone."""
    return once.workbook(chapters=ADJUSTERS)


def row_of(path, sheet, text, nth=0):
    rows = [cell.row for cell in looked_into(path)[sheet]["A"] if cell.value == text]
    return rows[nth]


def back(path, folder, changes, system="mm", chapters=FEW):
    """What came of a workbook with some cells changed; those, and all others, must be there."""
    content = edited(path, changes)
    made, written = again(put(folder, content), folder, system, chapters)
    hold_alike(yellow_of(made), yellow_once(path, changes))
    return written


@pytest.fixture(scope="module")
def changed(starter, tmp_path_factory):
    """What came of one with parts, rules, cases and the survey changed, all at once."""
    changes = {**other_parts(starter), **other_rules(starter), **other_cases(starter)}
    return back(starter, tmp_path_factory.mktemp("changed"), changes)


def other_parts(starter):
    """Parts of one name and of none, and their places."""
    seat, panels = row_of(starter, "Masses", "Seat and belts"), row_of(
        starter, "Masses", "Body panels")  # fmt: skip
    first = row_of(starter, "Masses", "Driver")
    placed = next(
        cell.row for cell in looked_into(starter)["Arrangements"]["A"]
        if str(cell.value).startswith("Leave blank")
    ) + 1  # fmt: skip
    return {
        ("Masses", f"A{seat}"): "Driver",
        ("Masses", f"A{panels}"): None,
        ("Masses", f"B{panels + 20}"): 3.5,
        ("Arrangements", f"B{placed + panels - first}"): -11,
        ("Arrangements", f"C{placed + panels + 20 - first}"): -12,
        ("Arrangements", f"D{placed + 29}"): 77,
    }


def test_parts_of_one_name_and_of_none(changed):
    assert changed.messages == []
    places = changed.taken.values["arrangements", "places"]
    assert [row for row in places if row[0] == "Driver"][1][-1] == -850
    assert ["", -11] in places


def test_emptied_tables_stay_empty(starter, tmp_path):
    cells = {
        cell: None
        for cell in yellow_of(starter)
        if cell[0] in ("Masses", "Arrangements", "Rules", "Survey")
        or (cell[0] == "Adjusters" and cell[1][0] in "ABCDEGHIJKL" and int(cell[1][1:]) < 14)
        or (cell[0] == "Drive" and _is_of_table(starter, cell))
    }
    kept = {("Survey", "B5")}
    emptied = {cell: None for cell in cells if cell not in kept}
    made, written = again(put(tmp_path, edited(starter, emptied)), tmp_path, chapters=FEW)
    values = written.taken.values
    for path in (("masses", "parts"), ("rules", "rows"), ("rules", "intents"),
                 ("drive", "torques"), ("drive", "gears"), ("arrangements", "places"),
                 ("arrangements", "cars")):  # fmt: skip
        assert values[path] == []
    assert values["adjusters",] == {}
    there = yellow_of(made)
    same = {c: v for c, v in yellow_once(starter, emptied).items() if c[0] != "Adjusters"}
    assert {c: v for c, v in there.items() if c[0] != "Adjusters"} == same
    left = {v for c, v in there.items() if c[0] == "Adjusters"}
    assert not any(isinstance(v, str) and not v.startswith("=") for v in left)


def _is_of_table(path, cell):
    """Whether no words stand left of a cell: then it is of a table of rows."""
    at = looked_into(path)[cell[0]]
    return cell[1][0] == "A" or (cell[1][0] == "B" and not isinstance(
        at["A" + cell[1][1:]].value, str))  # fmt: skip


def other_rules(path):
    """Rules with other measures and units, one of the user's own, and one in words."""
    first = row_of(path, "Rules", "Wheelbase at least 1500 mm")
    free = first + 5
    return {
        ("Rules", f"B{first}"): "=Wheelbase-Car!B6*0.5",
        ("Rules", f"B{first + 1}"): "=CORNER.TRAIL(Front)",
        ("Rules", f"C{first + 2}"): "stone",
        ("Rules", f"A{free}"): "Loud enough",
        ("Rules", f"B{free}"): 97.25,
        ("Rules", f"C{free}"): "dB",
        ("Rules", f"E{free}"): 98,
        ("Rules", f"A{free + 2}"): "Painted",
        ("Rules", f"B{free + 2}"): "not yet",
        ("Rules", f"H{free + 2}"): "by May",
    }


@pytest.mark.parametrize("system", ["mm", "in"])
def test_rules_keep_their_measures_and_units(once, changed, tmp_path, system):
    if system == "mm":
        written = changed
    else:
        path = once.workbook(system=system, chapters=RULES)
        written = back(path, tmp_path, other_rules(path), system, RULES)
    assert written.messages == []
    rows = written.taken.values["rules", "rows"]
    assert rows[0][1:3] == ["=Wheelbase-Car!B6*0.5", "length"]
    assert rows[5] == ["Loud enough", "97.25", "", "", 98, "", "", "dB"]
    assert rows[6] == []


def test_a_rule_that_measures_ones_own_sheet_has_its_value_in_a_scenario(ruled, tmp_path):
    package = Package.read(ruled)
    package.add_sheet("Mine", [(1, [(1, None, 1234.5, None)])])
    row = row_of(ruled, "Rules", "Wheelbase at least 1500 mm")
    package.set_formula("Rules", f"B{row}", "=Mine!A1*2", None)
    made, written = again(put(tmp_path, package.to_bytes()), tmp_path, chapters=RULES)
    assert yellow_of(made)["Rules", f"B{row}"] == 2469
    assert written.messages == [
        f"Taken as the value that their formulas give now: Rules!B{row} (measured by)."
    ]


def test_kinds_of_units():
    assert row_said({2: "lbf"}, "in")[2] == "force"
    assert row_said({2: "lbf"}, "mm")[2::5] == ["", "lbf"]
    assert row_said({0: "a", 3: 0.0}, "mm") == ["a", "", "", 0.0, "", "", "", ""]


def test_spare_rows_of_adjusters_become_adjusters(adjusted, tmp_path):
    row = row_of(adjusted, "Adjusters", "Tie rod, sleeve") + 1
    typed = ["Rack up", "tie rod", 0, 0, 0.5, None, -4, 6, "both", "a washer", None, "down"]
    changes = {("Adjusters", f"{letter}{row}"): value
               for letter, value in zip("ABCDEFGHIJKL", typed, strict=True)
               if letter != "F"}  # fmt: skip
    changes["Adjusters", f"G{row - 1}"] = None
    made, written = again(put(tmp_path, edited(adjusted, changes)), tmp_path, chapters=ADJUSTERS)
    assert written.taken.values["adjusters", "Rack up"] == {
        "moves": "tie rod", "turn": [0, 0, 0.5], "least": -4, "most": 6, "side": "both",
        "step": "a washer", "plus": "", "minus": "down",
    }  # fmt: skip
    there = yellow_of(made)
    assert [there.get(("Adjusters", f"{letter}{row}")) for letter in "ABCDEFGHIJKL"] == typed
    assert there["Adjusters", f"B{row + 2}"] is None  # two spare rows again
    assert there["Adjusters", f"G{row - 1}"] == -10
    assert written.messages == [
        f"Empty, so left out; what is missing is taken in proportion: Adjusters!G{row - 1} (least)."
    ]


def test_two_adjusters_of_one_name(adjusted, tmp_path):
    row = row_of(adjusted, "Adjusters", "Tie rod, sleeve")
    changes = {("Adjusters", f"A{row}"): "Upper arm, rod ends"}
    _, written = again(put(tmp_path, edited(adjusted, changes)), tmp_path, chapters=ADJUSTERS)
    assert written.messages == [
        f"Left out: Adjusters!A{row} (Adjuster) is the name of another adjuster, too."
    ]


def other_cases(starter):
    """Another case of load, and more that is measured."""
    case = row_of(starter, "Loads", "Bump")
    first = row_of(starter, "Survey", "What") + 1
    return {
        ("Loads", f"A{case}"): "Pothole",
        ("Loads", f"F{case}"): 33.5,
        ("Loads", f"H{case}"): "wheel centre",
        ("Survey", f"A{first + 3}"): "distance",
        ("Survey", f"B{first + 3}"): "left upper ball joint",
        ("Survey", f"C{first + 3}"): "right upper ball joint",
        ("Survey", f"D{first + 3}"): 970.5,
        ("Survey", f"E{first + 59}"): 0.5,
        ("Survey", f"G{first + 59}"): "cold",
    }


def test_cases_and_the_survey(changed):
    assert changed.messages == []
    assert changed.taken.values["typed", "Loads", "Bump, case"] == "Pothole"
    assert changed.taken.values["typed", "Survey", "Measured, row 4"] == 970.5


def test_steps_of_an_adjuster_are_no_lengths(tmp_path):
    """A car begun in inches takes over the ways of the adjusters, and their limits as they are."""
    given = given_by({"--wheelbase": "65", "--front-track": "42"}, "in", "Few")
    path = put(tmp_path, made("car", None, "in", complete=begin, given=given,
                              chapters=["adjusters"]).content)  # fmt: skip
    row = row_of(path, "Adjusters", "Tie rod, sleeve")
    there = yellow_of(path)
    assert (there["Adjusters", f"G{row}"], there["Adjusters", f"H{row}"]) == (-24, 24)
    assert there["Adjusters", f"C{row}"] == pytest.approx(0.4 / 25.4, rel=0.1)
