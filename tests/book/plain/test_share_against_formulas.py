"""A shared copy computed by the PyPI package `formulas`, an engine that is not Calc's.

The copy is a small one: that engine takes some ten milliseconds to read each formula.
"""

import formulas
import openpyxl
import pytest
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE

CALLS = {
    "H1": ("=CORNER.CAMBER(A1:D12,F1,F2)", ("CAMBER", EXAMPLE, 22.0, -13.0)),
    "H2": ("=CORNER.TOE(A1:D12,F1,F2)", ("TOE", EXAMPLE, 22.0, -13.0)),
    "H3": ("=CORNER.TRAIL(A1:D12,F1,F2)", ("TRAIL", EXAMPLE, 22.0, -13.0)),
    "H4": ("=CORNER.BUMP_STEER(A1:D12,F1,F2)", ("BUMP_STEER", EXAMPLE, 22.0, -13.0)),
    "H5": ("=CORNER.ACKERMANN(A1:D12,F3,F2)", ("ACKERMANN", EXAMPLE, 1600.0, -13.0)),
    "H6": ("=CORNER.SCRUB(A1:D12)", ("SCRUB", EXAMPLE)),
    "H7": ("=CORNER.RISE_AT_STEER(F1,6,9,-1,262,60)", ("RISE_AT_STEER", 22.0, 6, 9, -1, 262, 60)),
}


def test_another_engine_computes_the_same(tmp_path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Car"
    for row in EXAMPLE:
        sheet.append([None if cell == "" else cell for cell in row])
    sheet["F1"], sheet["F2"], sheet["F3"] = 22.0, -13.0, 1600.0
    for address, (formula, _) in CALLS.items():
        sheet[address] = formula
    path = tmp_path / "car.xlsx"
    book.save(path)
    copy = tmp_path / "copy.xlsx"
    copy.write_bytes(share(path)[0])

    model = formulas.ExcelModel().loads(str(copy)).finish()
    # As shared, and with another travel, which no stored value knows.
    for travel in (22.0, -31.0):
        solution = model.calculate(inputs={"'[copy.xlsx]CAR'!F1": travel})
        for address, (_, arguments) in CALLS.items():
            want = call(*[travel if argument == 22.0 else argument for argument in arguments])
            got = solution["'[copy.xlsx]CAR'!%s" % address].value[0, 0]
            assert float(got) == pytest.approx(want, rel=1e-9, abs=1e-12), address
