"""Files that cannot be read, what a copy leaves out, and what a reference means."""

import zipfile

import openpyxl
import pytest
from cornerbook.book.file import unpack
from cornerbook.book.file.markup import MAIN, RELATED
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble

from tests.book.file.made import again, edited, package_of, parts, rich

__all__ = ["rich"]

BOOK = "xl/workbook.xml"
LINKS = "xl/_rels/workbook.xml.rels"
TYPES = "[Content_Types].xml"


def refused(path, said):
    with pytest.raises(Trouble, match=said) as caught:
        Package.read(path)
    assert "\n" not in str(caught.value)


def test_files_that_are_none(tmp_path):
    refused(tmp_path / "no.xlsx", "there is no file .*no.xlsx")
    refused(tmp_path, "is a folder")
    path = tmp_path / "a.xlsx"
    for content, said in (
        (b"", "is not an .xlsx file"),
        (b"x = 1", "is not an .xlsx file"),
        (b"PK\x03\x04 and no more", "is damaged"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "password or is an old .xls"),
    ):
        path.write_bytes(content)
        refused(path, said)
    refused(package_of({"a.txt": "a"}, tmp_path), "is not an .xlsx file")
    refused(package_of({"mimetype": "", "content.xml": ""}, tmp_path), "OpenDocument")


def test_damaged_files(rich, tmp_path):
    content = rich.read_bytes()
    path = tmp_path / "cut.xlsx"
    path.write_bytes(content[: len(content) // 2])
    refused(path, "is damaged")
    path.write_bytes(content[:300] + bytes(200) + content[500:])
    refused(path, "is damaged")
    refused(edited(rich, tmp_path, {BOOK: lambda t: t[:-20]}), "workbook.xml cannot be read")
    contents = parts(content)
    del contents["xl/worksheets/sheet2.xml"]
    refused(package_of(contents, tmp_path), "its sheet It's other is missing")
    sheet = "xl/worksheets/sheet1.xml"
    for change in (
        lambda t: t.replace('r="B3"', 'r="B?"'),
        lambda t: t.replace('<row r="3"', '<row r="three"'),
        lambda t: t.replace("sheetData", "noData"),
    ):
        package = Package.read(edited(rich, tmp_path, {sheet: change}))
        # Asked again, it has not half of them to show either.
        for _ in range(2):
            with pytest.raises(Trouble, match="the cells of its sheet Data cannot be read"):
                package.cells("Data")


def test_other_kinds(rich, tmp_path):
    plain = "spreadsheetml.sheet.main+xml"
    for kind, said in (
        ("wordprocessingml.document.main+xml", "is not a spreadsheet file"),
        ("ms-excel.sheet.binary.macroEnabled.main", "is a binary workbook"),
    ):
        refused(edited(rich, tmp_path, {TYPES: lambda t, k=kind: t.replace(plain, k)}), said)
    strict = "http://purl.oclc.org/ooxml/spreadsheetml/main"
    refused(edited(rich, tmp_path, {BOOK: lambda t: t.replace(MAIN[1:-1], strict)}), "Strict")
    macro = LINKS, lambda t: t.replace("/relationships/worksheet", "/relationships/xlMacrosheet", 1)
    refused(edited(rich, tmp_path, dict([macro])), "Excel 4 macros")


def test_a_file_that_would_fill_the_memory(rich, tmp_path, monkeypatch):
    with zipfile.ZipFile(tmp_path / "bomb.xlsx", "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr(TYPES, b" " * 2_000_000)
    monkeypatch.setattr(unpack, "LIMIT", 1_000_000)
    refused(tmp_path / "bomb.xlsx", "unpacked it is larger than 1 MB")
    assert Package.read(rich)


def test_an_entry_that_understates_its_size(tmp_path):
    path = package_of({TYPES: " " * 5000, BOOK: "x"}, tmp_path)
    real, small = (5000).to_bytes(4, "little"), (50).to_bytes(4, "little")
    content = path.read_bytes()
    assert content.count(real) == 2
    path.write_bytes(content.replace(real, small))
    refused(path, "is damaged")


def test_entities_are_refused(rich, tmp_path):
    secret = tmp_path / "secret.txt"
    secret.write_text("secret")
    doctype = '<!DOCTYPE sst [<!ENTITY e SYSTEM "%s">]><sst ' % secret.as_uri()
    change = {
        "xl/sharedStrings.xml": lambda t: t.replace("<sst ", doctype).replace("length", "&e;")
    }
    with pytest.raises(Trouble, match="declares a document type"):
        Package.read(edited(rich, tmp_path, change)).cells("Data")


def link(kind, target, id="rId98"):
    kind = kind if "/" in kind else RELATED[1:-1] + "/" + kind
    new = '<Relationship Id="%s" Type="%s" Target="%s"/></Relationships>' % (id, kind, target)
    return lambda text: text.replace("</Relationships>", new)


MICROSOFT = "http://schemas.microsoft.com/office/2006/relationships/"


def test_macros_are_left_out(rich, tmp_path):
    links = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    signed = link(MICROSOFT + "vbaProjectSignature", "vbaProjectSignature.bin")
    plain = "openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
    vba = '<Override PartName="/xl/vbaProject.bin" ContentType="application/vnd.ms-office.vba"/>'
    path = edited(
        rich,
        tmp_path,
        {
            "xl/vbaProject.bin": "macros",
            "xl/_rels/vbaProject.bin.rels": signed(links + "</Relationships>"),
            "xl/vbaProjectSignature.bin": "signature",
            LINKS: link(MICROSOFT + "vbaProject", "vbaProject.bin"),
            TYPES: lambda t: t.replace(plain, "ms-excel.sheet.macroEnabled.main+xml").replace(
                "</Types>", vba + "</Types>"
            ),
        },
        "macros.xlsm",
    )
    package = Package.read(path)
    assert package.has_macros
    assert package.warnings() == ["It holds macros; the copy is an .xlsx and leaves them out."]
    after = parts(package.to_bytes())
    assert set(after) == set(parts(rich.read_bytes()))
    assert not any(b"vba" in content or b"macroEnabled" in content for content in after.values())
    assert openpyxl.load_workbook(tmp_path / "macros.xlsm").sheetnames
    (tmp_path / "out.xlsx").write_bytes(package.to_bytes())
    assert openpyxl.load_workbook(tmp_path / "out.xlsx").sheetnames == [
        "Data", "It's other", "Picture", "Empty",
    ]  # fmt: skip
    assert not again(package).has_macros


def test_signature_links_and_connections(rich, tmp_path):
    origin = "http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/origin"
    path = edited(
        rich,
        tmp_path,
        {
            "_xmlsignatures/origin.sigs": " ",
            "_rels/.rels": link(origin, "_xmlsignatures/origin.sigs"),
            "xl/connections.xml": "<connections/>",
            "xl/externalLinks/externalLink1.xml": "<externalLink/>",
            LINKS: lambda t: link("externalLink", "externalLinks/externalLink1.xml", "rId97")(
                link("connections", "connections.xml")(t)
            ),
        },
    )
    package = Package.read(path)
    said = " ".join(package.warnings())
    assert len(package.warnings()) == 3
    assert "signature" in said and "other workbooks" in said and "outside data" in said
    after = parts(package.to_bytes())
    assert set(parts(path.read_bytes())) - set(after) == {"_xmlsignatures/origin.sigs"}
    assert b"origin" not in after["_rels/.rels"]


def test_what_excel_would_refuse(rich):
    package = Package.read(rich)
    package.set_formula("Data", "A1", "=" + "1" * 8192, 1)
    with pytest.raises(Trouble, match=r"formula for Data!A1 would have 8193 characters"):
        package.set_formula("Data", "A1", "=" + "1" * 8193, 1)
    with pytest.raises(Trouble, match=r"text for Data!A1 has 32768 characters"):
        package.set_value("Data", "A1", "x" * 32768)
    with pytest.raises(Trouble, match=r"formula for W!B2 would have"):
        package.add_sheet("W", [(2, [(2, "1" * 8193, None, None)])])
    assert package.sheets == ["Data", "It's other", "Empty"]
    with pytest.raises(ValueError, match="no worksheet"):
        package.set_value("Picture", "A1", 1)


def names(text):
    more = "".join(
        '<definedName name="%s">%s</definedName>' % entry
        for entry in {
            "Mixed": "Data!$A1", "Loop": "Loop", "Chain": "Block", "Gone": "#REF!$A$1",
            "Wide": "Data!$A:$B", "Away": "[1]Sheet!$A$1", "Five": "5",
            "Two": "Data!$A$1,Data!$B$1", "Self": "[0]!Chain",
        }.items()
    )  # fmt: skip
    return text.replace("</definedNames>", more + "</definedNames>")


def test_resolve(rich, tmp_path):
    package = Package.read(edited(rich, tmp_path, {BOOK: names}))
    other = "It's other"
    for text, sheet, found in (
        ("A1", "Data", ("Data", 0, 0, 0, 0)),
        ("=$D$7:b2", "Empty", ("Empty", 1, 1, 6, 3)),
        ("data!$A$1:$B2", "Empty", ("Data", 0, 0, 1, 1)),
        ("'It''s other'!C3", "Data", (other, 2, 2, 2, 2)),
        ("Block", "Empty", (other, 0, 0, 2, 1)),
        ("bLOCK", "Data", (other, 0, 0, 0, 0)),
        ("Data!Block", "Empty", (other, 0, 0, 0, 0)),
        ("Chain", "Empty", (other, 0, 0, 2, 1)),
        ("Self", "Empty", (other, 0, 0, 2, 1)),
        ("A:D", other, (other, 0, 0, 4, 3)),
        ("'It''s other'!$2:$1", "Data", (other, 0, 0, 1, 2)),
        ("Wide", "Empty", ("Data", 0, 0, 9, 1)),
        ("A:A", "Empty", ("Empty", 0, 0, 0, 0)),
        ("XFD1048576", "Data", ("Data", 1048575, 16383, 1048575, 16383)),
    ):
        assert package.resolve(text, sheet) == found, text
    assert package.resolve("Mixed", "Empty", at="C5") == ("Data", 4, 0, 4, 0)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Moving", r"Moving \(OFFSET\(Data!\$A\$1,1,0\)\) is no plain range"),
        ("Nowhere", "there is no name Nowhere"),
        ("XFE1", "there is no name XFE1"),
        ("No!A1", "there is no sheet No"),
        ("Picture!A1", "there is no sheet Picture"),
        ("Mixed", "another range in each cell"),
        ("Loop", "no plain range"),
        ("Gone", "Gone"),
        ("Away", "another workbook"),
        ("'[b.xlsx]Data'!A1", "another workbook"),
        ("Five", r"Five \(5\) is no plain range"),
        ("Two", "no plain range"),
        ("Data:Empty!A1", "no sheet Data:Empty"),
        ("", "no plain range"),
        ("A1:B2:C3", "no plain range"),
        ("SUM(A1)", "no plain range"),
    ],
)
def test_resolve_refuses(rich, tmp_path, text, said):
    package = Package.read(edited(rich, tmp_path, {BOOK: names}))
    with pytest.raises(Trouble, match=said):
        package.resolve(text, "Data")


def test_formulas_elsewhere(rich):
    found = Package.read(rich).formulas_elsewhere()
    assert ("the name Block of Data", "='It''s other'!$A$1") in found
    assert ("the data validation of Data!B1", "=LEN(A1)") in found
    assert ("the conditional format of Data!B1:B9", "=$B$1") in found
    assert any(place.startswith("the column twice of the table") for place, _ in found)
    assert not any("SUM(A1:A3)" in formula for _, formula in found)
