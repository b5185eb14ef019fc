"""In a copy: what closes the linkage anew, or solves for a place, against the formulas."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.adjusted import ADJUSTERS
from cornerbook.cells.example import EXAMPLE
from openpyxl.worksheet.formula import ArrayFormula

from tests.book.plain.workings import agree, shown_in_workings
from tests.support.looking import looked_into
from tests.support.workbooks import notes_and_block

POSE_RESULTS = ("camber", "toe", "trail", "bump steer", "roll centre", "motion ratio")


@pytest.mark.parametrize("pose", [(), (12.0, -9.0)])
def test_every_adjuster_on_results_of_every_kind(tmp_path, pose):
    cells = {"A1": 12.0, "A2": -9.0, "A3": 1580.0, "C1": 0.4, "C2": -0.8, "C3": 1.1}
    asked = {}
    for result in (*POSE_RESULTS, "ackermann"):
        for adjuster in ADJUSTERS:
            way = (0.4, -0.8, 1.1) if adjuster != "tie rod" else (0.4, 0.0, 0.0)
            turned = "C1,C2,C3" if adjuster != "tie rod" else "C1,0,0"
            more = ",A1,A2" if pose else ""
            if result == "ackermann":
                more = more + ",A3" if pose else ",0,A2,A3"
            address = f"B{len(asked) + 1}"
            cells[address] = (
                f'=CORNER.ADJUSTER_EFFECT(Front,"{result}","{adjuster}",{turned},2{more})'
            )
            at = (*pose, 1580.0) if pose else (0.0, -9.0 if result == "ackermann" else 0.0, 1580.0)
            asked[address] = (result, adjuster, *way, 2.0, *at)
    got = shown_in_workings(tmp_path / "adjusted.xlsx", cells)
    for address, arguments in asked.items():
        want = call("ADJUSTER_EFFECT", EXAMPLE, *arguments)
        assert isinstance(want, float), arguments
        agree(got[address], want)


def test_what_an_adjuster_cannot_do_is_said(tmp_path):
    formula = '=CORNER.ADJUSTER_EFFECT(Front,"camber","%s",%s)'
    cells = {
        "B1": formula % ("tie rod", "1,2,0,1"),
        "B2": formula % ("upper arm", "0,60,0,3"),
        "B3": formula % ("upper arm", "0,A9,0,3"),
        "B4": '=CORNER.ADJUSTER_EFFECT(Front,"camber","upper arm",0,1,0,1,500)',
    }
    got = shown_in_workings(tmp_path / "wrong.xlsx", cells)
    assert got["B1"] == call("ADJUSTER_EFFECT", EXAMPLE, "camber", "tie rod", 1.0, 2.0, 0.0, 1.0)
    assert "no solution was found" in got["B2"]
    assert got["B3"] == pytest.approx(0.0, abs=1e-9)
    assert got["B4"].startswith("# ")


EFFECTS = {
    "as many adjusters as results": ((0.4, 0.1, -0.2), (0.02, 0.9, 0.3), (-0.5, 0.2, 0.7)),
    "fewer adjusters": ((0.4, 0.1), (0.02, 0.9), (-0.5, 0.2)),
    "more adjusters": ((0.4, 0.1, -0.2), (0.02, 0.9, 0.3)),
    "one of each": ((0.4,),),
    "two alike": ((0.4, 0.8), (0.1, 0.2)),
    "one without effect": ((0.4, 0.0), (0.1, 0.0)),
}


def turned(tmp_path, effects, wanted):
    """What the cells of ADJUSTER_TURNS show in a copy, one below the other."""
    rows, columns = len(effects), len(effects[0])
    cells = {}
    for r in range(rows):
        for c in range(columns):
            cells["ABC"[c] + str(r + 1)] = effects[r][c]
        cells[f"E{r + 1}"] = wanted[r]
    last = "ABC"[columns - 1]
    formula = f"=CORNER.ADJUSTER_TURNS(A1:{last}{rows},E1:E{rows})"
    cells["G1"] = ArrayFormula(f"G1:G{columns}", formula)
    content, messages = share(notes_and_block(tmp_path / "turns.xlsx", cells))
    assert messages == []
    copy = tmp_path / "copy.xlsx"
    copy.write_bytes(content)
    package = Package.read(copy)
    first, end = package.cells("Notes")["G1"].formula.split("!")[1].replace("$", "").split(":")
    results = looked_into(copy)["Workings tables"][f"{first}:{end}"]
    stored = package.cells("Workings")
    return [
        stored[cell.value.split("!")[1].replace("$", "")].value for row in results for cell in row
    ]


@pytest.mark.parametrize("effects", EFFECTS.values(), ids=EFFECTS)
def test_turns_of_the_adjusters(tmp_path, effects):
    wanted = (0.3, -0.2, 0.5)[: len(effects)]
    want = call("ADJUSTER_TURNS", effects, tuple((one,) for one in wanted))
    got = turned(tmp_path, effects, wanted)
    assert len(got) == len(effects[0])
    for at, value in enumerate(got):
        agree(value, want if isinstance(want, str) else want[at][0])


def test_an_empty_cell_is_no_zero(tmp_path):
    (got,) = turned(tmp_path, ((None,), (0.3,)), (0.2, 0.1))
    assert got.startswith("# effects, row 1, column 1")


@pytest.mark.parametrize("formula", ["PLACE_TIE_ROD_OUTER", "PLACE_RACK"])
def test_a_place_for_an_ackermann_percentage(tmp_path, formula):
    cells, asked = {}, {}
    cases = [(1600.0, -30.0, 60.0), (1500.0, 25.0, 90.0), (1580.0, 12.0, 20.0),
             (1580.0, -35.0, 110.0), (1580.0, 20.0, 4000.0), (1580.0, 0.0, 50.0),
             (-5.0, 20.0, 50.0)]  # fmt: skip
    for row, case in enumerate(cases, 1):
        for column, value in zip("ABC", case, strict=True):
            cells[f"{column}{row}"] = value
        for column, axis in zip("EFG", "xyz", strict=True):
            address = f"{column}{row}"
            cells[address] = f'=CORNER.{formula}(Front,A{row},B{row},C{row},"{axis}")'
            asked[address] = (*case, axis)
    got = shown_in_workings(tmp_path / "places.xlsx", cells)
    found = 0
    for address, arguments in asked.items():
        want = call(formula, EXAMPLE, *arguments)
        agree(got[address], want)
        found += isinstance(want, float)
    assert found == 12
