"""A formula reads only the rows that it needs, so a block may be unfinished."""

import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

AXIS = ("Lower ball joint", "Upper ball joint")
WHEEL = ("Wheel centre", "Tyre radius", "Static camber", "Static toe")


def _rows(*names):
    return tuple(row for row in EXAMPLE if row[0] in names)


@pytest.mark.parametrize(
    "name, rows",
    [
        ("CASTER", AXIS),
        ("KPI", AXIS),
        ("TRAIL", AXIS + WHEEL),
        ("SCRUB", AXIS + WHEEL),
        ("CAMBER", ("Static camber", "Static toe")),
        ("TOE", ("Static camber", "Static toe")),
    ],
)
def test_as_drawn_only_these_rows_are_needed(name, rows):
    assert call(name, _rows(*rows)) == call(name, EXAMPLE)
    assert isinstance(call(name, EXAMPLE), float)
    for left_out in rows:
        result = call(name, _rows(*(row for row in rows if row != left_out)))
        assert isinstance(result, str)
        assert left_out.lower() in result


def test_with_travel_the_pickups_are_needed():
    assert "lower front pickup" in call("TRAIL", _rows(*AXIS, *WHEEL), 10.0)


def test_a_wrong_row_that_is_not_needed_does_not_matter():
    rows = (*_rows(*AXIS, *WHEEL), ("Tie rod outer", "later", "", ""))
    assert call("TRAIL", rows) == call("TRAIL", EXAMPLE)
