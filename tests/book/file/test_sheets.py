"""Sheets added to an existing file, and what lists them."""

import io
import re

import openpyxl
import pytest
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.markup import MAIN, RELATED
from cornerbook.book.file.package import Package
from cornerbook.book.file.styles import LOOKS
from lxml import etree

from tests.book.file.made import again, parts, rich

__all__ = ["rich"]

STEPS = [
    (1, [(1, None, "Steps", "title")]),
    (2, [(1, None, "half of B1", "heading"), (2, None, "said <&> ", "heading")]),
    (
        3,
        [
            (1, "Data!B1/2", 0.0, "number"),
            (2, '="<"&A3&"&"', "stale", ("said", "0.0")),
            (3, "=A3>5", False, "plain"),
            (4, "=1/0", CellError("#DIV/0!"), "note"),
            (6, None, 2.5, "good"),
            (7, None, True, None),
        ],
    ),
]


def test_add_sheet(rich):
    package = Package.read(rich)
    assert package.add_sheet("Workings", STEPS, {1: 20.5}, "B3", ["A1:C1"], {2: 40}) == "Workings"
    assert package.add_sheet("workings", STEPS, hidden=True) == "workings 2"
    assert package.add_sheet("picture", []) == "picture 2"
    assert package.add_sheet("a[b]:c*?/\\" + "x" * 40, []) == "a b c " + "x" * 25
    assert package.add_sheet("'History'", []) == "History 2"
    assert package.sheets[3:] == [
        "Workings",
        "workings 2",
        "picture 2",
        "a b c " + "x" * 25,
        "History 2",
    ]
    before, after = parts(rich.read_bytes()), parts(package.to_bytes())
    assert list(after)[: len(before)] == list(before)
    assert {name for name in before if after[name] != before[name]} == {
        "[Content_Types].xml", "docProps/app.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml",
        "xl/workbook.xml",
    }  # fmt: skip
    read = again(package)
    cells = read.cells("Workings")
    assert [cells[a].formula for a in ("A3", "B3", "F3")] == ["=Data!B1/2", '="<"&A3&"&"', None]
    assert [cells[a].value for a in ("B2", "A3", "B3", "C3", "F3", "G3")] == [
        "said <&> ", 0, "stale", False, 2.5, True,
    ]  # fmt: skip
    assert cells["D3"].value.code == "#DIV/0!"
    assert read.cells("picture 2") == {}
    loaded = openpyxl.load_workbook(io.BytesIO(package.to_bytes()))
    sheet = loaded["Workings"]
    assert sheet.protection.sheet and not sheet.protection.password
    assert sheet.freeze_panes == "B3" and sheet.column_dimensions["A"].width == 20.5
    assert sheet.row_dimensions[2].height == 40 and [str(m) for m in sheet.merged_cells.ranges] == [
        "A1:C1"
    ]
    assert sheet["A1"].font.sz == 18 and sheet["A2"].alignment.wrap_text
    assert sheet["A3"].number_format == "0.0000" and sheet["B3"].number_format == "0.0"
    assert loaded["workings 2"].sheet_state == "hidden" and sheet.sheet_state == "visible"
    assert loaded["Data"]["B3"].number_format == "0.00"


def test_rows_one_by_one(rich):
    """Each is asked for when it is written; those with a height alone stand between them."""
    heights = {1: 30, 3: 40, 9: 20}
    rows = [(2, [(2, None, "a", None), (1, None, 1.0, None)]), (4, [(1, "=A2", 1.0, None)])]

    def sheet(rows):
        package = Package.read(rich)
        package.add_sheet("Rows", rows, heights=heights)
        return again(package)

    whole, in_turn = sheet(rows[::-1]), sheet(iter(rows))
    assert whole.cells("Rows") == in_turn.cells("Rows")
    assert whole.to_bytes() == in_turn.to_bytes()
    (part,) = (p for n, p, _ in in_turn._book.listed() if n == "Rows")
    rows_written = in_turn._parts.tree(part).iter(MAIN + "row")
    assert [(row.get("r"), row.get("ht")) for row in rows_written] == [
        ("1", "30"), ("2", None), ("3", "40"), ("4", None), ("9", "20"),
    ]  # fmt: skip
    for wrong in (iter(rows[::-1]), [rows[0], rows[0]]):
        with pytest.raises(ValueError, match="is given twice, or too late"):
            sheet(wrong)


def test_ids_and_counts_are_right(rich):
    package = Package.read(rich)
    for _ in range(2):
        package.add_sheet("W", [(1, [(i, None, "x", key) for i, key in enumerate(LOOKS, 1)])])
    after = parts(package.to_bytes())
    book = etree.fromstring(after["xl/workbook.xml"])
    entries = list(book.iter(MAIN + "sheet"))
    assert (
        len({e.get("sheetId") for e in entries})
        == len({e.get(RELATED + "id") for e in entries})
        == 6
    )
    styles = etree.fromstring(after["xl/styles.xml"])
    for group in ("numFmts", "fonts", "fills", "borders", "cellXfs"):
        found = styles.find(MAIN + group)
        assert int(found.get("count")) == len(found), group
    sizes = {g: len(styles.find(MAIN + g)) for g in ("fonts", "fills", "borders")}
    for style in styles.find(MAIN + "cellXfs"):
        assert int(style.get("fontId")) < sizes["fonts"]
        assert int(style.get("fillId")) < sizes["fills"]
        assert int(style.get("borderId")) < sizes["borders"]
    # Each look stands once, though two sheets use it.
    old = etree.fromstring(parts(rich.read_bytes())["xl/styles.xml"])
    assert len(styles.find(MAIN + "cellXfs")) == len(old.find(MAIN + "cellXfs")) + len(LOOKS)
    types = [e.get("PartName") for e in etree.fromstring(after["[Content_Types].xml"])]
    assert types.count("/xl/worksheets/sheet4.xml") == types.count("/xl/worksheets/sheet5.xml") == 1
    titles = re.findall("<vt:lpstr>(.*?)</vt:lpstr>", after["docProps/app.xml"].decode())
    place = titles.index("Data")
    assert titles[place : place + 6] == ["Data", "It's other", "Empty", "W", "W 2", "Picture"]
    counts = re.findall("<vt:i4>(.*?)</vt:i4>", after["docProps/app.xml"].decode())
    size = re.search('<TitlesOfParts><vt:vector size="(.*?)"', after["docProps/app.xml"].decode())[
        1
    ]
    assert counts[0] == "5" and sum(map(int, counts)) == int(size) == len(titles) - len(counts)


def test_a_new_sheet_in_calc(rich, tmp_path, calc):
    package = Package.read(rich)
    package.add_sheet("Workings", STEPS, {1: 20}, "B3")
    package.set_formula("Data", "B3", "=Workings!A3*10", 0)
    (tmp_path / "out.xlsx").write_bytes(package.to_bytes())
    with calc.open(tmp_path / "out.xlsx") as book:
        assert book.sheets() == ["Data", "It's other", "Picture", "Empty", "Workings"]
        book.recalculate()
        assert book.get("Workings", "A3:C3") == [[6.25, "<6.25&", 1.0]]
        assert book.value("Workings", "D3").text == "#DIV/0!"
        assert book.value("Workings", "B2") == "said <&> "
        assert book.value("Data", "B3") == 62.5
        assert book.value("Data", "B2") == "a <b> & _x0041_"
        assert book.get("Data", "A8:B9") == [[12.5, 25], [37.5, 50]]
        assert book.value("It's other", "C5") == 6


def test_a_file_of_openpyxl(tmp_path, calc):
    """Its links are absolute, its strings shared, and its formulas have no values."""
    path = tmp_path / "plain.xlsx"
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Data"
    sheet.append(["length", 10, "=B1*2"])
    book.save(path)
    package = Package.read(path)
    assert package.cells("Data")["C1"].value is None
    package.add_sheet("Workings", STEPS)
    package.set_formula("Data", "C1", "Workings!A3", 5)
    (tmp_path / "out.xlsx").write_bytes(package.to_bytes())
    assert openpyxl.load_workbook(tmp_path / "out.xlsx").sheetnames == ["Data", "Workings"]
    with calc.open(tmp_path / "out.xlsx") as book:
        book.recalculate()
        assert book.get("Data", "A1:C1") == [["length", 10, 5]]


def test_the_same_edits_give_the_same_bytes(rich):
    def made():
        package = Package.read(rich)
        package.add_sheet("Workings", STEPS)
        package.set_formula("Data", "B3", "=2", 2)
        return package.to_bytes(), package.to_bytes()

    (one, repeated), (two, _) = made(), made()
    assert one == repeated == two
