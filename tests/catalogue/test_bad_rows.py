"""What a range of rows that cannot be gives: a sentence with the row and the column."""

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import TABLES

from tests.calc.examples import raw_arguments
from tests.catalogue.test_bad_input import said

OF_PARTS = [name for name, f in FORMULAS.items() if f.arguments[0].name == "parts"]


def ask(name, rows):
    raw = raw_arguments(FORMULAS[name])
    return call(name, rows, *raw[1:])


PARTS = TABLES["SomeParts"]


def test_all_are_looked_at():
    assert len(OF_PARTS) == 5
    assert all(isinstance(ask(name, PARTS), float) for name in OF_PARTS)


def changed(place, cell, row=0):
    rows = [list(each) for each in PARTS]
    rows[row][place] = cell
    return tuple(map(tuple, rows))


@pytest.mark.parametrize("name", OF_PARTS)
def test_a_cell_that_cannot_be(name):
    said(ask(name, changed(1, -3.0)), "the mass of Frame is -3", "not below 0")
    said(ask(name, changed(5, -3.0)), "the size along x of Frame is -3", "not below 0")
    said(ask(name, changed(8, 1.5)), "the unsprung share of Frame is 1.5", "from 0 to 1")
    for place, axis in ((2, "x"), (3, "y"), (4, "z")):
        said(ask(name, changed(place, "")), f"the {axis} of Frame is missing")
        said(ask(name, changed(place, None)), f"the {axis} of Frame is missing")
    said(ask(name, changed(1, "")), "the mass of Frame is missing")
    said(ask(name, changed(2, "far")), 'the x of Frame is "far"', "a number was expected")
    said(ask(name, changed(2, True)), "the x of Frame is TRUE")
    said(ask(name, changed(2, "# a sentence of another")), "# a sentence of another")


@pytest.mark.parametrize("name", OF_PARTS)
def test_a_row_without_a_name_is_called_by_its_number(name):
    rows = [list(each) for each in PARTS]
    rows[1][:2] = ["", -1.0]
    said(ask(name, tuple(map(tuple, rows))), "the mass of row 2 is -1")


@pytest.mark.parametrize("name", OF_PARTS)
def test_blank_rows_are_nothing(name):
    blank = ("",) * 9
    named = ("To be chosen", *("",) * 8)
    wanted = pytest.approx(ask(name, PARTS), rel=1e-14)
    assert ask(name, (blank, *PARTS[:2], named, *PARTS[2:], blank)) == wanted
    assert ask(name, tuple(tuple(None if c == "" else c for c in row) for row in PARTS)) == wanted
    said(ask(name, (blank, named)), "no row has a number", "a name, mass, x, y, z")


@pytest.mark.parametrize("name", OF_PARTS)
def test_a_range_of_another_shape(name):
    said(ask(name, tuple(row[:4] for row in PARTS)), "the range is 4 columns wide", "x, y, z")
    for raw in (None, "", 3.0, "Parts", ()):
        said(ask(name, raw), "parts", "a range of rows with a name, mass, x, y, z")


def test_without_sizes_parts_are_points():
    points = tuple(row[:5] for row in PARTS)
    assert call("PARTS_MASS", points) == call("PARTS_MASS", PARTS)
    assert call("PARTS_INERTIA", points, "yaw") < call("PARTS_INERTIA", PARTS, "yaw")


def test_parts_of_no_mass_have_no_centre():
    nothing = (("Sign", 0.0, 1.0, 2.0, 3.0),)
    assert call("PARTS_MASS", nothing) == 0.0
    said(call("CENTRE_OF_GRAVITY", nothing, "z"), "they weigh nothing")
    said(call("CENTRE_OF_GRAVITY", PARTS[:1], "z", "unsprung"), "they weigh nothing")


def test_a_car_that_tips_at_rest():
    said(call("REST_WHEEL_LOAD", "front", "left", 2600.0, 0.45, 1100.0, 551.0), "tip at rest")
    said(call("REST_WHEEL_LOAD", "rear", "left", 2600.0, 0.45, 1100.0, -551.0), "tip at rest")
