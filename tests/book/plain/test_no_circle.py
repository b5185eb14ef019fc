"""No cell of a copy depends on itself, not even by a range of which it needs another cell.

Calc computes such a copy; programs that order cells by their references do not.
"""

import openpyxl
import pytest
from cornerbook.book.file.package import Package

from tests.support.circles import Dependence, told


@pytest.mark.parametrize(
    ("system", "chapters", "cells"),
    # In inches factors stand in the formulas, of the same few kinds on every sheet.
    [("mm", (), 40_000), ("in", ("placing", "what-if"), 5_000)],
)
def test_no_circle(once, system, chapters, cells):
    path, _ = once.copy(system=system, chapters=chapters)
    found = Dependence(Package.read(path))
    assert len(found.cells) > cells
    # Enough of the references are understood: nearly every cell of the workings has some.
    alone = [cell for cell, needs in found.needs.items() if not needs]
    assert len(alone) < len(found.cells) / 10
    assert told(found.circles()) == []


def test_circles_are_found(tmp_path):
    """By a name, by a range, over sheets, by the cells of an array; and no other ones."""
    book = openpyxl.Workbook()
    sheet, other = book.active, book.create_sheet("The other's")
    sheet.title = "One"
    book.defined_names["Far"] = openpyxl.workbook.defined_name.DefinedName(
        "Far", attr_text="'The other''s'!$B$2"
    )
    sheet["A1"] = "=A2+1"
    sheet["A2"] = '=IF(TRUE,Far,"A1 is text")'
    other["B2"] = "=SUM(One!C1:D4)"
    sheet["D3"] = openpyxl.worksheet.formula.ArrayFormula("D3:D4", "=B1:B2*2")
    sheet["B2"] = "=A2"
    sheet["E1"] = "=A1"  # leads out of the circle, and is not in it
    sheet["B1"] = "=F1"  # leads into it
    sheet["F1"] = "=1"
    path = tmp_path / "circles.xlsx"
    book.save(path)
    circles = set(Dependence(Package.read(path)).circles())
    assert circles == {
        ("One", 1, 0), ("One", 1, 1), ("One", 2, 3), ("One", 3, 3), ("The other's", 1, 1),
    }  # fmt: skip
