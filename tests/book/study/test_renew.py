"""A workbook made anew: what was typed, held cell by cell, and the user's own sheets, held by
openpyxl for cells, looks, charts and names."""

import io
import struct
import zipfile
import zlib

import openpyxl
import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.make.new import made
from cornerbook.book.make.texts.origins import shown
from cornerbook.book.study.begin.options import given_by
from cornerbook.book.study.begin.run import begin
from cornerbook.book.study.renew.run import renew as renewed
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.chart import LineChart, Reference
from openpyxl.comments import Comment
from openpyxl.drawing.image import Image
from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table

from tests.book.study.test_typed import former
from tests.support.looking import looked_into
from tests.support.yellow import PAPER, edited, hold_alike, other_values, yellow_of, yellow_once

# What is looked at in most of these tests; those of the yellow cells are of all sheets.
FEW = ("bump", "rules", "compare")
# What the user's own sheets read, and their rules.
OWN = ("measures", "rules")
# Hardly any.
SPRINGS = ("springs",)


@pytest.fixture(scope="module")
def starter(once):
    """The demonstration car's workbook with the sheets of `FEW`."""
    return once.workbook(chapters=FEW)


def renew(path, chapters=FEW):
    """A workbook made anew with a few sheets."""
    return renewed(path, chapters=list(chapters))


def said(done):
    """Its sentences but those on numbers that the other sheets need and nobody typed."""
    return [each for each in done.messages if not each.startswith(("Numbers: ", "The sheets say"))]


def picture():
    """A PNG of one red dot."""

    def chunk(kind, data):
        whole = kind + data
        return struct.pack(">I", len(data)) + whole + struct.pack(">I", zlib.crc32(whole))

    head = struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0)
    dot = zlib.compress(b"\x00\xff\x00\x00")
    parts = chunk(b"IHDR", head) + chunk(b"IDAT", dot) + chunk(b"IEND", b"")
    return io.BytesIO(b"\x89PNG\r\n\x1a\n" + parts)


def with_own_sheets(source, path):
    """A workbook with two sheets of its user's own: looks, a chart, a picture, names and more."""
    book = openpyxl.load_workbook(source)
    own = book.create_sheet("My notes")
    own.append(["What", "now", "twice"])
    own.append(["Trail", "=Trail", "=B2*2"])
    own.append(["Wheelbase", "=Car!B5", "=SUM(B2:B3)"])
    own.append(["Tyre", "=MyTyre+1", "text"])
    own["A1"].font = Font(name="Courier New", bold=True, color="FF00AA11", size=13)
    own["B2"].number_format = '0.000" mm"'
    own["B2"].fill = PatternFill("solid", fgColor="FFAACCEE")
    own["C2"].border = Border(top=Side("double", color="FFFF0000"))
    own["C3"].alignment = Alignment(horizontal="right", textRotation=45)
    own["D1"] = CellRichText("plain ", TextBlock(InlineFont(b=True), "bold"))
    own["D2"].comment = Comment("look at this", "me")
    own["D3"] = "a page"
    own["D3"].hyperlink = "https://example.org/page"
    own.merge_cells("A6:C6")
    own["A6"] = "wide"
    own["A7"] = 7  # on paper like ours, and yet no cell of ours
    own["A7"].fill = PatternFill("solid", fgColor=PAPER)
    own.column_dimensions["A"].width = 33
    own.row_dimensions[2].height = 41
    own.freeze_panes = "B2"
    red = CellIsRule("greaterThan", ["5"], fill=PatternFill(bgColor="FFFF0000"))
    own.conditional_formatting.add("B2:B4", red)
    words = DataValidation(type="list", formula1='"yes,no"')
    words.add("D4")
    own.add_data_validation(words)
    chart = LineChart()
    chart.add_data(Reference(own, min_col=2, min_row=1, max_row=3), titles_from_data=True)
    own.add_chart(chart, "F2")
    own.add_image(Image(picture()), "F20")
    own.append(["Size", "Count"])
    own.append(["a", 1])
    own.add_table(Table(displayName="Parts", ref="A8:B9"))
    own.print_area = "A1:D9"
    hidden = book.create_sheet("Stock")
    hidden.append(["Tyre", 281])
    hidden.sheet_state = "hidden"
    book.defined_names["MyTyre"] = DefinedName("MyTyre", attr_text="Stock!$B$1")
    book.defined_names["Rate"] = DefinedName("Rate", attr_text="0.19")
    book.save(path)
    return path


def put(folder, content):
    path = folder / "old.xlsx"
    path.write_bytes(content)
    return path


def read(content, values=False):
    """A workbook's cells, of a file or its bytes."""
    return looked_into(
        io.BytesIO(content) if isinstance(content, bytes) else content, data_only=values
    )


@pytest.fixture(scope="module")
def with_own(once, tmp_path_factory):
    """(a workbook with sheets of its user's own, the row of a rule that measures one of them, its
    yellow cells, the `Renewed` of it)."""
    folder = tmp_path_factory.mktemp("own")
    book = with_own_sheets(once.workbook(chapters=OWN), folder / "own.xlsx")
    rules = read(book)["Rules"]
    row = next(cell.row for cell in rules["A"] if cell.value == "Wheelbase at least 1500 mm")
    changes = {("Car", "B5"): 1700, ("Rules", f"B{row}"): "=Stock!B1*6",
               ("Rules", f"B{row + 5}"): "=MyTyre"}  # fmt: skip
    old = put(folder, edited(book, changes))
    return old, row, yellow_once(book, changes), renew(old, OWN)


def colour(of):
    """A colour as it looks: openpyxl's own cells have the first dark one of its theme, black."""
    if of is None or of.type == "rgb":
        return of and of.rgb
    return {1: "FF000000"}[of.theme]


def looks(cell):
    side = cell.border.top
    return (
        cell.value if isinstance(cell.value, CellRichText) else str(cell.value),
        cell.font.name, cell.font.b, cell.font.sz, colour(cell.font.color),
        cell.fill.fill_type, cell.fill.fgColor.rgb, cell.number_format, side and side.style,
        cell.alignment.horizontal, cell.alignment.textRotation,
        cell.comment and cell.comment.text, cell.hyperlink and cell.hyperlink.target,
    )  # fmt: skip


# In inches cells are carried over by the same names and labels.
@pytest.mark.parametrize(("system", "chapters"), [("mm", ()), ("in", FEW)])
def test_yellow_cells_are_carried_over(once, tmp_path, system, chapters):
    path = once.workbook(system=system, chapters=chapters)
    changes = other_values(path, 11)
    old = put(tmp_path, edited(path, changes))
    done = renewed(old, chapters=list(chapters) or None)
    hold_alike(yellow_of(done.content), yellow_once(path, changes))
    if not chapters:
        # Of few sheets it tells where the numbers of the others would come from.
        assert done.messages == []


def test_fewer_chapters(starter):
    done = renew(starter, chapters=["springs"])
    assert said(done) == []
    sheets = read(done.content).sheetnames
    assert "Springs" in sheets
    assert "Compare" not in sheets


def test_own_sheets_come_along(with_own):
    old, _, _, done = with_own
    assert said(done) == ["Sheets of yours that came along: My notes, Stock."]
    before, after = (
        openpyxl.load_workbook(file, rich_text=True) for file in (old, io.BytesIO(done.content))
    )
    assert after.sheetnames == before.sheetnames
    for name in ("My notes", "Stock"):
        one, other = before[name], after[name]
        assert one.dimensions == other.dimensions
        assert [[looks(c) for c in row] for row in one] == [
            [looks(c) for c in row] for row in other
        ]
        assert one.merged_cells.ranges == other.merged_cells.ranges
        assert one.sheet_state == other.sheet_state
    one, other = before["My notes"], after["My notes"]
    assert other.column_dimensions["A"].width == 33
    assert other.row_dimensions[2].height == 41
    assert other.freeze_panes == "B2"
    assert other.print_area == one.print_area
    assert [t.ref for t in other.tables.values()] == ["A8:B9"]
    (rules,) = other.conditional_formatting
    assert rules.rules[0].dxf.fill.bgColor.rgb == "FFFF0000"
    assert [d.formula1 for d in other.data_validations.dataValidation] == ['"yes,no"']
    (chart,) = other._charts
    assert chart.series[0].val.numRef.f == "'My notes'!$B$2:$B$3"
    (image,) = other._images
    assert image._data() == picture().getvalue()
    assert after.defined_names["MyTyre"].attr_text == "Stock!$B$1"
    assert after.defined_names["Rate"].attr_text == "0.19"
    assert not other.sheet_view.tabSelected


def test_the_file_holds_together(with_own):
    """Every part that is led to is there, with a type, and no two sheets share a number."""
    done = with_own[-1]
    parts = Package.of_bytes(done.content, "x")._parts
    names = zipfile.ZipFile(io.BytesIO(done.content)).namelist()
    assert len(names) == len(set(names))
    for name in names:
        assert name.endswith(".rels") or name.startswith("[") or parts.types.of(name), name
        for relation in parts.relations.of(name):
            assert relation.target is None or relation.target in parts, (name, relation)
    ids = [sheet.get("sheetId") for sheet in parts.tree("xl/workbook.xml").iter("{*}sheet")]
    assert len(ids) == len(set(ids))


def test_own_formulas_have_the_values_of_the_new_workbook(with_own):
    values = read(with_own[-1].content, values=True)["My notes"]
    trail = 21.95201087
    assert values["B2"].value == pytest.approx(trail, abs=1e-6)
    assert values["C2"].value == pytest.approx(2 * trail, abs=1e-6)
    assert values["B3"].value == 1700
    assert values["C3"].value == pytest.approx(1700 + trail, abs=1e-6)
    assert values["B4"].value == 282


def test_a_rule_that_measures_ones_own_sheet(with_own):
    _, row, yellow, done = with_own
    assert said(done) == ["Sheets of yours that came along: My notes, Stock."]
    assert yellow_of(done.content) == yellow
    values = read(done.content, values=True)["Rules"]
    assert [values[f"{c}{row}"].value for c in "BF"] == [1686, "pass"]


def test_a_rule_that_measures_a_chapter_left_out(starter, tmp_path):
    rules = read(starter)["Rules"]
    row = next(cell.row for cell in rules["A"] if cell.value == "Wheelbase at least 1500 mm")
    path = put(tmp_path, edited(starter, {("Rules", f"B{row}"): "=Compare!B6"}))
    done = renew(path, chapters=["springs", "rules"])
    (taken,) = said(done)
    assert taken.startswith("Taken as the value that their formulas give now: ")
    assert f"Rules!B{row} (measured by)" in taken
    assert yellow_of(done.content)["Rules", f"B{row}"] == read(starter)["Compare"]["B6"].value


def test_what_formulas_have_lost_is_said(starter, tmp_path):
    package = Package.read(starter)
    own = [("=Compare!B6", 262.0), ("=BeamTrack", None), ("=[1]Sheet1!A1", None),
           ("=SUM(Car!B5:B7)", None)]  # fmt: skip
    package.add_sheet("Mine", [(row, [(1, *cell, None)]) for row, cell in enumerate(own, 1)])
    done = renew(put(tmp_path, package.to_bytes()), chapters=["springs"])
    (kept,) = [each for each in done.messages if each.startswith("Kept as values")]
    assert "Mine!A1 reads what is not there now (Compare!B6)" in kept
    assert "Mine!A2 reads what is not there now (BeamTrack)" in kept
    assert "Mine!A3 reads another workbook ([1]Sheet1!A1)" in kept
    mine = read(done.content)["Mine"]
    assert mine["A1"].value == 262
    assert mine["A4"].value == "=SUM(Car!B5:B7)"


def test_a_formula_that_reads_another_row_now_is_said(tmp_path):
    """In a former workbook the rows stood elsewhere."""
    path = former(tmp_path / "old.xlsx")
    book = openpyxl.load_workbook(path)
    own = book.create_sheet("Mine")
    own["A1"], own["A2"] = "=Car!B4", "=Wheelbase"
    book.save(path)
    done = renew(path, SPRINGS)
    assert (
        "Look at these formulas, for another cell stands where they read: Mine!A1 (Car!B4)."
        in done.messages
    )
    assert read(done.content, values=True)["Mine"]["A2"].value == 1234.5


def test_a_former_workbook(tmp_path):
    done = renew(former(tmp_path / "old.xlsx"), SPRINGS)
    made = yellow_of(done.content)
    book = read(done.content)
    assert book.properties.title == "Cornerbook: Elder"
    (sheet, cell), *_ = book.defined_names["FrontTrack"].destinations
    assert made[sheet, cell.replace("$", "")] == 1001
    wanted = {row[0].value: [c.value for c in row[1:4]] for row in book["Wanted"].iter_rows()}
    assert wanted["Mechanical trail"] == [14, 21, 31]
    assert any(line.startswith("Numbers: ") for line in done.messages)
    assert "Left out: Bump!B4 (Rack held), for which there is no place: 3." in done.messages


def test_what_stands_beside_yellow_cells_is_said(once, tmp_path):
    chapters = ("bump",)
    book = openpyxl.load_workbook(once.workbook(chapters=chapters))
    book["Car"]["A40"] = "ask Ada"
    book["Bump"].add_chart(LineChart(), "A60")
    path = tmp_path / "old.xlsx"
    book.save(path)
    assert said(renew(path, chapters)) == [
        "Bump had more charts than it has now, which are gone: 1.",
        "Stood on sheets of ours beside the yellow cells and is not there now; what is of yours is "
        "better put on a sheet of your own: Car!A40.",
    ]


def test_a_yellow_cell_that_must_be_mended_first(once, tmp_path):
    source = once.workbook(chapters=SPRINGS)
    rows = read(source)["Wanted"]["A"]
    row = next(cell.row for cell in rows if cell.value == "Caster")
    path = put(tmp_path, edited(source, {("Wanted", f"B{row}"): 99}))
    with pytest.raises(
        Trouble, match=r"wanted.caster is out of order(.|\n)*Mend that in the yellow"
    ):
        renew(path, SPRINGS)


def test_a_spelling_for_excel_is_kept(once):
    path = once.workbook(target="excel", chapters=FEW)
    made = read(renew(path).content)
    for sheet in read(path):
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and cell.value.startswith("="):
                    assert made[sheet.title][cell.coordinate].value == cell.value


def test_a_copy_and_a_name_that_is_taken_are_refused(once, tmp_path):
    with pytest.raises(Trouble, match="is a copy made by share"):
        renew(once.copy()[0], SPRINGS)
    path = former(tmp_path / "old.xlsx")
    book = openpyxl.load_workbook(path)
    book.create_sheet("Wanted")
    book.save(path)
    with pytest.raises(Trouble, match="the sheet Wanted of yours has the name of one that is made"):
        renew(path, SPRINGS)


def test_a_workbook_of_few_numbers(tmp_path):
    given = given_by({"--wheelbase": "1700", "--front-track": "1000"}, "mm", "Few")
    few = made("car", None, "mm", complete=begin, given=given, chapters=list(FEW)).content
    done = renew(put(tmp_path, few))
    assert said(done) == []
    assert yellow_of(few) == yellow_of(done.content)


def test_where_numbers_came_from_is_kept(tmp_path):
    """In inches too; every sentence that the completed scenario has of a cell stands there anew."""
    chapters = ["car", "wanted", "front-corner"]
    given = given_by({"--wheelbase": "67", "--front-track": "39", "--tyre-radius": "11"}, "in", "M")
    few = made("car", None, "in", complete=begin, given=given, chapters=chapters)
    done = renew(put(tmp_path, few.content), chapters=chapters)
    kept = []
    for content in (few.content, done.content):
        cells = (cell for sheet in read(content) for row in sheet.iter_rows() for cell in row)
        kept.append({(c.parent.title, c.coordinate): c.value for c in cells
                     if isinstance(c.value, str) and c.data_type == "s"})  # fmt: skip
    assert kept[0] == kept[1]
    sources = tuple(shown(source) for source in few.story.sources.values())
    told = [text for text in kept[1].values() if text.endswith(sources)]
    assert len(told) > 60
