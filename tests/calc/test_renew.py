"""A workbook with sheets of its user's own, saved by a real Calc in between, made anew and opened
in Calc."""

import openpyxl
import pytest

from tests.book.study.test_renew import FEW, renew, said, with_own_sheets
from tests.support.looking import looked_into
from tests.support.yellow import other_values, yellow_of

# Of the whole workbook the yellow cells are read back by test_typed.py.
CHAPTERS = (*FEW, "two-way")


def test_saved_by_calc_in_between(calc, once, tmp_path):
    starter = once.workbook(chapters=CHAPTERS)
    changes = other_values(starter, 13)
    path, new = tmp_path / "saved.xlsx", tmp_path / "new.xlsx"
    with calc.open(with_own_sheets(starter, tmp_path / "own.xlsx")) as book:
        book.set_together([(*cell, value) for cell, value in changes.items()])
        book.recalculate()
        before = book.get("My notes", "A1:D9")
        book.save(path)
    done = renew(path, CHAPTERS)
    *taken, last = said(done)
    assert last == "Sheets of yours that came along: My notes, Stock."
    # Ends of a range that follow an input: Calc spells their formulas its own way.
    assert all("Taken as the value" in one and "Two-way" in one for one in taken), taken
    new.write_bytes(done.content)
    saved, made = yellow_of(path), yellow_of(new)
    for cell, value in made.items():
        if not str(value).startswith("="):
            assert saved.get(cell) == value, cell
    stored = looked_into(new, data_only=True)["My notes"]
    assert [cell.value for cell in stored["B"][1:4]] == pytest.approx([r[1] for r in before[1:4]])
    after = openpyxl.load_workbook(new)
    (chart,) = after["My notes"]._charts
    assert "My notes" in chart.series[0].val.numRef.f
    with calc.open(new) as book:
        assert book.get("My notes", "A1:D9") == [
            [pytest.approx(v, rel=1e-9) if isinstance(v, float) else v for v in row]
            for row in before
        ]
        book.recalculate()
        assert book.get("My notes", "B2:C4") == [
            [pytest.approx(v, rel=1e-9) if isinstance(v, float) else v for v in row[1:3]]
            for row in before[1:4]
        ]
        assert book.value("Stock", "B1") == 281
