"""Calls that nobody can move: in a copy they keep their numbers, and all others stay live."""

import openpyxl
import pytest
from cornerbook.book.file.styles import PAPER
from cornerbook.book.plain.kept_numbers import STALE
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from openpyxl.styles import PatternFill, Protection

from tests.support.looking import looked_into

OPEN = Protection(locked=False)
CALL = "=CORNER.TRAIL(A1:D12)"


def made(tmp_path, change):
    """(formula, stored value, sentences) of F1 in a copy of a workbook whose sheet is protected.

    change: a function that is given the sheet, with the call in F1.
    """
    book = openpyxl.Workbook()
    sheet = book.active
    for row in EXAMPLE:
        sheet.append([None if cell == "" else cell for cell in row])
    for row in sheet["A1:D12"]:
        for cell in row:
            # So that blank cells too are in the file, with what they are.
            cell.protection = Protection(locked=True)
            cell.number_format = "0.00"
    sheet["F1"], sheet["F2"] = CALL, "=2*F1"
    sheet.protection.enable()
    change(sheet)
    path = tmp_path / "car.xlsx"
    book.save(path)
    content, said = share(path)
    copy = tmp_path / "copy.xlsx"
    copy.write_bytes(content)
    formula, value = (looked_into(copy, data_only=d)["Sheet"]["F1"].value for d in (False, True))
    return formula, value, said


def test_a_result_of_locked_cells_keeps_its_number(tmp_path):
    formula, value, said = made(tmp_path, lambda sheet: None)
    assert "Kept numbers" in formula and STALE in formula
    assert value == pytest.approx(call("TRAIL", EXAMPLE), rel=1e-12)
    # What is worked out of it is stored too, where nobody has done so before.
    assert looked_into(tmp_path / "copy.xlsx", data_only=True)["Sheet"]["F2"].value == 2.0 * value
    assert said == [
        "On Sheet results of locked cells alone keep their numbers: nobody can edit what they read."
    ]


def unprotected(sheet):
    sheet.protection.disable()


def with_an_open_point(sheet):
    sheet["C5"].protection = OPEN


def with_a_yellow_point(sheet):
    sheet["C5"].fill = PatternFill("solid", fgColor="FF" + PAPER[1:])


def with_a_formula_before_it(sheet):
    sheet["C5"] = f"={sheet['C5'].value}+H1"


def open_itself(sheet):
    sheet["F1"].protection = OPEN


def with_a_cell_that_the_file_has_not(sheet):
    sheet["F1"] = "=CORNER.TRAIL(A1:D12)+N(H1)"


def through_a_text(sheet):
    sheet["F1"] = '=IF(A1=5,INDIRECT("H1"),CORNER.TRAIL(A1:D12))'


def with_the_time(sheet):
    sheet["F1"] = "=IF(A1=5,TODAY(),CORNER.TRAIL(A1:D12))"


def on_a_sheet_that_is_open(sheet):
    other = sheet.parent.create_sheet("Other")
    other["A1"] = 1.0
    sheet["F1"] = "=CORNER.TRAIL(A1:D12)*Other!A1"


@pytest.mark.parametrize(
    "change",
    [
        unprotected, with_an_open_point, with_a_yellow_point, with_a_formula_before_it, open_itself,
        with_a_cell_that_the_file_has_not, through_a_text, with_the_time, on_a_sheet_that_is_open,
    ],
)  # fmt: skip
def test_what_somebody_can_move_is_live(tmp_path, change):
    formula, value, said = made(tmp_path, change)
    assert "Workings" in formula and said == []
    assert value == pytest.approx(call("TRAIL", EXAMPLE), rel=1e-12)
