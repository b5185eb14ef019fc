"""TWO_WAY in a copy: nine cells that live on, and the others once an input is edited."""

import random

import pytest
from cornerbook.book.file.address import cell_name
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.plain.kept_numbers import STALE
from cornerbook.book.plain.share import share
from cornerbook.book.study.recalculate import Recalculation
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from openpyxl.worksheet.formula import ArrayFormula

from tests.support.workbooks import notes_and_block

CALLS = {
    # Both of the drawing; of the axle; one of the two a movement; out of reach at an end.
    "C1": '"bump steer","tie rod inner z",A1,A2,5,"tie rod inner y",205,225,5,A3,A4',
    "C8": '"ackermann","Tie rod outer y",480,500,4,"rack",-20,A5,3,0,0,1580',
    "C14": '"camber","static camber",-2,0,3,"travel",-25,400,4',
}
GIVEN = {"A1": 178.0, "A2": 192.0, "A3": 8.0, "A4": -6.0, "A5": -5.0}


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    arrays = {
        "C1": ArrayFormula("C1:H6", f"=CORNER.TWO_WAY(Front,{CALLS['C1']})"),
        "C8": ArrayFormula("C8:F12", f"=CORNER.TWO_WAY(Front,{CALLS['C8']})"),
        "C14": ArrayFormula("C14:G17", f"=CORNER.TWO_WAY(Front,{CALLS['C14']})"),
    }
    folder = tmp_path_factory.mktemp("two-way")
    path = notes_and_block(folder / "car.xlsx", {**GIVEN, **arrays}, sheet="Points")
    content, messages = share(path)
    assert any("Live on Notes is where the first, the middle and the last" in m for m in messages)
    path.write_bytes(content)
    return Recalculation.read(path)


def wanted(place, block):
    given = [GIVEN.get(a, a) for a in CALLS[place].split(",")]
    given = [a if isinstance(a, float) else a.strip('"') if '"' in a else float(a) for a in given]
    return call("TWO_WAY", block, *given)


@pytest.mark.parametrize("place", CALLS)
@pytest.mark.parametrize("most", [0.0, 1.5])
def test_nine_cells_live_on(copy, place, most):
    points = [(r, c) for r, row in enumerate(EXAMPLE) for c in (1, 2, 3)
              if isinstance(row[c], float)]  # fmt: skip
    chance = random.Random(5)
    block = [list(row) for row in EXAMPLE]
    for r, c in points:
        block[r][c] += chance.uniform(-most, most)
    want = wanted(place, tuple(map(tuple, block)))
    top = int(place[1:]) - 1
    cells = [("Notes", cell_name(top + i, 2 + j)) for i in range(len(want))
             for j in range(len(want[0]))]  # fmt: skip
    inputs = [("Points", cell_name(r, c)) for r, c in points]
    got = copy.function(inputs, cells)([block[r][c] for r, c in points])
    ends = [{0, 1, 1 + (len(side) - 2) // 2, len(side) - 1} for side in (want, want[0])]
    numbers = 0
    for n, each in enumerate(got):
        i, j = divmod(n, len(want[0]))
        true = want[i][j]
        if (i, j) == (0, 0):
            assert each == (true if most == 0.0 else STALE)
        elif most == 0.0 or i == 0 or j == 0 or (i in ends[0] and j in ends[1]):
            if true is None:
                assert isinstance(each, CellError)
            else:
                assert each == pytest.approx(true, rel=1e-7, abs=1e-11)
                numbers += i > 0 and j > 0
        else:
            assert isinstance(each, CellError)
    assert numbers >= 6
