"""Sheets that place, vary, adjust and draw, in a real Calc: an edit, and what follows it."""

import pytest
from cornerbook.cells.call import call

from tests.support.looking import looked_into


@pytest.fixture(scope="module")
def sheets(starter):
    return looked_into(starter)


def row_of(sheet, label, start=1):
    return next(r for r in range(start, sheet.max_row + 1) if sheet.cell(r, 1).value == label)


def test_a_variant_follows_its_override_alone(opened, sheets):
    sheet = sheets["What-if"]
    row = row_of(sheet, "Upper ball joint")
    trail = row_of(sheet, "Mechanical trail")
    before = opened.get("What-if", "B%d:L%d" % (trail, trail))[0]
    with opened.with_edits(("What-if", "B%d" % row, -25.0)) as book:
        after = book.get("What-if", "B%d:L%d" % (trail, trail))[0]
    assert after[0] == before[0]
    assert after[1] != pytest.approx(before[1], abs=0.5)
    assert after[2] == pytest.approx(after[1] - after[0])
    assert after[4] == before[4]
    assert opened.get("What-if", "B%d:L%d" % (trail, trail))[0] == before


def test_the_picture_moves_with_a_point_and_with_the_roll(opened, sheets):
    points = sheets["Picture points"]
    row = row_of(points, "lower ball joint")
    cells = "B%d:D%d" % (row, row)
    before = opened.get("Picture points", cells)[0]
    corner = sheets["Front corner"]
    at = "C%d" % row_of(corner, "Lower ball joint")
    with opened.with_edits(("Front corner", at, corner[at].value - 6.0)) as book:
        moved = book.get("Picture points", cells)[0]
    assert moved[1] == pytest.approx(before[1] - 6.0, abs=1.0)
    with opened.with_edits(("Car", "B%d" % row_of(sheets["Car"], "Roll"), 4.0)) as book:
        rolled = book.get("Picture points", cells)[0]
    assert rolled[2] != pytest.approx(before[2], abs=1e-3)
    assert opened.get("Picture points", cells)[0] == pytest.approx(before)


def test_steps_of_the_adjusters_bring_the_wanted_camber(opened, sheets):
    """Measured wrong on the left: whole steps for that side alone, and what is then read."""
    sheet = sheets["Adjusters"]
    start = row_of(sheet, "From what was measured to what is wanted")
    camber, toe = (row_of(sheet, name, start) for name in ("camber", "toe"))
    state = row_of(sheet, "What to turn", start) + 1
    first = row_of(sheet, "adjuster", start) + 1
    after = row_of(sheet, "What is then to be read", start)
    wrong = ("Adjusters", "B%d" % camber, -2.1), ("Adjusters", "B%d" % toe, 0.5)
    with opened.with_edits(*wrong) as book:
        steps = [row[:2] for row in book.get("Adjusters", "B%d:C%d" % (first, first + 2))]
        assert steps[0][0] > 0 and all(left == int(left) for left, _ in steps)
        assert [right for _, right in steps] == [0, 0, 0]
        said = book.value("Adjusters", "A%d" % state)
        assert said.startswith("Every result with a band comes into it")
        read = dict(book.get("Adjusters", "A%d:B%d" % (after + 2, after + 4)))
        assert -1.5 <= read["camber"] <= -0.5 and -0.1 <= read["toe"] <= 0.2
        # Nothing that ten steps could mend: in words, with by how much.
        book.set("Adjusters", "B%d" % camber, -9.0)
        said = book.value("Adjusters", "A%d" % state)
        assert said.startswith("Cannot be reached") and "camber left is then off by" in said


def test_placed_points_give_what_was_wanted(opened, sheets):
    sheet = sheets["Placing"]
    row = row_of(sheet, "Lower ball joint")  # step 1
    lower, upper = opened.get("Placing", "B%d:D%d" % (row, row + 1))
    corner = sheets["Front corner"]
    edits = [
        ("Front corner", "%s%d" % (column, row_of(corner, label)), value)
        for label, place in (("Lower ball joint", lower), ("Upper ball joint", upper))
        for column, value in zip("BCD", place, strict=True)
    ]
    block = next(sheets.defined_names["Front"].destinations)[1].replace("$", "")
    with opened.with_edits(*edits) as book:
        rows = book.get("Placing", "A1:D%d" % (row - 3))
        moves = book.get("Placing", "G%d:I%d" % (row, row + 1))
        points = book.get("Front corner", block)
    now = {name: value for name, _, value, _ in rows}
    off = {name: value for name, _, _, value in rows}
    assert now["Caster"] == pytest.approx(6.5, abs=1e-9)
    assert now["Kingpin inclination"] == pytest.approx(9.0, abs=1e-9)
    assert now["Mechanical trail"] == pytest.approx(22.0, abs=1e-9)
    assert now["Scrub radius"] == pytest.approx(18.0, abs=1e-9)
    assert off["Scrub radius"] == pytest.approx(0.0, abs=1e-9)
    assert all(abs(move) < 1e-9 for line in moves for move in line)
    front = tuple(tuple("" if c is None else c for c in r) for r in points)
    assert call("CASTER", front) == pytest.approx(6.5, abs=1e-9)


@pytest.mark.parametrize("wrong", [None, "52l", -700.0])
def test_a_wrong_point_leaves_no_bare_error(opened, sheets, wrong):
    """Every cell that it reaches is a sentence, or #N/A in a table; none is #VALUE! or alike."""
    cell = "C%d" % row_of(sheets["Front corner"], "Lower ball joint")
    areas = [(sheet.title, sheet.dimensions) for sheet in sheets]
    ((errors, seen),) = opened.edited([("Front corner", cell, wrong)], areas)
    assert {fault.text for fault in errors.values()} <= {"#N/A"}, errors
    values = [value for rows in seen for row in rows for value in row]
    assert sum(isinstance(value, str) and value.startswith("# ") for value in values) > 100
