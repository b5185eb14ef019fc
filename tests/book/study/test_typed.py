"""What is typed in a workbook, read back: the workbook made of it has the same yellow cells, held
cell by cell by openpyxl."""

import io
import sys

import openpyxl
import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import made, make
from cornerbook.book.make.texts import origins
from cornerbook.book.study.begin.options import given_by
from cornerbook.book.study.begin.run import begin
from cornerbook.book.study.typed.run import scenario_of
from openpyxl.workbook.defined_name import DefinedName

from tests.support.looking import looked_into
from tests.support.yellow import PAPER, edited, hold_alike, other_values, yellow_of, yellow_once

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

# What is looked at one cell at a time; the whole workbook comes back at random.
FEW = ("two-way", "adjusters")


@pytest.fixture(scope="module")
def starter(once):
    """The demonstration car's workbook, of the sheets that are looked at here."""
    return once.workbook(chapters=FEW)


def again(path, folder, system="mm", chapters=None):
    """(the bytes of a workbook made of what is typed in one, its `Written`)."""
    written = scenario_of(path, "again.toml")
    text = folder / "again.toml"
    text.write_text(written.text, encoding="utf-8")
    return make("car", text, system, chapters=chapters), written


def put(folder, content):
    path = folder / "book.xlsx"
    path.write_bytes(content)
    return path


@pytest.mark.parametrize("system", ["mm", "in"])
def test_the_demonstration_comes_back(once, tmp_path, system):
    path = once.workbook(system=system)
    content, written = again(path, tmp_path, system)
    assert content == path.read_bytes()
    assert written.messages == []


@pytest.mark.parametrize(("system", "seed"), [("mm", 1), ("in", 3)])
def test_a_workbook_with_every_cell_typed_over_comes_back(once, tmp_path, system, seed):
    path = once.workbook(system=system)
    changes = other_values(path, seed)
    content = edited(path, changes)
    before = yellow_once(path, changes)
    made, written = again(put(tmp_path, content), tmp_path, system)
    assert len(changes) > 300
    assert before != yellow_of(path)
    hold_alike(yellow_of(made), before)
    assert written.messages == []


@pytest.fixture(scope="module")
def begun():
    """A workbook made of three numbers, in inches, as bytes."""
    given = given_by({"--wheelbase": "67", "--front-track": "39", "--tyre-radius": "11"}, "in", "M")
    return made("car", None, "in", complete=begin, given=given, chapters=ORIGIN).content


ORIGIN = ["car", "wanted", "front-corner"]


def test_one_of_few_numbers_comes_back_with_where_they_came_from(begun, tmp_path):
    content, written = again(put(tmp_path, begun), tmp_path, "in", ORIGIN)
    assert content == begun
    # By sentence, below all else; lines of a width that can be read.
    head, below = written.text.split("\n[at_first]\n")
    given = below.partition('"Given." = [\n')[2].partition("]")[0]
    assert '"car.wheelbase", "car.front_track"' in given
    assert max(map(len, below.split("\n"))) <= 100
    bare = tmp_path / "bare.toml"
    bare.write_text(head, encoding="utf-8")
    texts = str(texts_of(make("car", bare, "in", chapters=ORIGIN)))
    assert "At first" in str(texts_of(begun)) and "At first" not in texts


def test_a_number_that_is_typed_over_still_came_from_there_at_first(begun, tmp_path):
    path = put(tmp_path, begun)
    places = {("Car", f"B{_row(path, 'Car', 'Rear track')}"): 41.0}
    content, _ = again(put(tmp_path, edited(path, places)), tmp_path, "in", ORIGIN)
    row = looked_into(io.BytesIO(content))["Car"][_row(path, "Car", "Rear track")]
    assert row[1].value == 41.0
    assert row[3].value.endswith(" At first: in proportion to the front track.")


def test_a_number_taken_out_of_the_text_is_taken_anew(begun, tmp_path):
    written = scenario_of(put(tmp_path, begun), "x.toml")
    lines = [line for line in written.text.split("\n") if not line.startswith("rear_track =")]
    text = tmp_path / "x.toml"
    text.write_text("\n".join(lines).replace("front_track = 39 ", "front_track = 43 "))
    done = made("car", text, "in", complete=begin, chapters=ORIGIN)
    row = looked_into(io.BytesIO(done.content))["Car"][
        _row(put(tmp_path, begun), "Car", "Rear track")
    ]
    assert row[1].value > 40
    assert row[3].value.endswith(" At first: in proportion to the front track.")


def test_what_sheets_of_former_times_say():
    for text in ("Given.", "At first: given.", "A note of before. At first: given."):
        assert origins.of_shown(text) == "Given."


def test_a_name_of_ones_own_is_on_one_line():
    """Where lines end, a key with blanks or hyphens in it does not."""
    keys = [f"adjusters.{'a rod-end in ' * (n % 5 + 1)}half-a-turn {n}" for n in range(60)]
    lines = origins.text_of(dict.fromkeys(keys, "Given."))
    assert tomllib.loads("\n".join(lines)) == {origins.TABLE: {"Given.": keys}}
    assert 10 < len(lines) < 60


def texts_of(content):
    """Every text that stands in a workbook."""
    cells = (cell for sheet in looked_into(io.BytesIO(content)) for row in sheet for cell in row)
    return [cell.value for cell in cells if isinstance(cell.value, str)]


@pytest.fixture(scope="module")
def few(once, tmp_path_factory):
    """(the yellow cells of a workbook of few sheets, typed over, the row of a wish that is blank
    there, the yellow cells of the one made of it, its `Written`)."""
    folder, chapters = tmp_path_factory.mktemp("few"), ("two-way", "springs")
    path = once.workbook(chapters=chapters)
    row = _row(path, "Wanted", "Bump steer")
    blank = {("Wanted", f"{column}{row}"): None for column in "BCD"}
    changes = {**other_values(path, 4), **blank}
    made, written = again(put(folder, edited(path, changes)), folder, chapters=chapters)
    return yellow_once(path, changes), row, yellow_of(made), written


def test_one_with_chapters_left_out_comes_back(few):
    before, _, there, written = few
    assert {sheet for sheet, _ in before} >= {"Two-way", "Springs", "Front corner"}
    assert "Compare" not in {sheet for sheet, _ in before}
    hold_alike(there, before)
    assert written.messages == []


def test_a_row_of_ones_own_and_a_missing_row(starter, tmp_path):
    row = _row(starter, "Front corner", "Spring frame")
    content = edited(
        starter,
        {("Front corner", f"A{row}"): "Brake hose", ("Front corner", f"C{row}"): -3.5},
    )
    written = scenario_of(put(tmp_path, content), "x.toml")
    rows = {p[2]: v for p, v in written.taken.values.items() if p[:2] == ("corner", "front")}
    assert rows["Brake hose"] == [0, -3.5, 460]
    assert "Spring frame" not in rows


def test_a_cell_elsewhere_is_found_by_its_name(starter, tmp_path):
    book = openpyxl.load_workbook(starter)
    book["Car"].move_range("A5:C5", rows=60)
    book["Front corner"].title = "Corner, left"
    for name in ("Wheelbase", "Front"):
        text = book.defined_names[name].attr_text
        moved = text.replace("'Front corner'", "'Corner, left'").replace("$5", "$65")
        if name == "Front":
            moved = text.replace("'Front corner'", "'Corner, left'")
        book.defined_names[name] = DefinedName(name, attr_text=moved)
    path = tmp_path / "moved.xlsx"
    book.save(path)
    found = scenario_of(path, "x.toml").taken.values
    assert found["car", "wheelbase"] == 1580
    assert found["corner", "front", "Upper ball joint"] == [-21, 480, 380]
    assert found["car", "front_track"] == 1120


@pytest.mark.parametrize(
    ("sheet", "label", "value", "words"),
    [
        ("Car", "Wheelbase", "long", '(Wheelbase) holds the text "long", where a number'),
        ("Car", "Rear track", None, "Empty, so left out; what is missing is taken in proportion: "
         "Car!B{row} (Rear track)."),
        ("Car", "Rear track", "=FrontTrack-40",
         "Taken as the value that their formulas give now: Car!B{row} (Rear track)."),
        ("Car", "Rear track", "=1/0", "Left out: Car!B{row} (Rear track) shows #DIV/0!"),
        ("Car", "Rear track", "=INFO(1)", "Left out: Car!B{row} (Rear track) has a formula whose"),
        ("Front corner", "Tie rod outer", None, "Empty, so left out; what is missing is taken in"),
        ("Wanted", "Caster", 99, "To be mended: x.toml, line "),
        ("Two-way", "Result", 4, "Left out: Two-way!B{row} (Result) holds a number, where a word"),
        ("Adjusters", "Tie rod, sleeve", None, "Empty, so left out; what is missing"),
    ],
)  # fmt: skip
def test_what_cannot_be_taken_is_said(starter, tmp_path, sheet, label, value, words):
    row = _row(starter, sheet, label)
    content = edited(starter, {(sheet, f"B{row}"): value})
    messages = scenario_of(put(tmp_path, content), "x.toml").messages
    assert len(messages) == 1
    assert messages[0].startswith(words.format(row=row)) or words.format(row=row) in messages[0]


def test_a_formula_is_taken_as_its_value(starter, tmp_path):
    row = _row(starter, "Car", "Rear track")
    content = edited(starter, {("Car", f"B{row}"): "=FrontTrack-40.5"})
    assert scenario_of(put(tmp_path, content), "x.toml").taken.values["car", "rear_track"] == 1079.5


def test_a_blank_wish_is_none_in_what_is_made(few):
    _, row, there, written = few
    assert written.taken.values["wanted", "bump_steer"] == {}
    assert [there["Wanted", f"{column}{row}"] for column in "BCD"] == [None] * 3


def test_other_workbooks_are_refused(tmp_path):
    book = openpyxl.Workbook()
    book.active["B2"] = 1580
    book.save(tmp_path / "other.xlsx")
    with pytest.raises(Trouble, match="has no yellow cell that is known"):
        scenario_of(tmp_path / "other.xlsx", "x.toml")


def test_two_units_are_refused(starter, tmp_path):
    row = _row(starter, "Car", "Wheelbase")
    path = put(tmp_path, edited(starter, {("Car", f"C{row}"): "in"}))
    with pytest.raises(Trouble, match=r"two units of length: in beside Car!B\d+ \(Wheelbase\)"):
        scenario_of(path, "x.toml")


FORMER = {
    "Car": [("Wheelbase", 1234.5, "Wheelbase", "mm"), ("Front track", 1001, "FrontTrack", "mm")],
    "Steering": [("Rack", -17, "RackNow", "mm")],
    "Bump": [("Rack held", 3, "BumpRack", "mm")],
    "Placing": [("Mechanical trail", 21, "WantedTrail", "mm")],
}


def former(path, title="Cornerbook starter: Elder"):
    """A workbook with some cells of the two that were one car's before."""
    book = openpyxl.Workbook()
    book.properties.title = title
    book.active.title = "Start"
    paper = openpyxl.styles.PatternFill("solid", fgColor=PAPER)
    for name, rows in FORMER.items():
        sheet = book.create_sheet(name)
        for number, (label, value, cell, unit) in enumerate(rows, 4):
            sheet.append([])
            sheet[f"A{number}"], sheet[f"B{number}"], sheet[f"C{number}"] = label, value, unit
            sheet[f"B{number}"].fill = paper
            book.defined_names[cell] = DefinedName(cell, attr_text=f"{name}!$B${number}")
    for name, bands in {
        "Measures": [("Mechanical trail", 14, 31), ("Toe of this wheel", -0.2, None)],
        "Feel": [("Mechanical trail, as drawn", 14, 32)],
    }.items():
        sheet = book.create_sheet(name)
        for column, text in zip("ABCDE", ("", "value", "unit", "wanted from", "to"), strict=True):
            sheet[f"{column}9"] = text
        for number, (label, low, high) in enumerate(bands, 10):
            sheet[f"A{number}"], sheet[f"C{number}"] = label, "mm"
            sheet[f"D{number}"], sheet[f"E{number}"] = low, high
            sheet[f"D{number}"].fill = sheet[f"E{number}"].fill = paper
    book.save(path)
    return path


def test_a_former_workbook_is_known(tmp_path):
    written = scenario_of(former(tmp_path / "former.xlsx"), "x.toml")
    found = written.taken.values
    assert written.taken.title == "Elder"
    assert found["car", "wheelbase"] == 1234.5
    assert found["look", "rack"] == -17
    assert found["wanted", "trail"] == {"from": 14, "aim": 21, "to": 31}
    assert found["wanted", "toe"] == {"from": -0.2}
    assert written.messages == [
        "Left out: Feel!E10 (Mechanical trail, as drawn, to), which says otherwise than "
        "Measures!E10 (Mechanical trail, to).",
        "Left out: Bump!B4 (Rack held), for which there is no place: 3.",
    ]


def _row(path, sheet, label):
    return next(cell.row for cell in looked_into(path)[sheet]["A"] if cell.value == label)


def test_a_number_that_follows_a_cell_still_does(once):
    """The share of the braking, as the brakes' parts have it; typed over, it is the number."""
    assert '"=BrakeShareMade or 0.7375' in scenario_of(once.workbook(), "again.toml").text
