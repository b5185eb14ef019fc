"""Cells of the copy whose formulas have no plain form, in a Calc without the extension."""

import openpyxl
import pytest
from cornerbook.book.plain.kept_numbers import STALE, TITLE
from cornerbook.catalogue import FORMULAS, call

from tests.calc.calc import Fault
from tests.support.looking import looked_into
from tests.support.unprotected import unprotected


@pytest.fixture(scope="module")
def copy(once):
    path, _ = once.copy()
    return path


@pytest.fixture(scope="module")
def calling(starter):
    """{(sheet, address)} of the cells that call a formula without a plain form, tables whole.

    On Self-check, where nothing can be edited, of all that call one of ours and read no other cell
    that calls one.
    """
    without = [f"CORNER.{name}(" for name, formula in FORMULAS.items() if not formula.plain]
    found = set()
    for sheet in looked_into(starter):
        names = ["CORNER."] if sheet.title == "Self-check" else without
        for row in sheet.iter_rows():
            for cell in row:
                formula = cell.value
                area = cell.coordinate
                if isinstance(formula, openpyxl.worksheet.formula.ArrayFormula):
                    formula, area = formula.text, formula.ref
                is_formula = isinstance(formula, str) and formula.startswith("=")
                is_formula = is_formula and "COUNTIF(" not in formula
                if is_formula and any(name in formula for name in names):
                    cells = sheet[area]
                    rows = cells if isinstance(cells, tuple) else ((cells,),)
                    found |= {(sheet.title, c.coordinate) for r in rows for c in r}
    return found


@pytest.fixture(scope="module")
def kept(calling, copy):
    """Those of them that keep their numbers: all but the part of a table that is live."""
    book = looked_into(copy, sheets={sheet for sheet, _ in calling})
    # What is empty either way needs no formula.
    texts = {place: book[place[0]][place[1]].value for place in calling}
    live = {place for place, text in texts.items() if text and TITLE not in str(text)}
    # Of a table of 11 x 11 nine, and both headings.
    assert {sheet for sheet, _ in live} == {"Two-way"} and len(live) == 9 + 22
    return calling - live


def gone(value):
    """Whether a cell no longer shows what it showed."""
    return value in (STALE, "", None) or isinstance(value, Fault)


def shown(book, kept):
    """What the kept cells show, {(sheet, address): value}."""
    found = {}
    for sheet in {sheet for sheet, _ in kept}:
        rows = book.get(sheet, "A1:Z400")
        for place in kept:
            if place[0] == sheet:
                row, column = openpyxl.utils.cell.coordinate_to_tuple(place[1])
                found[place] = rows[row - 1][column - 1]
    return found


def test_they_show_what_the_workbook_shows(opened, opened_copy, kept):
    want, got = shown(opened, kept), shown(opened_copy, kept)
    assert len(want) > 120
    for place, value in want.items():
        if isinstance(value, float):
            assert got[place] == pytest.approx(value, rel=1e-9, abs=1e-12), place
        else:
            assert (got[place] or "") == (value or ""), place


def test_an_edit_of_an_input_is_said_and_back_again_shows_the_numbers(opened_copy, copy, kept):
    corner = looked_into(copy, sheets=["Front corner"])["Front corner"]
    (cell,) = [c for c in corner["A"] if c.value == "Upper ball joint"]
    address, was = f"D{cell.row}", float(corner[f"D{cell.row}"].value)
    before = shown(opened_copy, kept)
    with opened_copy.with_edits(("Front corner", address, was + 1.0)) as book:
        edited = shown(book, kept)
    assert shown(opened_copy, kept) == before
    # The examples of the self-check stand on a block of their own, which nobody edited.
    for (sheet, place), value in edited.items():
        if sheet == "Self-check":
            assert value == before[sheet, place]
        else:
            assert gone(value), (sheet, place, value)
    assert sum(value == STALE for value in edited.values()) >= 2


def test_results_of_locked_cells_say_so_too_once_one_is_edited(once, bare_calc, tmp_path):
    """Whoever takes the protection off can edit them."""
    copy = once.copy(chapters=("self-check",))[0]
    path = tmp_path / "copy.xlsx"
    path.write_bytes(unprotected(copy.read_bytes()))
    check = looked_into(copy)["Self-check"]
    at, *_ = [c.row for c in check["A"] if c.value == "Upper ball joint"]
    rows = [row[0].row for row in check.iter_rows() if TITLE in str(row[1].value)]
    area = f"B{rows[0]}:D{rows[-1]}"
    with bare_calc.open(path) as book:
        before = book.get("Self-check", area)
        book.set("Self-check", f"D{at}", check[f"D{at}"].value + 1.0)
        after, said = book.get("Self-check", area), book.value("Self-check", "B4")
    assert len(before) == len(rows) == len(FORMULAS)
    moved = [new for new, old in zip(after, before, strict=True) if new != old]
    assert len(FORMULAS) / 3 < len(moved) < len(FORMULAS)
    assert all(value == STALE and verdict == "look here" for value, _, verdict in moved)
    assert said.startswith(f"look here: {len(moved)} of ")


def test_an_edit_of_another_input_is_said_only_where_it_matters(opened_copy, kept):
    before = shown(opened_copy, kept)
    was = opened_copy.value("Two-way", "B6")
    with opened_copy.with_edits(("Two-way", "B6", was + 1.0)) as book:
        edited = shown(book, kept)
    for place, value in edited.items():
        if place[0] == "Two-way":
            assert gone(value)
        else:
            assert value == before[place], place


def test_nine_cells_of_a_two_way_table_follow_an_edit(opened_copy, copy):
    sheet = looked_into(copy, sheets=["Two-way"])["Two-way"]
    top = next(c.row for c in sheet["A"] if TITLE in str(c.value))
    was = opened_copy.value("Two-way", "B6")
    with opened_copy.with_edits(("Two-way", "B6", was + 1.0)) as book:
        block = book.get("Front corner", "A6:D25")
        names = [book.value("Two-way", f"B{row}") for row in range(4, 11)]
        pose = [book.value("Car", f"B{row}") for row in (23, 24)]
        wheelbase = book.value("Car", "B5")
        got = book.get("Two-way", f"A{top}:L{top + 11}")
    result, *inputs = names
    want = call("TWO_WAY", block, result, *inputs[:3], 11, *inputs[3:], 11, *pose, wheelbase)
    for i in (0, 1, 6, 11):
        for j in (0, 1, 6, 11):
            if i or j:
                assert got[i][j] == pytest.approx(want[i][j], rel=1e-9, abs=1e-12), (i, j)


def test_they_are_grey_and_named(copy, kept):
    book = looked_into(copy, sheets={"Shared copy", *(sheet for sheet, _ in kept)})
    for sheet, address in kept:
        assert book[sheet][address].font.color.rgb == "FF5F6C7B", (sheet, address)
    page = [cell.value for cell in book["Shared copy"]["A"]]
    assert {sheet for sheet, _ in kept} <= set(page)
    assert TITLE in book.sheetnames
