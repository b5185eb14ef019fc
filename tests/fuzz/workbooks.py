"""Workbooks broken by hand, given to every command. The suite runs a few (test_workbooks.py); by
hand, from the folder that holds `tests`, many:

    python -m tests.fuzz.workbooks --cases 3000 --seed 1 --keep /tmp/found

A workbook is made whole, one with much of what users' files have or one of a few chapters; then
some of it is changed by a seed: a formula, a value, an element or an attribute of its XML, a
part, the zip. One command of `COMMANDS` is given it.
"""

import functools
import io
import re
import struct
import sys
import zipfile

import xlsxwriter
from cornerbook.book.make.new import made
from cornerbook.book.study.begin.run import begin
from cornerbook.cells.example import EXAMPLE
from lxml import etree

from tests.fuzz.commands import Case, by_hand
from tests.fuzz.texts import TEXTS

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"

FORMULAS = (
    *(text[1:] for text in TEXTS if text.startswith("=")),
    "B2:XFD1048576", "SUM(A:XFD)", "COUNTBLANK(1:1048576)", "ROWS(A:A)", "COLUMNS(1:1)",
    "SUMPRODUCT(A1:XFD1048576*1)", "INDEX(A1:XFD1048576,5,5)", "MATCH(1,A1:A1048576,0)",
    "VLOOKUP(1,A1:XFD1048576,2,FALSE)", "COUNTIF(A1:XFD1048576,\"<>\")", "TRANSPOSE(A1:XFD1048576)",
    "MMULT(A1:A1048576,A1:XFD1)", "OFFSET(A1,0,0,1048576,16384)", "INDIRECT(\"A1:XFD1048576\")",
    "CORNER.CHECK(A1:XFD1048576)", "CORNER.TRAIL('My points'!1:1048576)", "SORT(A1:XFD1048576)",
    "A1:A1048576", "A1:A1048576*1", "REPT(\"x\",1E9)", "REPT(\"abc\",40000)&\"x\"", "FACT(1E9)",
    "COMBIN(1E9,5E8)", "2^2^2^2^2^2^2", "10^(10^10)", "GCD(1E300,3)", "LCM(1E300,3)",
    "TEXT(1,\"" + "0" * 500 + "\")", "TEXT(1E300,\"0.00\")", "TEXT(1,\"[$-409]d mmmm\")",
    "DATE(1E9,1,1)",
    "DATE(2020,1E300,1)", "EDATE(1,1E9)", "WEEKDAY(1E300)", "YEAR(-5)", "TIME(1E300,0,0)",
    "ROUND(1,1E300)", "ROUND(5E-324,300)", "LARGE(A1:B9,1E300)", "CHAR(1E300)", "CHAR(0)",
    "UNICHAR(55296)", "MID(\"abc\",1E300,1)", "LEFT(\"abc\",-1)",
    "SUBSTITUTE(\"aaa\",\"a\",REPT(\"b\",30000))",
    "BASE(1E300,2)", "DEC2BIN(1E300)", "BITAND(1E300,1)", "CHOOSE(1E300,1)", "POWER(-8,1/3)",
    "FIND(\"\",\"\")", "SEARCH(\"[\",\"a[\")", "SEARCH(\"(*\",\"a(b\")", "COUNTIF(A1:B9,\"*(\")",
    "COUNTIF(A1:B9,\"" + "*a" * 100 + "\")", "SUMIF(A1:A3,\">1\",B1)", "LOOKUP(1,A1:B9)",
    "IF(" * 300 + "1" + ")" * 300, "+".join(["A1"] * 4000), "&".join(["A1"] * 2000), "Chain1",
    "Round1", "Loop", "NORMSINV(0)", "FORECAST(1,A1:A3,B1:B3)", "STDEV(A1)", "MOD(1E300,3)",
    "MOD(5,1E-300)", "QUOTIENT(1,0)", "SQRT(-1E-300)", "ATAN2(0,0)", "LOG(8,1)", "LN(0)",
    "EXP(1000)",
    "CORNER.SWEEP(Front,\"camber\",\"travel\",-20,20,10001)",
    "CORNER.SWEEP(Front,\"\",\"x\",1,2,1E300)",
    "CORNER.CAMBER(Front,1E308,-1E308)", "CORNER.CAMBER(Front,B2:B4)", "CORNER.CAMBER(Front,Front)",
    "_xldudf_CORNER_TRAIL(Front)", "CORNER_TRAIL(Front)", "Front", "SUM(Front)", "SUM(Wide)",
    "Text",
    "'My points'!A1:'Notes'!B2", "Notes!A1:B2:C3", "SUM(Notes:'My points'!A1)", "#REF!A1",
    "Notes!#REF!",
    "DDE(\"a\",\"b\",\"c\")", "[1]Sheet!A1", "'C:\\x\\[y.xlsx]z'!A1", "Table1[Size]",
    "Table1[[#This Row],[Size]]",
    "LET(x,1,x)", "LAMBDA(x,x)(1)", "A1#", "@A1:A3", "{1,2;3}", "{1,{2}}", "{=1}", "\u00d71",
    "\x0b1", "1E99999",
    "1" * 400, "\"" + "x" * 40000 + "\"", "", "=", "==1", "'", "+", "TRUE()", "PI(1)", "NA()",
    "RAND()",
)  # fmt: skip
"""Formulas without their equals sign, that somebody or some program may have written."""

ODD = (
    "", " ", "-1", "0", "1", "2", "99999999999", "9" * 400, "1.5", "1e308", "-1e400", "nan", "inf",
    "x", "A0", "A1", "XFD1048576", "XFE1", "A1048577", "ZZZZ1", "a1", "$A$1", "A1:XFD1048576",
    "B2:A1",
    "A1:B2 C3", "true", "TRUE", "n", "s", "str", "b", "e", "d", "inlineStr", "shared", "array",
    "dataTable", "rId999", "#REF!", "FF0000", "red", "auto", "../../etc/passwd", "/xl/workbook.xml",
    "\u00e9\U0001f600", "_x0000_", "_xD800_", "x" * 5000, "2020-13-45", "1.0.0", "\u0661",
)  # fmt: skip
"""Values of attributes and texts of the XML."""


@functools.cache
def rich():
    """The bytes of a workbook with much of what users' files have, and a block named Front."""
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out)
    bold = book.add_format({"bold": True})
    notes, points = book.add_worksheet("Notes"), book.add_worksheet("My points")
    notes.write_column("A1", [1, 2, 3])
    notes.write_column("B1", ["a", 2.5, True])
    notes.write_rich_string("A4", "plain ", bold, "bold")
    for address, formula, value in (
        ("C1", "=SUM(A1:A3)*2", 12), ("C2", "=CORNER.TRAIL(Front)", 0), ("C3", "=C1+C2", 12),
        ("C4", "=CORNER.CASTER(Front)", 0), ("C5", '=IF(C4>1,"yes",B1)', "yes"),
        ("C6", "=Chain5", 0),
        ("C7", "=VLOOKUP(2,A1:B3,2,FALSE)", 2.5), ("C8", "=CORNER.CHECK(Front,\"mm\")", "ok"),
        ("C9", "=Half*2", 1), ("C10", "=CORNER.CAMBER(Front,A1,A2)", 0),
    ):  # fmt: skip
        notes.write_formula(address, formula, None, value)
    notes.write_array_formula("E1:F3", "{=A1:A3*{1,2}}", None, 1)
    notes.write_array_formula(
        "E5:F9", '{=CORNER.SWEEP(Front,"camber","travel",-20,20,4)}', None, ""
    )
    notes.data_validation("A1", {"validate": "decimal", "criteria": "between", "minimum": 0,
                                 "maximum": 9})  # fmt: skip
    notes.conditional_format("C1:C9", {"type": "formula", "criteria": "=C1>5", "format": bold})
    notes.merge_range("H1:I2", "merged", bold)
    notes.write_comment("A1", "a comment")
    notes.add_table("H5:I7", {"columns": [{"header": "Name"}, {"header": "Size"}]})
    for row, cells in enumerate(EXAMPLE):
        points.write_row(row, 0, [cell for cell in cells if cell != ""])
        points.write(row, 4, "mm" if cells[2] != "" else "")
    chart = book.add_chart({"type": "line"})
    chart.add_series({"values": "=Notes!$A$1:$A$3"})
    notes.insert_chart("K1", chart)
    book.add_chartsheet("Alone").set_chart(_line(book))
    for name, text in {
        "Front": f"='My points'!$A$1:$D${len(EXAMPLE)}", "Trail": "=Notes!$C$2",
        "Caster": "=Notes!$C$4",
        "Half": "=0.5", "Total": "=Notes!$C$3", "Wide": "=Notes!$A$1:$XFD$1048576", "Text": '="x"',
        "Loop": "=Loop+1", "Round1": "=Round2", "Round2": "=Round1",
        **{f"Chain{n}": f"=Chain{n - 1}+1" for n in range(2, 6)}, "Chain1": "=1",
    }.items():  # fmt: skip
        book.define_name(name, text)
    book.close()
    return _shared_and_saved(_parts(out.getvalue()))


def _line(book):
    chart = book.add_chart({"type": "line"})
    chart.add_series({"values": "=Notes!$A$1:$A$3"})
    return chart


def _shared_and_saved(parts):
    """With a formula that cells share, and as a program saves it that has worked it out."""
    sheet = parts["xl/worksheets/sheet1.xml"]
    sheet = sheet.replace(
        b"</sheetData>",
        b'<row r="20"><c r="A20"><f t="shared" ref="A20:A22" si="0">A1*2</f><v>2</v></c></row>'
        b'<row r="21"><c r="A21"><f t="shared" si="0"/><v>4</v></c></row>'
        b'<row r="22"><c r="A22"><f t="shared" si="0"/><v>6</v></c></row></sheetData>',
    )
    app = parts["docProps/app.xml"].replace(b"Microsoft Excel", b"LibreOffice/7.4")
    book = parts["xl/workbook.xml"].replace(b' fullCalcOnLoad="1"', b"")
    return {
        **parts, "xl/worksheets/sheet1.xml": sheet, "docProps/app.xml": app, "xl/workbook.xml": book
    }  # fmt: skip


@functools.cache
def ours():
    """The parts of a workbook of few chapters of ours."""
    chapters = ["car", "front-corner", "what-if", "placing", "measures"]
    return _parts(made("car", "lapwing", "mm", "calc", begin, None, chapters).content)


def _parts(content):
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return {name: package.read(name) for name in package.namelist()}


# ---------------------------------------------------------------- what is changed


def _a_formula(parts, chance):
    """A cell's formula is another one."""
    part, root = _tree(parts, chance, "xl/worksheets/")
    cells = list(root.iter(MAIN + "f")) or [root]
    cell = chance.choice(cells)
    if chance.random() < 0.8:
        cell.text = _xml_text(chance.choice(FORMULAS))
    elif chance.random() < 0.5:
        cell.set("t", chance.choice(("shared", "array", "dataTable", "normal", "x")))
    else:
        cell.set("ref", chance.choice(("A1", "E1:F3", "A1:XFD1048576", "C1:C9", "E4:F6", "", "x")))
    _put(parts, part, root)


def _a_value(parts, chance):
    """A cell holds another value, or one of another type."""
    part, root = _tree(parts, chance, "xl/worksheets/")
    cells = list(root.iter(MAIN + "v")) or [root]
    cell = chance.choice(cells)
    cell.text = _xml_text(chance.choice((*ODD, *TEXTS)))
    if cell.getparent() is not None and chance.random() < 0.5:
        cell.getparent().set("t", chance.choice(("s", "str", "n", "b", "e", "d", "inlineStr", "x")))
    _put(parts, part, root)


def _a_name(parts, chance):
    """A defined name means something else."""
    root = etree.fromstring(parts["xl/workbook.xml"])
    names = list(root.iter(MAIN + "definedName"))
    name = chance.choice(names)
    way = chance.random()
    if way < 0.7:
        name.text = _xml_text(
            chance.choice((*FORMULAS, "Notes!$A$1:$XFD$1048576", "Notes!A1", "#REF!"))
        )
    elif way < 0.85:
        name.set("localSheetId", chance.choice(ODD))
    else:
        name.set("name", _xml_text(chance.choice((*ODD, "front", "Trail", "A1", "R1C1"))))
    _put(parts, "xl/workbook.xml", root)


def _chains(parts, chance):
    """Names, or cells, each of which reads the one before, in hundreds or in a circle."""
    count = chance.choice((30, 300, 3000))
    root = etree.fromstring(parts["xl/workbook.xml"])
    if chance.random() < 0.5:
        names = root.find(MAIN + "definedNames")
        for n in range(count):
            name = etree.SubElement(names, MAIN + "definedName", name=f"Long{n}")
            name.text = f"Long{n - 1}*1+0" if n else chance.choice(("1", f"Long{count - 1}"))
        _put(parts, "xl/workbook.xml", root)
        last = f"Long{count - 1}"
    else:
        last = f"Z{count}"
    part = "xl/worksheets/sheet1.xml"
    sheet = etree.fromstring(parts[part])
    data = sheet.find(MAIN + "sheetData")
    for n in range(1, count + 1 if last[0] == "Z" else 1):
        row = etree.SubElement(data, MAIN + "row", r=str(1000 + n))
        cell = etree.SubElement(row, MAIN + "c", r=f"Z{1000 + n}")
        etree.SubElement(cell, MAIN + "f").text = f"Z{999 + n}+1"
    cell = next(sheet.iter(MAIN + "f"))
    cell.text = last if last[0] == "L" else f"Z{1000 + count}"
    _put(parts, part, sheet)


def _an_element(parts, chance):
    """An element of any part is gone, doubled, moved, renamed, or has another attribute or text."""
    part, root = _tree(parts, chance)
    elements = [e for e in root.iter() if isinstance(e.tag, str)]
    element = chance.choice(elements)
    parent = element.getparent()
    what = chance.choice(
        ("delete", "double", "move", "rename", "odd", "odd", "odd", "drop", "text")
    )
    if what == "delete" and parent is not None:
        parent.remove(element)
    elif what == "double" and parent is not None:
        parent.insert(parent.index(element), etree.fromstring(etree.tostring(element)))
    elif what == "move" and parent is not None:
        other = chance.choice(elements)
        if element not in (other, *other.iterancestors()):
            other.append(element)
    elif what == "rename":
        element.tag = chance.choice(elements).tag
    elif what == "text":
        element.text = _xml_text(chance.choice(ODD))
    elif element.attrib:
        key = chance.choice(sorted(element.attrib))
        if what == "drop":
            del element.attrib[key]
        else:
            element.set(key, _xml_text(chance.choice(ODD)))
    _put(parts, part, root)


def _bytes(parts, chance):
    """The bytes of a part are cut, or some of them are others."""
    part = chance.choice(sorted(parts))
    content = parts[part]
    at = chance.randrange(len(content) + 1)
    way = chance.random()
    if way < 0.2:
        parts[part] = content[:at]
    elif way < 0.6:
        parts[part] = content[:at] + content[at + chance.randrange(1, 30) :]
    else:
        odd = (
            b"<",
            b">",
            b"&",
            b'"',
            b"\0",
            b"\xff",
            b"<!DOCTYPE x>",
            b"<!--",
            b"<x>",
            b"9",
            b"&#0;",
        )
        parts[part] = content[:at] + chance.choice(odd) + content[at + 1 :]


def _a_part(parts, chance):
    """A part is gone, empty, another's, or under another name."""
    part = chance.choice(sorted(parts))
    what = chance.choice(("delete", "empty", "other", "rename", "case"))
    if what == "delete":
        del parts[part]
    elif what == "empty":
        parts[part] = b""
    elif what == "other":
        parts[part] = parts[chance.choice(sorted(parts))]
    elif what == "rename":
        parts[chance.choice(("xl/../x.xml", "/" + part, "x", part + "/", "\u00e9.xml"))] = (
            parts.pop(part)
        )
    else:
        parts[part.upper()] = parts.pop(part)


def _tree(parts, chance, start=""):
    """(name, root) of one part that is XML; of sheets and the workbook oftener than of others."""
    names = [n for n in sorted(parts) if n.startswith(start) and n.endswith((".xml", ".rels"))]
    main = [n for n in names if "sheet" in n.lower() or "workbook" in n]
    for _ in range(20):
        name = chance.choice(main if main and chance.random() < 0.7 else names)
        try:
            return name, etree.fromstring(parts[name])
        except etree.XMLSyntaxError:
            continue  # an earlier change has broken it
    raise _Broken


class _Broken(Exception):
    """No part can be read any more, so none is changed further."""


def _put(parts, part, root):
    parts[part] = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def _xml_text(text):
    return re.sub("[\0-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]", "?", text)


def _zipped(parts, chance):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    content = out.getvalue()
    if chance.random() > 0.05:
        return content
    at = chance.randrange(len(content))
    return chance.choice((
        content[:at], content[at:], content[:at] + b"\0\xff" + content[at + 2 :], content + b"x",
        b"", b"PK", content.replace(b"PK\1\2", b"PK\1\3", 1), content[:30] + content,
        content[:-8] + struct.pack("<I", at) + content[-4:],
    ))  # fmt: skip


WAYS = {_an_element: 8, _a_formula: 8, _a_value: 3, _a_name: 3, _chains: 1, _bytes: 2, _a_part: 2}
"""How a workbook is broken, and how often."""


def broken(chance):
    """The bytes of a workbook that somebody's program, or somebody, has spoilt."""
    parts = dict(rich() if chance.random() < 0.7 else ours())
    try:
        for _ in range(chance.choice((1, 1, 1, 2, 4))):
            (how,) = chance.choices(list(WAYS), WAYS.values())
            try:
                how(parts, chance)
            except (etree.XMLSyntaxError, KeyError, IndexError, ValueError, TypeError):
                pass  # an earlier change has taken what this one is to change
    except _Broken:
        pass
    return _zipped(parts, chance)


COMMANDS = (
    "share in.xlsx out.xlsx", "share in.xlsx out.xlsx --values",
    "convert in.xlsx out.xlsx --for excel",
    "convert in.xlsx out.xlsx --for calc", "tolerance in.xlsx --cars 1000 --out out.xlsx",
    "tolerance in.xlsx --cars 1000 --out out.xlsx --within 0.5 --spread uniform",
    "solve in.xlsx --out out.xlsx --change|Front: upper ball joint x|--make Caster=7",
    "solve in.xlsx --out out.xlsx --change Notes!A1 Notes!A2 --make Total=20",
    "adopt in.xlsx Variant-B --out out.xlsx", "adopt in.xlsx placing --out out.xlsx",
    "take in.xlsx in.xlsx --out out.xlsx",
    "export in.xlsx out.csv", "export in.xlsx out.dxf --axle",
    "export in.xlsx out.csv --block Wide",
    "import in.xlsx points.csv --out out.xlsx", "draw in.xlsx out.svg",
    "draw in.xlsx out.png --view front --travel 20 --rack 5",
    "draw in.xlsx out.svg --roll 2 --axle",
    "excel install out.xlsm --workbook in.xlsx",
)  # fmt: skip

POINTS = b"name,x,y,z,unit\nUpper ball joint,-20,470,372,mm\nTyre radius,262,,,mm\n"


def arguments(line):
    """The arguments of a line: those with spaces stand between bars."""
    return [a for n, p in enumerate(line.split("|")) for a in ([p] if n % 2 else p.split())]


def case(chance):
    """A broken workbook in.xlsx and a command that is given it."""
    with open("in.xlsx", "wb") as file:
        file.write(broken(chance))
    with open("points.csv", "wb") as file:
        file.write(POINTS)
    given = arguments(chance.choice(COMMANDS))
    (makes,) = (a for a in given if a.startswith("out."))
    return Case(
        given, ["in.xlsx", "points.csv"], makes, "nan None inf Errno Error: <class Traceback"
    )


if __name__ == "__main__":
    sys.exit(by_hand("workbooks", case, "broken workbooks"))
