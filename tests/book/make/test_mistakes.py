"""A template or scenario with a mistake: the file, the line or key, and what was expected."""

from pathlib import Path

import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import make

from tests.book.make.flat import flat
from tests.book.make.texts import changed, line_of, stopped

WORKBOOKS = Path(__file__).parents[3] / "workbooks"
STARTER = flat("car")
LAPWING = (WORKBOOKS / "scenarios" / "lapwing.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('kind = "corner"', 'kind = "cornr"', ['"cornr"', '"corner"']),
        ('over = "travel"', 'ovre = "travel"', ['"ovre"', '"over"']),
        ("points = 21", 'points = "21"', ["points", "a number was expected"]),
        ('wish = "trail", name', 'wish = "tail", name', ['"tail"', "stands on no sheet above"]),
        ('from = "car.wheelbase"', 'from = "car.wheelbse"', ["car.wheelbse", "wheelbase"]),
        ("CORNER.TRAIL(Front)", "CORNER.TRIAL(Front)", ["TRIAL"]),
        ("CORNER.TRAIL(Front)", "VLOOKUP(Front)", ["VLOOKUP"]),
        ("CORNER.TRAIL(Front)", "CORNER.TRAIL(Frnt)", ["Frnt"]),
        ("=FrontTrack/Wheelbase", "=FrontTrack/(Wheelbase", ["cannot be read"]),
        ('quantities = ["camber"]', 'quantities = ["cambre"]', ["cambre"]),
        ('file = "signs.png"', 'file = "sings.png"', ["sings.png"]),
        ('name = "Trail", kind = "length"', 'name = "Trail", kind = "lenght"', ["length"]),
        (
            'name = "Scrub", kind = "length", formulas',
            'name = "Trail", kind = "length", formulas',
            ["Trail", "twice"],
        ),
        ('name = "Car"', 'name = "Bump"', ["Bump"]),
        ("[[sheet]]", "[sheet", ["line"]),
    ],
)
def test_template(tmp_path, old, new, words):
    message = stopped(tmp_path, changed(STARTER, old, new), LAPWING)
    assert message.startswith("mine.toml") or message.startswith("lapwing.toml")
    for word in words:
        assert word in message


def test_template_names_the_line(tmp_path):
    message = stopped(tmp_path, changed(STARTER, 'over = "travel"', 'ovre = "travel"'), LAPWING)
    assert message.startswith("mine.toml, line %d: " % line_of(STARTER, 'over = "travel"'))


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('unit = "mm"', 'unit = "km"', ["km", '"mm" or "in"']),
        ("wheelbase = 1580", 'wheelbase = "long"', ["wheelbase", "a number was expected"]),
        ("wheelbase = 1580", "", ["car.wheelbase"]),
        ("from = -1.5, to = -0.5", "from = -0.5, to = -1.5", ["wanted.camber", "each above"]),
        ("from = -1.5, to = -0.5", "form = -1.5, to = -0.5", ["wanted.camber", '"from"']),
        ("from = -1.5, to = -0.5", 'from = "low"', ["wanted.camber", "a number"]),
        ("[5, 516.5, 150]", "[5, 516.5]", ["Lower ball joint", "[x, y, z]"]),
        ("[5, 516.5, 150]", "[5, 516.5, 15O]", ["line"]),
    ],
)
def test_scenario(tmp_path, old, new, words):
    message = stopped(tmp_path, STARTER, changed(LAPWING, old, new))
    assert message.startswith("lapwing.toml")
    for word in words:
        assert word in message


def test_scenario_with_a_bad_linkage_is_still_made(tmp_path):
    """A car that does not close is the user's to mend in the sheet, which says so."""
    car = tmp_path / "car.toml"
    car.write_text(changed(LAPWING, '"Tie rod inner" = [-88.5, 134.5, 190]',
                           '"Tie rod inner" = [-96, 475, 192]'), encoding="utf-8")  # fmt: skip
    assert make(scenario=str(car))


def test_names_that_are_not_there():
    with pytest.raises(Trouble, match="car"):
        make(template="carr")
    with pytest.raises(Trouble, match="there is no file"):
        make(scenario="nowhere/car.toml")
