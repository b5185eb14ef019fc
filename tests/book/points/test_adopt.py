"""A variant and the places of Placing made the points: held to closed forms, to the formulas asked
one by one, and to openpyxl for what must stay as it was."""

import functools
import io
import zipfile

import numpy as np
import openpyxl
import pytest
from cornerbook import cli
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.values import Values
from cornerbook.book.points.adopt.run import adopt
from cornerbook.book.points.block import PointBlock
from cornerbook.catalogue import call
from cornerbook.cells.block import key_of
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.cell_range import CellRange

from tests.support.looking import block_of, looked_into

BLANK = "Leave blank what a variant inherits"


def edited(starter, tmp_path, changes):
    """The demonstration car's workbook with cells changed; changes: {(sheet, address): value}."""
    package = Package.read(starter)
    for cell, value in changes.items():
        if isinstance(value, str) and value.startswith("="):
            package.set_formula(*cell, value, None)
        else:
            package.set_value(*cell, value)
    path = tmp_path / "edited.xlsx"
    path.write_bytes(package.to_bytes())
    return path


@pytest.fixture(scope="module")
def starter(once):
    """The demonstration car's workbook, of the sheets that are looked at here."""
    return once.workbook(chapters=("placing", "what-if"))


@functools.cache
def labels(path):
    """{sheet: the texts of its first column} of a workbook."""
    book = looked_into(path)
    return {sheet.title: [cell.value for cell in sheet["A"]] for sheet in book}


@functools.cache
def placed(path, rounds=1):
    """The places of a workbook adopted, which several tests look at."""
    return adopt(path, "placing", rounds=rounds)


def cell_of(starter, sheet, label, column, after=None):
    """The address of the cell in a column beside a label, below a text `after`."""
    texts = labels(starter)[sheet]
    return f"{column}{1 + texts.index(label, 0 if after is None else texts.index(after))}"


def points(content):
    """{key of a row: its values} of the block Front, as openpyxl has it."""
    return {key_of(row[0]): row[1:] for row in block_of(io.BytesIO(content))}


def held_as_it_was(path, content, allowed):
    """Every part but worksheets byte by byte, and every cell's formula or typed value but some."""
    before, after = zipfile.ZipFile(path), zipfile.ZipFile(io.BytesIO(content))
    assert before.namelist() == after.namelist()
    for name in before.namelist():
        if not name.startswith("xl/worksheets/sheet") and "calcChain" not in name:
            assert before.read(name) == after.read(name), name
    old, new = looked_into(path), looked_into(io.BytesIO(content))
    for sheet in old:
        # Cells inside an array formula hold its results alone.
        inside = {
            place
            for row in sheet.iter_rows() for cell in row if hasattr(cell.value, "ref")
            for place in list(CellRange(cell.value.ref).cells)[1:]
        }  # fmt: skip
        for row in sheet.iter_rows():
            for cell in row:
                other = new[sheet.title][cell.coordinate]
                place = (cell.row, cell.column)
                if place in inside or (sheet.title, cell.coordinate) in allowed:
                    continue
                mine, theirs = cell.value, other.value
                if hasattr(mine, "text"):
                    mine, theirs = (mine.ref, mine.text), (theirs.ref, theirs.text)
                assert mine == theirs, (sheet.title, cell.coordinate)
                assert cell.style_id == other.style_id


def test_a_variant_becomes_the_points(starter, tmp_path):
    upper = [cell_of(starter, "What-if", "Upper ball joint", c, BLANK) for c in "EFG"]
    path = edited(starter, tmp_path, {("What-if", upper[0]): -25.5, ("What-if", upper[2]): 372.0})
    done = adopt(path, "Variant-B")
    before, after = points(path.read_bytes()), points(done.content)
    assert after["upperballjoint"] == [-25.5, before["upperballjoint"][1], 372.0]
    assert {k: v for k, v in after.items() if v != before[k]} == {
        "upperballjoint": after["upperballjoint"]
    }
    assert [(m.label, m.axis, m.before, m.after) for m in done.moved] == [
        ("Upper ball joint", "x", -21.0, -25.5),
        ("Upper ball joint", "z", 380.0, 372.0),
    ]
    moved = {
        ("Front corner", cell_of(starter, "Front corner", "Upper ball joint", c)) for c in "BD"
    }
    held_as_it_was(path, done.content, moved)
    # Caster by its definition (ISO 8855): the lean of the axis in the side view.
    lower = after["lowerballjoint"]
    want = np.degrees(np.arctan2(lower[0] + 25.5, 372.0 - lower[2]))
    book = looked_into(io.BytesIO(done.content), data_only=True)
    (sheet, address), *_ = book.defined_names["Caster"].destinations
    assert book[sheet][address].value == pytest.approx(want, rel=1e-12)


def test_stored_values_are_those_of_the_new_points(starter, tmp_path):
    cell = cell_of(starter, "What-if", "Tie rod inner", "J", BLANK)
    done = adopt(edited(starter, tmp_path, {("What-if", cell): 187.0}), "c")
    path = tmp_path / "moved.xlsx"
    path.write_bytes(done.content)
    package = Package.read(path)
    values = Values(package)
    seen = 0
    for sheet in package.sheets:
        for address, content in package.cells(sheet).items():
            if content.formula and "CORNER.BUMP_STEER(" in content.formula:
                assert values.at(sheet, address) == content.value
                seen += 1
    assert seen > 3


@pytest.mark.parametrize("asked", ["Variant-A", "variant a", "Variant_A", "A", "a"])
def test_names_of_a_variant(once, tmp_path, asked):
    source = once.workbook(chapters=("what-if",))
    cell = cell_of(source, "What-if", "Static camber", "B", BLANK)
    done = adopt(edited(source, tmp_path, {("What-if", cell): -2.0}), asked)
    assert points(done.content)["staticcamber"][0] == -2.0


def test_what_is_no_point_is_said(starter, tmp_path):
    cell = cell_of(starter, "What-if", "Upper ball joint", "B", BLANK)
    base = cell_of(starter, "What-if", "Wheelbase", "B", BLANK)
    path = edited(starter, tmp_path, {("What-if", cell): -30.0, ("What-if", base): 1600.0})
    done = adopt(path, "A")
    assert any("Wheelbase 1600" in message for message in done.messages)


def test_a_variant_that_follows_the_points_is_said(starter, tmp_path):
    cell = cell_of(starter, "What-if", "Upper ball joint", "B", BLANK)
    drawn = cell_of(starter, "Front corner", "Upper ball joint", "B")
    path = edited(starter, tmp_path, {("What-if", cell): f"='Front corner'!{drawn}-4"})
    done = adopt(path, "A")
    assert points(done.content)["upperballjoint"][0] == -25.0
    assert any("has moved on with them: Upper ball joint" in each for each in done.messages)


def test_refused_in_a_sentence(starter, tmp_path):
    with pytest.raises(Trouble, match="Variant-A moves no point of Front"):
        adopt(starter, "Variant-A")
    with pytest.raises(Trouble, match="its variants are Variant-A, Variant-B, Variant-C"):
        adopt(starter, "Variant-D")
    with pytest.raises(Trouble, match="a variant, such as Variant-A, or placing was expected"):
        adopt(starter, "place")
    with pytest.raises(Trouble, match="1 to 20 were expected"):
        adopt(starter, "placing", rounds=0)
    cell = cell_of(starter, "What-if", "Upper ball joint", "B", BLANK)
    drawn = ("Front corner", cell_of(starter, "Front corner", "Upper ball joint", "B"))
    path = edited(starter, tmp_path, {("What-if", cell): -30.0, drawn: "=-20-1"})
    with pytest.raises(Trouble, match="holds a formula that gives -21"):
        adopt(path, "A")


def _by_hand(block):
    """The rows after each step of Placing, by its formulas asked one after the other."""
    rows = {row.key: [row.name, *row.values, *[""] * (3 - len(row.values))] for row in block.rows}
    axis = (6.5, 9.0, 22.0, 18.0)

    def put(places):
        found = {
            point: [call(name, list(rows.values()), *given, a) for a in "xyz"]
            for point, name, *given in places
        }
        for point, three in found.items():
            rows[key_of(point)][1:] = three

    put(
        [
            ("lower ball joint", "PLACE_LOWER_BALL_JOINT", *axis, 150.0),
            ("upper ball joint", "PLACE_UPPER_BALL_JOINT", *axis, 380.0),
        ]
    )
    pickups = ("lower front", "lower rear", "upper front", "upper rear")
    put([(f"{p} pickup", "PLACE_PICKUP", p, -0.015, 25.0, "as drawn") for p in pickups])
    put([("tie rod outer", "PLACE_TIE_ROD_OUTER", 1580.0, 45.0, 80.0)])
    put([("tie rod inner", "PLACE_TIE_ROD_INNER_FOR_RANGE", -20.0, 20.0)])
    return rows


def test_placing_step_by_step(starter):
    """Each step with the points of those before, as when they are typed in from the top down."""
    done = placed(starter)
    want, got = _by_hand(PointBlock(Package.read(starter))), points(done.content)
    for key, row in want.items():
        if isinstance(row[1], float):
            numbers = [value for value in got[key] if value is not None]
            np.testing.assert_allclose(numbers, [v for v in row[1:] if v != ""], rtol=1e-12)
    # The axis by its definition (ISO 8855): leans in the side and the front view.
    lower, upper = np.array(got["lowerballjoint"]), np.array(got["upperballjoint"])
    way = upper - lower
    assert np.degrees(np.arctan2(-way[0], way[2])) == pytest.approx(6.5, rel=1e-9)
    assert np.degrees(np.arctan2(-way[1], way[2])) == pytest.approx(9.0, rel=1e-9)
    assert (lower[2], upper[2]) == pytest.approx((150.0, 380.0))
    held_as_it_was(
        starter,
        done.content,
        {("Front corner", cell_of(starter, "Front corner", row[0], c))
         for row in want.values() for c in "BCD"},
    )  # fmt: skip
    shown = {result.label: result for result in done.results}
    assert shown["Caster"].after == pytest.approx(shown["Caster"].aim)
    assert any("More rounds" in message for message in done.messages)


def test_more_rounds_meet_every_aim(starter):
    """The tie rod's last step turns the wheel in bump, which moves camber gain and roll centre."""
    off = {}
    for rounds in (1, 2, 6):
        done = placed(starter, rounds)
        off[rounds] = max(abs(r.after - r.aim) / abs(r.aim) for r in done.results)
    assert off[2] < off[1] / 10
    assert off[6] < 1e-6
    assert len(done.results) == 9
    assert not any("More rounds" in message for message in done.messages)


def test_a_sentence_in_a_place_is_said_and_nothing_is_made(starter, tmp_path, capsys):
    aim = cell_of(starter, "Wanted", "Height of the lower ball joint", "C")
    path = edited(starter, tmp_path, {("Wanted", aim): None})
    out = tmp_path / "out.xlsx"
    assert cli.main(["adopt", str(path), "placing", "--out", str(out)]) == 1
    said = capsys.readouterr().err
    assert "no aim is typed for this on the sheet Wanted" in said
    assert not out.exists()


def test_a_blank_pickup_is_no_place(starter, tmp_path):
    cell = cell_of(starter, "Front corner", "Upper rear pickup", "D")
    path = edited(starter, tmp_path, {("Front corner", cell): None})
    with pytest.raises(Trouble, match="at the step of the pickups the cell Placing!"):
        adopt(path, "placing")


def test_a_blank_ball_joint_is_placed(starter, tmp_path):
    """Step 1 needs the wheel alone."""
    blank = {
        ("Front corner", cell_of(starter, "Front corner", "Upper ball joint", c)): None
        for c in "BCD"
    }
    done = adopt(edited(starter, tmp_path, blank), "placing")
    want = points(placed(starter).content)
    assert points(done.content) == want


def test_a_workbook_without_places(starter, tmp_path):
    book = openpyxl.Workbook()
    for row in [["Wheel centre", 0, 560, 262], ["Upper ball joint", -20, 480, 380]]:
        book.active.append(row)
    book.defined_names["Front"] = DefinedName("Front", attr_text="Sheet!$A$1:$D$2")
    path = tmp_path / "own.xlsx"
    book.save(path)
    with pytest.raises(Trouble, match="a workbook with the sheet Placing was expected"):
        adopt(path, "placing")
    with pytest.raises(Trouble, match="it has no variants"):
        adopt(path, "A")


def test_the_command(starter, tmp_path, capsys):
    cell = cell_of(starter, "What-if", "Upper ball joint", "B", BLANK)
    path = edited(starter, tmp_path, {("What-if", cell): -30.0})
    out = tmp_path / "out.xlsx"
    assert cli.main(["adopt", str(path), "Variant-A", "--out", str(out)]) == 0
    said = capsys.readouterr().out
    assert "Upper ball joint x" in said and "-30" in said and "-9" in said
    assert points(out.read_bytes())["upperballjoint"][0] == -30.0
    assert cli.main(["adopt", str(path), "A", "--out", str(out)]) == 1
    assert "exists and was left as it is" in capsys.readouterr().err
    assert cli.main(["adopt", str(path), "A", "--out", str(path), "--force"]) == 1
    assert "is the workbook itself" in capsys.readouterr().err


def test_inches(once, starter):
    path = once.workbook(system="in", chapters=("placing", "what-if"))
    done = adopt(path, "placing", rounds=6)
    metric = points(placed(starter, 6).content)
    got = points(done.content)["tierodinner"]
    np.testing.assert_allclose(np.array(got) * 25.4, metric["tierodinner"], rtol=1e-6)
