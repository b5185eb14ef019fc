"""The macro workbook for classic Excel: its parts, its pages, its button, its sentences.

Nothing here opens it in Excel. It is read by openpyxl and part by part, and its macros are held
to the bytes that xlwings ships.
"""

import functools
import io
import sys
import zipfile
from pathlib import Path

import openpyxl
import pytest
from cornerbook import scripts
from cornerbook.hosts.excel import install as module
from cornerbook.hosts.excel.install import install, prepare_macro_workbook
from cornerbook.hosts.excel.trouble import InstallError
from lxml import etree

from tests.excel.xlwings_parts import xlwings
from tests.support.looking import looked_into

TEMPLATE = Path(xlwings.__file__).with_name("quickstart_standalone.xlsm")


@functools.cache
def parts(content):
    """{name: bytes} of a workbook."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert archive.testzip() is None
        assert len(set(archive.namelist())) == len(archive.namelist())
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.fixture(scope="module")
def car(starter):
    """The bytes of the starter workbook."""
    return starter.read_bytes()


@pytest.fixture(scope="module", params=["alone", "with sheets"])
def prepared(request, car):
    source = car if request.param == "with sheets" else None
    return prepare_macro_workbook(source, scripts.buttons(), r"C:\My Python\pythonw.exe")


def test_the_macros_are_those_that_xlwings_ships(prepared):
    assert parts(prepared)["xl/vbaProject.bin"] == parts(TEMPLATE.read_bytes())["xl/vbaProject.bin"]


def test_the_settings_name_our_modules_and_python(prepared):
    page = looked_into(io.BytesIO(prepared))["xlwings.conf"]
    # xlwings reads downwards from the first cell to the first empty one.
    settings = {a.value.upper(): b.value for a, b in page["A1:B2"]}
    assert settings == {
        "INTERPRETER_WIN": r"C:\My Python\pythonw.exe",
        "UDF MODULES": "cornerbook.hosts.excel.classic;cornerbook.scripts",
    }
    assert page.max_row == 2


def test_there_is_a_button_for_importing_and_for_each_script(prepared):
    (drawing,) = (
        etree.fromstring(part) for name, part in parts(prepared).items()
        if "drawings/drawing" in name and b"ImportPythonUDFs" in part
    )  # fmt: skip
    names = {"x": drawing.nsmap["xdr"], "a": drawing.nsmap["a"]}
    shapes = drawing.findall(".//x:sp", names)
    found = [(s.findtext(".//a:t", namespaces=names), s.get("macro")) for s in shapes]
    assert found == [
        ("Import functions", "[0]!ImportPythonUDFs"),
        *((caption, "[0]!" + macro) for caption, macro in scripts.buttons()),
    ]
    identifiers = [e.get("id") for e in drawing.findall(".//x:cNvPr", names)]
    assert len(set(identifiers)) == len(found)


def test_the_page_says_which_xlwings_its_macros_need(prepared):
    page = looked_into(io.BytesIO(prepared))["Import functions"]
    text = " ".join(str(cell.value) for cell in page["A"] if cell.value)
    assert f"xlwings {xlwings.__version__}" in text and "Trust access" in text


def test_it_is_declared_a_macro_workbook(prepared):
    found = parts(prepared)
    declared = etree.fromstring(found["[Content_Types].xml"])
    types = {e.get("PartName"): e.get("ContentType") for e in declared if e.get("PartName")}
    assert types["/xl/workbook.xml"] == "application/vnd.ms-excel.sheet.macroEnabled.main+xml"
    assert types["/xl/vbaProject.bin"] == "application/vnd.ms-office.vbaProject"
    for name in types:
        assert name[1:] in found, name
    relations = etree.fromstring(found["xl/_rels/workbook.xml.rels"])
    assert sum(r.get("Target") == "vbaProject.bin" for r in relations) == 1
    assert len({r.get("Id") for r in relations}) == len(relations)
    assert b'codeName="ThisWorkbook"' in found["xl/workbook.xml"]


def test_each_sheet_has_its_own_name_for_vba(prepared):
    found = [etree.fromstring(p) for n, p in parts(prepared).items() if "worksheets/sheet" in n]
    names = [e.get("codeName") for tree in found for e in tree.iter("{*}sheetPr")]
    names = [name for name in names if name]
    assert sorted(names) == ["Sheet1", "Sheet2"]


def test_a_name_for_vba_that_is_taken_is_left_to_its_sheet():
    book = openpyxl.Workbook()
    book.active.sheet_properties.codeName = "Sheet1"
    content = io.BytesIO()
    book.save(content)
    found = parts(prepare_macro_workbook(content.getvalue()))
    holders = [name for name, part in found.items() if b'codeName="Sheet1"' in part]
    assert holders == ["xl/worksheets/sheet1.xml"]
    assert b'codeName="Sheet2"' in found["xl/worksheets/sheet3.xml"]


def test_nothing_tells_where_xlwings_makers_saved_it():
    assert b"absPath" in parts(TEMPLATE.read_bytes())["xl/workbook.xml"]  # else look elsewhere
    assert b"absPath" not in parts(prepare_macro_workbook())["xl/workbook.xml"]


def test_every_part_of_the_given_workbook_is_kept(car):
    before, after = parts(car), parts(prepare_macro_workbook(car))
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"}
    sheets = [openpyxl.load_workbook(io.BytesIO(c), read_only=True).sheetnames
              for c in (car, prepare_macro_workbook(car))]  # fmt: skip
    assert sheets[1] == [*sheets[0], "Import functions", "xlwings.conf"]


def test_parts_are_told_apart_by_more_than_capitals(car):
    """ECMA-376, part 2: names are alike in capitals and small letters, and none stands twice."""
    shouted = io.BytesIO()
    with zipfile.ZipFile(shouted, "w") as archive:
        for name, content in parts(car).items():
            archive.writestr(name if name.startswith("[") else name.upper(), content)
    found = parts(prepare_macro_workbook(shouted.getvalue()))
    assert len({name.lower() for name in found}) == len(found)
    assert len(found) == len(parts(prepare_macro_workbook(car)))
    twice = io.BytesIO(car)
    with zipfile.ZipFile(twice, "a") as archive:
        archive.writestr("XL/styles.xml", "<styleSheet/>")
    with pytest.raises(InstallError, match="is it damaged"):
        prepare_macro_workbook(twice.getvalue())


def test_the_same_gives_the_same_bytes(car):
    assert prepare_macro_workbook(car) == prepare_macro_workbook(car)
    assert prepare_macro_workbook() == prepare_macro_workbook()


def test_a_page_of_that_name_is_not_replaced():
    book = openpyxl.Workbook()
    book.active.title = "import Functions"
    content = io.BytesIO()
    book.save(content)
    made = openpyxl.load_workbook(io.BytesIO(prepare_macro_workbook(content.getvalue())))
    assert made.sheetnames == ["import Functions", "Import functions 2", "xlwings.conf"]


def test_what_cannot_be_prepared(car, tmp_path):
    with pytest.raises(InstallError, match="holds macros already"):
        prepare_macro_workbook(prepare_macro_workbook(car))
    with pytest.raises(InstallError, match=r"no \.xlsx workbook"):
        prepare_macro_workbook(b"no workbook")
    empty = io.BytesIO()
    zipfile.ZipFile(empty, "w").close()
    with pytest.raises(InstallError, match=r"no \.xlsx workbook"):
        prepare_macro_workbook(empty.getvalue())
    book = openpyxl.Workbook()
    book.active.title = "xlwings.conf"
    content = io.BytesIO()
    book.save(content)
    with pytest.raises(InstallError, match=r"has a page xlwings\.conf already"):
        prepare_macro_workbook(content.getvalue())


def test_install_writes_the_file_and_says_what_it_cannot_do(tmp_path, car):
    (tmp_path / "car.xlsx").write_bytes(car)
    path = tmp_path / "car.xlsm"
    said = install(path, tmp_path / "car.xlsx", scripts.buttons())
    assert path.read_bytes() == prepare_macro_workbook(car, scripts.buttons())
    assert "not Windows" in said and "Import functions" in said
    assert f"xlwings=={xlwings.__version__}" in said
    assert len(said.splitlines()) == 1


def test_install_leaves_alone_what_is_there(tmp_path):
    path = tmp_path / "car.xlsm"
    path.write_bytes(b"mine")
    with pytest.raises(InstallError, match="exists and was left as it is"):
        install(path)
    assert path.read_bytes() == b"mine"
    install(path, write=lambda where, content: where.write_bytes(content))
    assert zipfile.is_zipfile(path)


def test_mistakes_are_sentences(tmp_path):
    with pytest.raises(InstallError, match=r"ends in \.xlsm"):
        install(tmp_path / "car.xlsx")
    with pytest.raises(InstallError, match="there is no file"):
        install(tmp_path / "car.xlsm", tmp_path / "none.xlsx")
    with pytest.raises(InstallError, match="not written"):
        install(tmp_path / "none" / "car.xlsm")


def test_without_xlwings(tmp_path, monkeypatch):
    monkeypatch.setattr(module.importlib.util, "find_spec", lambda name: None)
    monkeypatch.setattr(module.importlib.metadata, "version", _missing)
    with pytest.raises(InstallError, match=r'pip install "cornerbook\[excel\]"'):
        install(tmp_path / "car.xlsm")
    assert not list(tmp_path.iterdir())


def _missing(name):
    raise module.importlib.metadata.PackageNotFoundError(name)


def test_on_windows_it_names_this_python_and_only_the_steps_left(tmp_path, monkeypatch):
    monkeypatch.setattr(module, "_on_windows", lambda: True)
    (tmp_path / "pythonw.exe").write_bytes(b"")
    monkeypatch.setattr(sys, "executable", str(tmp_path / "python.exe"))
    said = install(tmp_path / "car.xlsm")
    assert "not Windows" not in said and "Import functions" in said
    page = openpyxl.load_workbook(tmp_path / "car.xlsm")["xlwings.conf"]
    assert page["B1"].value == str(tmp_path / "pythonw.exe")
