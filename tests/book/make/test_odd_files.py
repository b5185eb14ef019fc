"""Files that are hardly text files, and values that nobody would write: a sentence each."""

import shutil
from pathlib import Path

import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import make
from cornerbook.book.make.texts.places import find

from tests.support.looking import looked_into

LAPWING = find("scenarios", "lapwing").read_text(encoding="utf-8")
EVERY_KIND = Path(__file__).parents[2] / "fuzz" / "every_kind.toml"


def trouble(scenario="lapwing", template="car"):
    with pytest.raises(Trouble) as problem:
        make(str(template), str(scenario))
    return str(problem.value)


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", 'line 1: the file is empty; title = "...", unit = "mm" and more were expected'),
        (b"\n# nothing\n", "line 1: the file is empty"),
        (LAPWING.encode("utf-16"), "line 1: the file is stored as UTF-16; store it as UTF-8"),
        (LAPWING.encode("utf-16-be"), "line 1: this is no TOML"),
        (b'title = "a"\nunit = "m\xe4"\n', "line 2: there is a letter that is not UTF-8"),
        (b'title = "a"\n\nunit = "m\x00"\n', "line 3: this is no TOML: Illegal character"),
        (b'title = "a"\nunit = [1, 2\n', "line 2: this is no TOML: Unclosed array"),
        (b'title = "a"\nunit = \n', "line 2: this is no TOML: Invalid value"),
        (b'title = "a"\n# Lap\rwing\nunit = "mm"\n', "line 2: this is no TOML"),
        (b'title = "a"\nx = ' + b"[" * 60 + b"]" * 60, "line 2: tables and lists stand in one"),
        (b'title = "a"\nx = ' + b"[" * 2400 + b"]" * 2400, "line 2: tables and lists stand in one"),
        (b'title = "a"\n' + b"a." * 2000 + b"a = 1", "line 2: tables and lists stand in one"),
        (b'title = "a"\n' + b"a." * 4000 + b"a = 1", "line 2: the line has more than 5000 letters"),
        (b'title = "a"\n' * 50_000, "line 1: the file has more than 500 kB"),
        (b"\x7fELF\x02\x01" + bytes(range(256)) * 9, "line "),
    ],
)
def test_a_scenario_that_is_hardly_a_text(tmp_path, content, sentence):
    path = tmp_path / "car.toml"
    path.write_bytes(content)
    said = trouble(path)
    assert said.startswith("car.toml, line ")
    assert sentence in said.split("\n")[0]
    said = trouble(template=path)
    assert said.startswith("car.toml, line ")


def test_a_mark_of_utf_8_and_ends_of_lines_of_any_kind_are_taken(tmp_path):
    path = tmp_path / "car.toml"
    path.write_bytes(LAPWING.encode("utf-8-sig").replace(b"\n", b"\r\n"))
    assert make("car", str(path), chapters=["masses"]) == make("car", chapters=["masses"])


def test_lines_are_counted_alike_with_any_ends_of_lines(tmp_path):
    path = tmp_path / "car.toml"
    wrong = LAPWING.replace("wheelbase = 1580", "wheelbase = true")
    path.write_bytes(wrong.encode("utf-8").replace(b"\n", b"\r\n"))
    number = wrong.split("\n").index("wheelbase = true") + 1
    assert trouble(path).startswith(f"car.toml, line {number}: ")


def test_what_is_no_file(tmp_path):
    folder = tmp_path / "folder.toml"
    folder.mkdir()
    assert trouble(folder) == f"{folder} is a folder; a .toml file was expected"
    assert trouble(tmp_path) == f"{tmp_path} is a folder; a .toml file was expected"
    assert trouble(tmp_path / "no.toml") == f"there is no file {tmp_path / 'no.toml'}"
    assert "cannot be read" in trouble(tmp_path / ("n" * 400 + ".toml"))
    assert "there is no file" in trouble("/dev/null/car.toml")
    assert "there is no file" in trouble("x\x00.toml")
    listed = tmp_path / "mine.toml"
    for name in ("folder.toml", "..", "n" * 400 + ".toml", "x\\u0000.toml", "", "."):
        listed.write_text(f'title = "a"\nchapters = [\n"car",\n"{name}"]\n', encoding="utf-8")
        assert trouble(template=listed).startswith("mine.toml, line 4: "), name


def test_a_file_that_may_not_be_read(tmp_path, monkeypatch):
    path = tmp_path / "car.toml"
    path.write_text(LAPWING, encoding="utf-8")

    def refused(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("builtins.open", refused)
    with pytest.raises(Trouble, match=r"car\.toml cannot be read: Permission denied"):
        make("car", str(path))


def test_both_that_are_not_there_are_said_at_once():
    said = trouble("lapwng", "carr").split("\n")
    assert said[0].startswith('there is no scenario named "lapwng"; did you mean "lapwing"?')
    assert said[1].startswith('there is no template named "carr"; did you mean "car"?')


@pytest.fixture
def said(tmp_path):
    """A function of a change of the template with every kind of block: what `make` says."""

    def run(old, new):
        text = EVERY_KIND.read_text(encoding="utf-8")
        assert old in text
        shutil.copy(find("chapters", "car"), tmp_path / "car.toml")
        (tmp_path / "mine.toml").write_text(text.replace(old, new, 1), encoding="utf-8")
        return trouble(template=tmp_path / "mine.toml"), text

    return run


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('colour = "#B5472F"', 'colour = "rot"', "a colour such as #2F4B66 was expected"),
        ('colour = "#B5472F"', 'colour = "#B5472"', "a colour such as #2F4B66 was expected"),
        ("[26, 13, 13, 13, 9]", '[26, "13"]', 'the list "widths" has a text'),
        ("[26, 13, 13, 13, 9]", "[26, nan]", 'an item of the list "widths" is nan'),
        ("[26, 13, 13, 13, 9]", "[0, 1e308]", 'an item of the list "widths" is 0; a number from 1'),
        ("[26, 13, 13, 13, 9]", "[" + "9, " * 101 + "]", "at most 100 columns"),
        ("[26, 13, 13, 13, 9]", "[" + "1," * 2200 + "]", "has 2200 items; 2000 at most"),
        ('name = "Points"', 'name = "A/B"', "a name of at most 31 letters"),
        ('name = "Points"', f'name = "{"n" * 32}"', "a name of at most 31 letters"),
        ('name = "Points"', "name = \"'quoted'\"", "a name of at most 31 letters"),
        ('name = "Points"', 'name = ""', "a name of at most 31 letters"),
        ('name = "Points"', 'name = "hIstory"', "Excel keeps the name History for itself"),
        ('name = "Points"', 'name = "RUNS"', 'two sheets are named "Runs"'),
        ("rows = 4", "rows = 1e308", "a whole number from 1 to 1000 was expected"),
        ("rows = 4", "rows = 4.5", "is 4.5; a whole number from 1 to 1000 was expected"),
        ("rows = 4", "rows = -1", "is -1; a whole number from 1 to 1000 was expected"),
        ("rows = 4", "rows = nan", "is nan, not a number; a whole number from 1 to 1000"),
        ("rows = 4", "rows = true", "is true or false; a number was expected"),
        ("rows = 4", "rows = " + "9" * 400, "is far too large; a whole number from 1 to 1000"),
        ("rows = 4", "rows = " + "9" * 4990, "a number has thousands of digits"),
        ("points = 3", "points = 99999999", "a whole number from 1 to 1001 was expected"),
        ("every = 2", "every = 0", "is 0; a whole number from 1 to 1000 was expected"),
        ("every = 2", "every = inf", "is infinite; a whole number from 1 to 1000"),
        ("count = 2", "count = nan", "is nan"),
        ("width = 400", "width = 0", "is 0; a number from 20 to 4000 was expected"),
        ("width = 600", "width = 1e9", "a number from 20 to 4000 was expected"),
        ("width = 830", "width = -3", "a number from 20 to 4000 was expected"),
        ("rows = 22", "rows = inf", "is infinite; a whole number from 1 to 200"),
        ('file = "signs.png"', 'file = "signs.svg"', 'the picture "signs.svg" is no PNG'),
        ('file = "signs.png"', 'file = "."', 'there is no picture "."'),
        ('file = "signs.png"', f'file = "{"n" * 300}"', "there is no picture"),
        ("range_up = [0, 600]", "range_up = [0, nan]", "range_up is no range"),
        ("range_up = [0, 600]", "range_up = [0, 1e-320]", "more than 10 times the other"),
        ("range_up = [0, 600]", 'range_up = [0, "x"]', "range_up is no range"),
        ('{ label = "Other", values = ["down", "=Half", 5.5] }', "inf",
         "a row is a number; { label = ..., values = ... } was expected"),
        ('values = ["down", "=Half", 5.5]', "values = 5",
         'in the row "Other" the key "values" is a number; a list'),
        ('["line"]', "[1]", 'the list "tables" has a number; a text was expected'),
        ('points = ["lower ball joint", "", "upper ball joint"]', "points = [true]",
         'the list "points" has true or false; a text was expected'),
        ('points = ["lower ball joint", "", "upper ball joint"]', 'points = [""]',
         "an outline has one point at least"),
        ('name = "Half"', 'name = "R1C1"', '"R1C1" cannot be a name of cells'),
        ('name = "Half"', 'name = "AB12"', '"AB12" cannot be a name of cells'),
        ('name = "Half"', 'name = "two words"', '"two words" cannot be a name of cells'),
        ('name = "Half"', 'name = "TRUE"', '"TRUE" cannot be a name of cells'),
        ("value = 5", "value = nan", 'the key "value" is nan, not a number'),
        ("least = 0.01", "least = -inf", 'the key "least" is infinite'),
        ("least = -200", "least = 300", "the limits of the row \"Rack\" are the wrong way round"),
        ('label = "Half"', 'label = "Ha\\u0007lf"', "has the letter with the code 7"),
        ('"Another."', '"Ano\\uffffther"', "has the letter with the code 65535"),
        ('"Another."', "'" + "long " * 990 + "', '''\n" + "long \n" * 1700 + "'''",
         "letters; 8000 at most were expected"),
        ("=CORNER.TOE(Front)", "=CORNER.TOE(Front", "cannot be read"),
        ("=CORNER.TOE(Front)", "=)", "cannot be read"),
        ("=CORNER.TOE(Front)", "='", "cannot be read"),
        ("=CORNER.TOE(Front)", "=#BOGUS!", "cannot be read"),
        ("=CORNER.TOE(Front)", "=" + "ABS(" * 900 + "1" + ")" * 900, "inside one another"),
        ("=CORNER.TOE(Front)", "=A1:XFD1048576", "has more than 100000 cells"),
        ("=CORNER.TOE(Front)", "=SUM(A1:ZZZ9999999)", "is beyond the sheet"),
        ("=CORNER.TOE(Front)", "=SUM(B2:A1)", "has its ends the wrong way round"),
        ("=CORNER.TOE(Front)", "=Nowhere!A1", "there is no sheet named Nowhere"),
        ("=CORNER.TOE(Front)", "=IF(1,2,3,4)", "IF has 4 arguments"),
        ("=CORNER.TOE(Front)", "=ABS(1,2)", "ABS has 2 arguments"),
        ("=CORNER.TOE(Front)", "=NOSUCH(1)", "the function NOSUCH is not known to the generator"),
        ("=CORNER.TOE(Front)", "=CORNER.TOE(Front,1,2,3)", "CORNER.TOE is given 4 arguments"),
        ('title = "Every kind"', 'title = ["a"]', "is a list in square brackets"),
        ("[[sheet.block]]", "[sheet.block]", "the table sheet.block stands twice"),
        ('chapters = ["car.toml"]', 'chapters = "car.toml"', "a list in square brackets was"),
        ('chapters = ["car.toml"]', "sheet = 5", "the table sheet stands twice"),
    ],
)  # fmt: skip
def test_an_odd_value_has_its_sentence_and_its_line(said, old, new, sentence):
    message, text = said(old, new)
    at = text[: text.index(old)].count("\n") + 1
    (line,) = [line for line in message.split("\n") if sentence in line]
    assert line.startswith("mine.toml, line ")
    number = int(line.split("line ")[1].split(":")[0])
    if "two sheets" in sentence or "stands twice" in sentence:
        assert number > at  # where it stands again
    else:
        # A text that runs over lines may have what is wrong in its second.
        assert at <= number <= at + 1


@pytest.mark.parametrize(
    ("sheets", "chapter", "sentence"),
    [
        ("sheet = [[1]]", {}, "mine.toml, line 3: a sheet begins with [[sheet]]"),
        ("sheet = [{ name = ['a'], block = [] }]", {}, 'the key "name" is a list'),
        ("", {'group = "the car': 'group = ["the car', 'wanted"': 'wanted"]'},
         'car.toml, line 2: in the chapter the key "group" is a list in square brackets'),
    ],
)  # fmt: skip
def test_a_list_in_the_place_of_a_table_or_a_text(sheets, chapter, sentence, tmp_path):
    text = find("chapters", "car").read_text(encoding="utf-8")
    for old, new in chapter.items():
        assert old in text
        text = text.replace(old, new, 1)
    (tmp_path / "car.toml").write_text(text, encoding="utf-8")
    mine = f'title = "a"\nchapters = ["car.toml"]\n{sheets}\n'
    (tmp_path / "mine.toml").write_text(mine, encoding="utf-8")
    assert sentence in trouble(template=tmp_path / "mine.toml")


def test_numbers_that_no_spreadsheet_shows_are_errors_of_the_cell(tmp_path):
    """What a formula gives is the workbook's matter: the cell says so, as it does in Calc.

    Of one that reads cells, what is typed may be the cause: it says where to look.
    """
    import io

    formulas = {
        "=10^400": "#NUM!", "=(-8)^(1/3)": -2.0, "=0^-1": "#NUM!", "=MOD(1,0)": "#DIV/0!",
        "=1E308*10": "#NUM!", "=ROUND(1,400)": 1.0, "=SQRT(-1)": "#NUM!",
        "=INDEX(1,2)": "#VALUE!", "=1/0": "#DIV/0!",
        "=MATCH(5,A1:B2,0)": "# no number comes of A1:B2; look there",
    }  # fmt: skip
    rows = ",\n".join(f"{{ label = 'r', kind = 'ratio', formula = '{f}' }}" for f in formulas)
    text = 'title = "a"\n[[sheet]]\nname = "S"\n[[sheet.block]]\nkind = "results"\n'
    text += f'columns = ["now"]\nrows = [{rows}]\n'
    (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    book = looked_into(io.BytesIO(make(str(tmp_path / "mine.toml"))), data_only=True)
    shown = [book["S"].cell(row, 2).value for row in range(2, 2 + len(formulas))]
    assert shown == list(formulas.values())
