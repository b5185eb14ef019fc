"""Sheets that place, vary, adjust and draw, in a real Calc: an edit, and what follows it."""

import pytest
from cornerbook.cells.call import call

from tests.calc.calc import Fault
from tests.support.looking import looked_into


@pytest.fixture(scope="module")
def path(starter):
    return starter


@pytest.fixture
def book(calc, path):
    with calc.open(path) as book:
        book.recalculate()
        yield book


@pytest.fixture(scope="module")
def sheets(path):
    return looked_into(path)


def row_of(sheet, label, start=1):
    return next(r for r in range(start, sheet.max_row + 1) if sheet.cell(r, 1).value == label)


def test_all_formulas_agree(book, sheets):
    said = book.get("Self-check", "B4:B4")[0][0]
    assert "agree with their check values" in said
    assert said.startswith("all ")


def test_every_stored_value_is_calc_s(book, path):
    stored = looked_into(path, data_only=True)
    formulas = looked_into(path)
    compared = 0
    for sheet in formulas:
        if sheet.title == "Self-check":
            continue
        last = sheet.cell(sheet.max_row, sheet.max_column).coordinate
        rows = book.get(sheet.title, "A1:%s" % last)
        for row in sheet.iter_rows():
            for cell in row:
                expected = stored[sheet.title][cell.coordinate].value
                if isinstance(expected, (int, float)):
                    found = rows[cell.row - 1][cell.column - 1]
                    assert found == pytest.approx(expected, rel=1e-9, abs=1e-9), cell.coordinate
                    compared += 1
    assert compared > 1300


def test_a_variant_follows_its_override_alone(book, sheets):
    sheet = sheets["What-if"]
    row = row_of(sheet, "Upper ball joint")
    trail = row_of(sheet, "Mechanical trail")
    before = book.get("What-if", "B%d:L%d" % (trail, trail))[0]
    book.set("What-if", "B%d" % row, -25.0)
    after = book.get("What-if", "B%d:L%d" % (trail, trail))[0]
    assert after[0] == before[0]
    assert after[1] != pytest.approx(before[1], abs=0.5)
    assert after[2] == pytest.approx(after[1] - after[0])
    assert after[4] == before[4]
    book.set("What-if", "B%d" % row, "")
    assert book.get("What-if", "B%d:L%d" % (trail, trail))[0] == before


def test_the_picture_moves_with_a_point_and_with_the_roll(book, sheets):
    points = sheets["Picture points"]
    row = row_of(points, "lower ball joint")
    cells = "B%d:D%d" % (row, row)
    before = book.get("Picture points", cells)[0]
    corner = sheets["Front corner"]
    at = "C%d" % row_of(corner, "Lower ball joint")
    was = corner[at].value
    book.set("Front corner", at, was - 6.0)
    moved = book.get("Picture points", cells)[0]
    assert moved[1] == pytest.approx(before[1] - 6.0, abs=1.0)
    book.set("Front corner", at, float(was))
    roll = "B%d" % row_of(sheets["Car"], "Roll")
    level = float(sheets["Car"][roll].value)
    book.set("Car", roll, 4.0)
    rolled = book.get("Picture points", cells)[0]
    assert rolled[2] != pytest.approx(before[2], abs=1e-3)
    book.set("Car", roll, level)
    assert book.get("Picture points", cells)[0] == pytest.approx(before)


def test_steps_of_the_adjusters_bring_the_wanted_camber(book, sheets):
    """Measured wrong on the left: whole steps for that side alone, and what is then read."""
    sheet = sheets["Adjusters"]
    start = row_of(sheet, "From what was measured to what is wanted")
    camber, toe = (row_of(sheet, name, start) for name in ("camber", "toe"))
    as_drawn = [book.get("Adjusters", "B%d:B%d" % (row, row))[0][0] for row in (camber, toe)]
    book.set("Adjusters", "B%d" % camber, -2.1)
    book.set("Adjusters", "B%d" % toe, 0.5)
    state = row_of(sheet, "What to turn", start) + 1
    first = row_of(sheet, "adjuster", start) + 1
    steps = [row[:2] for row in book.get("Adjusters", "B%d:C%d" % (first, first + 2))]
    assert steps[0][0] > 0 and all(left == int(left) for left, _ in steps)
    assert [right for _, right in steps] == [0, 0, 0]
    said = book.get("Adjusters", "A%d:A%d" % (state, state))[0][0]
    assert said.startswith("Every result with a band comes into it")
    after = row_of(sheet, "What is then to be read", start)
    read = {row[0]: row[1] for row in book.get("Adjusters", "A%d:B%d" % (after + 2, after + 4))}
    assert -1.5 <= read["camber"] <= -0.5 and -0.1 <= read["toe"] <= 0.2
    # Nothing that ten steps could mend: in words, with by how much.
    book.set("Adjusters", "B%d" % camber, -9.0)
    said = book.get("Adjusters", "A%d:A%d" % (state, state))[0][0]
    assert said.startswith("Cannot be reached") and "camber left is then off by" in said
    for row, value in zip((camber, toe), as_drawn, strict=True):
        book.set("Adjusters", "B%d" % row, value)


def test_placed_points_give_what_was_wanted(book, sheets):
    sheet = sheets["Placing"]
    row = row_of(sheet, "Lower ball joint")  # step 1
    lower = book.get("Placing", "B%d:D%d" % (row, row))[0]
    upper = book.get("Placing", "B%d:D%d" % (row + 1, row + 1))[0]
    corner = sheets["Front corner"]
    for label, place in (("Lower ball joint", lower), ("Upper ball joint", upper)):
        at = row_of(corner, label)
        for column, value in zip("BCD", place, strict=True):
            book.set("Front corner", "%s%d" % (column, at), value)
    rows = book.get("Placing", "A1:D%d" % (row - 3))
    now = {name: value for name, _, value, _ in rows}
    off = {name: value for name, _, _, value in rows}
    assert now["Caster"] == pytest.approx(6.5, abs=1e-9)
    assert now["Kingpin inclination"] == pytest.approx(9.0, abs=1e-9)
    assert now["Mechanical trail"] == pytest.approx(22.0, abs=1e-9)
    assert now["Scrub radius"] == pytest.approx(18.0, abs=1e-9)
    assert off["Scrub radius"] == pytest.approx(0.0, abs=1e-9)
    moves = book.get("Placing", "G%d:I%d" % (row, row + 1))
    assert all(abs(move) < 1e-9 for line in moves for move in line)
    block = next(sheets.defined_names["Front"].destinations)[1].replace("$", "")
    front = tuple(tuple("" if c is None else c for c in r) for r in book.get("Front corner", block))
    assert call("CASTER", front) == pytest.approx(6.5, abs=1e-9)


@pytest.mark.parametrize("wrong", [None, "52l", -700.0])
def test_a_wrong_point_leaves_no_bare_error(calc, path, wrong):
    """Every cell that it reaches is a sentence, or #N/A in a table; none is #VALUE! or alike."""
    made = looked_into(path)
    corner = made["Front corner"]
    with calc.open(path) as book:
        book.set("Front corner", "C%d" % row_of(corner, "Lower ball joint"), wrong)
        book.recalculate()
        said = 0
        for sheet in made:
            last = sheet.cell(sheet.max_row, sheet.max_column).coordinate
            for row in book.get(sheet.title, "A1:%s" % last):
                for value in row:
                    assert not isinstance(value, Fault) or value.text == "#N/A", sheet.title
                    said += isinstance(value, str) and value.startswith("# ")
        assert said > 100
