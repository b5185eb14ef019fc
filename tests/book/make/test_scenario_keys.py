"""A scenario is held to what the chapters ask for: its keys, its rows, and its values."""

import io
import sys
from pathlib import Path

import pytest
from cornerbook.book.make.new import make

from tests.book.make.texts import changed, line_of, stopped
from tests.support.looking import looked_into

if sys.version_info >= (3, 11):
    import tomllib
else:
    import tomli as tomllib

LAPWING = (Path(__file__).parents[3] / "workbooks" / "scenarios" / "lapwing.toml").read_text(
    encoding="utf-8"
)

# Each with bands or aims, of the wishes of all chapters beside their own.
FEW = ["measures", "placing"]

SMALL = """title = "Small"
chapters = ["car", "front-corner"]

[[sheet]]
name = "Own"

[[sheet.block]]
kind = "inputs"
rows = [{ label = "Wheel radius", from = "steering.wheel_radius", kind = "length" }]

[[sheet.block]]
kind = "adjusters"
corner = "Front"
from = "adjusters"
quantities = ["caster"]
"""


@pytest.fixture
def said(tmp_path):
    """A function of a scenario's text: the lines that `make` stops with."""

    def run(scenario, template=SMALL):
        return stopped(tmp_path, template, scenario).split("\n")

    return run


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("cg_height = 295", "cg_hieght = 295",
         'the key "car.cg_hieght" is not known; did you mean "car.cg_height"? '
         'The chapter "car" needs it'),
        # Known to a chapter of ours that this template does not have.
        ("rolling = 0.02", "roling = 0.02",
         'the key "steering.roling" is not known; did you mean "steering.rolling"?'),
        ("trail = {", "trial = {",
         'the table [wanted.trial] is not known; did you mean [wanted.trail]?'),
        ("[tyre]", "[tyres]", "the table [tyres] is not known; did you mean [tyre]?"),
        ("unsprung_front = 24", "unsprung_front = 24\ncolour = 3",
         'the key "car.colour" is not known to any chapter'),
        ("[locked]", "[locked]\nhub_ahead = 8",
         'the key "locked.hub_ahead" is not known; did you mean "first.hub_ahead"?'),
        ('title = "Lapwing"', 'title = "Lapwing"\ntrack = 5', 'the key "track" is not known'),
        ('"Lower ball joint" =', '"Lower bal joint" =',
         'corner.front: the row "Lower bal joint" is not known; did you mean "Lower ball joint"?'),
        ('"Spring frame" =', '"Spring frane" =',
         'corner.front: the row "Spring frane" is not known; did you mean "Spring frame"?'),
        ("Tie rod inner\" = [-88.5, 134.5, 190]", "Tie rod inner\" = -72",
         'corner.front: the row "Tie rod inner" is one number; [x, y, z] was expected'),
        ('"Tyre radius" = 262', '"Tyre radius" = [262, 1, 1]',
         'the row "Tyre radius" is a list in square brackets; one number was expected'),
        ('"Rod mount" = "lower arm"', '"Rod mount" = "lower am"',
         'the row "Rod mount" is "lower am"; did you mean "lower arm"?'),
        ('"Rod outer" =', '"TIE-ROD OUTER" =',
         'the row "TIE-ROD OUTER" stands there already, as "Tie rod outer"'),
        ("[5, 516.5, 150]", "[5, 516,5, 150]",
         "has a list of 4; [x, y, z] was expected; a decimal is written with a point"),
        ("[5, 516.5, 150]", '[5, "516,5", 150]',
         'has a wrong y: it is the text "516,5"; a number was expected, with a decimal point and '
         "without quotation marks: 516.5"),
        ("[5, 516.5, 150]", "[5, nan, 150]", "has a wrong y: it is nan, not a number"),
        ('wheelbase = 1580', 'wheelbase = "1580,5"',
         'car.wheelbase is the text "1580,5"; a number was expected, with a decimal point'),
        ("wheelbase = 1580", "wheelbase = 1580,5", "a decimal is written with a point: 1580.5"),
        ("wheelbase = 1580", "wheelbase = true",
         "car.wheelbase is true or false; a number was expected"),
        ("wheelbase = 1580", "wheelbase = inf", "car.wheelbase is infinite; a number up to"),
        ("wheelbase = 1580", "wheelbase = -nan", "car.wheelbase is nan, not a number"),
        ("wheelbase = 1580", "wheelbase = 1" + "0" * 400, "car.wheelbase is far too large"),
        ("wheelbase = 1580", "wheelbase = 2e9", "car.wheelbase is 2e+09; a number up to"),
        ("wheelbase = 1580", "wheelbase = 1979-05-27", "car.wheelbase is a date or time"),
        ("wheelbase = 1580", "wheelbase = {}", "car.wheelbase is a table; a number was expected"),
        ("wheelbase = 1580", "wheelbase = 1" + "0" * 4500, "a number has thousands of digits"),
        ("wheelbase = 1580", "wheelbase = 1580\nwheelbase = 5", "the key wheelbase stands twice"),
        ("[turn]", "[car]", "the table car stands twice"),
        ('moves = "upper arm"\nturn = [0, 0.75, 0]', 'mvoes = "upper arm"\nturn = [0, 0.75, 0]',
         'adjusters: "Upper arm, rod ends" has a key "mvoes", which is not known; did you mean '
         '"moves"?'),
        ('moves = "upper arm"\nturn = [0, 0.75, 0]', 'moves = "uper arm"\nturn = [0, 0.75, 0]',
         'moves "uper arm", which is not known; did you mean "upper arm"?'),
        ("turn = [0, 0.75, 0]", 'turn = [0, "1,25", 0]', "has a wrong dy: it is the text"),
        ("least = -24", "least = -2.5", "has a wrong least: a whole number of steps"),
        ("least = -24", "least = 25", "has a least that is above its most"),
        ('step = "flat of the sleeve"', 'side = "botth"', 'has a wrong side; did you mean "both"?'),
        ('step = "shim of 1 mm"', "step = 1", "has a wrong step: it is no text"),
        ('unit = "mm"', 'unit = "cm"', 'the unit is "cm"; "mm" or "in" was expected'),
        ('title = "Lapwing"', 'title = "Lap\\u0007wing"',
         "the text title has the letter with the code 7, which cannot be shown"),
    ],
)  # fmt: skip
def test_a_mistake_has_its_sentence_and_its_line(said, old, new, sentence):
    text = changed(LAPWING, old, new)
    (line,) = said(text)
    number = next(
        n for n, pair in enumerate(zip(text.split("\n"), LAPWING.split("\n"), strict=False), 1)
        if pair[0] != pair[1]
    )  # fmt: skip
    assert line.startswith(f"lapwing.toml, line {number}: "), line
    assert sentence in line


def test_a_missing_key_says_who_needs_it_and_what_it_is(said):
    (line,) = said(changed(LAPWING, "cg_height = 295\n", ""))
    assert line == (
        f'lapwing.toml, line {line_of(LAPWING, "[car]")}: the key "car.cg_height" is missing; '
        'the chapter "car" needs it: a number, length in mm'
    )
    (line,) = said(changed(LAPWING, "wheel_radius = 130\n", ""))
    assert "the template needs it: a number, length in mm" in line
    inches = changed(changed(LAPWING, 'unit = "mm"', 'unit = "in"'), "mass = 280\n", "")
    assert "a number, mass in lb" in said(inches)[0]


def test_a_missing_table_is_said_once_with_all_that_is_needed_of_it(said):
    head, tail = LAPWING.split("[range]")
    (line,) = said(head + "[" + tail.split("[", 1)[1])
    assert line.startswith("lapwing.toml, line 1: the table [range] is missing")
    for key in ("travel", "ride", "lock"):
        assert f"{key} (a number, length in mm)" in line


def test_a_missing_row_of_a_corner(said):
    (line,) = said(changed(LAPWING, '"Tie rod inner" = [-88.5, 134.5, 190]\n', ""))
    assert line == (
        f"lapwing.toml, line {line_of(LAPWING, '[corner.front]')}: corner.front: the row "
        '"Tie rod inner" is missing; [x, y, z] was expected'
    )


def test_a_key_that_should_be_a_table(said):
    text = changed(LAPWING, "[locked]\nradius = 8000\ndrive = 400\nslip_stiffness = 22\n", "")
    text = changed(text, 'title = "Lapwing"', 'title = "Lapwing"\nlocked = 3')
    (line,) = said(text)
    assert line.endswith("locked is a number; a table was expected")


def test_a_row_of_the_users_own_is_made_and_noted(tmp_path):
    own = '"Seat bolt, left" = [-600, 180, 120]\n"Spring rate" = 21\n"Made by" = "us"\n'
    scenario = changed(LAPWING, '"Tie rod outer" =', own + '"Tie rod outer" =')
    (tmp_path / "car.toml").write_text(scenario, encoding="utf-8")
    notes = []
    make("car", str(tmp_path / "car.toml"), notes=notes, chapters=["front-corner"])
    first = line_of(scenario, '"Seat bolt, left"')
    assert notes == [
        f'car.toml, line {first + n}: corner.front: the row "{name}" is one of your own; no '
        "formula reads it"
        for n, name in enumerate(("Seat bolt, left", "Spring rate", "Made by"))
    ]


def test_without_such_rows_there_is_no_note():
    notes = []
    make(notes=notes, chapters=["front-corner"])
    assert notes == []


@pytest.mark.parametrize(
    ("old", "new", "meant"),
    [('"Upper joint"', '"Uper joint"', "Upper joint"), ('"Pinion"', '"Pinon"', "Pinion")],
)
def test_points_of_a_column_are_held_to_their_own_names(said, old, new, meant):
    template = 'title = "T"\n[[sheet]]\nname = "A"\n[[sheet.block]]\nkind = "points"\n'
    template += 'name = "Column"\nfrom = "column"\n'
    (line,) = said(changed(LAPWING, old + " =", new + " ="), template)
    assert f'did you mean "{meant}"?' in line


def test_the_scenario_is_read_though_the_template_cannot_be(said):
    lines = said(changed(LAPWING, 'unit = "mm"', 'unit = "cm"'), "title =\n")
    assert [line.split(",")[0] for line in lines] == ["mine.toml", "lapwing.toml"]


def test_wishes_of_older_scenarios_still_read(tmp_path):
    """Bands in a table of their own, aims beside them: the same workbook, but for its title's."""
    _, _, wished = LAPWING.partition("\n[wanted]\n")
    wished = tomllib.loads("[wanted]\n" + wished)["wanted"]
    head = LAPWING.partition("\n[wanted]\n")[0]
    aims = "".join(f"{k} = {w['aim']}\n" for k, w in wished.items() if "aim" in w)
    far = {"from": -1e9, "to": 1e9}
    bands = "".join(
        f"{k} = [{w.get('from', far['from'])}, {w.get('to', far['to'])}]\n"
        for k, w in wished.items()
        if "from" in w or "to" in w
    )
    path = tmp_path / "old.toml"
    path.write_text(f"{head}\n[wanted]\n{aims}\n[target]\n{bands}", encoding="utf-8")
    old, new = (
        looked_into(io.BytesIO(content), data_only=True)
        for content in (make(scenario=str(path), chapters=FEW), make(chapters=FEW))
    )
    cells = [(row, column) for row in range(1, 80) for column in (2, 3, 4)]
    pairs = [(old["Wanted"].cell(*cell).value, new["Wanted"].cell(*cell).value) for cell in cells]
    assert sum(a == b != None for a, b in pairs) > 80  # noqa: E711
    # Some stand there in metres or in newton metres.
    assert all(a == b or (b is None and abs(a) in (1e9, 1e6)) for a, b in pairs)


@pytest.mark.parametrize(
    ("wish", "shown"),
    [
        ("22", (None, 22, None)),
        ("[15, 30]", (15, None, 30)),
        ("{ to = 30 }", (None, None, 30)),
        ("{}", (None, None, None)),
    ],
)
def test_what_a_wish_leaves_out_is_blank(tmp_path, wish, shown):
    path = tmp_path / "car.toml"
    path.write_text(
        changed(LAPWING, "trail = { from = 15, aim = 22, to = 30 }", f"trail = {wish}"),
        encoding="utf-8",
    )
    book = looked_into(io.BytesIO(make(scenario=str(path), chapters=FEW)), data_only=True)
    (row,) = [c.row for c in book["Wanted"]["A"] if c.value == "Mechanical trail"]
    assert tuple(book["Wanted"].cell(row, column).value for column in (2, 3, 4)) == shown
    verdict = next(r for r in book["Measures"].iter_rows(values_only=True)
                   if r[0] == "Mechanical trail")[6]  # fmt: skip
    assert (verdict or "") == ("" if shown[0] is None and shown[2] is None else "pass")


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ('at_first = "Given."', "at_first is a text; a table was expected"),
        ('[at_first]\n"Given." = "car"', "at_first: a list of keys was expected, as texts"),
        ('[at_first]\n"Given." = [1]', "at_first: a list of keys was expected, as texts"),
        ('[at_first]\n"\\u0001" = ["car.wheelbase"]',
         "at_first: the text has the letter with the code 1, which cannot be shown"),
    ],
)  # fmt: skip
def test_where_numbers_came_from(said, table, sentence):
    scenario = table + "\n" + LAPWING if "[" not in table[:1] else LAPWING + "\n" + table
    (line,) = said(scenario)
    assert line.endswith(sentence)
    assert f"line {line_of(scenario, table.split(chr(10))[-1])}:" in line
