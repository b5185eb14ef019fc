"""`cornerbook new` from few numbers: what stands in the workbook, and the sentences."""

import re

import pytest
from cornerbook.cli import main

from tests.book.make.test_new import EXAMPLE
from tests.support.looking import looked_into

FEW = """[car]
wheelbase = 1700
front_track = 1000

[corner.front]
"Tyre radius" = 280

[wanted]
caster = 7.5
"""


@pytest.fixture
def run(tmp_path, monkeypatch, capsys):
    """A function of a scenario's text, or None, and of arguments: (status, output, errors)."""
    monkeypatch.chdir(tmp_path)

    def asked(text, *arguments):
        if text is not None:
            (tmp_path / "few.toml").write_text(text, encoding="utf-8")
            arguments = ("--scenario", "few.toml", *arguments)
        status = main(["new", "car.xlsx", "--force", *arguments])
        said = capsys.readouterr()
        return status, said.out, said.err

    return asked


def cells(path, values=True):
    return looked_into(path, data_only=values)


def named(book, name):
    """The cell of a name."""
    sheet, address = next(book.defined_names[name].destinations)
    return book[sheet][address.replace("$", "")]


def row_of(sheet, label):
    return next(row for row in sheet.iter_rows() if row[0].value == label)


def texts(row):
    return " ".join(str(cell.value) for cell in row if isinstance(cell.value, str))


def test_options_alone_make_a_whole_workbook(run, tmp_path):
    lengths = ("--wheelbase", "1700", "--front-track", "1000", "--tyre-radius", "280")
    status, said, _ = run(None, *lengths)
    assert status == 0
    counts = re.search(r"Numbers: (\d+) given, (\d+) in proportion, (\d+) solved", said)
    assert counts.group(1) == "3"
    assert int(counts.group(3)) >= 9 * 3
    book = cells(tmp_path / "car.xlsx")
    for name, value in (("Wheelbase", 1700), ("FrontTrack", 1000), ("FirstRadius", 280)):
        assert named(book, name).value == value
    assert texts(row_of(book["Car"], "Wheelbase")).endswith("At first: given.")
    rear = texts(row_of(book["Car"], "Rear track"))
    assert rear.endswith("At first: in proportion to the front track.")
    corner = book["Front corner"]
    assert row_of(corner, "Check")[1].value == "ok"
    # Below the block, rows of one origin together; the last of each label.
    told = {
        label: texts(row) for row in corner.iter_rows() for label in str(row[0].value).split(", ")
    }
    assert told["Tyre radius"].endswith("At first: given.")
    assert told["Tie rod inner"].endswith("At first: solved for little toe change in bump.")
    trail = texts(row_of(book["Wanted"], "Mechanical trail"))
    assert trail.endswith("At first: in proportion to the tyre radius.")


def test_every_verdict_that_asks_for_a_look_is_in_the_report(run, tmp_path):
    """Both ways: what the sheets say, and no more. And what nobody has typed yet is no mistake."""
    _, said, _ = run(FEW)
    book = cells(tmp_path / "car.xlsx")
    mended = [cell.value for sheet in book for row in sheet.iter_rows() for cell in row
              if str(cell.value).startswith("# ")]  # fmt: skip
    assert [one for one in mended if "wheel lifts" not in one] == []
    looks = {
        row[0].value for sheet in book for row in sheet.iter_rows()
        if any(cell.value == "look here" for cell in row[1:])
    }  # fmt: skip
    line = next((li for li in said.splitlines() if li.startswith('The sheets say "look here"')), "")
    assert looks == set(re.findall(r"(?:of: |, | and )(.*?) \([^()]*\)", line))
    # The worst are named first, of any kind of quantity, in four digits.
    overview = book["Overview"]
    (head,) = [c.row for c in overview["A"] if str(c.value).startswith("Farthest off")]
    for row in overview.iter_rows(min_row=head + 1, max_row=head + 3):
        listed = [r for r in overview.iter_rows(min_row=head + 4) if r[0].value == row[0].value]
        assert row[5].value == "look here"
        assert row[1].value == float(f"{listed[0][1].value:.4g}")


def test_a_scenario_of_few_numbers(run, tmp_path):
    status, said, _ = run(FEW, "--chapters", "measures,placing")
    assert status == 0
    assert "Numbers: 4 given" in said
    book = cells(tmp_path / "car.xlsx")
    assert named(book, "WantedCaster").value == 7.5
    assert named(book, "Caster").value == pytest.approx(7.5, abs=0.1)
    assert book.properties.title.endswith("few")  # of the file's name, for want of a title


def test_a_whole_scenario_gives_the_same_workbook_to_the_byte(run, tmp_path):
    for given in ((), ("--scenario", "lapwing")):
        status, said, _ = run(None, *given)
        assert status == 0
        assert len(said.splitlines()) == 1
        assert (tmp_path / "car.xlsx").read_bytes() == EXAMPLE.read_bytes()


def test_options_beside_a_scenario(run, tmp_path):
    status, _, _ = run(FEW, "--rear-track", "950", "--chapters", "car")
    assert status == 0
    assert named(cells(tmp_path / "car.xlsx"), "RearTrack").value == 950
    status, _, errors = run(FEW, "--wheelbase", "1650")
    assert status == 1
    assert "few.toml, line 2: car.wheelbase stands here as 1700 and is given as an option" in errors


def test_inches(run, tmp_path):
    lengths = ("--wheelbase", "67", "--front-track", "40", "--tyre-radius", "11")
    status, _, _ = run(None, *lengths, "--unit", "in", "--chapters", "car,first-layout")
    assert status == 0
    book = cells(tmp_path / "car.xlsx")
    assert named(book, "Wheelbase").value == 67
    assert named(book, "FirstRadius").value == 11
    assert row_of(book["Front corner"], "Check")[1].value == "ok"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--wheelbase", "17000"), "--wheelbase: 17000 mm; 500 to 4000 was expected"),
        (("--wheelbase", "-5"), "--wheelbase: -5 mm; 500 to 4000 was expected"),
        (("--wheelbase", "1,7"), '--wheelbase: "1,7" is no number; with a decimal point it is 1.7'),
        (("--wheelbase", "1.7"), "--wheelbase: 1.7 mm; 500 to 4000 was expected"),
        (("--tyre-radius", "nan"), '--tyre-radius: "nan" is no number; a length in mm'),
        (("--tyre-radius", "1e400"), '--tyre-radius: "1e400" is no number'),
        (("--front-track", ""), '--front-track: "" is no number'),
        (("--front-track", "1000 mm"), '--front-track: "1000 mm" is no number'),
        (("--wheelbase", "6000", "--unit", "in"), "--wheelbase: 6000 in; 19.685 to 157.48 was"),
    ],
)
def test_an_option_that_is_no_such_length_is_a_sentence(run, tmp_path, arguments, words):
    status, _, errors = run(None, *arguments, "--chapters", "car")
    assert status == 1
    assert words in errors
    assert len(errors.strip().splitlines()) == 1
    assert not (tmp_path / "car.xlsx").exists()


def test_all_mistakes_of_options_and_of_a_scenario_at_once(run):
    text = FEW.replace("wheelbase", "wheelbse").replace("1000", '"1000,5"')
    text = text.replace("[wanted]", '"Lower bal joint" = [1, 2, 3]\n[target]\ntrial = [1, 2]')
    text = text.replace("caster = 7.5", "scrub = [3, 1]\n[car.more]\nmass = 5")
    status, _, errors = run(text, "--rear-track", "1,2")
    assert status == 1
    lines = errors.removeprefix("cornerbook: ").strip().split("\n")
    assert [re.sub(r":.*", "", line) for line in lines] == [
        "--rear-track", *(f"few.toml, line {n}" for n in (2, 3, 8, 10, 11, 12)),
    ]  # fmt: skip
    for words in (
        'did you mean "car.wheelbase"?',
        "without quotation marks: 1000.5",
        'did you mean "Lower ball joint"?',
        'did you mean "target.trail"?',
        "target.scrub is out of order",
    ):
        assert words in errors


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("wheelbase = 1700", "wheelbase = 17000", "car.wheelbase is 17000 mm; 500 to 4000 was"),
        ("280", "11", 'corner.front.Tyre radius is 11 mm; 100 to 500 was expected'),
        ('"Tyre radius" = 280', '"Static camber" = 60', '"Static camber" is 60 deg; -15 to 15 was'),
        ("caster = 7.5", "castor = 7.5", 'did you mean "wanted.caster"?'),
        ("caster = 7.5", "caster = [1, 2, 3]", "wanted.caster is a list"),
        ("caster = 7.5", "caster = { from = 9, to = 5 }", "wanted.caster is out of order"),
        ("[wanted]", "[wantd]", "did you mean [wanted]?"),
    ],
)  # fmt: skip
def test_a_mistake_in_few_numbers_has_its_line(run, old, new, words):
    assert old in FEW
    status, _, errors = run(FEW.replace(old, new), "--chapters", "car")
    assert status == 1
    (line,) = errors.strip().splitlines()
    number = next(n for n, text in enumerate(FEW.replace(old, new).splitlines(), 1) if new in text)
    assert line.startswith(f"cornerbook: few.toml, line {number}: ")
    assert words in line


def test_a_wish_outside_of_its_table_is_a_key_that_is_not_known(run):
    status, _, errors = run("caster = 7\n" + FEW)
    assert status == 1
    assert errors.startswith('cornerbook: few.toml, line 1: the key "caster" is not known')


def test_a_key_of_the_users_own_template_is_still_missed(run, tmp_path):
    """Only what the demonstration has can be completed."""
    (tmp_path / "mine.toml").write_text(
        'title = "Mine"\n[[sheet]]\nname = "Own"\n[[sheet.block]]\nkind = "inputs"\n'
        'rows = [{ label = "Seat", from = "luggage.seat", kind = "length" }]\n',
        encoding="utf-8",
    )
    status, _, errors = run(FEW, "--template", "mine.toml")
    assert status == 1
    assert "the table [luggage] is missing" in errors


def test_an_empty_scenario_is_a_mistake(run):
    status, _, errors = run("# nothing yet\n")
    assert status == 1
    assert "the file is empty" in errors
