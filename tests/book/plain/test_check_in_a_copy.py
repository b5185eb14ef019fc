"""CHECK as a copy without an add-in has it: recorded for the sound corner, then mistakes typed in.

The recorded steps are worked out by the package's own reading of them; what Calc makes of the
formulas is held in tests/calc.
"""

import math

import pytest
from cornerbook.book.plain.forms.check import checked
from cornerbook.book.plain.recorded.work import evaluated
from cornerbook.book.plain.workings.points import Points
from cornerbook.catalogue import call
from cornerbook.cells.block import key_of
from cornerbook.cells.judge import BUT_LOOK

from tests.support.cars import plausible_cars
from tests.support.mistakes import BARE, CORNER, MISTAKES


class Copy:
    """A copy's CHECK of a block, and what it says once other cells stand in the block."""

    def __init__(self, rows, unit):
        self.points = Points("Front", rows, lambda row, column: (row, column))
        self.step = checked(self.points, unit)

    def says(self, rows):
        """The text for these rows, in the places of those that the copy was made of."""
        places = self.points.block.row_numbers

        def given(what):
            _, key = what
            if key in self.points.table.direct:
                row, column = key
                return _cell(rows[row][column])
            name, place = key
            cell = rows[places[name]][1 + place]
            return float(cell) if isinstance(cell, (int, float)) else math.nan

        return evaluated(self.step, given, {})


def _cell(cell):
    return float(cell) if isinstance(cell, (int, float)) else cell


@pytest.fixture(scope="module")
def copy():
    return Copy(CORNER, "mm")


def _typed_in(rows):
    """Whether a mistake is one of cells alone, which can be typed into a copy."""
    same_names = [row[0] for row in rows] == [row[0] for row in CORNER]
    return same_names and len(rows[0]) == 4


TYPED = {name: rows for name, (rows, *_) in MISTAKES.items() if _typed_in(rows)}


def test_most_mistakes_can_be_typed_into_a_copy():
    assert len(TYPED) > 0.8 * len(MISTAKES)


def test_a_sound_corner_is_ok(copy):
    assert copy.says(CORNER) == "ok"
    assert Copy(BARE, "in").says(BARE) == call("CHECK", BARE, "in")


@pytest.mark.parametrize("name", TYPED)
def test_a_mistake_is_said_alike(copy, name):
    rows = TYPED[name]
    wanted, said = call("CHECK", rows, "mm"), copy.says(rows)
    if rows[12][1] != CORNER[12][1]:
        assert said == "# Rod mount: this word was edited; make the copy anew to change it"
    else:
        assert said == wanted


@pytest.mark.parametrize("name", MISTAKES)
def test_a_copy_of_a_mistaken_block_says_it_too(name):
    """The copy is made of the mistake, and the cells stay as they are."""
    rows = MISTAKES[name][0]
    try:
        said = Copy(rows, "mm").says(rows)
    except (ValueError, KeyError):
        # A row that is missing, or no word: the copy keeps the original's own sentence.
        assert call("CHECK", rows, "mm").startswith("# ")
        return
    wanted = call("CHECK", rows, "mm")
    assert said == wanted or (said.startswith("# ") and wanted.startswith("# "))
    assert said.startswith(BUT_LOOK) == wanted.startswith(BUT_LOOK)


def test_plausible_cars_are_ok_in_a_copy():
    """Each typed into a copy that was made of the first car with the same rows."""
    copies = {}
    for rows in plausible_cars(831, 60):
        mount = [row[1] for row in rows if key_of(row[0]) == "rodmount"]
        kind = (len(rows), *mount)
        if kind not in copies:
            copies[kind] = Copy(rows, "mm")
        assert copies[kind].says(rows) == "ok"
    assert len(copies) >= 5
