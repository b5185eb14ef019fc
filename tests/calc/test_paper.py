"""The workbook on paper: pages as they were asked for, and as Calc makes them."""

import io
import re
import zipfile
from functools import cache
from pathlib import Path

import matplotlib.image
import openpyxl
import pytest
from cornerbook.book.file.address import cell_name
from cornerbook.book.make.build import build
from cornerbook.book.make.templates.template import Template
from cornerbook.book.make.texts.mistakes import Mistakes
from cornerbook.book.make.texts.places import find, workbooks
from cornerbook.book.make.texts.scenario import Scenario
from cornerbook.book.make.written.paging import LEAST, paper_of
from cornerbook.book.make.written.style import LOOKS
from cornerbook.book.make.written.write import to_xlsx
from cornerbook.book.study.begin.run import begin
from matplotlib import font_manager
from matplotlib.ft2font import FT2Font
from openpyxl.utils import get_column_letter, range_boundaries

MOST = 2
"""Pages that a sheet may take."""

WHOLE = 30
"""Pages of the whole workbook."""

_PAGE = re.compile(rb"/Type\s*/Page\b")


FEW = """
title = "Few"
unit = "mm"
[car]
wheelbase = 1700
front_track = 1000
[corner.front]
"Tyre radius" = 280
"""


@cache
def laid_out(unit, few=False):
    """The workbook of the demonstration, or that of three numbers, as it is to be written."""
    scenario = Scenario(find("scenarios", "lapwing"))
    if few:
        scenario, mistakes = Scenario(Path("few.toml"), text=FEW), Mistakes()
        assert begin(scenario, mistakes) is not None
        mistakes.hold()
    template = Template(find("templates", "car"))
    return build(template, scenario, unit, pictures=workbooks() / "pictures")


@pytest.fixture(scope="module", params=["mm", "in"])
def book(request):
    return laid_out(request.param)


@pytest.fixture(scope="module", params=[("mm", False), ("in", False), ("mm", True), ("in", True)])
def any_book(request):
    """Also of few numbers, where sheets say besides where their numbers come from."""
    return laid_out(*request.param)


def test_no_drawing_is_cut_and_pages_are_few(any_book):
    drawings = pages = 0
    for sheet in any_book.sheets:
        if not sheet.printed:
            continue
        paper = paper_of(sheet)
        assert paper.pages <= MOST, sheet.name
        pages += paper.pages
        assert paper.scale >= LEAST, sheet.name
        for drawn in sheet.charts + sheet.pictures:
            drawings += 1
            if sheet.last_printed is not None and drawn.at[0] > sheet.last_printed:
                continue
            inside = range(drawn.at[0] + 1, drawn.at[0] + drawn.rows)
            assert not set(paper.breaks) & set(inside), (sheet.name, drawn.at)
    assert drawings > 20
    assert pages <= WHOLE


def test_a_page_ends_where_something_begins(any_book):
    """No heading, and no head of a table, is the last of a page."""
    for sheet in any_book.sheets:
        for end in paper_of(sheet).breaks if sheet.printed else ():
            above = [cell.look for (row, _), cell in sheet.cells.items() if row == end - 1]
            assert not {"heading", "column", "column first"} & set(above), (sheet.name, end)


def across(text, size, bold):
    """How wide a text is, in pixels, in DejaVu Sans, which stands in for Arial on many systems."""
    return sum(one_across(letter, size, bold) for letter in text)


@cache
def one_across(text, size, bold):
    weight = "bold" if bold else "normal"
    face = font_manager.FontProperties(family="DejaVu Sans", weight=weight)
    font = FT2Font(font_manager.findfont(face))
    font.set_size(size, 96)
    font.set_text(text, 0.0)
    return font.get_width_height()[0] / 64


def cut(sheet):
    """(cell, text) of words that neither their cells nor free ones beside these have room for, and
    of numbers that their own cells have none for, where a program shows ###."""
    digit = across("0", 10, False)
    widths = [width * digit + 5 for width in sheet.widths] + [8.43 * digit] * 9
    filled = {place for place, cell in sheet.cells.items() if cell.formula or cell.value}
    for (row, column), cell in sheet.cells.items():
        text, look = cell.value, LOOKS[cell.look]
        number = isinstance(text, float) and cell.number_format
        if number:
            text = f"{cell.value:.{number.split(';')[0].partition('.')[2].count('0')}f}"
        if not isinstance(text, str) or not text or text.startswith("#"):
            continue  # what is to be mended stands in the row's note too
        wrapped = look.get("text_wrap", False) or bool(number)
        size, bold = look.get("font_size", 10), look.get("bold", False)
        pieces = text.split() if wrapped else [text]
        need = max(across(piece, size, bold) for piece in pieces) + 9 * look.get("indent", 0) + 4
        last = column if cell.span is None else cell.span
        room = sum(widths[column : last + 1])
        step = -1 if look.get("align") == "right" else 1
        beside = last + step
        while not wrapped and 0 <= beside < len(widths) and (row, beside) not in filled:
            room += widths[beside]
            beside += step
        if need > room:
            yield cell_name(row, column), text


def test_no_word_is_cut(any_book):
    lists = ("Formulas", "Self-check")  # of formulas, which are read in the line above
    found = {sheet.name: list(cut(sheet)) for sheet in any_book.sheets if sheet.name not in lists}
    assert sum(len(sheet.cells) for sheet in any_book.sheets) > 5000
    assert {name: cells for name, cells in found.items() if cells} == {}


def test_charts_and_pictures_keep_the_shape_that_they_have(book):
    """Each has its size in the file, and a picture that of its own pixels."""
    content = to_xlsx(book)
    for sheet in openpyxl.load_workbook(io.BytesIO(content)):
        if sheet.print_area and sheet._charts and not sheet.title.startswith("Picture"):
            *_, right, _ = range_boundaries(sheet.print_area.split("!")[-1].replace("$", ""))
            widths = [sheet.column_dimensions[get_column_letter(c)].width * 7 for c in
                      range(1, right + 1)]  # fmt: skip
            for chart in sheet._charts:
                before = sum(widths[: chart.anchor._from.col])
                assert before + chart.anchor.ext.cx / 9525 <= sum(widths) + 5 * right, sheet.title
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        parts = [file.read(name).decode() for name in file.namelist() if "/drawings/drawing" in name
                 and name.endswith(".xml")]  # fmt: skip
    assert not any("twoCellAnchor" in part for part in parts)
    sizes = [float(x) / float(y) for part in parts if "<xdr:pic>" in part
             for x, y in re.findall(r'xdr:ext cx="(\d+)" cy="(\d+)"', part)]  # fmt: skip
    picture = matplotlib.image.imread(workbooks() / "pictures" / "signs.png")
    assert sizes == pytest.approx([picture.shape[1] / picture.shape[0]], rel=1e-3)


@pytest.fixture(scope="module")
def printed(opened, tmp_path_factory):
    """The workbook as Calc prints it, a PDF."""
    return opened.save(tmp_path_factory.mktemp("paper") / "car.pdf").read_bytes()


def test_calc_makes_these_pages_and_none_of_the_reference(printed, book):
    """As many as were asked for: none is cut by Calc itself, which would make more of them."""
    pages = len(_PAGE.findall(printed))
    assert pages == sum(paper_of(sheet).pages for sheet in book.sheets if sheet.printed)


def test_a_copy_has_the_same_pages_and_none_of_its_workings(printed, opened, opened_copy, tmp_path):
    pages = len(_PAGE.findall(opened_copy.save(tmp_path / "copy.pdf").read_bytes()))
    assert pages == len(_PAGE.findall(printed))
    assert set(opened_copy.sheets()) > set(opened.sheets())
