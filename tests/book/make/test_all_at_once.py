"""All mistakes of a template, its chapters and a scenario at once: each has its line."""

import re

import pytest
from cornerbook.book.make.texts.mistakes import MOST, Mistakes, PlacedTrouble
from cornerbook.book.make.texts.places import find

from tests.book.make.texts import stopped

LAPWING = find("scenarios", "lapwing").read_text(encoding="utf-8")

TEMPLATE = """title = "Mine"
chapters = ["car", "front-corner", "own.toml"]
"""

OWN = """about = "Many mistakes."
needs = ["car", "front-corner"]

[[sheet]]
name = "Mistakes"

[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [
  { label = "Base", kind = "length", formula = "=Wheelbse+1" },
  { label = "Trail", kind = "lenght", formula = "=CORNER.TRAIL(Front)" },
  { label = "Toe", kind = "angle", formula = "=IF(1>0,1,CORNER.TEO(Front))" },
  { label = "Caster", kind = "angle", formula = "=CORNER.CASTER()", band = "target.castor" },
  { label = "Half", kind = "length", formula = "=(Wheelbase/2" },
  { label = "Far", kind = "length", formula = "=A1:XFD1048576" },
]

[[sheet.block]]
kind = "grd"
formula = "=1"

[[sheet.block]]
kind = "inputs"
rows = [
  { label = "Text", value = "a", kind = "length" },
  { label = "Limits", value = 1, kind = "length", least = 3, most = 2 },
  { label = "Cell", name = "R1C1", value = 1, kind = "length" },
]

[[sheet.block]]
kind = "series"
name = "run"
over = "travel"
kind_over = "length"
start = "0"
end = "1"
points = 9
columns = [{ title = "camber", kind = "angle", formula = "=CORNER.CAMBRE(Front,{x})" }]

[[sheet.block]]
kind = "heat"
corner = "Front"
quantities = ["cambre", "tow"]
"""

ONE = (
    OWN.split("[[sheet.block]]")[0]
    + """[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [{ label = "Base", kind = "length", formula = "=Wheelbase+1" }]
"""
)

LINES = {
    "mine.toml": [],
    "own.toml": [
        (11, "Wheelbse is neither a name nor cells; did you mean \"Wheelbase\"?"),
        (12, 'the kind "lenght" is not known; did you mean "length"?'),
        (13, 'there is no formula CORNER.TEO; did you mean "CORNER.TOE"?'),
        (14, "CORNER.CASTER is given 0 arguments; it takes CORNER.CASTER(corner, "),
        (14, 'the wish "castor" is not known; did you mean "caster"?'),
        (15, "cannot be read"),
        (16, "has more than 100000 cells"),
        (20, 'the kind "grd" is not known; did you mean "grid"?'),
        (26, 'the value of the row "Text" is a text; a number was expected'),
        (27, 'the limits of the row "Limits" are the wrong way round'),
        (28, '"R1C1" cannot be a name of cells'),
        (39, 'there is no formula CORNER.CAMBRE; did you mean "CORNER.CAMBER"?'),
        (44, 'the quantity "cambre" is not known; did you mean "camber"?'),
        (44, 'the quantity "tow" is not known; did you mean "toe"?'),
    ],
    "lapwing.toml": [
        (None, 'the key "car.mass" is missing; the chapter "car" needs it'),
        (None, 'the row "Lower bal joint" is not known; did you mean "Lower ball joint"?'),
    ],
}  # fmt: skip


@pytest.fixture
def said(tmp_path):
    def run(scenario=LAPWING, mine=TEMPLATE, own=OWN):
        return stopped(tmp_path, mine, scenario, own=own).split("\n")

    return run


def test_every_mistake_is_said_once(said):
    scenario = LAPWING.replace("mass = 280\n", "").replace("Lower ball joint", "Lower bal joint", 1)
    lines = said(scenario)
    expected = [(file, *each) for file, found in LINES.items() for each in found]
    assert len(lines) == len(expected), "\n".join(lines)
    for file, number, words in expected:
        assert any(
            words in line and re.match(rf"{file}, line {number or '[0-9]+'}: ", line)
            for line in lines
        ), (file, number, words)


def test_they_stand_by_file_and_line(said):
    lines = said(LAPWING.replace("mass = 280\n", ""))
    places = [re.match(r"(.+\.toml), line (\d+): ", line).groups() for line in lines]
    order = ["mine.toml", "own.toml", "lapwing.toml"]
    keys = [(order.index(file), int(number)) for file, number in places]
    assert keys == sorted(keys)


def test_of_many_there_is_a_count(said):
    rows = "".join(
        f'  {{ label = "Row {n}", kind = "length", formula = "=Nothing{n}x" }},\n'
        for n in range(MOST + 7)
    )
    own = OWN.split("[[sheet.block]]")[0] + '[[sheet.block]]\nkind = "results"\ncolumns = ["now"]\n'
    lines = said(own=f"{own}rows = [\n{rows}]\n")
    assert len(lines) == MOST + 1
    assert lines[-1] == "and 7 more"


def test_what_a_block_left_out_would_have_given_is_not_missed(said):
    """One mistake, though its name is used by a formula, its table by a chart and a series."""
    own = """about = "One mistake."
needs = ["car"]
gives = ["Given", "Run"]
tables = ["run"]

[[sheet]]
name = "One"

[[sheet.block]]
kind = "inputs"
rows = [{ label = "Given", name = "Given", value = 1, kind = "lenght" }]

[[sheet.block]]
kind = "series"
name = "run"
over = "it"
kind_over = "length"
start = "0"
end = "Given"
point = 3
columns = [{ title = "twice", kind = "length", formula = "=2*{x}" }]

[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [
  { label = "Run", name = "Run", kind = "length", formula = "=MAX({run:twice})+Given" },
]

[[sheet.block]]
kind = "chart"
table = "run"
title = "Run"
quantities = ["twice"]

[[sheet.block]]
kind = "series"
name = "other"
over = "it"
kind_over = "length"
like = "run"
columns = []
"""
    lines = said(own=own)
    assert [re.sub(r":.*", "", line) for line in lines] == [
        "own.toml, line 11",
        "own.toml, line 20",
    ]


def test_a_chapter_that_is_not_there_takes_no_blame_for_others(said):
    lines = said(mine=TEMPLATE.replace('"car"', '"cra"'), own=ONE)
    assert len(lines) == 1, lines
    assert 'there is no chapter named "cra"; did you mean "car"?' in lines[0]


def test_formulas_in_a_circle_are_said(said):
    rows = '[{ label = "A", name = "Aa_", kind = "length", formula = "=Bb_+1" },\n'
    rows += '{ label = "B", name = "Bb_", kind = "length", formula = "=Aa_+1" }]\n'
    own = OWN.split("[[sheet.block]]")[0].replace("needs =", 'gives = ["Aa_", "Bb_"]\nneeds =')
    own += f'[[sheet.block]]\nkind = "results"\ncolumns = ["now"]\nrows = {rows}'
    assert any("needs its own result" in line for line in said(own=own))


def test_a_line_stays_a_line_and_is_not_endless():
    (line,) = str(PlacedTrouble([("a.toml", 3, 'the key "x\ny\x00' + "z" * 5000)])).split("\n")
    assert line.startswith('a.toml, line 3: the key "x\\x0ay\\x00zzz')
    assert len(line) < 1000


def test_files_stand_in_the_order_in_which_they_were_read():
    mistakes = Mistakes()
    mistakes.files = ["z.toml", "b.toml"]
    for file, line in (("b.toml", 1), ("a.toml", 9), ("z.toml", 10), ("z.toml", 9)):
        mistakes.take(PlacedTrouble([(file, line, "m")]))
    with pytest.raises(PlacedTrouble) as problem:
        mistakes.hold()
    assert [place[:2] for place in problem.value.places] == [
        ("z.toml", 9), ("z.toml", 10), ("b.toml", 1), ("a.toml", 9),
    ]  # fmt: skip
