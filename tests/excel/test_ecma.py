"""The workbooks that we write, held to ECMA-376 part by part.

No Excel here, so by what stands for it: the descriptions of the Open XML SDK of Microsoft
(`authorities/open_xml_sdk.py`), and the standard's rules across parts that no schema has, those
whose breach makes Excel offer to repair a file (`authorities/ecma_376_*.py`).
"""

import io
import re
import zipfile

import openpyxl
import pytest
from cornerbook.book.formula.convert import convert
from cornerbook.book.formula.targets import TARGETS
from cornerbook.book.plain.share import share

from tests.authorities import ecma_376_charts, ecma_376_package, ecma_376_sheets, open_xml_sdk
from tests.authorities.ecma_376_package import Package


def rules(package):
    """What the standard's rules across parts, and the SDK's list of attributes, say."""
    found = ecma_376_package.mistakes(package)
    if found:
        return found  # what follows reads the parts that these are about
    found = ecma_376_sheets.mistakes(package) + ecma_376_charts.mistakes(package)
    for name in package.names:
        if package.is_xml(name):
            found += open_xml_sdk.unknown_attributes(name, package.xml(name))
    return found


def mistakes(path, versions=open_xml_sdk.VERSIONS):
    """Everything that is wrong with a file, in sentences."""
    return rules(Package(path.read_bytes())) + open_xml_sdk.mistakes(path, versions)


# Sheets that have between them what there is to write: tables of one formula, bands, drop-downs,
# charts, drawings, a form, links, notes.
FEW = ("sensitivity", "bump", "rules", "picture")


@pytest.fixture(scope="module")
def made(once):
    """A function of `WHATS`: the path of that workbook, as the command writes it.

    All are written alike, element by element: one is whole, the rest have the sheets of `FEW`.
    """

    def path(what):
        if what == "whole":
            return once.workbook()
        if what in ("shared", "frozen"):
            return once.copy(values=what == "frozen", chapters=FEW)[0]
        head, _, target = what.rpartition(" ")
        if head == "converted to":
            few = once.workbook(chapters=FEW)
            return once.file(f"{what}.xlsx", lambda: convert(few, target)[0])
        return once.workbook(system=target, target=head, chapters=FEW)

    return path


def _kept(path, content):
    path.write_bytes(content)
    return path


WHATS = [
    "whole",
    *(f"{target} {system}" for target in TARGETS for system in ("mm", "in")),
    "shared",
    "frozen",
    *(f"converted to {target}" for target in TARGETS[1:]),
]


@pytest.mark.parametrize("what", WHATS)
def test_the_standard_allows_it(what, made):
    # One is held to both the oldest and the newest description, copies, which must do for an
    # old Excel, to the oldest, the rest to the newest.
    versions = {"calc mm": open_xml_sdk.VERSIONS, "shared": open_xml_sdk.VERSIONS[:1],
                "frozen": open_xml_sdk.VERSIONS[:1]}  # fmt: skip
    assert mistakes(made(what), versions.get(what, open_xml_sdk.VERSIONS[-1:])) == []


def test_a_whole_copy_keeps_the_rules_across_parts(once):
    assert rules(Package(once.copy()[0].read_bytes())) == []


def test_nothing_is_added_to_what_another_writer_wrote(once, tmp_path):
    """Styles, names and texts are laid out otherwise by openpyxl, and stay good in a copy."""
    # Two sheets with formulas, bands, charts and drop-downs, and the first ones.
    book = openpyxl.load_workbook(once.workbook(chapters=("sensitivity",)))
    book.save(tmp_path / "other.xlsx")
    newest = open_xml_sdk.VERSIONS[-1:]
    before = mistakes(tmp_path / "other.xlsx", newest)
    copied = {
        "shared": share(tmp_path / "other.xlsx")[0],
        "frozen": share(tmp_path / "other.xlsx", values=True)[0],
        "converted": convert(tmp_path / "other.xlsx", "excel")[0],
    }
    for what, content in copied.items():
        after = mistakes(_kept(tmp_path / f"{what}.xlsx", content), newest)
        assert [one for one in after if one not in before] == [], what


@pytest.mark.parametrize("source", [None, "excel-classic mm"])
def test_the_macro_workbook_is_good_too(source, made, tmp_path):
    pytest.importorskip("xlwings", reason="xlwings, whose template it is made from, is missing")
    from cornerbook.hosts.excel.install import prepare_macro_workbook

    content = prepare_macro_workbook(source and made(source).read_bytes())
    # As the newest Office has it: Excel saved the template with a choice for newer versions
    # in it (mc:AlternateContent), which the validator takes to be for older ones too.
    newest = open_xml_sdk.VERSIONS[-1:]
    assert mistakes(_kept(tmp_path / "macros.xlsm", content), newest) == []


SHEET = "xl/worksheets/sheet3.xml"
MARKED = "xl/worksheets/sheet1.xml"
STYLES = "xl/styles.xml"
CHART = "xl/charts/chart1.xml"
BOOK = "xl/workbook.xml"
TYPES = "[Content_Types].xml"

BROKEN = {
    "an element in disorder": (SHEET, r"(<sheetViews>.*?</sheetViews>)(.*</sheetData>)", r"\2\1"),
    "an unknown element": (SHEET, "<sheetData>", "<foo/><sheetData>"),
    "no cells": (SHEET, "<sheetData>.*</sheetData>", ""),
    "an unknown attribute of a cell": (SHEET, "<c r=", '<c colour="1" r='),
    "an unknown attribute of the page setup": (SHEET, "<pageSetup ", '<pageSetup colour="1" '),
    "an unknown kind of cell": (SHEET, 't="s"', 't="q"'),
    "a cell of no address": (SHEET, '<c r="A1"', '<c r="1A"'),
    "a cell twice": (SHEET, r'(<c r="A1"[^>]*>.*?</c>)', r"\1\1"),
    "rows in disorder": (SHEET, r'(<row r="1".*?</row>)(<row r="2".*?</row>)', r"\2\1"),
    "a number of letters": (SHEET, r"(<c [^>]*[0-9]\"><v>)\d+", r"\1abc"),
    "a text out of range": (SHEET, r't="s"><v>\d+', 't="s"><v>99999'),
    "a format out of range": (SHEET, r' s="\d', ' s="999'),
    "a range of no cells": (SHEET, '<dimension ref="', '<dimension ref="!'),
    "columns that overlap": (SHEET, '<col min="2"', '<col min="1"'),
    "an array that begins elsewhere": (
        SHEET, "</c>", '</c><c r="XFD1"><f t="array" ref="B9:C9">1</f></c>'
    ),
    "an unprefixed new function": (SHEET, "</c>", '</c><c r="XFD1"><f>LET(a,1,a)</f></c>'),
    "a formula with its =": (SHEET, "</c>", '</c><c r="XFD1"><f>=1+1</f></c>'),
    "a formula too long": (SHEET, "</c>", f'</c><c r="XFD1"><f>{"1+" * 4096}1</f></c>'),
    "a look out of range": (MARKED, 'dxfId="0"', 'dxfId="99"'),
    "a priority twice": (MARKED, 'priority="2"', 'priority="1"'),
    "styles in disorder": (STYLES, "(<fonts.*?</fonts>)(<fills.*?</fills>)", r"\2\1"),
    "a wrong count of formats": (STYLES, '<cellXfs count="', '<cellXfs count="9'),
    "a font out of range": (STYLES, r'(<cellXfs.*?)fontId="\d+"', r'\1fontId="999"'),
    "a number format that is not there": (
        STYLES, r'(<cellXfs.*?)numFmtId="\d+"', r'\1numFmtId="999"'
    ),
    "a colour that is none": (STYLES, 'rgb="FF', 'rgb="ZZ'),
    "two sheets of one name": (BOOK, r'name="[^"]+" sheetId="2"', 'name="OVERVIEW" sheetId="2"'),
    "a sheet's name too long": (
        BOOK, r'name="[^"]+" sheetId="2"', f'name="{"x" * 32}" sheetId="2"'
    ),
    "a sheet that is not there": (BOOK, 'r:id="rId2"', 'r:id="rId999"'),
    "a defined name twice": (BOOK, "(<definedName .*?</definedName>)", r"\1\1"),
    "a defined name like a cell": (BOOK, r'<definedName name="\w+"', '<definedName name="AB12"'),
    "a chart in disorder": (CHART, "(<c:idx [^>]*>)(<c:order [^>]*>)", r"\2\1"),
    "a chart without its axes": (CHART, r"<c:axId [^>]*>", '<c:axId val="42"/>'),
    "a chart of no sheet": (CHART, r"(<c:f>)[^!]*!", r"\1Nowhere!"),
    "an unknown way to place a chart": ("xl/drawings/drawing1.xml", "<xdr:from>.*?</xdr:from>", ""),
    "a part without its kind": (TYPES, "/xl/worksheets/sheet2.xml", "/xl/worksheets/sheet99.xml"),
    "a link to nothing": ("xl/worksheets/_rels/sheet2.xml.rels", "drawing1", "drawing77"),
    "an unknown property": ("docProps/app.xml", "<Application>", "<Foo/><Application>"),
}  # fmt: skip


@pytest.mark.parametrize("what", BROKEN)
def test_a_broken_file_is_seen(what, once, tmp_path):
    part, old, new = BROKEN[what]
    path = tmp_path / "broken.xlsx"
    few = once.workbook(chapters=("bump",))
    with zipfile.ZipFile(io.BytesIO(few.read_bytes())) as archive:
        contents = {name: archive.read(name) for name in archive.namelist()}
    text = contents[part].decode("utf-8")
    changed = re.sub(old, new, text, count=1, flags=re.DOTALL)
    assert changed != text, "nothing was broken"
    contents[part] = changed.encode("utf-8")
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in contents.items():
            archive.writestr(name, content)
    # The slower validator is asked only where the rules see nothing.
    assert rules(Package(path.read_bytes())) or open_xml_sdk.mistakes(path)


def test_the_only_finding_set_aside_is_still_one(once):
    """When the validator or the writer changes its mind, `NOT_SO` must follow."""
    found = set()
    for version in open_xml_sdk.VERSIONS:
        for one in open_xml_sdk.validator(version).validate(once.workbook(chapters=FEW)).errors:
            found.add((one.path.rsplit("/", 1)[-1].split("[")[0], one.description))
    assert found == open_xml_sdk.NOT_SO
