"""Arguments that are blank cells, or empty texts: a copy gives and says what the original does.

Calc hands a blank cell to a formula of ours as 0, and an empty text as itself; in a plain formula
a reference to a blank cell is no number to ISNUMBER. So both are tried for every argument.
"""

import openpyxl
import pytest
from cornerbook.book.formula.parse import parse
from cornerbook.book.formula.spell import spelt
from cornerbook.book.plain.share import share
from cornerbook.catalogue import FORMULAS
from cornerbook.cells.example import EXAMPLE, TABLES
from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName

from tests.support.workbooks import notes_and_block

SINGLE = ("number", "whole", "text")


def calls():
    """(formula's name, argument, its call with {} in place of that) of all that give one cell."""
    for name, entry in FORMULAS.items():
        given = parse(entry.example)[2]
        if entry.shape == "table" or not entry.plain:
            continue
        for place, argument in enumerate(entry.arguments):
            if argument.kind in SINGLE:
                texts = ["" if part is None else spelt(part) for part in given]
                texts += [""] * (place + 1 - len(texts))
                texts[place] = "{}"
                yield name, argument, f"=CORNER.{name}({','.join(texts)})"


CALLS = list(calls())


@pytest.fixture(scope="module")
def original(tmp_path_factory):
    """A call in each row, of whose arguments one is the cell beside it in column Z."""
    book = openpyxl.Workbook()
    notes, tables = book.active, book.create_sheet("Tables")
    notes.title = "Notes"
    left = 1
    for name, rows in {"Example": EXAMPLE, **TABLES}.items():
        for y, row in enumerate(rows, 1):
            for x, cell in enumerate(row, left):
                tables.cell(y, x, None if cell == "" else cell)
        right = left + max(map(len, rows)) - 1
        place = f"${get_column_letter(left)}$1:${get_column_letter(right)}${len(rows)}"
        book.defined_names[name] = DefinedName(name, attr_text=f"Tables!{place}")
        left = right + 2
    for row, (_, _, text) in enumerate(CALLS, 1):
        notes[f"A{row}"] = text.format(f"Z{row}")
    path = tmp_path_factory.mktemp("blank") / "book.xlsx"
    book.save(path)
    return path


@pytest.fixture(scope="module")
def copy(original):
    path = original.with_name("copy.xlsx")
    path.write_bytes(share(original)[0])
    return path


def found(program, path, edits, area):
    """edits: {a cell, or a range: what is put there, or its rows}."""
    with program.open(path) as book:
        for cell, value in edits.items():
            if isinstance(value, list):
                book.fill("Notes", cell, value)
            else:
                book.set("Notes", cell, value)
        book.recalculate()
        return [row[0] for row in book.get("Notes", area)]


@pytest.mark.parametrize("what", [None, '=""'], ids=["blank", "empty text"])
def test_every_argument_that_is_nothing(calc, bare_calc, original, copy, what):
    # A text's empty text is told from a blank cell when the copy is made: it says so itself.
    rows = [n for n, call in enumerate(CALLS, 1) if what is None or call[1].kind != "text"]
    area, cells = (f"{column}1:{column}{len(CALLS)}" for column in "AZ")
    edits = {cells: [[what if row in rows else None] for row in range(1, len(CALLS) + 1)]}
    wanted, got = found(calc, original, edits, area), found(bare_calc, copy, edits, area)
    numbers, wrong = 0, []
    for row in rows:
        was, now = wanted[row - 1], got[row - 1]
        if isinstance(was, float) and isinstance(now, float):
            numbers += 1
            if now != pytest.approx(was, rel=1e-8, abs=1e-11):
                wrong.append((CALLS[row - 1][2], was, now))
        elif not (isinstance(was, str) and isinstance(now, str) and '""' not in now):
            wrong.append((CALLS[row - 1][2], was, now))
    assert wrong == []
    assert 100 < numbers < len(rows)


OWN = {
    "A1": "=CORNER.CAMBER(Front,F1)", "A2": "=CORNER.CAMBER(Front,IF(1,F1),2*F1)",
    "A3": "=CORNER.CAMBER(Front,-F1,F2)", "A4": "=MAX(CORNER.CAMBER(Front),F1)",
    "A5": "=MIN(CORNER.CAMBER(Front,F2),F1)", "A6": "=SUM(CORNER.CAMBER(Front),F1:F2)",
    "A7": "=CORNER.CAMBER(Front,INDEX(F1:F2,1))", "A8": "=CORNER.CAMBER(Front,F3)",
    "A9": "=CORNER.CAMBER(Front,F1&F2)", "A10": "=CORNER.OUTER_FROM_INNER(F4,1120,1580)",
    "A11": "=CORNER.OUTER_FROM_INNER(30,F4,1580)", "A12": "=CORNER.CHECK(Front,F5)",
    "A13": "=IF(F1=0,CORNER.TRAIL(Front),1)+F1", "A14": "=CORNER.STEER_RIGHT(Front,F1,F2)",
    "F3": '=IF(F1="","",F1)', "F4": "=F1", "F5": '=IF(F1="","",F6)', "F6": "mm",
}  # fmt: skip


@pytest.mark.parametrize("edits", [{}, {"F1": 7.5}, {"F1": 7.5, "F2": -3}, {"F1": "abc"}], ids=str)
def test_a_users_own_formulas(calc, bare_calc, tmp_path, edits):
    original = notes_and_block(tmp_path / "book.xlsx", OWN)
    copy = tmp_path / "copy.xlsx"
    copy.write_bytes(share(original)[0])
    wanted, got = (found(*each, edits, "A1:A14") for each in ((calc, original), (bare_calc, copy)))
    for row, (was, now) in enumerate(zip(wanted, got, strict=True), 1):
        if isinstance(was, float):
            assert now == pytest.approx(was, rel=1e-9, abs=1e-9), OWN[f"A{row}"]
        elif isinstance(was, str):
            assert isinstance(now, str), OWN[f"A{row}"]
            # A text that is edited is told as such.
            assert now == was or "a text that chose" in now, OWN[f"A{row}"]
        else:
            assert not isinstance(now, float), OWN[f"A{row}"]


def test_what_is_seen_once_a_text_is_typed_is_not_what_was_said_of_a_blank_cell(
    bare_calc, tmp_path
):
    (moment,) = (text for name, argument, text in CALLS
                 if (name, argument.name) == ("STEERING_MOMENT", "reacted"))  # fmt: skip
    cells = {"A1": moment.format("F1").replace("Example", "Front"),
             "A2": "=CORNER.CHECK(Front,F1)", "A3": "=CORNER.AT(Front,F1)"}  # fmt: skip
    copy = tmp_path / "copy.xlsx"
    copy.write_bytes(share(notes_and_block(tmp_path / "book.xlsx", cells))[0])
    assert all(": 0 given" in said
               for said in found(bare_calc, copy, {}, "A1:A3"))  # fmt: skip
    assert all("a text that chose" in said
               for said in found(bare_calc, copy, {"F1": "mm"}, "A1:A3"))  # fmt: skip


def test_a_sweep_of_other_steps_is_not_shown_as_one_of_these(bare_calc, tmp_path):
    path = notes_and_block(tmp_path / "book.xlsx", {"F1": 3})
    book = openpyxl.load_workbook(path)
    text = '=CORNER.SWEEP(Front,"camber","travel",-20,20,F1)'
    book["Notes"]["A1"] = openpyxl.worksheet.formula.ArrayFormula("A1:B4", text)
    book.save(path)
    copy = tmp_path / "copy.xlsx"
    copy.write_bytes(share(path)[0])
    assert found(bare_calc, copy, {}, "A1:A3") == [-20.0, 0.0, 20.0]
    assert "edited" in found(bare_calc, copy, {"F1": 5}, "A1:A3")[0]
