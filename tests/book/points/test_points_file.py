"""Points out of a workbook into a CSV file and back, held to openpyxl, pandas and `make`."""

import io
import re
from pathlib import Path

import numpy as np
import openpyxl
import pandas as pd
import pytest
from cornerbook import cli, front
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import make
from cornerbook.book.points.block import PointBlock
from cornerbook.book.points.csv_file import rows_of_csv
from cornerbook.book.points.exchange import export, take_in
from cornerbook.book.points.row import MM
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.mend import Mend
from openpyxl.workbook.defined_name import DefinedName

from tests.support.corners import random_corners
from tests.support.looking import block_of

MILLIMETRES_PER_INCH = 25.4
"""International yard and pound agreement, 1959."""


WORKBOOKS = Path(__file__).parents[3] / "workbooks"


# What hangs on the points: in one cell, in a table, and as places.
FEW = ("bump", "placing")


@pytest.fixture
def lapwing(tmp_path_factory, once):
    """A copy of the demonstration car's workbook, of a few sheets."""
    path = tmp_path_factory.mktemp("made") / "car.xlsx"
    path.write_bytes(once.workbook(chapters=FEW).read_bytes())
    return path


@pytest.fixture
def corner(tmp_path_factory, once):
    """A copy of one of the points alone, for what hangs on nothing else."""
    path = tmp_path_factory.mktemp("corner") / "car.xlsx"
    path.write_bytes(once.workbook(chapters=("front-corner",)).read_bytes())
    return path


def workbook(path, rows, unit_cells=None, check=None, formulas=()):
    """A workbook that somebody made: a block named Front and, if asked for, a check."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Points"
    for row in rows:
        cells = [None if cell == "" else cell for cell in row]
        sheet.append([*cells, *[None] * (4 - len(cells)), unit_cells])
    book.defined_names["Front"] = DefinedName("Front", attr_text="Points!$A$1:$D$%d" % len(rows))
    notes = book.create_sheet("Notes")
    if check:
        notes["A1"] = check
    for address, formula in formulas:
        notes[address] = formula
    book.save(path)
    return path


def written(tmp_path, text, name="in.csv"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def taken(tmp_path, book, file, **given):
    """The path of the copy, and what was said."""
    content, messages = take_in(book, file, **given)
    path = tmp_path / "copy.xlsx"
    path.write_bytes(content)
    return path, messages


def refused(book, file, **given):
    before = book.read_bytes()
    with pytest.raises(Trouble) as problem:
        take_in(book, file, **given)
    assert book.read_bytes() == before
    return str(problem.value)


def values(path):
    package = Package.read(path)
    return {
        (sheet, address): content.value.code
        if isinstance(content.value, CellError)
        else content.value or None  # an empty text is stored by one and not the other
        for sheet in package.sheets
        for address, content in package.cells(sheet).items()
    }


# ---------------------------------------------------------------- out


def test_what_is_written_is_what_the_workbook_holds(corner):
    content, messages = export(corner, "out.csv")
    frame = pd.read_csv(io.BytesIO(content), dtype=str)
    assert messages == []
    assert list(frame.columns) == ["name", "x", "y", "z", "unit"]
    cells = block_of(corner)
    assert list(frame["name"]) == [row[0] for row in cells]
    for (_, line), row in zip(frame.iterrows(), cells, strict=True):
        for text, cell in zip((line.x, line.y, line.z), row[1:], strict=True):
            if isinstance(cell, str):
                assert text == cell
            else:
                assert pd.isna(text) if cell in (None, "") else float(text) == cell
    units = dict(zip(frame["name"], frame["unit"], strict=True))
    assert units["Wheel centre"] == units["Tyre radius"] == units["Spring frame"] == "mm"
    assert units["Static camber"] == units["Static toe"] == "deg"
    assert pd.isna(units["Rod mount"])


def test_round_trip_is_exact_over_random_corners(tmp_path):
    corners = random_corners(1, 10)
    for i in range(corners.count):
        rows = corners.rows(i)
        book = workbook(tmp_path / "car.xlsx", rows, "mm")
        out = tmp_path / "out.csv"
        out.write_bytes(export(book, out)[0])
        other = workbook(tmp_path / "other.xlsx", EXAMPLE[:12], "mm")
        copy, messages = taken(tmp_path, other, out)
        assert messages == []
        found = {row[0].lower(): row[1:] for row in block_of(copy)}
        # openpyxl keeps 16 digits of the 17; what it saved is what must come back.
        for name, *numbers in block_of(book):
            assert found[name.lower()] == numbers
        lines = {row.name: row.values for row in rows_of_csv(out)}
        for name, *numbers in block_of(book):
            assert lines[name] == tuple(n for n in numbers if n is not None)


def test_the_front_reads_what_is_exported(tmp_path, corner):
    out = tmp_path / "out.csv"
    out.write_bytes(export(corner, out)[0])
    one, other = front.read_csv(out), front.read_workbook(corner)
    assert one.at("toe", 20.0, 5.0) == other.at("toe", 20.0, 5.0)
    assert one.at("motion ratio", 20.0) == other.at("motion ratio", 20.0)


def test_the_front_converts_lines_that_say_their_unit(tmp_path):
    lines = ["name,x,y,z,unit"]
    for number, (name, *cells) in enumerate(EXAMPLE[:12]):
        lengths = name not in ("Static camber", "Static toe")
        inch = lengths and number % 2
        cells = [c / MILLIMETRES_PER_INCH if inch and c != "" else c for c in cells]
        unit = "in" if inch else "mm" if lengths else "deg"
        lines.append(",".join(map(str, [name, *cells, unit])))
    mixed = front.read_csv(written(tmp_path, "\n".join(lines)))
    assert mixed.at("toe", 20.0) == pytest.approx(call("TOE", EXAMPLE, 20.0), abs=1e-8)


# ---------------------------------------------------------------- which unit


@pytest.mark.parametrize(
    ("beside", "check", "unit"),
    [
        ("mm", None, "mm"),
        ("in", None, "in"),
        (None, '=CORNER.CHECK(Front,"in")', "in"),
        (None, '=IF(CORNER.CHECK(Points!$A$1:$D$12, "cm")="ok",1,2)', "cm"),
        (None, '=_xldudf_CORNER_CHECK(Front,"m")', "m"),
        (None, '=CORNER.CHECK(Other,"in")', ""),
        (None, "=CORNER.CHECK(Front)", ""),
        ("mm", '=CORNER.CHECK(Front,"mm")', "mm"),
        ("(inch)", None, "in"),
        (None, None, ""),
    ],
)
def test_how_the_unit_is_known(tmp_path, beside, check, unit):
    book = workbook(tmp_path / "car.xlsx", EXAMPLE[:12], beside, check)
    content, messages = export(book, "out.csv")
    line = next(x for x in content.decode().splitlines() if x.startswith("Wheel centre"))
    assert line == "Wheel centre,0.0,550.0,260.0," + unit
    assert messages == (
        [] if unit else
        ["The workbook does not say its unit of length, so the file does not; give --unit."]
    )  # fmt: skip


def test_two_units_at_once(tmp_path):
    book = workbook(tmp_path / "car.xlsx", EXAMPLE[:12], "in", '=CORNER.CHECK(Front,"mm")')
    with pytest.raises(Trouble, match="says more than one unit of length: mm, in; make them one"):
        export(book, "out.csv")
    assert b"Wheel centre,0.0,550.0,260.0,in" in export(book, "out.csv", unit="in")[0]


@pytest.mark.parametrize("given", MM)
@pytest.mark.parametrize("ours", ["mm", "in"])
def test_units_are_converted(tmp_path, given, ours):
    per = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MILLIMETRES_PER_INCH}
    book = workbook(tmp_path / "car.xlsx", EXAMPLE[:12], ours)
    text = (
        "name,x,y,z,unit\nUpper ball joint,-3.5,12.25,8.0,%s\n"
        "Tyre radius,7.0,,,%s\nStatic camber,-1.75,,,deg\n" % (given, given)
    )
    copy, _ = taken(tmp_path, book, written(tmp_path, text))
    found = {row[0]: row[1:] for row in block_of(copy)}
    factor = per[given] / per[ours]
    for got, number in zip(found["Upper ball joint"], (-3.5, 12.25, 8.0), strict=True):
        assert got == pytest.approx(number * factor, rel=1e-11)
    assert found["Tyre radius"][0] == pytest.approx(7.0 * factor, rel=1e-11)
    assert found["Static camber"][0] == -1.75


def test_254_mm_are_10_inches(tmp_path):
    book = workbook(tmp_path / "car.xlsx", EXAMPLE[:12], "in")
    copy, _ = taken(tmp_path, book, written(tmp_path, "Wheel centre,254,508,762,mm"))
    assert block_of(copy)[0][1:] == [10, 20, 30]


# ---------------------------------------------------------------- in: tolerant


@pytest.mark.parametrize(
    "text",
    [
        "name,x,y,z,unit\nUpper ball joint,-30.5,480.25,381.0,mm\nStatic toe,0.5,,,deg\n",
        "\ufeffname;x;y;z;unit\r\nUpper ball joint;-30,5;480,25;381;mm\r\nStatic toe;0,5;;;deg",
        "name;x;y;z;unit\nUpper ball joint;-30.5;480.25;381;mm\nStatic toe;0.5;;;deg\n",
        "name\tx\ty\tz\tunit\nUpper ball joint\t-30,5\t480,25\t381\tmm\nStatic toe\t0,5\n",
        "Static toe,0.5\n\n,,,,\nUPPER-BALL JOINT,-30.5,480.25,381\n",
        "upper_ball_joint (mm) , -30.5 , 480.25 , 381.0 , MM \nstatic toe (deg),0.5,,,degrees",
        "z,y,x,point\n381,480.25,-30.5,Upper balljoint\n,,0.5,Static toe\n",
        "Row,x (mm),y (mm),z (mm)\nUpper ball joint,-30.5,480.25,381\nStatic toe,0.5,,\n",
        'name,x,y,z,unit\n"Upper ball joint","-30.5","480.25","3.81e2","Millimetres"\n'
        "Static toe,.5,,,\N{DEGREE SIGN}\n",
    ],
)
def test_spellings_of_one_file(tmp_path, corner, text):
    copy, messages = taken(tmp_path, corner, written(tmp_path, text))
    found = {row[0]: row[1:] for row in block_of(copy)}
    assert found["Upper ball joint"] == [-30.5, 480.25, 381]
    assert found["Static toe"][0] == 0.5
    assert found["Lower ball joint"] == [5, 516.5, 150]
    assert messages[-1].startswith("Not in the file, so as before: Wheel centre, Tyre radius,")
    assert "Upper ball joint" not in messages[-1]


def test_said_when_the_file_has_no_unit(tmp_path, corner):
    _, messages = taken(tmp_path, corner, written(tmp_path, "Wheel centre,0,560,262"))
    assert messages[0] == (
        "The file does not say its unit of length; its numbers are taken as mm."
    )  # fmt: skip


def test_rows_of_others_are_left_out_and_named(tmp_path, corner):
    text = "Wheel centre,0,560,262,mm\nFuel filler,1,2,3,mm\n"
    _, messages = taken(tmp_path, corner, written(tmp_path, text))
    assert "Not in the block and left out: Fuel filler." in messages


def test_a_row_of_ones_own_keeps_its_unit(tmp_path):
    rows = [*EXAMPLE[:12], ("Brake pipe", 1.0, 2.0, 3.0), ("Fluid share", 0.5, "", "")]
    book = workbook(tmp_path / "car.xlsx", rows, "mm")
    text = "name,x,y,z,unit\nBrake pipe,1,2,3,in\nFluid share,0.75,,,\n"
    copy, _ = taken(tmp_path, book, written(tmp_path, text))
    found = {row[0]: row[1:] for row in block_of(copy)}
    assert found["Brake pipe"] == pytest.approx([25.4, 50.8, 76.2])
    assert found["Fluid share"] == [0.75, None, None]


# ---------------------------------------------------------------- in: stored values


def test_the_copy_holds_the_values_that_belong_to_its_points(tmp_path, lapwing):
    """Held to a workbook made from a scenario that has the new numbers from the start."""

    text = (WORKBOOKS / "scenarios" / "lapwing.toml").read_text("utf-8")
    line = re.search(r'^"?Upper ball joint"? *= *\[.*\]$', text, re.MULTILINE)[0]
    changed = text.replace(line, line.split("=")[0] + "= [-30, 480, 381]")
    scenario = tmp_path / "lapwing.toml"
    scenario.write_text(changed, encoding="utf-8")
    assert changed != text
    wanted = tmp_path / "wanted.xlsx"
    wanted.write_bytes(make(scenario=str(scenario), chapters=FEW))
    copy, _ = taken(
        tmp_path, lapwing, written(tmp_path, "Upper ball joint,-30,480,381,mm")
    )  # fmt: skip
    before, found, right = values(lapwing), values(copy), values(wanted)
    assert found.keys() == right.keys()
    assert sum(before[cell] != found[cell] for cell in found) > 500
    for cell, value in right.items():
        if isinstance(value, float):
            assert found[cell] == pytest.approx(value, rel=1e-9, abs=1e-9), cell
        else:
            assert found[cell] == value, cell


def test_an_import_of_the_same_numbers_changes_nothing(tmp_path, lapwing):
    out = tmp_path / "out.csv"
    out.write_bytes(export(lapwing, out)[0])
    copy, messages = taken(tmp_path, lapwing, out)
    assert messages == []
    assert values(copy) == values(lapwing)


def test_cells_that_were_empty_are_filled_and_counted(tmp_path):
    rows = [row if row[0] != "Upper ball joint" else ("Upper ball joint",) for row in EXAMPLE[:12]]
    calls = [("B1", "=CORNER.CASTER(Front)"), ("B2", "=B1*2"), ("B3", "=B2+NETWORKDAYS(1,2)")]
    book = workbook(tmp_path / "car.xlsx", rows, "mm", formulas=calls)
    copy, messages = taken(
        tmp_path, book, written(tmp_path, "Upper ball joint,-20.0,475.0,375.0,mm")
    )  # fmt: skip
    found = values(copy)
    # tan(caster) is the axis's lean rearward over its rise (ISO 8855).
    caster = np.degrees(np.arctan2(6.0 + 20.0, 375.0 - 150.0))
    assert found["Notes", "B1"] == pytest.approx(caster, rel=1e-12)
    assert found["Notes", "B2"] == pytest.approx(2 * caster, rel=1e-12)
    assert found["Notes", "B3"] is None
    assert any("without a value" in m and "Notes!B3" in m for m in messages)


def test_the_check_speaks_up(tmp_path, corner):
    text = "Upper ball joint,-21,480,100,mm"
    _, messages = taken(tmp_path, corner, written(tmp_path, text))
    assert messages[-1].startswith("The check of the points says: ")
    assert "upper ball joint" in messages[-1]


def test_the_check_says_what_is_worth_a_look(tmp_path, corner):
    text = "Upper ball joint,21,480,380,mm"
    _, messages = taken(tmp_path, corner, written(tmp_path, text))
    assert messages[-1].startswith("The check of the points says: ok, but look: caster is -4")


# ---------------------------------------------------------------- refused


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "has no row of the block Front; its names were expected, such as \"Wheel centre\""),
        ("Fuel filler,1,2,3", "has no row of the block Front"),
        ("Uper ball joint,1,2,3",
         'no row "Uper ball joint"; did you mean "Upper ball joint"?'),
        ("Wheel centre,1,2,3\nwheel-centre,1,2,4", 'the row "wheel-centre" is in it more than'),
        ("Wheel centre,1,2", "Wheel centre: 2 numbers; x, y and z were expected"),
        ("Wheel centre,1,,3", "Wheel centre: y is empty; a number was expected"),
        ("Wheel centre,1,two,3", 'Wheel centre: y is "two"; a number alone was expected'),
        ("Wheel centre,1,nan,3", 'Wheel centre: y is "nan"; a number alone was expected'),
        ('Wheel centre,1,"2,5",3', 'Wheel centre: y is "2,5"; a number alone was expected'),
        ("Wheel centre;1;1.234,5;3", 'y is "1.234,5"; a number alone was expected'),
        ("Static toe,1,2,3", "Static toe: 3 numbers; one was expected"),
        ("Rod mount,1", "Rod mount: a word was expected, in the first column"),
        ("Wheel centre,1,2,3,ft", 'the unit "ft" is not known; mm, cm, m, in or deg was expected'),
        ("Wheel centre,1,2,3,deg", "Wheel centre: it is in deg, and mm was expected"),
        ("Static toe,1,,,mm", "Static toe: it is in mm, and deg was expected"),
        ("name,x,z\nWheel centre,1,3", "its heading has no column y; name, x, y, z and unit"),
    ],
)  # fmt: skip
def test_sentences(tmp_path, corner, text, words):
    message = refused(corner, written(tmp_path, text))
    assert "in.csv" in message
    assert words in message


def test_a_unit_into_a_workbook_that_does_not_say_its_own(tmp_path):
    book = workbook(tmp_path / "car.xlsx", EXAMPLE[:12])
    file = written(tmp_path, "Wheel centre,1,2,3,in")
    message = refused(book, file)
    assert "it is in in, and the workbook does not say its unit of length; give --unit" in message
    copy, _ = taken(tmp_path, book, file, unit="mm")
    assert block_of(copy)[0][1:] == pytest.approx([25.4, 50.8, 76.2])


def test_a_formula_in_the_block_is_not_lost(tmp_path):
    rows = [list(row) for row in EXAMPLE[:12]]
    rows[4][2] = "=500+10"
    book = workbook(tmp_path / "car.xlsx", rows, "mm")
    message = refused(book, written(tmp_path, "Lower ball joint,6,511,150,mm"))
    assert "Lower ball joint, y is 511, and the cell Points!C5 holds a formula" in message
    assert "gives 510; put a number in its place first" in message
    # The number that the formula gives is no reason to stop.
    content, _ = take_in(book, written(tmp_path, "Lower ball joint,7,510,150,mm"))
    (tmp_path / "copy.xlsx").write_bytes(content)
    cells = Package.read(tmp_path / "copy.xlsx").cells("Points")
    assert cells["C5"].formula == "=500+10"
    assert cells["B5"].value == 7


@pytest.mark.parametrize(
    ("block", "words"),
    [
        ("Frnt", "there is no name Frnt in the workbook; did you mean Front?"),
        ("Qqq", "no name Qqq in the workbook; give the block's name, or its address such as"),
        ("Points!A1:C5", "is 3 columns wide; a block has a name, x, y and z"),
        ("Points!B1:E5", "holds no names in its first column"),
    ],
)
def test_no_such_block(tmp_path, block, words):
    book = workbook(tmp_path / "car.xlsx", EXAMPLE[:12], "mm")
    with pytest.raises(Trouble, match=re.escape(words)):
        export(book, "out.csv", block)


def test_a_block_with_a_row_twice(tmp_path):
    book = workbook(tmp_path / "car.xlsx", [*EXAMPLE[:12], EXAMPLE[0]], "mm")
    with pytest.raises(Trouble, match=r'row "Wheel centre" stands in the block Front more than'):
        PointBlock(Package.read(book))


def test_files_that_cannot_be_read(tmp_path, corner):
    assert "there is no file" in refused(corner, tmp_path / "none.csv")
    (tmp_path / "bytes.csv").write_bytes(b"\xff\xfe\x00\x81")
    assert "is no text file" in refused(corner, tmp_path / "bytes.csv")
    (tmp_path / "folder.csv").mkdir()
    assert "cannot be read" in refused(corner, tmp_path / "folder.csv")
    assert "ends in .csv or .dxf was expected" in refused(corner, tmp_path / "points.txt")


def test_a_corner_read_in_python_still_says_what_is_wrong(tmp_path):
    path = written(tmp_path, "Wheel centre,1,two,3\nTyre radius,260")
    assert [row.values for row in rows_of_csv(path)] == [(1.0, "two", 3.0), (260.0,)]
    with pytest.raises(Mend, match='Wheel centre: y is "two"'):
        front.read_csv(path).block.point("wheel centre")


# ---------------------------------------------------------------- the command


def test_the_command(tmp_path, lapwing, capsys):
    out, copy = str(tmp_path / "out.csv"), str(tmp_path / "copy.xlsx")
    assert cli.main(["export", str(lapwing), out]) == 0
    assert "out.csv is written, from the block Front." in capsys.readouterr().out
    assert cli.main(["export", str(lapwing), out]) == 1
    assert "exists and was left as it is" in capsys.readouterr().err
    assert cli.main(["export", str(lapwing), out, "--force", "--axle"]) == 1
    assert "--axle is for drawings" in capsys.readouterr().err
    assert cli.main(["import", str(lapwing), out, "--out", copy]) == 0
    assert "copy.xlsx is made, with the points of" in capsys.readouterr().out
    assert values(copy) == values(lapwing)
    assert cli.main(["import", str(lapwing), out, "--out", str(lapwing), "--force"]) == 1
    assert "is the workbook itself" in capsys.readouterr().err
    assert cli.main(["import", str(lapwing), out, "--out", copy]) == 1
    assert "exists and was left as it is" in capsys.readouterr().err
    assert cli.main(["export", str(lapwing), str(tmp_path / "out.txt")]) == 1
    assert "a name that ends in .csv or .dxf was expected" in capsys.readouterr().err
    assert sorted(p.name for p in tmp_path.iterdir()) == ["copy.xlsx", "out.csv"]
