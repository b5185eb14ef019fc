"""The workbook on paper: pages as they were asked for, and as Calc makes them."""

import re

import pytest
from cornerbook.book.make.build import build
from cornerbook.book.make.paging import LEAST, paper_of
from cornerbook.book.make.places import find, workbooks
from cornerbook.book.make.scenario import Scenario
from cornerbook.book.make.template import Template

MOST = 2
"""Pages that a sheet may take."""

WHOLE = 30
"""Pages of the whole workbook."""

_PAGE = re.compile(rb"/Type\s*/Page\b")


@pytest.fixture(scope="module", params=["mm", "in"])
def book(request):
    template, scenario = Template(find("templates", "car")), Scenario(find("scenarios", "lapwing"))
    return build(template, scenario, request.param, pictures=workbooks() / "pictures")


def test_no_drawing_is_cut_and_pages_are_few(book):
    drawings = pages = 0
    for sheet in book.sheets:
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


def test_a_page_ends_where_something_begins(book):
    """No heading, and no head of a table, is the last of a page."""
    for sheet in book.sheets:
        for end in paper_of(sheet).breaks if sheet.printed else ():
            above = [cell.look for (row, _), cell in sheet.cells.items() if row == end - 1]
            assert not {"heading", "column", "column first"} & set(above), (sheet.name, end)


def test_calc_makes_these_pages_and_none_of_the_reference(calc, starter, tmp_path, book):
    """As many as were asked for: none is cut by Calc itself, which would make more of them."""
    path = tmp_path / "car.pdf"
    with calc.open(starter) as opened:
        opened.save(path)
    pages = len(_PAGE.findall(path.read_bytes()))
    assert pages == sum(paper_of(sheet).pages for sheet in book.sheets if sheet.printed)
