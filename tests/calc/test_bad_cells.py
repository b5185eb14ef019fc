"""Yellow cells left blank, or filled with a word or a silly number, one at a time in a real Calc.

What no cell may show, and what is meant, says `tests/fuzz/cells.py`, by which all of a workbook is
run by hand.
"""

import random

import pytest

from tests.fuzz.cells import KINDS, Cells, everything, found, strayed
from tests.support.looking import looked_into

OFTEN = 12
"""How many edits of all kinds are drawn from all yellow cells."""

NAMED = {
    "blank": ("Wheelbase", "FrontBrakeShare", "SeatedPerson", "BodyWall", "PinionRadius"),
    "word": ("RackLock", "Friction"),
    "silly": ("Wheelbase",),
}
"""Cells that have shown errors all over the workbook, by what was put into them."""


@pytest.fixture(scope="module")
def cells(starter):
    return Cells(starter)


def named(cells):
    """(sheet, cell) of each cell in `NAMED` and of one part's mass, by its kind of edit."""
    places = {name: place for name, place in cells.names.items() if place in cells.yellow}
    for kind, names in NAMED.items():
        yield from ((*places[name], what) for name in names for what in KINDS[kind])
    yield ("Masses", "B30", None)


def shown(book, edit, *ranges):
    """What each of some ranges, (sheet, range), shows while one cell is edited, as rows."""
    with book.with_edits(edit):
        return book.seen(ranges)


def test_no_cell_shows_a_bare_error(opened, cells):
    edits = list(cells.edits())
    assert len(edits) > 4000
    edits = [*named(cells), *random.Random(7).sample(edits, OFTEN)]
    assert [place for place in opened.errors() if place not in cells.swept] == []
    assert list(found(opened, cells, edits)) == []
    assert [place for place in opened.errors() if place not in cells.swept] == []


def test_what_is_missing_is_said_where_it_is_reckoned_with(opened, cells):
    """The sentence names the cell, and is passed on to what follows from it."""
    sheet, cell = cells.names["FrontTrack"]
    (rows,) = shown(opened, (sheet, cell, None), (sheet, "A1:B40"))
    ratio = next(value for label, value in rows if label == "Front track over wheelbase")
    assert ratio == f"# FrontTrack ({sheet}!{cell}): a number was expected"
    load = cells.names["FrontWheelLoad"]
    rows = shown(opened, ("Masses", "B30", None), load, ("Feel", "B25:B39"))
    said = rows[0][0][0]
    assert said.startswith("# parts: the mass of ")
    assert {row[0] for row in rows[1]} == {said}


def test_a_word_leaves_no_other_number_in_its_place(opened, cells):
    """Neither of what is left of a table, nor of a stand-in for a cell that may be blank."""
    places = [cells.names[name] for name in ("OpenLength", "ReboundRate", "RimWidth")]
    places.append(("Wanted", "C9"))
    assert list(strayed(opened, cells, [(*place, "abc") for place in places])) == []


def test_a_word_where_a_cell_may_be_blank_is_not_taken_for_a_blank_one(opened, cells):
    """No guess stands in for a measured number that was typed wrong."""
    sheet, cell = cells.names["MeasuredMass"]
    ([[said]],) = shown(opened, (sheet, cell, "abc"), cells.names["CarMass"])
    assert said == f"# MeasuredMass ({sheet}!{cell}): a number was expected"


def test_a_word_among_the_points_is_not_taken_for_a_point_left_out(opened, cells):
    rows = {label: place for place, label in cells.labels.items() if place[0] == "Front corner"}
    lengths, lock = ("Build sheet", "A1:B40"), cells.names["LeftLock"]

    def with_word(label):
        table, left = shown(opened, (*rows[label], "abc"), lengths, lock)
        return {row[0]: row[1] for row in table}, left[0][0]

    said = "# {}: z is "
    assert with_word("Spring rocker")[0]["Spring, centre to centre"].startswith(
        said.format("Spring rocker")
    )
    assert with_word("Rod inner")[0]["Push or pull rod"].startswith(said.format("Rod inner"))
    assert with_word("Lower ball joint")[1].startswith(said.format("Lower ball joint"))


def test_a_word_among_the_dimensions_of_a_body_of_chosen_scale_is_said(opened, starter, cells):
    """What is off at that scale is not the largest of the dimensions that are left."""
    row = next(cell.row for cell in looked_into(starter)["Body"]["A"] if cell.value == "Length")
    with opened.with_edits((*cells.names["BodyChosen"], 0.7)) as book:
        seen = [cells.names[name] for name in ("BodyOff", "BodyScale", "BodyBest")]
        assert isinstance(book.value(*seen[0]), float)
        rows = shown(book, ("Body", f"C{row}", "abc"), *seen)
    off, scale, best = (table[0][0] for table in rows)
    assert scale == 0.7
    assert best.startswith("# ") and off == best


def test_a_camber_at_a_lock_out_of_reach_is_said(opened, starter):
    label = "Camber, outer wheel, rolled"
    row = next(cell.row for cell in looked_into(starter)["In a turn"]["A"] if cell.value == label)
    ([[said]],) = shown(opened, ("Front corner", "B6", -1e6), ("In a turn", f"B{row}"))
    assert said == "# the table above does not reach full lock; it says why"


def test_a_cell_that_would_be_told_of(calc):
    """A workbook that does not ask shows the error, and it is seen."""
    with calc.new() as book:
        book.fill("Sheet1", "A1:B2", [[1.0, "=1/A1"], ["a", "=IF(ISNUMBER(A2);A2*2;A2)"]])
        ((errors, rows),) = book.edited([("Sheet1", "A1", None)], [("Sheet1", "B1")])
        assert set(errors) == {("Sheet1", "B1")} and rows == [[[None]]]
        assert book.errors() == {} and book.value("Sheet1", "B1") == 1.0


def test_a_word_in_a_wish_is_told_by_its_cell_wherever_the_wish_stands(opened, cells, starter):
    """No cell passes on the word itself, and none sends to another cell that does."""
    row = next(c.row for c in looked_into(starter)["Wanted"]["A"] if c.value == "Mechanical trail")
    edits = [("Wanted", f"{column}{row}", "22 mm") for column in "BCD"]
    areas = cells.areas
    before = everything(cells, opened.seen(areas))
    for edit, (errors, rows) in zip(edits, opened.edited(edits, areas), strict=True):
        assert set(errors) <= cells.swept
        said = f"# Wanted!{edit[1]}: a number was expected"
        now = everything(cells, rows)
        changed = {place: value for place, value in now.items() if value != before[place]}
        assert changed.pop(edit[:2]) == "22 mm"
        texts = [v for v in changed.values() if isinstance(v, str) and v not in ("", "not known")]
        assert texts.count(said) >= 7, edit
        others = [t for t in texts if t != said and not t.startswith("cornerbook solve ")]
        assert all(" of " in text and "no number" not in text for text in others), others
        # The note beside the result tells it whole, where the wish's own column is narrow.
        if not edit[1].startswith("C"):
            assert any(value == said for (sheet, cell), value in changed.items()
                       if sheet == "Measures" and cell.startswith("H"))  # fmt: skip
