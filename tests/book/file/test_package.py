"""An existing file is changed where asked, and nowhere else."""

import io
import re
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter
from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.markup import MAIN, RELATED
from cornerbook.book.file.package import Package
from lxml import etree

from tests.book.file.made import again, edited, parts, rich, shared

__all__ = ["rich", "shared"]


def without(sheet, *addresses):
    """A sheet's XML in one fixed spelling, with these cells left out."""
    root = etree.fromstring(sheet)
    for cell in list(root.iter(MAIN + "c")):
        if cell.get("r") in addresses:
            cell.getparent().remove(cell)
    return etree.tostring(root, method="c14n")


def test_reads(rich):
    package = Package.read(rich)
    assert package.sheets == ["Data", "It's other", "Empty"]
    cells = package.cells("Data")
    assert (cells["A1"].value, cells["B1"].value, cells["C1"].value) == ("length", 12.5, True)
    assert (cells["A2"].value, cells["B2"].value) == (" spaced ", "a <b> & _x0041_")
    assert (cells["B3"].formula, cells["B3"].value) == ("=B1*2", 25)
    assert cells["B3"].style != cells["B1"].style == 0
    assert (cells["B4"].formula, cells["B4"].value) == ('=A1&"!"', "length!")
    assert cells["B5"].value is True
    assert isinstance(cells["B6"].value, CellError) and cells["B6"].value.code == "#DIV/0!"
    assert (cells["A8"].formula, cells["A8"].array) == ("=B1*{1,2;3,4}", "A8:B9")
    assert (cells["B9"].in_array, cells["B9"].formula, cells["B9"].value) == ("A8", None, 50)
    assert cells["A10"].value == "plain bold"
    assert cells["D1"].value == "merged" and "E2" not in cells
    assert package.cells("Empty") == {}
    assert ("Block", None, "'It''s other'!$A$1:$B$3") in package.names
    assert ("Block", "Data", "'It''s other'!$A$1") in package.names
    assert package.warnings() == [] and not package.has_macros


def test_reads_as_openpyxl_does():
    """Every cell of our own example, against another reader."""
    path = Path(__file__).parents[3] / "workbooks" / "lapwing.xlsx"
    formulas, values = (openpyxl.load_workbook(path, data_only=only) for only in (False, True))
    package = Package.read(path)
    assert package.sheets == formulas.sheetnames
    for name in package.sheets:
        found = package.cells(name)
        # openpyxl takes the empty text of an array formula for no value.
        read = {c.coordinate for row in values[name] for c in row if c.value not in (None, "")}
        assert {a for a, content in found.items() if content.value not in (None, "")} == read
        for address, content in found.items():
            value = content.value.code if isinstance(content.value, CellError) else content.value
            assert value == values[name][address].value or value == ""
            cell = formulas[name][address]
            # An array formula comes as an object with its text.
            formula = getattr(cell.value, "text", cell.value)
            assert content.formula == (formula if cell.data_type == "f" else None)


def test_unchanged_is_the_same(rich):
    before, after = rich.read_bytes(), Package.read(rich).to_bytes()
    assert parts(after) == parts(before)
    assert list(parts(after)) == list(parts(before))


def test_only_the_changed_sheet_differs(rich):
    package = Package.read(rich)
    package.set_formula("Data", "B3", "=B1*3", 37.5)
    package.set_value("Data", "$B$4", "<text> & _x0041_ \r")
    package.set_value("Data", "C6", None)
    package.set_formula("Data", "F20", '=IF(A1<"b","",1)', "")
    before, after = parts(rich.read_bytes()), parts(package.to_bytes())
    sheet = "xl/worksheets/sheet1.xml"
    assert {name for name in after if after[name] != before.get(name)} == {sheet}
    assert set(before) == set(after)
    touched = ("B3", "B4", "C6", "F20")
    old = before[sheet].replace(b'"A1:K10"', b'"A1:K20"')
    old = old.replace(b"</sheetData>", b'<row r="20"></row></sheetData>')
    old = re.sub(rb'(<row r="6" )spans="1:11"', rb"\1", old)
    assert b'"A1:K20"' in old
    assert without(after[sheet], *touched) == without(old, *touched)
    assert b"mc:Ignorable" in after[sheet] or b"mc:Ignorable" not in before[sheet]
    assert Package.read(rich).cells("Data")["B3"].style == package.cells("Data")["B3"].style
    assert package.cells("Data")["B3"].formula == "=B1*3"
    assert package.cells("Data")["B4"].value == "<text> & _x0041_ \r"
    loaded = openpyxl.load_workbook(io.BytesIO(package.to_bytes()))["Data"]
    assert loaded["B3"].value == "=B1*3" and loaded["B3"].font.b
    assert loaded["F20"].value == '=IF(A1<"b","",1)'


def test_unknown_markup_and_white_space_survive(rich, tmp_path):
    """As a newer program may write it: its own namespaces, attributes and extensions."""
    sheet = "xl/worksheets/sheet1.xml"

    def newer(text):
        text = text.replace(
            "<worksheet ",
            '<!-- made by hand -->\n<worksheet xmlns:mc="http://schemas.openxmlformats.org/'
            'markup-compatibility/2006" mc:Ignorable="q w" xmlns:q="urn:q" xmlns:w="urn:w" ',
            1,
        )
        text = text.replace('<c r="B1"', '<c q:mark="a&#10;b" r="B1"').replace("</row>", "</row>\n")
        return text.replace(
            "</worksheet>", '<extLst><ext uri="{1}"><q:x/></ext></extLst></worksheet>'
        )

    path = edited(rich, tmp_path, {sheet: newer})
    package = Package.read(path)
    package.set_formula("Data", "B3", "1+1", 2)
    before, after = parts(path.read_bytes())[sheet], parts(package.to_bytes())[sheet]
    assert without(after, "B3") == without(before, "B3")
    assert etree.fromstring(after).nsmap == etree.fromstring(before).nsmap
    assert b"<!-- made by hand -->" in after


def test_arrays(rich):
    package = Package.read(rich)
    with pytest.raises(ValueError, match="inside the array of A8"):
        package.set_formula("Data", "B9", "1", 1)
    package.set_formula("Data", "A8", "=B1*{5,6;7,8}", 62.5, "A8:B9")
    package.set_value("Data", "B9", "last")
    cells = again(package).cells("Data")
    assert (cells["A8"].array, cells["A8"].formula) == ("A8:B9", "=B1*{5,6;7,8}")
    assert (cells["B9"].value, cells["B9"].in_array) == ("last", "A8")
    package.set_formula("Data", "A8", "=B1", 12.5)
    package.set_formula("Data", "B9", "=B1+1", 13.5)
    cells = again(package).cells("Data")
    assert cells["A8"].array is None and cells["B9"].in_array is None
    assert (cells["B9"].formula, cells["A9"].formula, cells["A9"].value) == ("=B1+1", None, 37.5)
    with pytest.raises(ValueError, match="cannot hold an array"):
        package.set_formula("Data", "A8", "=B1", 1, "A8:B9")


def column_b(package):
    cells = package.cells("Data")
    return [cells["B%d" % row].formula for row in range(30, 35)]


def test_shared_formulas(shared):
    package = Package.read(shared)
    whole = ["=A%d*$B$1+'It''s other'!A%d" % (30 + i, 1 + i) for i in range(5)]
    whole[3] = "=7"
    assert column_b(package) == whole
    assert package.cells("Data")["A32"].value == 9  # a cell that does not say where it is
    # One of the others: the group stays.
    package.set_formula("Data", "B31", "=1", 1)
    assert column_b(again(package)) == [whole[0], "=1", *whole[2:]]
    assert parts(package.to_bytes())["xl/worksheets/sheet1.xml"].count(b'"shared"') == 3
    # The one that holds the formula for all.
    package.set_value("Data", "B30", 5)
    read = again(package)
    assert column_b(read) == [None, "=1", *whole[2:]] == column_b(package)
    assert [read.cells("Data")["B%d" % row].value for row in range(30, 35)] == [5, 1, 3, 7, 4]
    assert b'"shared"' not in parts(package.to_bytes())["xl/worksheets/sheet1.xml"]
    # A new cell among those that did not say where they are.
    package.set_value("Data", "C32", "new")
    assert again(package).cells("Data")["A32"].value == 9


def test_a_shared_formula_that_is_none(shared, tmp_path):
    """Its own cell says so, once it is asked for."""

    def opened(text):
        return text.replace("A30*$B$1+'It''s other'!A1", '"open')

    path = edited(shared, tmp_path, {"xl/worksheets/sheet1.xml": opened}, "open.xlsx")
    assert column_b(Package.read(path))[:2] == ['="open', '="open']


def test_shared_formulas_in_calc(shared, tmp_path, calc):
    package = Package.read(shared)
    package.set_formula("Data", "B30", "=100", 100)
    (tmp_path / "out.xlsx").write_bytes(package.to_bytes())
    with calc.open(tmp_path / "out.xlsx") as book:
        book.recalculate()
        assert book.get("Data", "B30:B34") == [[100], [2], [9 * 12.5 + 3], [7], [0]]


def test_freeze_values(rich, tmp_path):
    text = lambda t: t.replace("<f>SUM(A1:A3)</f><v>6</v>", "<f>SUM(A1:A3)</f><v></v>")  # noqa: E731
    package = Package.read(edited(rich, tmp_path, {"xl/worksheets/sheet2.xml": text}))
    empty = package.freeze_values(lambda sheet, address, formula: address != "B4")
    assert empty == [("It's other", "C5")]
    before, after = Package.read(rich).cells("Data"), again(package).cells("Data")
    assert {a for a, c in after.items() if c.formula} == {"B4"}
    assert after["B9"].in_array is None and after["B6"].value.code == "#DIV/0!"
    for address in set(before) - {"B6"}:
        assert after[address].value == before[address].value
        assert after[address].style == before[address].style
    assert "C5" not in package.cells("It's other")


def test_freeze_shared_formulas(shared):
    package = Package.read(shared)
    package.freeze_values(lambda sheet, address, formula: address in ("B30", "B31"))
    assert column_b(again(package)) == [
        None, None, "=A32*$B$1+'It''s other'!A3", "=7", "=A34*$B$1+'It''s other'!A5",
    ]  # fmt: skip
    assert again(package).cells("Data")["B31"].value == 2


def test_the_order_of_calculation_is_left_out_when_formulas_change(rich, tmp_path):
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"
    path = edited(
        rich,
        tmp_path,
        {
            "xl/calcChain.xml": '<calcChain xmlns="%s"><c r="B3" i="1"/></calcChain>' % MAIN[1:-1],
            "[Content_Types].xml": lambda text: text.replace(
                "</Types>",
                '<Override PartName="/xl/calcChain.xml" ContentType="%s"/></Types>' % kind,
            ),
            "xl/_rels/workbook.xml.rels": lambda text: text.replace(
                "</Relationships>",
                '<Relationship Id="rId99" Type="%s/calcChain" Target="calcChain.xml"/>'
                "</Relationships>" % RELATED[1:-1],
            ),
        },
    )
    package = Package.read(path)
    package.set_value("Data", "B1", 3)
    assert "xl/calcChain.xml" in parts(package.to_bytes())
    package.set_value("Data", "B3", 3)
    after = parts(package.to_bytes())
    assert "xl/calcChain.xml" not in after
    assert not any(b"calcChain" in content for content in after.values())


KINDS = (2.5, -3, 1e300, "text", "", True, False, None, CellError("#N/A"), float("nan"))


def _shown(value):
    if isinstance(value, CellError):
        return value.code
    return "#NUM!" if value != value else value


@pytest.mark.parametrize("second", KINDS, ids=repr)
@pytest.mark.parametrize("first", KINDS, ids=repr)
def test_each_kind_of_value_takes_the_place_of_each(rich, first, second):
    package = Package.read(rich)
    package.set_value("Data", "B1", first)
    package.set_formula("Data", "B3", "=1", first)
    package.set_value("Data", "B1", second)
    package.set_formula("Data", "B3", "=2", second)
    cells = again(package).cells("Data")
    found = cells["B1"].value if "B1" in cells else None
    for value in (found, cells["B3"].value):
        assert _shown(value) == _shown(second) and type(_shown(value)) in (
            float, type(_shown(second)),
        )  # fmt: skip
    assert cells["B3"].formula == "=2" and cells["B3"].style


def test_a_spilling_array_becomes_a_plain_formula(tmp_path):
    """Its cell is marked with `cm`, by which Excel would let the new formula spill too."""
    book = xlsxwriter.Workbook(tmp_path / "spill.xlsx")
    sheet = book.add_worksheet("Data")
    sheet.write_dynamic_array_formula("A1:A3", "=SEQUENCE(3)", None, 1)
    sheet.write_column("A2", [2, 3])
    book.close()
    package = Package.read(tmp_path / "spill.xlsx")
    cells = package.cells("Data")
    assert cells["A1"].array == "A1:A3" and cells["A3"].in_array == "A1"
    assert b"cm=" in parts(package.to_bytes())["xl/worksheets/sheet1.xml"]
    package.set_value("Data", "A2", "said")
    package.set_formula("Data", "A1", "=1", 1)
    sheet = parts(package.to_bytes())["xl/worksheets/sheet1.xml"]
    assert b"cm=" not in sheet
    # A text in an array is a result, as programs store it, and no text of its own.
    assert b'<c r="A2" t="str"><v>said</v></c>' in sheet


def test_a_table_of_what_ifs(rich, tmp_path):
    """It has no formula in the file; it is shown as programs show it, and can be frozen."""
    table = (
        '<row r="40"><c r="B40"><f t="dataTable" ref="B40:B41" dt2D="0" dtr="0" r1="B1"/><v>4</v>'
        '</c></row><row r="41"><c r="B41"><v>5</v></c></row></sheetData>'
    )
    change = {"xl/worksheets/sheet1.xml": lambda text: text.replace("</sheetData>", table)}
    package = Package.read(edited(rich, tmp_path, change))
    cells = package.cells("Data")
    assert (cells["B40"].formula, cells["B40"].array) == ("=TABLE(,B1)", "B40:B41")
    assert cells["B41"].in_array == "B40"
    package.freeze_values(lambda sheet, address, formula: "TABLE" in formula)
    cells = again(package).cells("Data")
    assert (cells["B40"].formula, cells["B40"].value, cells["B41"].in_array) == (None, 4, None)
