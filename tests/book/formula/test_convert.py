"""Workbooks from one program's spelling to another's."""

import io

import openpyxl
import pytest
from cornerbook.book.formula.convert import convert
from cornerbook.book.formula.targets import TARGETS, spelled

from tests.support.looking import looked_into


def texts(content):
    book = looked_into(io.BytesIO(content))
    return {
        (sheet.title, cell.coordinate): getattr(cell.value, "text", cell.value)
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


@pytest.mark.parametrize(
    ("formula", "excel", "classic"),
    [
        ("=CORNER.TRAIL(Front)", "=_xldudf_CORNER_TRAIL(Front)", "=CORNER_TRAIL(Front)"),
        ('=IF( CORNER.TRAIL(Front) >1,"CORNER.TRAIL(",2)',
         '=IF( _xldudf_CORNER_TRAIL(Front) >1,"CORNER.TRAIL(",2)',
         '=IF( CORNER_TRAIL(Front) >1,"CORNER.TRAIL(",2)'),
        ("=SUM(Corner!A1,1)", "=SUM(Corner!A1,1)", "=SUM(Corner!A1,1)"),
        ("=CORNER.CAMBER_GAIN(A,CORNER.TOE(A, 1))",
         "=_xldudf_CORNER_CAMBER_GAIN(A,_xldudf_CORNER_TOE(A, 1))",
         "=CORNER_CAMBER_GAIN(A,CORNER_TOE(A, 1))"),
    ],
)  # fmt: skip
def test_spelling(formula, excel, classic):
    assert spelled(formula, "excel") == excel
    assert spelled(formula, "excel-classic") == classic
    for text in (formula, excel, classic):
        assert spelled(text, "calc") == formula


FEW = ("bump", "placing")


@pytest.fixture(scope="module")
def few(once):
    """A workbook with tables, charts, verdicts and drop-downs, of fewer sheets."""
    return once.workbook(chapters=FEW)


@pytest.mark.parametrize("target", TARGETS)
def test_made_for_a_program_or_converted_to_it(once, target, starter, few):
    """Every sheet for Excel; those of `few`, where each kind of call stands, for the others."""
    chapters = () if target == "excel" else FEW
    made = texts(once.workbook(target=target, chapters=chapters).read_bytes())
    converted = texts(convert(few if chapters else starter, target)[0])
    assert made == converted
    calls = [t for t in made.values() if isinstance(t, str) and t.startswith("=") and "CORNER" in t]
    assert len(calls) > (100 if chapters else 300)
    start = {"calc": "CORNER.", "excel": "_xldudf_CORNER_", "excel-classic": "CORNER_"}[target]
    assert all(start in text for text in calls)


def test_there_and_back_gives_the_same_workbook(tmp_path, few):
    path = few
    there = tmp_path / "excel.xlsx"
    there.write_bytes(convert(path, "excel")[0])
    back = convert(there, "calc")[0]
    assert texts(back) == texts(path.read_bytes())


def test_what_was_changed_is_said(few):
    path = few
    messages = convert(path, "excel")[1]
    assert any(message.startswith("Bump: 191 formulas") for message in messages)
    assert convert(path, "calc")[1] == ["Every CORNER formula is spelled for calc already."]


def test_stored_values_stay(few):
    path = few
    old = looked_into(path, data_only=True)
    new = looked_into(io.BytesIO(convert(path, "excel")[0]), data_only=True)
    for sheet in old:
        for row in sheet.iter_rows():
            for cell in row:
                assert new[sheet.title][cell.coordinate].value == cell.value


def test_a_call_outside_cells_is_said_and_left(tmp_path):
    from openpyxl.formatting.rule import FormulaRule

    book = openpyxl.Workbook()
    rule = FormulaRule(formula=["CORNER.TRAIL(A1:D9)>10"])
    book.active.conditional_formatting.add("B1", rule)
    book.active["B1"] = "=CORNER.TRAIL(A1:D9)"
    path = tmp_path / "car.xlsx"
    book.save(path)
    messages = convert(path, "excel")[1]
    assert any("was left as it is" in message for message in messages)
