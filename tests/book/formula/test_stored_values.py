"""Which value of an ordinary formula counts: the stored one, or ours."""

import openpyxl
import pytest
import xlsxwriter
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.values import Values
from cornerbook.book.plain.share import share


def by_xlsxwriter(path, formulas):
    """A workbook whose formulas have 0 stored in place of values that nobody worked out."""
    with xlsxwriter.Workbook(path) as book:
        sheet = book.add_worksheet("Points")
        sheet.write("H1", 500.0)
        for address, formula in formulas.items():
            sheet.write_formula(address, formula)
    return path


def by_openpyxl(path, formulas):
    """A workbook whose formulas have no stored values."""
    book = openpyxl.Workbook()
    book.active.title = "Points"
    book.active["H1"] = 500.0
    for address, formula in formulas.items():
        book.active[address] = formula
    book.save(path)
    return path


@pytest.mark.parametrize("written", [by_xlsxwriter, by_openpyxl])
def test_a_value_that_nobody_worked_out_is_not_taken_for_true(tmp_path, written):
    path = written(tmp_path / "car.xlsx", {"C5": "=H1+21", "C6": "=C5*2", "C7": "=H1-500"})
    values = Values(Package.read(path))
    assert values.at("Points", "C5") == 521.0
    assert values.at("Points", "C6") == 1042.0
    assert values.at("Points", "C7") == 0.0
    assert values.doubts() == []


@pytest.mark.parametrize("written", [by_xlsxwriter, by_openpyxl])
def test_what_cannot_be_worked_out_is_refused_with_its_cell(tmp_path, written):
    path = written(tmp_path / "car.xlsx", {"C5": "=WEBSERVICE(H1)", "C6": "=C5*2"})
    values = Values(Package.read(path))
    for cell in ("C5", "C6"):
        with pytest.raises(Trouble, match=r"^Points!C5: .*WEBSERVICE"):
            values.at("Points", cell)


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("=SUMPRODUCT(H1:H3*H1:H3)", 250000.0), ('="5"*2', 10.0), ("=SUM(TRUE,1)", 2.0),
        ("=ROUND(1.005,2)", 1.01), ("=POWER(2,3)", 8.0), ("=VLOOKUP(500,H1:H1,1,0)", 500.0),
    ],
)  # fmt: skip
def test_a_frozen_copy_stores_what_calc_would_show(tmp_path, formula, value):
    path = by_openpyxl(tmp_path / "car.xlsx", {"C5": formula})
    (tmp_path / "frozen.xlsx").write_bytes(share(path, values=True)[0])
    frozen = openpyxl.load_workbook(tmp_path / "frozen.xlsx")
    assert frozen["Points"]["C5"].value == pytest.approx(value, rel=1e-15)


def test_long_chains_and_long_sums(tmp_path):
    """A cell a step, 5,000 of them; 4,000 terms; brackets within brackets."""
    chain = {f"A{row}": f"=A{row + 1}+1" for row in range(1, 5000)}
    chain["C1"] = "=" + "+".join(["1"] * 4000)
    chain["C2"] = "=" + "(" * 200 + "H1" + ")" * 200
    path = by_openpyxl(tmp_path / "car.xlsx", chain)
    values = Values(Package.read(path))
    assert values.at("Points", "A1") == 4999.0
    assert values.at("Points", "C1") == 4000.0
    assert values.at("Points", "C2") == 500.0


@pytest.mark.parametrize("total", ["SUM(A2:A400)", 'COUNTIF(A2:A400,">0")'])
def test_a_range_is_asked_for_as_a_whole(tmp_path, monkeypatch, total):
    """Also where it is read on a condition, so that what reads it does not say so beforehand."""
    cells = {"A1": f'=IF(H1>0,{total},"none")'}
    cells |= {f"A{row}": "=H1/500" for row in range(2, 401)}
    values = Values(Package.read(by_openpyxl(tmp_path / "car.xlsx", cells)))
    made = []
    make = values._made
    monkeypatch.setattr(values, "_made", lambda cell: made.append(cell) or make(cell))
    assert values.at("Points", "A1") == 399.0
    assert len(made) < 2 * len(cells)


@pytest.mark.parametrize(
    ("cells", "circle"),
    [
        ({"A1": "=A1+1"}, True),
        ({"A1": "=IF(H1>0,SUM(A2:A4),0)", "A2": "=H1", "A4": "=A1+1"}, True),
        ({"A1": "=IF(H1>0,SUM(A1:A3),0)", "A2": "=H1"}, True),
        ({"A1": "=IF(H1>0,H1,A2)", "A2": "=A1+1"}, False),
        ({"A1": "=IF(H1>0,SUM(A2:A3),0)", "A2": "=H1", "A3": "=IF(H1<0,A1,0)"}, False),
    ],
)
def test_what_needs_itself_is_a_circle(tmp_path, cells, circle):
    """A branch that is not taken may name what leads to it."""
    values = Values(Package.read(by_openpyxl(tmp_path / "car.xlsx", cells)))
    if circle:
        with pytest.raises(Trouble, match="needs its own result"):
            values.at("Points", "A1")
    else:
        assert values.at("Points", "A1") == 500.0
