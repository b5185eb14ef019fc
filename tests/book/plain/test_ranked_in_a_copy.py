"""SENSITIVITIES and DISTANCE_LEEWAY in a copy, worked out anew for changed points."""

import random

import pytest
from cornerbook.book.file.address import cell_name
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.formula.ranges import single
from cornerbook.book.plain.share import share
from cornerbook.book.study.recalculate import Recalculation
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from openpyxl.worksheet.formula import ArrayFormula

from tests.support.workbooks import notes_and_block

TABLE = "=CORNER.SENSITIVITIES(Front,%s)"

LEEWAY = ("lower front pickup", "tie rod inner", "bump steer", -0.02, 0.03)


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    """The copy of a workbook with both formulas, as a `Recalculation`."""
    cells = {
        "A1": 12.0, "A2": -9.0, "A3": 1580.0, "A4": -0.02, "A5": 0.03,
        "C1": ArrayFormula("C1:E45", TABLE % '"trail, ackermann",A1,A2,A3'),
        "L1": ArrayFormula("L1:M45", TABLE % '"bump steer",0,0,A3'),
        "G1": ArrayFormula("G1:H45", TABLE % '"tyre radius"'),
        "J1": '=CORNER.DISTANCE_LEEWAY(Front,"%s","%s","%s",A4,A5)' % LEEWAY[:3],
        "J2": '=CORNER.DISTANCE_LEEWAY(Front,"upper front pickup","tie rod outer","caster",5,A1)',
    }  # fmt: skip
    path = notes_and_block(tmp_path_factory.mktemp("ranked") / "car.xlsx", cells, sheet="Points")
    path.write_bytes(share(path)[0])
    return Recalculation.read(path)


def near(got, want):
    """Whether a cell shows what the formula gives; a sentence may show more digits."""
    if isinstance(want, float):
        return isinstance(got, float) and got == pytest.approx(want, rel=1e-7, abs=1e-12)
    return isinstance(got, str) and got.split(" ")[:2] == want.split(" ")[:2]


def test_for_changed_points(copy):
    numbers = [(r, c) for r, row in enumerate(EXAMPLE) for c in (1, 2, 3)
               if isinstance(row[c], float)]  # fmt: skip
    table = [("Notes", cell_name(r, c)) for r in range(45) for c in (2, 3, 4)]
    inputs = [("Points", cell_name(r, c)) for r, c in numbers]
    shown = copy.function(inputs, [*table, ("Notes", "J1"), ("Notes", "J2")])
    chance = random.Random(12)
    seen = set()
    for most in (0.0, 2.0, 2.0, 2.0, 900.0):
        block = [list(row) for row in EXAMPLE]
        for r, c in numbers:
            block[r][c] += chance.uniform(-most, most)
        *got, one, other = shown([block[r][c] for r, c in numbers])
        block = tuple(map(tuple, block))
        want = call("SENSITIVITIES", block, "trail, ackermann", 12.0, -9.0, 1580.0)
        if isinstance(want, str):
            assert near(got[0], want)
            assert all(isinstance(each, CellError) for each in got[1:])
            seen.add("sentence")
        else:
            rows = [got[i : i + 3] for i in range(0, len(got), 3)]
            assert [row[0] for row in rows[: len(want)]] == [row[0] for row in want]
            for row, wanted in zip(rows, want, strict=False):
                assert near(row[1], wanted[1]) and near(row[2], wanted[2])
            below = [each for row in rows[len(want) :] for each in row]
            # Below those that may come up stands nothing, and below the copy's table #N/A.
            assert all(e == "" or isinstance(e, CellError) for e in below)
            seen.add("table")
        assert near(one, call("DISTANCE_LEEWAY", block, *LEEWAY))
        asked = ("upper front pickup", "tie rod outer", "caster", 5.0, 12.0)
        assert near(other, call("DISTANCE_LEEWAY", block, *asked))
    assert seen == {"table", "sentence"}


def test_what_is_no_quantity_is_said(copy):
    assert single(copy.values.seen(("Notes", "G1"))).startswith("# quantities: ")


@pytest.mark.parametrize("wheelbase", [-5.0, "long", "# a sentence", None])
def test_a_wheelbase_that_is_not_asked_for(copy, wheelbase):
    shown = copy.function([("Notes", "A3")], [("Notes", "L1")])
    want = call("SENSITIVITIES", EXAMPLE, "bump steer", 0.0, 0.0, wheelbase)
    assert shown([wheelbase]) == [want if isinstance(want, str) else want[0][0]]
