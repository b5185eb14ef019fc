"""Spreadsheet files for the tests of what changes them, and their parts."""

import io
import struct
import zipfile
import zlib

import pytest
import xlsxwriter
from cornerbook.book.file.package import Package
from cornerbook.book.file.parts import Parts


def parts(content):
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {name: package.read(name) for name in package.namelist()}


def package_of(contents, tmp_path, name="in.xlsx"):
    path = tmp_path / name
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for part, content in contents.items():
            package.writestr(part, content)
    return path


def edited(path, tmp_path, changes, name="in.xlsx"):
    """A copy of the file with {part: function from text to text, or text} applied."""
    contents = parts(path.read_bytes())
    for part, change in changes.items():
        old = contents.get(part, b"").decode()
        new = change(old) if callable(change) else change
        assert new != old
        contents[part] = new.encode()
    return package_of(contents, tmp_path, name)


def again(package):
    """The package as it reads when its bytes are opened."""
    return Package(Parts("again", parts(package.to_bytes())))


def png():
    def chunk(kind, body):
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", 2, 2, 8, 2, 0, 0, 0)
    pixels = zlib.compress(b"\0" + bytes(6) + b"\0" + bytes(6))
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")
    )


@pytest.fixture
def rich(tmp_path):
    """A file with much that must survive."""
    path = tmp_path / "rich.xlsx"
    book = xlsxwriter.Workbook(path)
    bold = book.add_format({"bold": True, "num_format": "0.00"})
    data = book.add_worksheet("Data")
    data.write_row("A1", ["length", 12.5, True])
    data.write_row("A2", [" spaced ", "a <b> & _x0041_"])
    data.write_formula("B3", "=B1*2", bold, 25)
    data.write_formula("B4", '=A1&"!"', None, "length!")
    data.write_formula("B5", "=B1>3", None, True)
    data.write_formula("B6", "=1/0", None, "#DIV/0!")
    data.write_array_formula("A8:B9", "{=B1*{1,2;3,4}}", None, 12.5)
    for cell, value in (("B8", 25), ("A9", 37.5), ("B9", 50)):
        data.write_number(cell, value)
    data.write_rich_string("A10", "plain ", bold, "bold")
    data.merge_range("D1:E2", "merged", bold)
    data.data_validation("B1", {"validate": "decimal", "criteria": ">", "value": "=LEN(A1)"})
    data.conditional_format("B1:B9", {"type": "cell", "criteria": ">", "value": "$B$1",
                                      "format": bold})  # fmt: skip
    data.write_comment("B1", "the length")
    data.insert_image("G1", "dot.png", {"image_data": io.BytesIO(png())})
    data.protect("secret", {"sort": True})
    data.set_landscape()
    data.fit_to_pages(1, 0)
    data.set_footer("&L& and &A")
    data.print_area("A1:E10")
    data.repeat_rows(0, 1)
    data.freeze_panes(1, 1)
    data.add_table("J1:K3", {"columns": [{"header": "x"}, {"header": "twice",
                                          "formula": "=[@x]*2"}]})  # fmt: skip
    other = book.add_worksheet("It's other")
    other.write_column("A1", [1, 2, 3])
    other.write_formula("C5", "=SUM(A1:A3)", None, 6)
    chart = book.add_chart({"type": "scatter"})
    series = "='It''s other'!$A$1:$A$3"
    chart.add_series({"categories": series, "values": series})
    other.insert_chart("E1", chart)
    pure = book.add_chart({"type": "line"})
    pure.add_series({"values": series})
    book.add_chartsheet("Picture").set_chart(pure)
    book.add_worksheet("Empty")
    book.define_name("Block", "='It''s other'!$A$1:$B$3")
    book.define_name("Data!Block", "='It''s other'!$A$1")
    book.define_name("Moving", "=OFFSET(Data!$A$1,1,0)")
    book.close()
    return path


SHARED = (
    '<row r="30"><c r="B30" s="1"><f t="shared" ref="B30:B34" si="0">A30*$B$1+\'It\'\'s other\'!A1'
    '</f><v>1</v></c></row><row r="31"><c r="B31"><f t="shared" si="0"/><v>2</v></c></row>'
    '<row><c><v>9</v></c><c><f t="shared" si="0"/><v>3</v></c></row>'
    '<row r="33"><c r="B33"><f>7</f><v>7</v></c></row>'
    '<row r="34"><c r="B34"><f t="shared" si="0"/><v>4</v></c></row></sheetData>'
)


@pytest.fixture
def shared(rich, tmp_path):
    return edited(
        rich,
        tmp_path,
        {"xl/worksheets/sheet1.xml": lambda text: text.replace("</sheetData>", SHARED)},
        "shared.xlsx",
    )
