"""What single fields cannot say: each mistake in a block gets its sentence and its line."""

import pytest
from cornerbook.book.make.new import make

from tests.book.make.texts import stopped, written

TEMPLATE = """title = "Mine"

[[sheet]]
name = "Points"

[[sheet.block]]
kind = "corner"
name = "Front"
from = "corner.front"

[[sheet.block]]
kind = "inputs"
rows = [
  { label = "Rack", name = "Rack", value = 5, kind = "length" },
  { label = "Result", name = "Result", value = "toe", kind = "text" },
]

[[sheet.block]]
kind = "results"
columns = ["now"]
rows = [{ label = "Toe", kind = "angle", formulas = ["=CORNER.TOE(Front)"] }]

[[sheet.block]]
kind = "series"
name = "run"
over = "rack"
kind_over = "length"
start = "0"
end = "Rack"
points = 3
columns = [{ title = "toe", kind = "angle", formula = "=CORNER.TOE(Front,0,{x})" }]

[[sheet.block]]
kind = "chart"
table = "run"
title = "Toe"
quantities = ["toe"]

[[sheet.block]]
kind = "variants"
corner = "Front"
from = "corner.front"
count = 1
inputs = ["Rack"]
rows = [{ label = "Toe", kind = "angle", formula = "=CORNER.TOE({corner})", band = "target.toe" }]

[[sheet.block]]
kind = "grid"
formula = "=CORNER.SENSITIVITIES(Front,Result)"
rows = 5
columns = 2
unit = "angle"

[[sheet.block]]
kind = "heat"
corner = "Front"
quantities = ["toe", "ackermann"]
rack = "Rack"
wheelbase = "1500"

[[sheet.block]]
kind = "adjusters"
corner = "Front"
from = "adjusters"
quantities = ["caster", "ackermann"]
rack = "Rack"
wheelbase = "1500"

[[sheet.block]]
kind = "outline"
name = "line"
corner = "Front"
points = ["lower ball joint", "upper ball joint"]
pose = '0,0,Rack,"left"'

[[sheet.block]]
kind = "drawing"
title = "Side"
tables = ["line"]
across = "x"
up = "z"
range_across = [-100, 100]
range_up = [0, 600]
"""


def test_without_a_mistake_it_is_made(tmp_path):
    assert make(*written(tmp_path, mine=TEMPLATE))


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("value = 5", 'value = "5"',
         'the value of the row "Rack" is a text; a number was expected'),
        ('value = "toe"', "value = 5",
         'the value of the row "Result" is a number; a text was expected'),
        ("value = 5", "value = [5]",
         'the value of the row "Rack" is a list in square brackets; a number was expected'),
        ('formulas = ["=CORNER.TOE(Front)"]', "formulas = []", 'the row "Toe" has no formula'),
        ('formulas = ["=CORNER.TOE(Front)"]', "formulas = [5]",
         'in the row "Toe" the list "formulas" has a number; a text was expected'),
        ('formulas = ["=CORNER.TOE(Front)"]', 'formulas = [""], formula = "=1"',
         'the row "Toe" needs one of: formula or formulas'),
        ('rows = [{ label = "Toe", kind = "angle", formulas', 'rows = ["Toe"] # formulas',
         "a row is a text; { label = ..., ... } was expected"),
        ('columns = ["now"]', "columns = [1]", 'the list "columns" has a number'),
        ("points = 3", 'like = "run"', "what runs needs start, end and points, or like alone"),
        ("points = 3", "", "what runs needs start, end and points, or like alone"),
        ("points = 3", "points = 1", "a table has 2 points at least"),
        ('kind_over = "length"', 'kind_over = "lenght"',
         'the kind_over "lenght" is not known; did you mean "length"?'),
        ('columns = [{ title = "toe", kind = "angle", formula', 'columns = ["toe"] # formula',
         "a column is a text; { title = ..., kind = ..., formula = ... } was expected"),
        ('quantities = ["toe"]', "quantities = []", "a chart shows one column at least"),
        ('quantities = ["toe"]', 'quantities = ["tow"]', 'the table has no column "tow"'),
        ("count = 1", "count = 9", "the count of variants is 1 to 8"),
        ("count = 1", "count = 1.5", "the count of variants is 1 to 8"),
        ('inputs = ["Rack"]', "inputs = [1]", 'the list "inputs" has a number'),
        (', band = "target.toe"', "", 'the key "band" is missing in the row "Toe"'),
        ('unit = "angle"', 'unit = "degrees"', 'the unit "degrees" is not known'),
        ('rack = "Rack"\n', "", 'quantities of the axle need the key "rack"'),
        ('wheelbase = "1500"\n', "", 'quantities of the axle need the key "wheelbase"'),
        ('tables = ["line"]', "tables = []", "a drawing shows one table at least"),
        ('tables = ["line"]', 'tables = ["lime"]', 'there is no table "lime" above'),
        ('up = "z"', 'up = "w"', 'the table "line" has no column "w"'),
        ("[-100, 100]", "[100, -100]", "range_across is no range"),
        ("[0, 600]", "[0, 600, 700]", "range_up is no range"),
        ("[0, 600]", '[0, "600"]', "range_up is no range"),
    ],
)  # fmt: skip
def test_mistake(tmp_path, old, new, sentence):
    assert old in TEMPLATE
    said = stopped(tmp_path, TEMPLATE.replace(old, new))
    assert said.startswith("mine.toml, line ")
    assert sentence in said


def test_adjusters_hold_the_axle_keys_too(tmp_path):
    """The blocks of sensitivities and of adjusters alike, one mistake at a time."""
    head, tail = TEMPLATE.split('kind = "adjusters"')
    for key in ('rack = "Rack"\n', 'wheelbase = "1500"\n'):
        said = stopped(tmp_path, head + 'kind = "adjusters"' + tail.replace(key, "", 1))
        assert "quantities of the axle need the key" in said
