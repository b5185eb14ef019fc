"""Ordinary formulas of all kinds: what our evaluator makes of them, held to real Calc."""

import math

import pytest
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.package import Package
from cornerbook.book.formula.values import Unknown, Values
from openpyxl.utils.cell import range_boundaries

from tests.calc.calc import Fault
from tests.support.ordinary import ARRAYS, FORMULAS, REFUSED, SHOWN_AS_LOGICALS, written


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    return written(tmp_path_factory.mktemp("ordinary") / "ordinary.xlsx")


@pytest.fixture(scope="module")
def ours(path):
    return Values(Package.read(path))


@pytest.fixture(scope="module")
def shown(calc, path):
    """What Calc shows on the sheet Out, as rows."""
    with calc.open(path) as book:
        book.recalculate()
        return book.get("Out", f"A1:AZ{len(FORMULAS) + len(REFUSED) + 50}")


def same(value, calcs):
    """Whether a value of ours is what Calc shows; errors that Calc has beyond Excel's are one."""
    if isinstance(calcs, Fault):
        if not isinstance(value, CellError):
            return False
        return calcs.text == value.code or calcs.text.startswith("Err:")
    if isinstance(value, bool):
        return calcs in (value, float(value))
    if isinstance(value, (int, float)) and isinstance(calcs, (int, float)):
        return math.isclose(value, calcs, rel_tol=1e-12, abs_tol=1e-300)
    return (value if value is not None else "") == (calcs if calcs is not None else "")


def test_single_cells(ours, shown):
    wrong = []
    for row, formula in enumerate(FORMULAS, 1):
        value = ours.seen(("Out", f"A{row}"))
        if isinstance(value, tuple):
            value = value[0][0]
        if formula not in SHOWN_AS_LOGICALS and not same(value, shown[row - 1][0]):
            said = value.why if isinstance(value, Unknown) else value
            wrong.append((row, formula, said, shown[row - 1][0]))
    assert not wrong, wrong
    assert len(FORMULAS) > 1000


def test_array_formulas(ours, shown):
    wrong = []
    for place, formula in ARRAYS.items():
        left, top, right, bottom = range_boundaries(place)
        for row in range(top, bottom + 1):
            for column in range(left, right + 1):
                address = f"{'' if column < 27 else 'A'}{chr(65 + (column - 1) % 26)}{row}"
                value = ours.seen(("Out", address))
                if isinstance(value, tuple):
                    value = value[0][0]
                if not same(value, shown[row - 1][column - 1]):
                    wrong.append((address, formula, value, shown[row - 1][column - 1]))
    assert not wrong, wrong
    assert len(ARRAYS) > 50


@pytest.mark.parametrize("number", range(len(REFUSED)), ids=REFUSED)
def test_what_is_not_known_is_refused_with_its_cell(ours, number):
    value = ours.seen(("Out", f"A{len(FORMULAS) + number + 1}"))
    assert isinstance(value, Unknown)
    assert value.why.startswith(f"Out!A{len(FORMULAS) + number + 1}: ")
