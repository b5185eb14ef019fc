"""Loads and a direct spring in a real Calc: with the extension, and the copy without."""

import random

import pytest

from tests.support.looking import looked_into

SHEETS = ("Springs", "Cornering", "Loads", "Feel")

# The chapters of `SHEETS`, as tests of the direct spring have them.
FEW = ("cornering", "loads", "feel")
CASES = range(18, 24)


@pytest.fixture(scope="module")
def both(calc, bare_calc, once):
    """The demonstration with a direct spring, open with the extension, and its copy without."""
    path = once.workbook(scenario="lapwing-direct", chapters=FEW)
    copy, _ = once.copy(scenario="lapwing-direct", chapters=FEW)
    cells = looked_into(path)
    with calc.open(path) as original, bare_calc.open(copy) as shared:
        original.recalculate()
        shared.recalculate()
        yield original, shared, cells


def read(book, cells):
    """{(sheet, row, column): value} of all that the sheets show."""
    return {
        (name, r, c): value
        for name in SHEETS
        for r, row in enumerate(book.get(name, cells[name].dimensions))
        for c, value in enumerate(row)
    }  # fmt: skip


def compared(both):
    """How many numbers both show alike; all else must be the same texts."""
    original, shared, cells = both
    ours, theirs = read(original, cells), read(shared, cells)
    numbers = 0
    for place, one in ours.items():
        other = theirs[place]
        if isinstance(one, float):
            # A force that statics makes nothing of is what rounding leaves of the others.
            assert other == pytest.approx(one, rel=1e-8, abs=1e-6), place
            numbers += 1
        else:
            assert one == other, place
    return numbers


def test_nothing_moves_by_sharing(both):
    assert compared(both) > 500


@pytest.mark.parametrize("seed", range(6))
def test_edited_cars_and_cases(both, seed):
    original, shared, cells = both
    chance = random.Random(seed)
    before = [("Front corner", cell.coordinate, float(cell.value))
              for row in cells["Front corner"].iter_rows(max_col=4) for cell in row
              if isinstance(cell.value, (int, float))]  # fmt: skip
    places = [f"{column}{row}" for row in CASES for column in "CDEFG"]
    typed = [(place, cells["Loads"][place].value) for place in places]
    before += [("Loads", place, float(v)) for place, v in typed if isinstance(v, (int, float))]
    edits = [
        (sheet, address, value + chance.uniform(-4, 4) * (abs(value) > 3))
        if sheet == "Front corner"
        else (sheet, address, value + chance.uniform(-0.5, 0.5))
        for sheet, address, value in before
    ]
    for book in (original, shared):
        book.set_many(edits)
    assert compared(both) > 500
    for book in (original, shared):
        book.set_many(before)


def test_a_word_of_a_case(both):
    """In the workbook it changes the forces; the copy, which has fixed it, says so."""
    original, shared, cells = both
    tie_rod, row = "D28", 20
    assert cells["Loads"]["A28"].value == "Tie rod" and cells["Loads"][f"H{row}"].value == "brake"
    was = original.value("Loads", tie_rod)
    for book in (original, shared):
        book.set("Loads", f"H{row}", "wheel centre")
    assert original.value("Loads", tie_rod) != pytest.approx(was, rel=0.01)
    assert "make the copy anew" in shared.value("Loads", tie_rod)
    for book in (original, shared):
        book.set("Loads", f"H{row}", "brakes")
    assert original.value("Loads", tie_rod).startswith("# acts:")
    assert "not every case gives a number" in original.value("Loads", "I28")
    for book in (original, shared):
        book.set("Loads", f"H{row}", "brake")
    assert original.value("Loads", tie_rod) == was
