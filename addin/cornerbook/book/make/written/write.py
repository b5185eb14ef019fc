"""A workbook in memory to the bytes of an .xlsx file, through XlsxWriter.

XlsxWriter is used because it stores a formula together with its value, so that a
preview, a phone or `pandas.read_excel` shows numbers although no spreadsheet program has
opened the file yet.
"""

import datetime
import io

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from .... import __version__
from ...file.address import cell_name
from ...file.appearance import CAUTION, DOUBT, FONT, GOOD, HEAD, LOOK
from ...file.cell_error import CellError
from ...formula.rewrite import quoted
from ..sheet.judged import OUTSIDE, SWAPPED, UNKNOWN, WITHIN
from ..sheet.model import ROW_HEIGHT
from .anchors import with_fixed_sizes
from .paging import MARGINS, last_column_of, paper_of
from .style import properties

# Set, so that the same template and scenario give the same bytes.
CREATED = datetime.datetime(2026, 1, 1)

A4 = 9
"""The paper's number in an .xlsx file."""

LINES = ("#2F6DB5", "#B5472F", "#3B8A4E", "#7A4FA3", "#8A6D1F", "#2B8C8C")

BAND = {"color": "#3B8A4E", "width": 1.25, "dash_type": "dash"}
"""The line of an end of what is wanted."""

_FONTS = {"name_font": {"name": FONT, "size": 10}, "num_font": {"name": FONT, "size": 9}}
"""Of an axis: without them, one that a machine may lack, and words wider than reckoned with."""

SIDES = {"left": 0, "right": 1}
"""Which of these lines a drawing has for either side of the car."""


def to_xlsx(book):
    """The bytes of the workbook as an .xlsx file; the same book gives the same bytes."""
    output = io.BytesIO()
    workbook = xlsxwriter.Workbook(
        output,
        {
            "in_memory": True, "strings_to_formulas": False, "strings_to_urls": False,
            # The width of columns is counted in this font's figures.
            "default_format_properties": {"font_name": FONT, "font_size": 10},
        },
    )  # fmt: skip
    workbook.set_properties(
        {
            "title": book.title,
            "comments": f"Made by cornerbook {__version__}. {CAUTION}",
            "created": CREATED,
        }
    )
    workbook.set_calc_mode("auto")
    writer = _Writer(workbook)
    pages = [workbook.add_worksheet(sheet.name, _Page) for sheet in book.sheets]
    for sheet, page in zip(book.sheets, pages, strict=True):
        writer.sheet(sheet, page)
    for name, (sheet, top, left, bottom, right) in book.names.items():
        first, last = cell_name(top, left, True), cell_name(bottom, right, True)
        where = first if first == last else f"{first}:{last}"
        workbook.define_name(name, f"={quoted(sheet.name)}!{where}")
    workbook.close()
    # Each sheet knows its workbook: a circle that holds every cell.
    workbook.worksheets().clear()
    workbook.sheetnames.clear()
    drawn = [sheet for sheet in book.sheets if sheet.charts or sheet.pictures]
    sizes = {
        number: [*map(_size_of, sheet.pictures), *(chart.size for chart in sheet.charts)]
        for number, sheet in enumerate(drawn, 1)
    }
    return with_fixed_sizes(output.getvalue(), sizes)


LOW = 280
"""Pixels of height below which a drawing's title is smaller."""

FLAT, WIDE = 250, 520
"""Of a chart less high and as wide, in pixels, the legend stands beside the plot, not below it."""


class _Page(Worksheet):
    """A worksheet that takes our formulas as they are: none has a function that needs a mark.

    XlsxWriter looks through each for some hundred names of such functions, which took a quarter of
    the time of a new workbook. A version that asks otherwise does as it did before.
    """

    def _prepare_formula(self, formula, *_, **__):
        return formula[1:] if formula.startswith("=") else formula


class _Writer:
    def __init__(self, workbook):
        self.workbook = workbook
        self.formats = {}

    def format(self, look, number_format=None):
        key = (look, number_format)
        if key not in self.formats:
            self.formats[key] = self.workbook.add_format(properties(look, number_format))
        return self.formats[key]

    def sheet(self, sheet, page):
        for column, width in enumerate(sheet.widths):
            page.set_column(column, column, width)
        # Every row's height is written, so that charts and pictures, which are anchored to
        # rows, keep their shape in programs whose own default differs.
        for row in range(sheet.last_row() + 1):
            page.set_row(row, sheet.heights.get(row, ROW_HEIGHT))
        in_order = sorted(sheet.cells.items())
        for (row, column), cell in in_order:
            self.cell(page, row, column, cell)
        for rule, cells in _by_rule(in_order):
            page.data_validation(*cells[0], {**_validation(rule), "other_cells": cells[1:]})
        for chart in sheet.charts:
            self.chart(page, chart)
        for picture in sheet.pictures:
            self.picture(page, picture)
        for block in sheet.heats:
            self.heat(page, block)
        for block in _joined(sheet.verdicts):
            self.verdict(page, block)
        self.dress(sheet, page)

    def cell(self, page, row, column, cell):
        look = self.format(cell.look, cell.number_format)
        if cell.span is not None and cell.span > column:
            page.merge_range(row, column, row, cell.span, "", look)
        if cell.array is not None and (row, column) == cell.array.place[:2]:
            page.write_array_formula(
                *cell.array.place, cell.array.formula, look, _stored(cell.value)
            )
        elif cell.array is not None and isinstance(cell.value, CellError):
            # Within an array only the first cell holds a formula; the others are numbers.
            page.write_string(row, column, cell.value.code, look)
        elif cell.formula is not None:
            page.write_formula(row, column, cell.formula, look, _stored(cell.value))
        elif cell.value is None or cell.value == "":
            page.write_blank(row, column, None, look)
        elif cell.link is not None:
            to = f"internal:{quoted(cell.link.sheet)}!{cell.link.cell}"
            page.write_url(row, column, to, look, cell.value)
        elif isinstance(cell.value, (int, float)):
            page.write_number(row, column, cell.value, look)
        else:
            page.write_string(row, column, cell.value, look)

    def chart(self, page, described):
        kind = {"type": "column"} if described.bars else {"type": "scatter", "subtype": "straight"}
        chart = self.workbook.add_chart(kind)
        sheet, first, column, last = described.x
        categories = [sheet, first, column, last, column]
        for number, (name, (sheet, first, column, last), *own) in enumerate(described.ys):
            if own:
                there, top, across, bottom = own[0]
                categories = [there, top, across, bottom, across]
            look = "fill" if described.bars else "line"
            chart.add_series(
                {
                    "name": name,
                    "categories": categories,
                    "values": [sheet, first, column, last, column],
                    look: _line(described, number, name),
                }
            )
        unnamed = self.bounds(chart, described)
        # In a low drawing a title has little room above the plot.
        size = 9 if described.limits and described.size[1] < LOW else 11
        chart.set_title({"name": described.title, "overlay": False,
                         "name_font": {"name": FONT, "size": size, "color": HEAD}})  # fmt: skip
        grid = {"visible": True, "line": {"color": "#DDE3EA", "width": 0.75}}
        for axis, title in (
            (chart.set_x_axis, described.x_title), (chart.set_y_axis, described.y_title),
        ):  # fmt: skip
            axis({"name": title, "major_gridlines": grid, "label_position": "low", **_FONTS})
        if described.limits:
            self.to_scale(chart, described, grid)
        if (len(described.ys) > 1 or described.band) and not described.limits:
            wide, high = described.size
            beside = high < FLAT and wide >= WIDE and not described.bars
            place = "right" if beside else "bottom"
            chart.set_legend(
                {"position": place, "delete_series": unnamed, "font": {"name": FONT, "size": 9}}
            )
        else:
            chart.set_legend({"none": True})
        chart.show_na_as_empty_cell()
        width, height = described.size
        chart.set_size({"width": width, "height": height})
        page.insert_chart(*described.at, chart, {"x_offset": 12, "y_offset": 4})

    @staticmethod
    def bounds(chart, described):
        """Draw what is wanted, and take the axes to what they show at least.

        Gives the numbers of the lines that the legend does not name.
        """
        unnamed = []
        count = len(described.ys)
        lines = [("wanted", pair, BAND) for pair in described.band]
        if described.shown is not None:
            lines.append(("", described.shown, {"none": True}))
        for number, (name, pair, line) in enumerate(lines, count):
            places = [[sheet, first, column, last, column] for sheet, first, column, last in pair]
            chart.add_series(
                {"name": name or "axis", "categories": places[0], "values": places[1],
                 "line": line}
            )  # fmt: skip
            if number > count or not name:
                unnamed.append(number)
        if lines:
            # Behind it stand the cells of these lines.
            chart.set_chartarea({"fill": {"color": "#FFFFFF"}})
        return unnamed

    @staticmethod
    def to_scale(chart, described, grid):
        """Both axes as long as their ranges, in a plot of the same shape."""
        left, right, low, high = described.limits
        for axis, name, ends, step in (
            (chart.set_x_axis, described.x_title, (left, right), described.grid[0]),
            (chart.set_y_axis, described.y_title, (low, high), described.grid[1]),
        ):
            axis({"name": name, "min": ends[0], "max": ends[1], "major_unit": step,
                  "major_gridlines": grid, "label_position": "low", "num_format": "0",
                  **_FONTS})  # fmt: skip
        chart.set_plotarea({"layout": {"x": 0.1, "y": 0.1, "width": 0.8, "height": 0.8}})

    def heat(self, page, block):
        page.conditional_format(
            *block,
            {"type": "3_color_scale", "min_color": "#6FA3DB", "mid_color": "#FFFFFF",
             "max_color": "#DF8A6B", "mid_type": "num", "mid_value": 0},
        )  # fmt: skip

    def picture(self, page, picture):
        scale = picture.width / _png_size(picture.content)[0]
        page.insert_image(
            *picture.at, picture.name,
            {"image_data": io.BytesIO(picture.content), "x_scale": scale, "y_scale": scale,
             "y_offset": 8,
             "description": picture.alt},
        )  # fmt: skip

    def verdict(self, page, block):
        for words, colours in (
            (("ok, but", UNKNOWN), DOUBT),
            ((WITHIN, "agrees", "ok", "all "), GOOD),
            ((OUTSIDE, SWAPPED, "#"), LOOK),
        ):
            if colours not in self.formats:
                self.formats[colours] = self.workbook.add_format(
                    {"bg_color": colours[0], "font_color": colours[1]}
                )
            for word in words:
                page.conditional_format(
                    *block,
                    {"type": "text", "criteria": "begins with", "value": word,
                     "format": self.formats[colours], "stop_if_true": True},
                )  # fmt: skip

    def dress(self, sheet, page):
        """Protection, printing, and how the sheet is first seen."""
        page.hide_gridlines(2)
        # No password: the lock keeps formulas from a slip of the hand, no more.
        page.protect("", {"format_cells": True, "format_columns": True, "format_rows": True})
        if sheet.colour:
            page.set_tab_color(sheet.colour)
        page.set_paper(A4)
        if sheet.printed:
            paper = paper_of(sheet)
            page.set_margins(left=paper.side, right=paper.side, **MARGINS)
            if paper.landscape:
                page.set_landscape()
            page.fit_to_pages(1, 0)
            page.set_h_pagebreaks(paper.breaks)
            if sheet.last_printed is not None:
                page.print_area(0, 0, sheet.last_printed, last_column_of(sheet))
        else:
            # Nothing is there to be printed. To print the sheet, clear its print range.
            page.print_area(*[sheet.last_row() + 2, len(sheet.widths) + 2] * 2)
        if sheet.repeat:
            page.repeat_rows(*sheet.repeat)
        title = sheet.cells.get((0, 0))
        if sheet.frozen or (title is not None and title.look == "title"):
            page.freeze_panes(sheet.frozen or 1, 0)
        page.set_footer(f"&L&8{CAUTION}&C&8&A&R&8page &P of &N", {"margin": 0.25})


def _joined(blocks):
    """The same cells in fewer blocks: those of the same columns, one below another, are one."""
    made = []
    for top, left, bottom, right in sorted(set(blocks), key=lambda b: (b[1], b[3], b[0])):
        if made and made[-1][1::2] == (left, right) and top <= made[-1][2] + 1:
            top, bottom = made[-1][0], max(made.pop()[2], bottom)
        made.append((top, left, bottom, right))
    return sorted(made)


def _line(described, number, name):
    """The look of a line: in a drawing one colour for left and one for right."""
    if not described.limits:
        return {"color": LINES[number % len(LINES)], "width": 2}
    side = str(name).split(" ")[0]
    # What leads to an instant centre is no part of the car.
    width = 0.75 if str(name).endswith("to centre") else 2
    return {"color": LINES[SIDES.get(side, number) % len(LINES)], "width": width}


def _stored(value):
    if isinstance(value, CellError):
        return value.code
    return "" if value is None else value


def _by_rule(cells):
    """[(a `Rule`, the cells that it holds)] of a sheet's (place, cell)."""
    found = {}
    for (row, column), cell in cells:
        if cell.rule is not None:
            alike = tuple(vars(cell.rule).values())
            found.setdefault(alike, (cell.rule, []))[1].append([row, column, row, column])
    return found.values()


def _validation(rule):
    made = {
        "validate": rule.kind,
        "input_title": rule.title[:32],
        "input_message": rule.message[:255],
        "error_title": "Not a number that fits",
        "error_message": rule.message[:255],
    }
    if rule.kind == "list":
        made.update({"error_title": "Not one of the words", "source": list(rule.choices)})
        if rule.listed is not None:
            sheet, first, column, last = rule.listed
            ends = cell_name(first, column, True), cell_name(last, column, True)
            made.update({"error_type": "warning", "source": "=%s!%s:%s" % (quoted(sheet), *ends)})
        return made
    least = -1e6 if rule.least is None else rule.least
    most = 1e6 if rule.most is None else rule.most
    made.update({"criteria": "between", "minimum": least, "maximum": most})
    return made


def _size_of(picture):
    """Width and height of a picture on its sheet, in pixels: of the shape that its file has."""
    width, height = _png_size(picture.content)
    return picture.width, picture.width * height / width


def _png_size(content):
    """Width and height of a PNG, as its first chunk has them (PNG specification, IHDR)."""
    return int.from_bytes(content[16:20], "big"), int.from_bytes(content[20:24], "big")
