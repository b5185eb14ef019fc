"""Workbooks that were faults, each made of the rich one; `test_commands.py` has the short runs."""

import io
import re
import zipfile

import openpyxl
import pytest
from cornerbook.book.formula.ranges import LARGEST

from tests.fuzz import arguments, workbooks
from tests.fuzz.commands import Case, became, ran, said


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder of a test's own with the files that the lines name."""
    monkeypatch.chdir(tmp_path)
    arguments.put_files()
    return tmp_path


def workbook_with(changes=(), formulas=(), names=()):
    """Write in.xlsx: the rich one with {part: function of its bytes} and other formulas.

    formulas: {cell of the sheet Notes: text without '='}. names: {name: text}.
    """
    parts = dict(workbooks.rich())
    for part, change in dict(changes).items():
        parts[part] = change(parts[part])
    sheet = parts["xl/worksheets/sheet1.xml"].decode()
    for row, (cell, text) in enumerate(dict(formulas).items(), 500):
        text = text.replace("&", "&amp;").replace("<", "&lt;")
        cell = cell or f"A{row}"
        sheet = sheet.replace(
            "</sheetData>", f'<row r="{cell[1:]}"><c r="{cell}"><f>{text}</f></c></row></sheetData>'
        )
    parts["xl/worksheets/sheet1.xml"] = sheet.encode()
    book = parts["xl/workbook.xml"].decode()
    for name, text in dict(names).items():
        book = book.replace(
            "</definedNames>", f'<definedName name="{name}">{text}</definedName></definedNames>'
        )
    parts["xl/workbook.xml"] = book.encode()
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    with open("in.xlsx", "wb") as file:
        file.write(out.getvalue())


BOOK, NOTES, STYLES = "xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml"


@pytest.mark.parametrize(
    ("part", "old", "new", "words"),
    [
        (BOOK, b'<definedName name="Half">', b'<definedName name="Half" localSheetId="x">',
         "the name Half is of a sheet that there is not"),
        (BOOK, b'<definedName name="Half">', b'<definedName name="Half" localSheetId="9">',
         "the name Half is of a sheet that there is not"),
        (BOOK, b'<definedName name="Half">', b"<definedName>", "a defined name is empty"),
        (BOOK, b'<sheet name="Notes"', b"<sheet", "a sheet has no name"),
        (NOTES, b"sheetData>", b"sheetdata>", "sheet Notes cannot be read: it has no sheetData"),
        (NOTES, b'<c r="C3"', b'<c r="c3"', "c3 is not how a file names a cell"),
        (NOTES, b'<row r="20"', b'<row r="2147483648"', "'2147483648' is no whole number"),
        (NOTES, b'ref="E1:F3"', b'ref="D1:F3"', "E1 fills D1:F3, which does not begin there"),
        (NOTES, b'<c r="C3"', b'<c r="C3" s="-1"', "'-1' is no whole number"),
    ],
)  # fmt: skip
def test_damage_is_named(folder, part, old, new, words):
    workbook_with({part: lambda content: content.replace(old, new)})
    assert words in said("share", "in.xlsx", "out.xlsx")


@pytest.mark.parametrize("number", ["x", "99", ""])
def test_a_style_that_there_is_not(folder, number):
    """Cells that keep their numbers are shown grey: in a style of their own and another font."""
    font = f'fontId="{number}"'.encode()
    workbook_with(
        {STYLES: lambda content: re.sub(rb'fontId="\d+"', font, content)},
        {"C40": 'CORNER.SENSITIVITY(Front,"camber","upper ball joint z","mm")'},
    )
    assert became(Case(["share", "in.xlsx", "out.xlsx"], ["in.xlsx"], "out.xlsx")) in (
        "said",
        "made",
    )


def test_ids_of_sheets_that_are_no_numbers(folder):
    workbook_with({BOOK: lambda content: content.replace(b'sheetId="1"', b'sheetId="one"')})
    assert became(Case(["share", "in.xlsx", "out.xlsx"], ["in.xlsx"], "out.xlsx")) == "made"


def test_a_name_of_thousands_of_letters_is_not_shown_whole(folder):
    workbook_with(names={"Long": "+".join(["A1"] * 4000)})
    assert len(said("export", "in.xlsx", "out.csv", "--block", "Long")) < 400


# ---------------------------------------------------------------- formulas that hung or failed


def values_of(folder, formulas, names=()):
    """What `share --values` stores in the cells of formulas on Notes."""
    workbook_with(formulas=formulas, names=names)
    done = ran(["share", "in.xlsx", "out.xlsx", "--values", "--force"])
    assert done.status == 0, done.err
    sheet = openpyxl.load_workbook("out.xlsx")["Notes"]
    return [sheet[cell].value for cell in formulas]


def test_a_whole_sheet_is_read_by_what_is_filled(folder):
    wide = "'My points'!A1:XFD1048576"
    found = values_of(
        folder,
        {
            "M40": f"SUM({wide})", "M41": f"COUNTA({wide})", "M42": f"MAX({wide})",
            "M43": f"CORNER.TRAIL({wide})", "M44": "CORNER.TRAIL(Front)",
            "M45": f"CORNER.CHECK({wide})", "M46": f"INDEX({wide},1,1)", "M47": f"ROWS({wide})",
            "M48": "SUM('My points'!A1:D30)", "M49": "SUM(Everything)",
        },
        {"Everything": "'My points'!$A$1:$XFD$1048576"},
    )  # fmt: skip
    assert found[3] == pytest.approx(found[4])
    assert found[0] == pytest.approx(found[8]) == pytest.approx(found[9])
    assert found[5].startswith("ok")
    assert found[6:8] == ["Wheel centre", 1048576]


@pytest.mark.parametrize(
    "formula",
    ["SUMPRODUCT(B30:XFD1048576*1)", "COUNTBLANK(A30:XFD1048576)", "MMULT(A30:A9999,A30:ZZ30)",
     "COUNTIF(A30:XFD1048576,\"\")", "VLOOKUP(1,A30:XFD1048576,2,FALSE)"],
)  # fmt: skip
def test_a_range_too_large_is_named_with_its_cell(folder, formula):
    workbook_with(formulas={"M25": formula})
    line = said("share", "in.xlsx", "out.xlsx", "--values")
    assert "Notes!M25: " in line and f"{LARGEST} are worked out here at most" in line


def test_an_array_formula_over_the_whole_sheet(folder):
    workbook_with({NOTES: lambda c: c.replace(b'ref="E1:F3"', b'ref="E1:XFD1048576"')})
    for line in ("share in.xlsx out.xlsx --values", "share in.xlsx out.xlsx"):
        done = ran(line.split())
        assert done.status in (0, 1) and "failed inside" not in done.err
        # It runs over another array, which is told first.
        assert done.status == 0 or "runs over E5, which has a formula of its own" in done.err


def test_long_chains_of_cells_names_and_terms(folder):
    cells = {f"M{n}": f"M{n - 1}+1" if n > 1001 else "1" for n in range(1001, 1401)}
    cells["N1500"] = "+".join(["A1"] * 2000)
    cells["N1501"] = "(" * 240 + "A2" + ")" * 240
    cells["N1502"] = "IF(TRUE," * 60 + "A3" + ")" * 60
    cells["N1503"] = "-" * 200 + "A2"
    found = values_of(folder, cells)
    assert found[:400] == list(range(1, 401))
    assert found[400:] == [2000, 2, 3, 2]


def test_names_that_use_names(folder):
    names = {f"Step{n}": f"Step{n - 1}+1" if n else "1" for n in range(15)}
    assert values_of(folder, {"M40": "Step14"}, names) == [15]
    names = {f"Step{n}": f"Step{n - 1}+1" if n else "1" for n in range(300)}
    workbook_with(formulas={"M40": "Step299"}, names=names)
    assert "Notes!M40" in said("share", "in.xlsx", "new.xlsx", "--values")
    workbook_with(formulas={"M40": "IF(TRUE," * 300 + "1" + ")" * 300})
    assert "Notes!M40" in said("share", "in.xlsx", "new.xlsx", "--values")


def test_ways_to_choose_beyond_all_floats(folder):
    formulas = {"M40": "COMBIN(1E9,5E8)", "M41": "PERMUT(1E9,5E8)", "M42": "COMBIN(1E9,999999998)"}
    found = values_of(folder, formulas)
    assert found[:2] == ["#NUM!", "#NUM!"]
    assert found[2] == pytest.approx(1e9 * (1e9 - 1) / 2)
