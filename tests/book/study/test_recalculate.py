"""A workbook as a function of some of its cells: what is worked out, and what is not."""

import openpyxl
import pytest
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.study.recalculate import Recalculation, Unknown
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from openpyxl.worksheet.formula import ArrayFormula

from tests.support.looking import looked_into
from tests.support.workbooks import notes_and_block


@pytest.fixture
def grown(tmp_path):
    """A workbook that somebody made: cells on one sheet, the block Front on another."""

    def build(cells, names=None):
        return notes_and_block(tmp_path / "grown.xlsx", cells, names=names)

    return build


def notes(*addresses):
    return [("Notes", address) for address in addresses]


def edited(row, place, number):
    """The example's block with one number of a row changed."""
    return tuple(
        tuple(number if r[0] == row and i == place else cell for i, cell in enumerate(r))
        for r in EXAMPLE
    )


def row_of(row):
    return [r[0] for r in EXAMPLE].index(row) + 1


def test_a_formula_of_the_block_follows_an_edit(grown):
    book = Recalculation.read(grown({"B1": "=CORNER.TRAIL(Front)", "B2": "=B1*2+A2", "A2": 3.0}))
    row = EXAMPLE[[r[0].lower() for r in EXAMPLE].index("lower ball joint")][0]
    function = book.function([("My points", "B%d" % row_of(row))], notes("B1", "B2"))
    for number in (3.0, 4.5, -2.0):
        want = call("TRAIL", edited(row, 1, number))
        assert function([number]) == [want, want * 2 + 3]
    now = EXAMPLE[row_of(row) - 1][1]
    assert function([now])[0] == call("TRAIL", EXAMPLE)


def test_only_what_is_between_is_worked_out(grown):
    book = Recalculation.read(grown({
        "A1": 1.0, "A2": 2.0, "B1": "=A1+A2", "B2": "=A2*2", "B3": "=B1+B2", "B4": "=B3+1",
    }))  # fmt: skip
    assert book.between(notes("A1"), notes("B3")) == notes("B1", "B3")
    assert book.between(notes("A2"), notes("B3")) in (
        notes("B1", "B2", "B3"), notes("B2", "B1", "B3"),
    )  # fmt: skip
    assert sorted(book.moved(notes("A1"))) == notes("B1", "B3", "B4")
    # openpyxl stores no values, so that what stays is worked out once, too.
    assert book.function(notes("A1"), notes("B4", "B2"))([10.0]) == [17.0, 4.0]


def test_a_stored_value_that_stays_is_taken_as_it_is(grown):
    path = grown({"A1": 1.0, "A2": 2.0, "B1": "=0", "B2": "=B1+A1"})
    package = Package.read(path)
    package.set_formula("Notes", "B1", "=PMT(A2,A2,1)", 40.0)
    path.write_bytes(package.to_bytes())
    book = Recalculation.read(path)
    assert book.function(notes("A1"), notes("B2"))([5.0]) == [45.0]
    # And what an input moves is never shown as it was.
    (value,) = book.function(notes("A2"), notes("B2"))([5.0])
    assert isinstance(value, Unknown) and "PMT" in value.why


def test_cells_by_name_and_by_address(grown):
    book = Recalculation.read(grown({"A1": 1.0, "B1": "=A1"}, {"Result": "Notes!$B$1"}))
    assert book.find("Result") == book.find("result") == ("Notes", "B1")
    assert book.find("Notes!b1") == book.find("notes!$B$1") == ("Notes", "B1")
    assert book.find("My points!B2") == book.find("'My points'!B2") == ("My points", "B2")
    assert book.said(("Notes", "B1")) == "Result (Notes!B1)"
    assert book.said(("Notes", "A1")) == "Notes!A1"
    for text, words in [("Nowhere", "Nowhere"), ("Front", "more than one"), ("B1", "which sheet"),
                        ("Lost!B1", "Lost"), ("Notes!", "Notes")]:  # fmt: skip
        with pytest.raises(Trouble, match=words):
            book.find(text)


def test_other_spellings_of_our_calls(grown):
    book = Recalculation.read(grown({
        "A1": 5.0, "B1": "=_xldudf_CORNER_CAMBER(Front,A1)", "B2": "=corner_camber(Front,A1)",
    }))  # fmt: skip
    want = call("CAMBER", EXAMPLE, 20.0)
    assert book.function(notes("A1"), notes("B1", "B2"))([20.0]) == [want, want]


def test_errors_and_sentences_are_values(grown):
    book = Recalculation.read(grown({
        "A1": 1.0, "B1": "=1/A1", "B2": "=CORNER.CAMBER(Front,A1)", "B3": '=IF(B1>0,"up","down")',
        "B4": "=SQRT(A1)", "B5": "=(-8)^A1",
    }))  # fmt: skip
    function = book.function(notes("A1"), notes("B1", "B2", "B3"))
    zero, _, below = function([0.0])
    assert isinstance(zero, CellError) and zero.code == "#DIV/0!"
    assert isinstance(below, CellError)
    assert function([-2.0])[2] == "down"
    assert function([5000.0])[1].startswith("#")
    roots = book.function(notes("A1"), notes("B4", "B5"))([-0.5])
    assert [v.code for v in roots] == ["#NUM!", "#NUM!"]


def test_arrays(grown):
    sweep = '=CORNER.SWEEP(Front,"toe,camber","rack",-10,A1,3)'
    path = grown({"A1": 10.0, "D1": ArrayFormula("D1:F4", sweep), "B1": "=F3+1", "B2": "=F4"})
    package = Package.read(path)
    for column in "DEF":
        for row in range(1, 5):
            if (column, row) != ("D", 1):
                package.set_value("Notes", "%s%d" % (column, row), 0.0)
    path.write_bytes(package.to_bytes())
    book = Recalculation.read(path)
    table = call("SWEEP", EXAMPLE, "toe,camber", "rack", -10.0, 30.0, 3.0)
    value, beyond = book.function(notes("A1"), notes("B1", "B2"))([30.0])
    assert value == table[2][2] + 1
    if len(table) < 4:
        assert isinstance(beyond, CellError)
    book.write({("Notes", "A1"): 30.0})
    cells = book.package.cells("Notes")
    assert cells["D1"].array == "D1:F4" and cells["D1"].value == table[0][0]
    assert [cells[c + "3"].value for c in "DEF"] == list(table[2])


@pytest.mark.parametrize(
    "formula",
    ["=PMT(A1,A2,1)", "=SUMPRODUCT(PMT(A1:A2,B1,B2))", "=RAND()*A1", "=(A1,A2)", "=A1+Lost!A1",
     "=INDIRECT(\"A1\")+A1", "=OFFSET(A1,1,0)", "=A1+nowhere", "=A1&\"abc", "=ROUND(A1,1,1,1)"],
)  # fmt: skip
def test_what_is_not_known_is_said_and_never_guessed(grown, formula):
    book = Recalculation.read(grown({"A1": 1.0, "A2": 2.0, "B1": 3.0, "B2": 4.0, "C1": formula,
                                     "C2": "=C1+1"}))  # fmt: skip
    values = book.function(notes("A1"), notes("C1", "C2"))([7.0])
    assert all(isinstance(value, Unknown) and "Notes!C1" in value.why for value in values)


def test_ranges_and_tables_follow_an_edit(grown):
    """By hand, with 7 in A1: A is 7, 2 and B is 3, 4."""
    formulas = {
        "=SUMPRODUCT(A1:A2*B1:B2)": 29.0, "=SUMPRODUCT(A1:A2,B1:B2)+0*A1": 29.0,
        "=INDEX(A1:B2,1,2)+A1": 10.0, "=A1:A2+1": 8.0, "=VLOOKUP(A1,A1:B2,2,FALSE)": 3.0,
        "=SUMIF(A1:A2,\">5\",B1:B2)": 3.0, "=ROUND(A1*0.155,1)": 1.1, "=-A1^2": 49.0,
    }  # fmt: skip
    cells = {"C%d" % n: formula for n, formula in enumerate(formulas, 1)}
    book = Recalculation.read(grown({"A1": 1.0, "A2": 2.0, "B1": 3.0, "B2": 4.0, **cells}))
    values = book.function(notes("A1"), notes(*cells))([7.0])
    # A formula in row 3 or below stands beside no cell of A1:A2; the fourth is in row 4.
    assert isinstance(values[3], CellError) and values[3].code == "#VALUE!"
    wanted = [value for value in formulas.values() if value != 8.0]
    assert values[:3] + values[4:] == pytest.approx(wanted, rel=1e-15)


def test_array_formulas_of_others(grown):
    path = grown({"A1": 1.0, "A2": 2.0, "C1": ArrayFormula("C1", "=SUM(A1:A2*A1:A2)"),
                  "D1": ArrayFormula("D1:D3", "=A1:A2*2"), "C2": "=D2+D1"})  # fmt: skip
    book = Recalculation.read(path)
    first, second, below, both = book.function(notes("A1"), notes("C1", "D1", "D3", "C2"))([7.0])
    assert (first, second, both) == (53.0, 14.0, 18.0)
    assert below.code == "#N/A"
    path = grown({"A1": 1.0, "A2": 2.0, "C1": ArrayFormula("C1", "=SUM(A1:A2*PMT(1,2,3))")})
    (value,) = Recalculation.read(path).function(notes("A1"), notes("C1"))([7.0])
    assert isinstance(value, Unknown) and "PMT" in value.why


def test_a_reference_that_does_not_show_counts_as_moved(grown):
    """INDIRECT may read any cell: its stored value must not be taken for a true one."""
    path = grown({"A1": 1.0, "C1": '=INDIRECT("A"&1)', "C2": "=A1*2"})
    package = Package.read(path)
    package.set_formula("Notes", "C1", '=INDIRECT("A"&1)', 1.0)
    path.write_bytes(package.to_bytes())
    book = Recalculation.read(path)
    assert book.write({("Notes", "A1"): 4.0}) == notes("C1")
    cells = book.package.cells("Notes")
    assert (cells["C1"].formula, cells["C1"].value) == ('=INDIRECT("A"&1)', None)
    assert (cells["A1"].value, cells["C2"].value) == (4.0, 8.0)


def test_a_circle_is_no_value(grown):
    path = grown({"A1": 1.0, "B1": "=B2+A1", "B2": "=B1+1", "B3": "=B3+A1"})
    values = Recalculation.read(path).function(notes("A1"), notes("B1", "B2", "B3"))([1.0])
    assert all(isinstance(v, Unknown) and "itself" in v.why for v in values)


def test_a_long_chain(grown):
    """Ten thousand cells, each from the one above: nothing nests as deep as that."""
    cells = {"A1": 1.0, "C1": 1.0}
    cells.update({"A%d" % n: "=A%d+1" % (n - 1) for n in range(2, 10001)})
    cells.update({"C%d" % n: "=C%d+1" % (n - 1) for n in range(2, 3001)})
    cells["B1"] = "=A10000+C3000"
    book = Recalculation.read(grown(cells))
    assert book.function(notes("A1"), notes("B1"))([5.0]) == [10004.0 + 3000.0]


def test_write_makes_every_stored_value_true(grown):
    path = grown({"A1": 1.0, "B1": "=A1*3", "B2": '=IF(B1>5,"much","little")', "B3": "=2+2"})
    book = Recalculation.read(path)
    assert book.write({("Notes", "A1"): 2.5}) == []
    other = path.with_name("other.xlsx")
    other.write_bytes(book.package.to_bytes())
    values = looked_into(other, data_only=True)["Notes"]
    formulas = looked_into(other)["Notes"]
    assert [values[a].value for a in ("A1", "B1", "B2")] == [2.5, 7.5, "much"]
    assert [formulas[a].value for a in ("A1", "B1", "B3")] == [2.5, "=A1*3", "=2+2"]


def test_what_reads_a_blank_cell_follows_it(grown):
    """Alone, in a small range, in one that is gone through by what is filled, and by its name."""
    cells = {
        "A3": 5.0, "B1": "=A1+1", "B2": "=SUM(A1:A3)", "B3": '=IF(Later="","none",Later*2)',
        "B4": "=SUM(A:A)", "B5": "=B1+B2", "B6": "=A3",
    }  # fmt: skip
    book = Recalculation.read(grown(cells, {"Later": "Notes!$A$2"}))
    wanted = notes("B1", "B2", "B3", "B4", "B5")
    assert set(book.moved(notes("A1", "A2"))) == set(wanted)
    function = book.function(notes("A1", "A2"), wanted)
    assert function([2.0, 3.0]) == [3.0, 10.0, 6.0, 10.0, 13.0]
    assert function([None, None]) == [1.0, 5.0, "none", 5.0, 6.0]
    assert book.write({("Notes", "A1"): 2.0, ("Notes", "A2"): 3.0}) == []
    again = Recalculation(book.package).values
    assert [again.at(*cell) for cell in wanted] == [3.0, 10.0, 6.0, 10.0, 13.0]


def test_limits_of_cells(tmp_path):
    from openpyxl.worksheet.datavalidation import DataValidation

    book = openpyxl.Workbook()
    sheet = book.active
    for cells, kind, operator, one, two in [
        ("A1:A3 C2", "decimal", "between", "1.5", "4"),
        ("B1", "decimal", "greaterThanOrEqual", "2", None),
        ("B2", "decimal", "lessThan", "9", None),
        ("B3", "whole", "between", "1", "5"),
        ("B4", "list", None, '"1,2"', None),
        ("B5", "decimal", "between", "A1", "7"),
    ]:
        entry = DataValidation(type=kind, operator=operator, formula1=one, formula2=two)
        entry.add(cells) if " " not in cells else [entry.add(c) for c in cells.split()]
        sheet.add_data_validation(entry)
    path = tmp_path / "limits.xlsx"
    book.save(path)
    package = Package.read(path)
    inf = float("inf")
    want = {"A2": (1.5, 4.0, False), "C2": (1.5, 4.0, False), "B1": (2.0, inf, False),
            "B2": (-inf, 9.0, False), "B3": (1.0, 5.0, True), "B4": None,
            "B5": (-inf, 7.0, False), "A4": None}  # fmt: skip
    assert {cell: package.limits("Sheet", cell) for cell in want} == want
