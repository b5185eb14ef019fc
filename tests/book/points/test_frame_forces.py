"""Forces on the frame as a CSV file, read by pandas and held to free bodies and to the load."""

import io

import numpy as np
import pandas as pd
import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.points.frame_forces import frame_forces
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.mend import shown

from tests.authorities.corner_by_free_bodies import wrench
from tests.catalogue.independent_loads import bodies
from tests.support.looking import looked_into
from tests.support.workbooks import notes_and_block

HEAD = ("case", "up", "forward", "outboard", "travel", "rack", "acts at")
CASES = (
    ("Standing", 600.0, 0.0, 0.0, 0.0, 0.0, "contact centre"),
    ("Kerb, left", 900.0, -120.0, -1500.0, 22.0, -9.0, "wheel centre"),
    ("Braking", 1100.0, -900.0, 40.0, 25.0, 10.0, "brake"),
)
BARE = tuple(
    row for row in EXAMPLE
    if row[0] not in ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker")
)  # fmt: skip


def workbook(path, cases=CASES, rows=EXAMPLE, head=HEAD, area="Notes!$B$4:$H$%d"):
    """A workbook that somebody made: cases on the first sheet, their headings two rows above."""
    cells = {f"{'BCDEFGH'[i]}2": title for i, title in enumerate(head)}
    for number, case in enumerate(cases, 4):
        cells.update({f"{'BCDEFGH'[i]}{number}": value for i, value in enumerate(case)})
    names = {"LoadCases": area % (3 + len(cases)) if "%" in area else area}
    return notes_and_block(path / "own.xlsx", cells, rows=rows, names=names)


def table(content):
    found = pd.read_csv(io.BytesIO(content))
    found.columns = [name.split(" ")[0] for name in found.columns]
    return found


@pytest.mark.parametrize("rows", [EXAMPLE, BARE], ids=["rocker", "direct spring"])
def test_forces_are_those_of_free_bodies(tmp_path, rows):
    found = table(frame_forces(workbook(tmp_path, rows=rows), unit="mm")[0])
    for name, up, forward, outboard, travel, rack, acts in CASES:
        lines = found[found.case == name].set_index("point")
        assert len(lines) == (7 if rows is EXAMPLE else 6)
        if rows is not EXAMPLE:
            continue
        theirs = bodies(EXAMPLE, travel, rack)
        forces = theirs.solve(theirs.load(acts, forward, outboard, up))
        for point, line in lines.iterrows():
            assert [*line[["x", "y", "z"]]] == pytest.approx(theirs.at[point], abs=1e-9)
            assert [*line[["Fx", "Fy", "Fz"]]] == pytest.approx(forces[point], abs=1e-5)
        couple = lines.loc["rocker pivot", ["Mx", "My", "Mz"]]
        assert [*couple] == pytest.approx(forces["couple"], abs=1e-3)


def test_each_case_adds_up_to_the_load(tmp_path):
    found = table(frame_forces(workbook(tmp_path), unit="mm")[0])
    for name, up, forward, outboard, travel, rack, acts in CASES:
        load = bodies(EXAMPLE, travel, rack).load(acts, forward, outboard, up)
        total = np.zeros(6)
        for line in found[found.case == name].to_dict("records"):
            place, force, couple = (
                np.array([line[key] for key in keys])
                for keys in (("x", "y", "z"), ("Fx", "Fy", "Fz"), ("Mx", "My", "Mz"))
            )
            total += wrench(place, force)
            total[3:] += couple
        size = np.abs(load[:3]).max()
        assert total[:3] == pytest.approx(load[:3], abs=1e-9 * size)
        # Moments about the origin: forces some times the load, at arms of some hundred mm.
        assert total[3:] == pytest.approx(load[3:], abs=1e-9 * size * 1000.0)


@pytest.fixture(scope="module")
def loads(once):
    """The demonstration car's workbook, of the sheet of load cases and what it needs."""
    return once.workbook(chapters=("loads",))


def test_the_demonstration_car(loads):
    content, said = frame_forces(loads)
    heading = content.decode("utf-8").splitlines()[0]
    assert heading.startswith("case,point,x (mm),y (mm),z (mm),Fx (N),Fy (N),Fz (N),Mx (N mm)")
    found = table(content)
    assert list(dict.fromkeys(found.case))[:3] == ["Standing", "Bump", "Braking"]
    # Every case's upward force is the load times its factor, as the sheet has it.
    ups = found.groupby("case", sort=False).Fz.sum()
    assert ups["Bump"] == pytest.approx(3.0 * ups["Standing"])
    assert ups["Standing"] == pytest.approx(280 * 0.43 * 9.80665 / 2, rel=1e-3)
    assert any("no check of strength" in line for line in said)


def test_without_a_unit_it_says_so(tmp_path):
    content, said = frame_forces(workbook(tmp_path))
    assert content.decode("utf-8").splitlines()[0] == "case,point,x,y,z,Fx,Fy,Fz,Mx,My,Mz"
    assert "does not say its unit" in said[-1]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"cases": (("A", 1.0, 0.0, 0.0, 0.0, 0.0, "hub"),)}, ("A: acts at", "wheel centre")),
        ({"cases": (("A", "much", 0.0, 0.0, 0.0, 0.0, "brake"),)}, ("A: up (Notes!C4)", "much")),
        ({"cases": (("A", 1.0, 0.0, 0.0, 900.0, 0.0, "brake"),)}, ("A: no solution was found",)),
        ({"cases": ((None, 1.0, 0.0, 0.0, 0.0, 0.0, "brake"),)}, ("holds no case",)),
        ({"head": ("case", "up", "ahead", *HEAD[3:])}, ("no column is headed forward",)),
        ({"area": "Notes!$B$1:$H$4"}, ("no headings two rows above",)),
        ({"rows": EXAMPLE[:12]}, ("Standing: the row", "rod outer", "missing")),
    ],
)
def test_mistakes_are_a_sentence(tmp_path, change, words):
    with pytest.raises(Trouble) as caught:
        frame_forces(workbook(tmp_path, **change), unit="mm")
    for word in words:
        assert word in str(caught.value)


def test_a_workbook_without_cases(tmp_path):
    with pytest.raises(Trouble, match="LoadCases"):
        frame_forces(notes_and_block(tmp_path / "own.xlsx", {}))


def test_a_name_that_a_program_would_work_out_is_written_as_text(tmp_path):
    cases = ((None,), ("'=2+3", *CASES[0][1:]))
    content, _ = frame_forces(workbook(tmp_path, cases=cases), unit="mm")
    assert set(table(content).case) == {"'=2+3"}


def test_a_spring_without_a_lever_holds_nothing():
    """A spring that points at the hinge of the arm that it stands on."""
    rows = {row[0]: row for row in BARE}
    rows["Lower front pickup"] = ("Lower front pickup", 120.0, 210.0, 160.0)
    rows["Lower rear pickup"] = ("Lower rear pickup", -120.0, 210.0, 160.0)
    rows["Rod outer"] = ("Rod outer", 0.0, 460.0, 160.0)
    rows["Spring frame"] = ("Spring frame", 0.0, 210.0, 160.0)
    block = tuple(rows.values())
    for member in ("spring", "rod", "lower rear"):
        assert "has no moment" in call("MEMBER_FORCE", block, member, 0.0, 0.0, 900.0)
    far = call("MEMBER_FORCE", EXAMPLE, "spring", 0.0, 0.0, 900.0, 900.0)
    assert "cannot be reached" in far and "has no moment" not in far


def test_what_the_block_lacks_is_said_by_the_formulas_alike():
    said = call("JOINT_FORCE", BARE, "rod inner", "x", 0.0, 0.0, 900.0)
    assert said.startswith("# the block has no rocker")
    for component in ("x", "size"):
        assert call("JOINT_FORCE", BARE, "rocker pivot", component, 0.0, 0.0, 900.0) == 0.0
        assert call("ROCKER_COUPLE", BARE, component, 0.0, 0.0, 900.0) == 0.0
    forces = [call("MEMBER_FORCE", BARE, name, 0.0, 0.0, 900.0) for name in ("rod", "spring")]
    assert forces[0] == forces[1] < 0.0, shown(forces[0])


def test_the_sheet_shows_the_case_that_is_asked_for(loads):
    """The vectors of the demonstration's sheet Loads are the file's lines of that case."""
    sheet = looked_into(loads, data_only=True)["Loads"]
    rows = [[cell.value for cell in row[:8]] for row in sheet.iter_rows()]
    first = next(i for i, row in enumerate(rows) if row[1] == "Lower front pickup")
    case = next(row[1] for row in rows if row[0] == "The case")
    found = table(frame_forces(loads)[0])
    lines = found[found.case == case].set_index("point")
    assert len(lines) == 7
    for row in rows[first : first + 7]:
        line = lines.loc[row[1].lower()]
        shown = [*line[["x", "y", "z", "Fx", "Fy", "Fz"]]]
        assert row[2:8] == pytest.approx(shown, abs=1e-6)
