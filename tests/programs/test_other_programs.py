"""A copy without an add-in in IronCalc and in Gnumeric: each number and sentence as in Calc.

`python -m tests.programs.by_hand` does the same over hundreds of cars.
"""

import contextlib
import os

import pytest
from cornerbook.catalogue import FORMULAS

from tests.programs.engines import (
    InCalc,
    InGnumeric,
    InIronCalc,
    Missing,
    wanted_and_stored,
    wanted_cells,
)
from tests.programs.held import differences, mistake, other_car, saved_and_shared
from tests.support.looking import looked_into
from tests.support.yellow import yellow_of

FEW = ("placing", "what-if")
PROGRAMS = ("IronCalc", "Gnumeric")


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    """A function that opens a copy in a program of that name; skips where there is none.

    One that is asked for again is still open: tests change it by `typed` alone.
    """
    kept = {}

    def open_in(program, path, cells):
        try:
            if program == "Gnumeric":
                return InGnumeric(path, cells, tmp_path_factory.mktemp("gnumeric"))
            if path not in kept:
                kept[path] = InIronCalc(path, cells)
            return kept[path]
        except Missing as problem:
            if os.environ.get(f"CORNERBOOK_NEEDS_{program.upper()}"):
                raise
            pytest.skip(str(problem))

    return open_in


@contextlib.contextmanager
def typed(edits, original, *programs):
    """What is typed in a copy open in programs, and taken back, as the original has it."""
    yellow = yellow_of(str(original))
    for program in programs:
        program.set(edits)
    try:
        yield
    finally:
        for program in programs:
            program.set({cell: yellow[cell] for cell in edits})


@pytest.fixture(scope="module")
def few(once):
    """(the workbook of few sheets, its copy, the cells of the copy that are compared)."""
    copy, _ = once.copy(system="in", chapters=FEW)
    return once.workbook(system="in", chapters=FEW), copy, wanted_cells(copy)


@pytest.fixture(scope="module")
def in_calc(bare_calc, few):
    """The copy open in the Calc without the extension."""
    _, copy, cells = few
    with bare_calc.open(copy) as book:
        yield InCalc(book, cells)


@pytest.mark.parametrize("program", PROGRAMS)
@pytest.mark.parametrize(("system", "chapters", "least"), [("mm", (), 8000), ("in", FEW, 2000)])
def test_as_made(once, opened, program, system, chapters, least):
    """What the file stores, which is what Calc computes, is what another program computes."""
    copy, _ = once.copy(system=system, chapters=chapters)
    cells, want = wanted_and_stored(copy)
    assert len(want) > least
    assert differences(want, opened(program, copy, cells).values()) == {}


@pytest.mark.parametrize("program", PROGRAMS)
def test_every_formula(once, opened, program):
    """Each by its example, which stands beside what it must come to."""
    copy = once.copy_of_every_formula()
    cells, want = wanted_and_stored(copy)
    live = {place for place, value in want.items() if value == "agrees"}
    found = opened(program, copy, cells).values()
    assert differences(want, found) == {}
    kept = [formula for formula in FORMULAS.values() if not formula.plain]
    texts = looked_into(copy)["Self-check"]
    without = [place for place in live if "Kept" in str(texts[place[1].replace("D", "B")].value)]
    assert len(live) == len(FORMULAS) and len(without) == len(kept)


@pytest.mark.parametrize(("program", "cars"), [("IronCalc", 2), ("Gnumeric", 1)])
def test_other_cars(opened, few, in_calc, program, cars):
    """Every yellow cell another number, wishes blank here and there."""
    original, copy, cells = few
    other, start = opened(program, copy, cells), in_calc.values()
    for seed in range(cars):
        with typed(other_car(str(original), f"{program} {seed}"), original, in_calc, other):
            want = in_calc.values()
            assert len(differences(start, want)) > len(cells) / 2
            assert differences(want, other.values()) == {}


@pytest.mark.parametrize(("program", "cases"), [("IronCalc", 12), ("Gnumeric", 1)])
def test_mistakes(opened, few, in_calc, program, cases):
    """A text, a blank, a 0, a wrong sign or unit in one cell: the same sentences everywhere."""
    original, copy, cells = few
    other, yellow = opened(program, copy, cells), yellow_of(str(original))
    said = 0
    for seed in range(cases):
        cell, wrong = mistake(yellow, f"{program} {seed}")
        with typed({cell: wrong}, original, in_calc, other):
            want = in_calc.values()
            assert differences(want, other.values()) == {}, (cell, wrong)
        said += any(str(value).startswith("# ") for value in want.values())
    assert said > 0


def test_the_drawn_value_stands_in_the_middle(opened, few, in_calc):
    """Without a pickup camber as drawn is known, and the middle of the travel is exactly 0.

    Steps from one end would miss it by a rounding for this range, where programs that do not
    round such a difference to 0, as Calc does, would ask for all points.
    """
    original, copy, cells = few
    shown = next(1.9 + i / 1000 for i in range(100) if _missed(1.9 + i / 1000))
    other = opened("IronCalc", copy, cells)
    book = looked_into(original)
    sheet, address = next(book.defined_names["TravelShown"].destinations)
    (pickup,) = [c for c in book["Front corner"]["A"] if c.value == "Lower front pickup"]
    edits = {
        (sheet.strip("'"), address.replace("$", "")): shown,
        ("Front corner", f"C{pickup.row}"): "x",
    }
    with typed(edits, original, in_calc, other):
        want, found = in_calc.values(), other.values()
    assert isinstance(found["Bump", "B16"], float)
    assert differences(want, found) == {}


def _missed(end):
    return -end + (end - -end) * 10 / 20 != 0.0


@pytest.fixture(scope="module")
def saved(calc, few, tmp_path_factory):
    """A copy of the workbook of few sheets once Calc has saved it."""
    return saved_and_shared(calc, few[0], tmp_path_factory.mktemp("saved"))


@pytest.mark.parametrize("program", PROGRAMS)
def test_a_workbook_that_calc_saved(opened, saved, program):
    cells, want = wanted_and_stored(saved)
    assert len(want) > 2000
    assert differences(want, opened(program, saved, cells).values()) == {}


def _rows(original, sheet):
    """{label: the numbers of the rows that begin with it} of a sheet."""
    found = {}
    for cell in looked_into(original)[sheet]["A"]:
        found.setdefault(cell.value, []).append(cell.row)
    return found


def test_an_emptied_point_is_named(opened, few):
    """What-if says which cell is empty; Placing still gives what does not need the point."""
    original, copy, cells = few
    other = opened("IronCalc", copy, cells)
    upper = _rows(original, "Front corner")["Upper ball joint"][0]
    with typed({("Front corner", f"D{upper}"): None}, original, other):
        values = other.values()
    results = _rows(original, "What-if")
    for label in ("Caster", "Mechanical trail", "Camber gain", "Roll centre height"):
        for column in "BCFI":
            said = values["What-if", f"{column}{results[label][0]}"]
            assert said.startswith("# Upper ball joint: z is empty"), (label, column)
    for row in results["Upper ball joint"][1:2]:
        assert values["What-if", f"D{row}"] is None
    place = _rows(original, "Placing")["Lower ball joint"][0]
    assert all(isinstance(values["Placing", f"{column}{place}"], float) for column in "BCD")


def test_a_difference_that_is_not_shown_makes_no_variant_better(opened, few):
    """Half of the last digit shown off the wish, where roundings of the two part."""
    original, copy, cells = few
    other = opened("IronCalc", copy, cells)
    results = _rows(original, "What-if")
    trail, upper = results["Mechanical trail"][0], results["Upper ball joint"][0]
    drawn = _rows(original, "Front corner")["Upper ball joint"][0]
    x = yellow_of(str(original))["Front corner", f"B{drawn}"]
    wish = ("Wanted", f"B{_rows(original, 'Wanted')['Mechanical trail'][0]}")
    wanted = other.values()["What-if", f"B{trail}"] + 0.0025
    for change, verdict in (
        (1e-7, "as good"),
        (-1e-7, "as good"),
        (-0.1, "better"),
        (0.1, "worse"),
    ):
        with typed({wish: wanted, ("What-if", f"B{upper}"): x + change}, original, other):
            assert other.values()["What-if", f"E{trail}"] == verdict, change
