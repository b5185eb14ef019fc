"""Odd labels that come back as they went out, and damaged numbers that are told."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.points import intake
from cornerbook.book.points.block import PointBlock
from cornerbook.book.points.csv_file import csv_of, rows_of_csv
from cornerbook.book.points.dxf.read import rows_of_dxf
from cornerbook.book.points.dxf.write import dxf_of
from cornerbook.book.points.row import Row
from cornerbook.cells.example import EXAMPLE

ROWS = [
    Row(cells[0], tuple(v for v in cells[1:] if v != ""), "mm" if cells[2] != "" else "")
    for cells in EXAMPLE
]


@pytest.mark.parametrize(
    "label", ["Brake; front", "Pedal\tbox", 'The "hoop"', "a, b; c", "=1+1", "-x", "@here"]
)
def test_any_label_comes_back_from_a_csv_file(tmp_path, label):
    path = tmp_path / "points.csv"
    for rows in ([*ROWS, Row(label, (1.0, 2.0, 3.0), "mm")], [Row(label, (1.0, 2.0, 3.0), "mm")]):
        path.write_bytes(csv_of(rows))
        back = rows_of_csv(path)
        assert [r.values for r in back] == [r.values for r in rows]
        assert back[-1].name == " ".join(label.split())


def test_no_cell_of_a_csv_file_is_a_formula_to_a_spreadsheet_program(tmp_path):
    text = csv_of([Row("=HYPERLINK(1)", ("=2+2",), "")]).decode("utf-8")
    assert text.splitlines()[1].startswith("'=") and ",'=" in text


@pytest.mark.parametrize("label", ["Two\nlines", "Two\r\nlines", "Tab\there"])
def test_a_label_of_several_lines_is_one_in_a_file(tmp_path, label):
    row = Row(label, (1.0, 2.0, 3.0), "mm")
    (tmp_path / "points.csv").write_bytes(csv_of([*ROWS, row]))
    assert rows_of_csv(tmp_path / "points.csv")[-1].name == " ".join(label.split())
    (tmp_path / "points.dxf").write_bytes(dxf_of([*ROWS, row], "mm")[0])
    names = {found.name for found in rows_of_dxf(tmp_path / "points.dxf")[0]}
    assert " ".join(label.split()) in names


@pytest.mark.parametrize("damaged", ["52l.0", "5Z1.0", "1_0.0", "nan", ""])
def test_a_damaged_number_of_a_drawing_is_told_with_its_line(tmp_path, damaged):
    path = tmp_path / "points.dxf"
    lines = dxf_of(ROWS, "mm")[0].decode("utf-8").split("\n")
    at = next(i for i, line in enumerate(lines) if line.strip() == "POINT")
    x = next(i for i in range(at + 1, len(lines), 2) if lines[i].strip() == "10")
    lines[x + 1] = damaged
    path.write_text("\n".join(lines), encoding="utf-8")
    with pytest.raises(Trouble, match=f'line {x + 2}: "{damaged}" stands where a number'):
        rows_of_dxf(path)


def test_a_drawing_that_is_whole_is_taken(tmp_path):
    (tmp_path / "points.dxf").write_bytes(dxf_of(ROWS, "mm")[0])
    rows, _ = rows_of_dxf(tmp_path / "points.dxf")
    assert {(r.key, r.values) for r in rows} == {(r.key, r.values) for r in ROWS}


def test_a_file_larger_than_any_drawing_of_points_is_refused(tmp_path):
    path = tmp_path / "points.dxf"
    with path.open("wb") as file:
        file.truncate(30_000_000)
    with pytest.raises(Trouble, match="more than 20 MB"):
        rows_of_dxf(path)


def test_thousands_of_other_rows_are_counted_and_not_compared(once, monkeypatch):
    """Each was once compared with every name of the block, however many there were."""
    compared = []
    monkeypatch.setattr(
        intake.difflib, "get_close_matches", lambda *a, **k: compared.append(a) or []
    )
    block = PointBlock(Package.read(once.workbook(chapters=("front-corner",))))
    rows = [Row(f"Station {n}", (1.0, 2.0, 3.0), "mm") for n in range(4000)]
    taken = intake.Intake(block, [*rows, Row("Upper ball joint", (1.0, 2.0, 3.0), "mm")], "f.csv")
    assert len(compared) == 50
    assert "Station 19 and 3980 more." in " ".join(taken.write())
