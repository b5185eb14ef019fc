"""The Python front: blocks from files and frames, sweeps as DataFrames."""

import os
import subprocess
import sys

import array_api_strict
import cornerbook
import numpy as np
import openpyxl
import pandas as pd
import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE
from cornerbook.cells.mend import Mend
from cornerbook.cells.quantity import name_of, quantities
from openpyxl.workbook.defined_name import DefinedName


@pytest.fixture
def corner():
    return cornerbook.Corner(EXAMPLE)


def test_reads_a_workbook(tmp_path, starter):
    path = tmp_path / "car.xlsx"
    path.write_bytes(starter.read_bytes())
    front = cornerbook.read(path)
    assert 15 < front.at("trail") < 30
    assert cornerbook.read(path, "Front corner!A6:D25").at("trail") == front.at("trail")
    with pytest.raises(Trouble, match="no block named Rear"):
        cornerbook.read(path, "Rear")


def test_reads_csv_with_commas_or_semicolons(tmp_path, corner):
    for separator, point in ((",", "."), (";", ",")):
        path = tmp_path / "car.csv"
        lines = [separator.join(str(cell).replace(".", point) for cell in row) for row in EXAMPLE]
        path.write_text("\n".join(lines), encoding="utf-8")
        assert cornerbook.read(path).at("camber", 20.0) == corner.at("camber", 20.0)


def test_reads_a_frame(corner):
    frame = pd.DataFrame(list(EXAMPLE), columns=["name", "x", "y", "z"]).replace("", np.nan)
    for block in (frame, frame.set_index("name")):
        assert cornerbook.read_frame(block).at("toe", 20.0, 5.0) == corner.at("toe", 20.0, 5.0)


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"no zip", "is not an .xlsx file"), (b"PK\x03\x04 broken", "damaged|not an")],
)
def test_a_file_that_is_no_workbook(tmp_path, content, words):
    path = tmp_path / "car.xlsx"
    path.write_bytes(content)
    with pytest.raises(Trouble, match=words):
        cornerbook.read(path)


def block_on(path, sheet, changes=()):
    """A workbook with the example's block on a sheet, by its name Front."""
    book = openpyxl.Workbook()
    page = book.active
    page.title = sheet
    for row in EXAMPLE:
        page.append([None if cell == "" else cell for cell in row])
    for address, value in changes:
        page[address] = value
    quoted = sheet.replace("'", "''")
    book.defined_names["Front"] = DefinedName(
        "Front", attr_text=f"'{quoted}'!$A$1:$D${page.max_row}"
    )
    book.save(path)
    return path


def test_any_name_of_a_sheet_is_read(tmp_path, corner):
    path = block_on(tmp_path / "car.xlsx", "O'Brien's car")
    assert cornerbook.read(path).at("trail") == corner.at("trail")


def test_an_error_in_a_point_is_named(tmp_path):
    path = block_on(tmp_path / "car.xlsx", "Points", [("B5", "=Points!#REF!")])
    with pytest.raises((Mend, Trouble), match=r"Lower ball joint|#REF!"):
        cornerbook.read(path).at("trail")


def test_a_password_is_told(tmp_path):
    path = tmp_path / "car.xlsx"
    path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600))
    with pytest.raises(Trouble, match="password"):
        cornerbook.read(path)


def test_a_zip_that_is_no_workbook(tmp_path):
    import zipfile

    path = tmp_path / "car.xlsx"
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("readme.txt", "not a workbook")
    with pytest.raises(Trouble, match=r"is not an \.xlsx file"):
        cornerbook.read(path)


def test_no_such_file(tmp_path):
    with pytest.raises(Trouble, match="no file"):
        cornerbook.read(tmp_path / "none.xlsx")


@pytest.fixture
def strict():
    """A library that has the array API standard 2023.12 and refuses all that is not in it."""
    with array_api_strict.ArrayAPIStrictFlags(api_version="2023.12"):
        yield array_api_strict


NAMES = [name_of(entry) for entry in quantities().values()]
TRAVEL = np.linspace(-90, 90, 19)[:, None]
RACK = np.array([-80.0, -12.5, 0.0, 30.0])[None, :]


@pytest.fixture(scope="module")
def of_both():
    """{name: (of NumPy, of that library)} of every quantity, each pose solved once by each."""
    corner = cornerbook.Corner(EXAMPLE)
    want = corner.table(NAMES, TRAVEL, RACK, wheelbase=1600.0)
    with array_api_strict.ArrayAPIStrictFlags(api_version="2023.12"):
        poses = array_api_strict.asarray(TRAVEL), array_api_strict.asarray(RACK)
        found = corner.table(NAMES, *poses, wheelbase=1600.0)
    return dict(zip(NAMES, zip(want, found, strict=True), strict=True))


@pytest.mark.parametrize("name", NAMES)
def test_arrays_of_another_library(of_both, strict, name):
    want, found = of_both[name]
    assert found.__array_namespace__() is strict
    assert found.shape == want.shape and found.dtype == strict.float64
    # Another order of the same work rounds alike but for the last digits.
    assert np.from_dlpack(found) == pytest.approx(want, rel=1e-11, abs=1e-11, nan_ok=True)


def test_what_another_library_gives_is_taken_and_kept(corner, strict):
    floats, whole = strict.asarray([-10.0, 25.0]), strict.asarray([-10, 25])
    want = [corner.at("toe", travel, 5.0) for travel in (-10.0, 25.0)]
    for travel in (floats, whole):
        assert np.from_dlpack(corner.at("toe", travel, 5.0)) == pytest.approx(want, rel=1e-12)
    narrow = corner.at("toe", strict.asarray([25.0], dtype=strict.float32), 5.0)
    assert narrow.dtype == strict.float32
    assert float(narrow[0]) == pytest.approx(want[1], abs=1e-3)
    assert corner.at("toe", strict.asarray(25.0)).shape == ()
    assert corner.at("toe", strict.zeros((0, 3))).shape == (0, 3)
    device = strict.Device("device1")
    assert corner.at("toe", strict.asarray([25.0], device=device)).device == device


@pytest.fixture
def without_values(strict, monkeypatch):
    """That library, its arrays refusing to tell a value, as those that are only traced do."""
    kind = type(strict.asarray(1.0))
    part = kind.__getitem__

    def refuse(*_):
        raise TypeError("this array has only a shape")

    def part_of(array, place):
        return refuse() if hasattr(place, "dtype") else part(array, place)

    for name in ("__bool__", "__int__", "__float__"):
        monkeypatch.setattr(kind, name, refuse)
    monkeypatch.setattr(kind, "__getitem__", part_of)
    return strict


def test_arrays_without_values(corner, without_values):
    """The same numbers, but for the poses beside an end that a linkage is followed to."""
    travel, rack = np.linspace(-200.0, 200.0, 81)[:, None], np.linspace(-150.0, 150.0, 13)[None, :]
    names = ["camber", "roll centre", "motion ratio", "ackermann"]
    given = without_values.asarray(travel), without_values.asarray(rack)
    found = corner.table(names, *given, wheelbase=1600.0)
    wanted = corner.table(names, travel, rack, wheelbase=1600.0)
    ordinary = (np.abs(travel) <= 80.0) & (np.abs(rack) <= 50.0)
    for name, one, want in zip(names, map(np.from_dlpack, found), wanted, strict=True):
        known, asked = ~np.isnan(one), ~np.isnan(want)
        assert known[ordinary & asked].all(), name
        assert one[known] == pytest.approx(want[known], rel=1e-9, abs=1e-9), name
        if name == "camber":
            assert 0 < asked.sum() - known.sum() < 0.02 * asked.sum()


def test_an_array_of_one_number_without_a_value(corner, without_values):
    toe = corner.at("toe", without_values.asarray(25.0), 5.0)
    assert np.from_dlpack(toe) == pytest.approx(corner.at("toe", 25.0, 5.0), rel=1e-12)
    with pytest.raises(Mend, match="must be of 64 bits"):
        corner.at("toe", without_values.asarray(25.0, dtype=without_values.float32), 5.0)


def test_more_arrays_than_a_chunk(corner, strict, monkeypatch):
    monkeypatch.setattr("cornerbook.front.CHUNK", 4)
    travel = np.linspace(-40, 40, 11)
    found = corner.at("camber", strict.asarray(travel))
    assert np.from_dlpack(found) == pytest.approx(corner.at("camber", travel), rel=1e-12)


@pytest.mark.parametrize("name", [name_of(entry) for entry in quantities().values()])
def test_arrays_agree_with_cells(corner, name):
    travel = np.linspace(-60, 60, 7)[:, None]
    rack = np.array([-40.0, -12.5, 0.0, 30.0])[None, :]
    table = corner.at(name, travel, rack, wheelbase=1600.0)
    assert table.shape == (7, 4)
    for i, t in enumerate(travel[:, 0]):
        for j, r in enumerate(rack[0]):
            cell = call("AT", EXAMPLE, name, float(t), float(r), 1600.0)
            if cell is None:
                assert np.isnan(table[i, j])
            elif r == 0.0 and name in ("ackermann", "ideal outer", "turning radius"):
                # Straight ahead, where the last bit decides whether there is a turn.
                assert np.isnan(table[i, j]) or abs(table[i, j]) > 1e3
            else:
                assert table[i, j] == pytest.approx(cell, rel=1e-9, abs=1e-10)


def test_sweep_has_units_in_its_names(corner):
    frame = corner.sweep(
        travel=range(-20, 21, 10), quantities=["camber", "bump steer", "trail", "ackermann"],
        rack=10.0, wheelbase=1600.0,
    )  # fmt: skip
    assert list(frame.columns) == [
        "travel (mm)", "rack (mm)", "camber (deg)", "bump steer (deg/mm)", "trail (mm)",
        "ackermann (%)",
    ]  # fmt: skip
    assert len(frame) == 5
    # Worked out as an array, whose sines may round another way than a single number's.
    alone = call("CAMBER", EXAMPLE, 20.0, 10.0)
    assert frame["camber (deg)"][4] == pytest.approx(alone, rel=1e-12)


def test_sweep_beyond_reach_is_nan(corner):
    frame = corner.sweep(rack=[0.0, 500.0])
    assert frame["toe (deg)"].isna().tolist() == [False, True]


def test_mistakes_are_said(corner):
    with pytest.raises(Mend, match="cambr"):
        corner.at("cambr")
    with pytest.raises(Mend, match="wheelbase is missing"):
        corner.at("ackermann", rack=10.0)
    with pytest.raises(Mend, match="lower ball joint"):
        cornerbook.Corner(EXAMPLE[:4]).at("caster")


def in_a_fresh_python(code):
    """What a process that runs some text comes to."""
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=environment
    )


def test_import_brings_in_nothing_heavy():
    code = (
        "import sys, cornerbook; "
        "print([m for m in ('numpy', 'pandas', 'openpyxl', 'xlsxwriter') if m in sys.modules])"
    )
    done = in_a_fresh_python(code)
    assert done.stdout.strip() == "[]", done.stderr


def test_names_of_the_package():
    assert cornerbook.FORMULAS is FORMULAS
    assert set(cornerbook.__all__) <= set(dir(cornerbook))
    with pytest.raises(AttributeError):
        _ = cornerbook.nothing


def test_quantities_are_known_at_once():
    """Without a file read or a formula called before, which would have loaded the catalogue."""
    code = (
        "import cornerbook; from cornerbook.cells.example import EXAMPLE;"
        "print(cornerbook.Corner(EXAMPLE).at('camber'))"
    )
    done = in_a_fresh_python(code)
    assert float(done.stdout) == call("CAMBER", EXAMPLE), done.stderr
