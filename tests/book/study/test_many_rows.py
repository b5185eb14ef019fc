"""Ranges of rows for many cars at once: each as it comes out alone."""

import numpy as np
import openpyxl
import pytest
from cornerbook.catalogue import call
from cornerbook.cells.example import PARTS

from tests.book.study.test_many import opened

ASKED = {
    "A1": ("PARTS_MASS",),
    "A2": ("CENTRE_OF_GRAVITY", "z"),
    "A3": ("PARTS_INERTIA", "roll"),
    "A4": ("PARTS_FRONT_SHARE", 1600.0),
    "A5": ("UNSPRUNG_MASS", "front", 1600.0),
}


def test_parts_that_differ_from_car_to_car(tmp_path):
    book = openpyxl.Workbook()
    notes, parts = book.active, book.create_sheet("Parts")
    notes.title = "Notes"
    for row in PARTS:
        parts.append([None if cell == "" else cell for cell in row])
    area = f"Parts!$A$1:$I${len(PARTS)}"
    for cell, (name, *more) in ASKED.items():
        words = [f'"{a}"' if isinstance(a, str) else repr(a) for a in more]
        notes[cell] = f"=CORNER.{name}({','.join([area, *words])})"
    book.save(tmp_path / "car.xlsx")

    count, draw = 5, np.random.default_rng(121)
    cells = opened(tmp_path / "car.xlsx")
    amounts = {("Parts", at): draw.uniform(-20, 20, count) for at in ("B1", "C2", "E3", "F1")}
    cells.spread_cells(amounts)
    found = cells.evaluate([("Notes", cell) for cell in ASKED], amounts, count)
    for car in range(count):
        rows = [list(row) for row in PARTS]
        for (_, at), by in amounts.items():
            rows[int(at[1:]) - 1]["ABCDEFGHI".index(at[0])] += float(by[car])
        for values, (name, *more) in zip(found, ASKED.values(), strict=True):
            assert values[car] == pytest.approx(call(name, tuple(map(tuple, rows)), *more))


def test_a_car_with_a_mass_below_nothing_has_no_number(tmp_path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Notes"
    for row in PARTS:
        sheet.append([None if cell == "" else cell for cell in row])
    sheet["K1"] = f"=CORNER.PARTS_MASS($A$1:$I${len(PARTS)})"
    book.save(tmp_path / "car.xlsx")
    cells = opened(tmp_path / "car.xlsx")
    amounts = {("Notes", "B1"): np.array([0.0, -61.0])}
    cells.spread_cells(amounts)
    (found,) = cells.evaluate([("Notes", "K1")], amounts, 2)
    assert found[0] == pytest.approx(260.0)
    assert np.isnan(found[1])
