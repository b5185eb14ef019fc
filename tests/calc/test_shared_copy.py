"""The shared copy in a real Calc without the extension, held to the original with it."""

import random
import re

import openpyxl
import pytest
from cornerbook.book.plain.share import share
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.block import POINTS, key_of
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.quantity import name_of, quantities

from tests.calc.calc import Fault
from tests.calc.examples import blocks_at, raw_arguments, rows_of
from tests.support.looking import formulas_of, looked_into

NOT_AVAILABLE = Fault(32767, "#N/A")

# All of them are in Excel 2010, LibreOffice Calc 7.4 and Google Sheets (their function
# lists, from memory). A formula that needs another one is to be written without it.
PINNED = {
    "ABS", "AND", "ATAN2", "COS", "COUNTIF", "DEGREES", "FIXED", "IF", "IFERROR", "INDEX", "INT",
    "ISNUMBER", "ISTEXT", "LEFT", "LEN", "LN", "LOG10", "MATCH", "MAX", "MID", "MIN", "NA", "NOT",
    "OR", "RADIANS", "RANK", "ROUND", "SIN", "SQRT", "TAN",
}  # fmt: skip


@pytest.fixture(scope="module")
def copy(once):
    path, messages = once.copy()
    message, locked = messages
    assert "on Set-up log those that call CORNER.EXPECTED_CHANGES" in message
    assert locked.startswith("On Self-check results of locked cells alone keep their numbers")
    return path


@pytest.fixture(scope="module")
def formulas(copy):
    """{sheet of the copy: the texts of its formulas}."""
    return formulas_of(copy)


@pytest.fixture(scope="module")
def workings(copy):
    """Its sheet *Workings Front* as openpyxl reads it; tests only look."""
    return looked_into(copy, sheets=["Workings Front"])["Workings Front"]


@pytest.fixture(scope="module")
def cells_of_starter(starter):
    return looked_into(starter)


@pytest.fixture(scope="module")
def results(cells_of_starter):
    """{sheet: (range, [(address, row, column) of formulas in it])} of the workbook.

    Without the cells that keep their numbers in the copy, and what follows from these on their
    own row, or anywhere on the sheet Adjusters; test_kept_numbers.py has those.
    """
    kept = [f"CORNER.{name}(" for name, formula in FORMULAS.items() if not formula.plain]
    found = {}
    for sheet in cells_of_starter:
        cells = []
        if sheet.title == "Adjusters":
            continue
        for row in sheet.iter_rows():
            texts = [getattr(c.value, "text", c.value) for c in row if c.data_type == "f"]
            if sheet.title == "Overview" and row[0].value in ("The workbook", "The formulas"):
                continue  # whether it is the original or a copy
            if any("'Two-way'!$" in text for text in texts):
                continue  # the ends of its chart's axes, of a table that keeps numbers
            if sheet.title != "Self-check" and any(k in text for k in kept for text in texts):
                continue
            cells += [(c.coordinate, c.row - 1, c.column - 1) for c in row if c.data_type == "f"]
        if cells:
            found[sheet.title] = (sheet.dimensions, cells)
    return found


def read(book, results):
    """{(sheet, address): value} of every formula of the starter."""
    values = {}
    for sheet, (area, cells) in results.items():
        rows = book.get(sheet, area)
        for address, row, column in cells:
            values[sheet, address] = rows[row][column]
    return values


def same(one, other):
    """Equal to 1e-9, or both sentences (the copy may have a fixed shorter one)."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= max(1e-9 * abs(one), 1e-10)
    if isinstance(one, str) and isinstance(other, str) and one.startswith("# "):
        return other.startswith("# ")
    return (one or "") == (other or "")


def differences(one, other):
    return {key: (one[key], other[key]) for key in one if not same(one[key], other[key])}


@pytest.fixture(scope="module")
def both(opened, opened_copy):
    """The original with the extension, and the copy without."""
    return opened, opened_copy


def inputs(book):
    """{(sheet, address): value} of the yellow cells that hold a number."""
    return {
        (sheet.title, cell.coordinate): float(cell.value)
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if not cell.protection.locked and isinstance(cell.value, (int, float))
    }


def test_nothing_moves_by_sharing(both, results):
    original, shared = both
    assert differences(read(original, results), read(shared, results)) == {}
    assert len(read(shared, results)) > 400


@pytest.mark.parametrize("seed", range(8))
def test_edits_move_both_alike(both, results, cells_of_starter, seed):
    """Five cars for each seed: every point moved, every pose and range changed."""
    original, shared = both
    chance = random.Random(seed)
    start = {
        place: value
        for place, value in inputs(cells_of_starter).items()
        if place[0] in ("Front corner", "Car")
    }
    drawn = [(*place, value) for place, value in start.items()]
    try:
        unfound = sum(_differ(original, shared, results, start, chance) for _ in range(5))
    finally:
        for book in both:
            book.set_many(drawn)  # worked out by whoever looks next
    assert unfound <= 1


def _differ(original, shared, results, start, chance):
    """Whether another car has places that the copy does not find; all else must be alike."""
    edits = []
    for (sheet, address), value in start.items():
        if sheet == "Front corner":
            edits.append((sheet, address, value + chance.uniform(-6, 6) * (abs(value) > 3)))
        elif abs(value) == 20:
            edits.append((sheet, address, chance.uniform(-45, 45)))
        else:
            edits.append((sheet, address, value * chance.uniform(0.7, 1.2)))
    original.set_together(edits)
    shared.set_together(edits)
    found = differences(read(original, results), read(shared, results))
    # Places that are solved for in steps agree to what the last of these leaves, 1e-8 of a
    # percent of Ackermann at some ten millimetres a percent or a few times that; Ackermann at
    # a small rack is a percentage of a small difference of angles.
    found = {
        place: (ours, theirs) for place, (ours, theirs) in found.items()
        if not (place[0] in ("Placing", "Steer angles") and isinstance(ours, float)
                and isinstance(theirs, float) and abs(ours - theirs) <= 1e-6)
    }  # fmt: skip
    # Of places that are solved for in steps, the copy takes fewer: it may find none.
    none = [theirs for _, theirs in found.values() if "no place was found" in str(theirs)]
    assert all(place[0] == "Placing" for place in found), found
    assert all(theirs in (None, "", *none) for _, theirs in found.values()), found
    return bool(found)


# What a person does wrong: (row, axis, what is typed, whether both say the very same).
MISTAKES = [
    ("Lower ball joint", "y", "52l", True),
    ("Upper ball joint", "z", None, True),
    ("Tyre radius", "x", -262.0, True),
    ("Static camber", "x", "one", True),
    ("Upper ball joint", "z", 150.0, True),
    ("Lower front pickup", "x", -150.0, True),
    ("Tie rod inner", "y", -700.0, False),
    ("Wheel centre", "y", -560.0, True),
    ("Tie rod inner", "z", 7.7, True),
]


@pytest.mark.parametrize(("row", "axis", "typed", "exactly"), MISTAKES)
def test_mistakes_read_alike(both, results, cells_of_starter, row, axis, typed, exactly):
    original, shared = both
    sheet = cells_of_starter["Front corner"]
    (cell,) = [c for c in sheet["A"] if c.value == row]
    address = "%s%d" % ("BCD"["xyz".index(axis)], cell.row)
    was = sheet[address].value
    try:
        for book in both:
            book.set("Front corner", address, typed)
        one, other = read(original, results), read(shared, results)
        if row == "Wheel centre":
            # A corner of no car: the copy's fixed number of trials finds fewer of its poses.
            place = ("Front corner", "B4")
            assert one[place] == other[place] and one[place].startswith("# ")
            return
        for place, (ours, theirs) in differences(one, other).items():
            # The copy's places ask for the whole corner, ours for what they need: a sentence
            # may stand there, and no move beside it, but never another number.
            said = isinstance(theirs, str) and theirs.startswith("# ")
            asks_less = place[0] in ("Placing", "Build sheet")
            assert asks_less and (said or not theirs), (place, ours, theirs)
        if exactly:
            for place in one:
                if isinstance(one[place], str) and one[place].startswith("# "):
                    beyond = (
                        "no solution was found" in other[place] or "no inner wheel" in other[place]
                    )
                    assert other[place] == one[place] or beyond, place
    finally:
        for book in both:
            book.set("Front corner", address, float(was))


def test_wrong_numbers_read_alike(both, results, cells_of_starter):
    original, shared = both
    names = cells_of_starter.defined_names
    right = []  # what puts the last mistake right, computed together with the next one
    try:
        for name, value in (
            ("Wheelbase", -1580.0), ("Wheelbase", "long"), ("RackLock", 90.0), ("RackLock", "x"),
            ("PoseTravel", 2000.0), ("PoseTravel", "up"), ("RideTravel", 0.0),
            ("FirstCaster", 75.0), ("TravelShown", 300.0), ("FirstRadius", 0.0),
        ):  # fmt: skip
            sheet, cell = next(names[name].destinations)
            cell = cell.replace("$", "")
            edits = [*right, (sheet, cell, value)]
            right = [(sheet, cell, float(cells_of_starter[sheet][cell].value))]
            for book in both:
                book.set_together(edits)
            one, other = read(original, results), read(shared, results)
            assert differences(one, other) == {}, (name, value)
    finally:
        for book in both:
            book.set_many(right)


def test_functions_are_few_and_old(formulas):
    added = [name for name in formulas if name.startswith(("Workings", "Shared"))]
    text = "\n".join(each for name in added for each in formulas[name])
    used = set(re.findall(r"([A-Z][A-Z0-9.]*)\(", re.sub(r'"[^"]*"', "", text)))
    assert used <= PINNED, used - PINNED
    assert len(used) > 10


def test_no_call_is_left(formulas):
    for name, texts in formulas.items():
        assert not any("CORNER." in text for text in texts), name


def test_size(copy, formulas):
    assert sum(map(len, formulas.values())) < 53_000
    workings = [text for title, texts in formulas.items() for text in texts
                if title.startswith("Workings")]  # fmt: skip
    assert max(map(len, workings)) < 649
    assert copy.stat().st_size < 3_000_000


def test_same_formula_down_a_column(workings):
    """Each step of a table is one formula, filled down; rows differ in the rows that they read.

    What several rows have in common stands in the first of them alone.
    """
    start = next(r for r in range(1, 40) if str(workings.cell(r, 1).value).startswith("Poses"))
    columns = long = 0
    for column in range(3, workings.max_column + 1):
        texts, row = [], start + 3
        while any(workings.cell(row, near).value is not None for near in range(1, 30)):
            text = workings.cell(row, column).value
            if isinstance(text, str) and text.startswith("="):
                texts.append(re.sub(r"(\$?[A-Z]{1,3}\$?)\d+", r"\1#", text))
            row += 1
        assert len(set(texts)) <= 1, column
        columns += bool(texts)
        long += len(texts) > 30
    assert columns > 100
    assert long > 50


def test_headings_stand_over_every_step(workings):
    for row in workings.iter_rows(min_row=4):
        for cell in row:
            if cell.data_type == "f":
                assert isinstance(_heading(workings, cell), str), cell.coordinate


def test_a_workbook_that_calc_saved_is_shared_alike(
    opened, saved_by_calc, bare_calc, results, tmp_path
):
    """Calc writes the file its own way: other names of parts, styles, and array marks."""
    want = read(opened, results)
    content, _ = share(saved_by_calc)
    path = tmp_path / "copy.xlsx"
    path.write_bytes(content)
    with bare_calc.open(path) as book:
        book.recalculate()
        assert differences(want, read(book, results)) == {}


def test_an_inch_workbook_is_shared_alike(opened_in_inches, bare_calc, once, results):
    want = read(opened_in_inches, results)
    with bare_calc.open(once.copy(system="in")[0]) as book:
        book.recalculate()
        assert differences(want, read(book, results)) == {}


def test_a_word_that_is_edited_is_not_passed_over(opened_copy, cells_of_starter):
    sheet = cells_of_starter["Front corner"]
    (cell,) = [c for c in sheet["A"] if c.value == "Rod mount"]
    names = cells_of_starter.defined_names
    where, at = next(names["MotionRatio"].destinations)
    ratio = where, at.replace("$", "")
    assert isinstance(opened_copy.value(*ratio), float)
    with opened_copy.with_edits(("Front corner", "B%d" % cell.row, "upright")) as book:
        assert "make the copy anew" in book.value(*ratio)
        book.set("Front corner", "B%d" % cell.row, "lower arm")
        assert isinstance(book.value(*ratio), float)


def test_a_row_of_another_name_is_said(opened_copy, cells_of_starter):
    sheet, at = next(cells_of_starter.defined_names["Stiffness"].destinations)
    first = at.replace("$", "").split(":")[0]
    asks = [c for row in cells_of_starter[sheet] for c in row if "COMPLIANCE(Front" in str(c.value)]
    assert isinstance(opened_copy.value(sheet, asks[0].coordinate), float)
    with opened_copy.with_edits((sheet, first, "Rope")) as book:
        said = book.value(sheet, asks[0].coordinate)
        assert said.startswith("# stiffness: row 1 is named Rope, where lower front pickup")


# The whole catalogue


def everything(path):
    """A workbook that calls every formula, every quantity, and every point, by cells."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Calls"
    block = book.create_sheet("Block")
    for name, (rows, range) in blocks_at(1).items():
        for there, row in zip(block[range], rows, strict=True):
            for cell, value in zip(there, row, strict=True):
                cell.value = None if value == "" else value
        book.defined_names[name] = openpyxl.workbook.defined_name.DefinedName(
            name, attr_text="Block!" + openpyxl.utils.cell.absolute_coordinate(range)
        )
    want = {}
    sheet["C1"], sheet["D1"], sheet["E1"] = 25.0, -18.0, 1600.0
    row = 2

    def put(formula, expected):
        nonlocal row
        if isinstance(expected, tuple) and (len(expected) > 1 or len(expected[0]) > 1):
            last = sheet.cell(row + len(expected) - 1, len(expected[0]))
            area = "A%d:%s" % (row, last.coordinate)
            sheet["A%d" % row] = openpyxl.worksheet.formula.ArrayFormula(area, formula)
            want[area] = expected
            row += len(expected)
        else:
            sheet["A%d" % row] = formula
            want["A%d" % row] = expected
        row += 1

    for formula in FORMULAS.values():
        put(formula.example, call(formula.name, *raw_arguments(formula)))
    for entry in quantities().values():
        name = name_of(entry)
        put('=CORNER.AT(Example,"%s",$C$1,$D$1,$E$1)' % name,
            call("AT", EXAMPLE, name, 25.0, -18.0, 1600.0))  # fmt: skip
    for point in (*POINTS, "contact centre", "axis at ground"):
        put('=CORNER.POINT(Example,"%s",C1,D1)' % point, call("POINT", EXAMPLE, point, 25.0, -18.0))
    book.save(path)
    return want


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    path = tmp_path_factory.mktemp("whole") / "all.xlsx"
    want = everything(path)
    content, _ = share(path)
    path.with_name("copy.xlsx").write_bytes(content)
    return path, path.with_name("copy.xlsx"), want


def test_every_formula_has_a_plain_form(bare_calc, whole):
    _, copy, want = whole
    with bare_calc.open(copy) as book:
        book.recalculate()
        for area, expected in want.items():
            got = book.get("Calls", area)
            for got_row, row in zip(got, rows_of(expected), strict=True):
                for value, wanted in zip(got_row, row, strict=True):
                    assert same(wanted if wanted is not None else NOT_AVAILABLE, value), area


def test_what_is_stored_is_what_calc_computes(bare_calc, whole):
    """Every cell of the workings too, errors and empty texts included."""
    _, copy, _ = whole
    formulas = looked_into(copy)
    values = looked_into(copy, data_only=True)
    compared = 0
    with bare_calc.open(copy) as book:
        book.recalculate()
        for sheet in formulas:
            live = book.get(sheet.title, sheet.dimensions)
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.data_type != "f":
                        continue
                    stored = values[sheet.title][cell.coordinate].value
                    now = live[cell.row - 1][cell.column - 1]
                    if isinstance(stored, str) and stored.startswith("#N/A"):
                        assert isinstance(now, Fault), (sheet.title, cell.coordinate)
                    elif isinstance(stored, (int, float)):
                        heading = str(_heading(sheet, cell))
                        if heading.startswith(("slope", "older slope", "bend", "choice")):
                            continue  # late trials divide one rounding error by another
                        # Of numbers near 300, differences of nearly equal ones keep this much.
                        assert float(now) == pytest.approx(float(stored), rel=1e-8, abs=1e-7)
                    else:
                        assert (now or "") == (stored or ""), (sheet.title, cell.coordinate)
                    compared += 1
    assert compared > 3000


def _heading(sheet, cell):
    """The heading over a cell of a table: the nearest text above, which may be some rows up."""
    for row in range(cell.row - 1, 0, -1):
        above = sheet.cell(row, cell.column)
        if above.data_type == "s":
            return above.value
    return None


def test_labels_of_the_example_are_known():
    assert {key_of(row[0]) for row in EXAMPLE} >= {key_of(p) for p in POINTS}
