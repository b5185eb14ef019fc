"""The workbook of a tolerance study: results, what moves them, and histograms."""

import io

import numpy as np
import xlsxwriter

from .... import __version__
from ...file.appearance import CAUTION
from ...make.style import properties
from ...make.write import CREATED
from .outcome import PERCENTS, SIGMAS

BINS = 30
SHOWN = 3
"""How many parts are named as worth a better jig."""

_MOST_SHARES = 5
_INSIDE, _OUTSIDE = "#3B8A4E", "#B5472F"


def said(outcome):
    """One sentence on what came out."""
    words = f"{outcome.cars} cars"
    if outcome.banded:
        words += f", {100.0 * outcome.passing:.1f} % within all bands"
    best = [outcome.parts[i] for i in outcome.ranking[:SHOWN]]
    if best:
        words += "; most worth a better jig: " + "; ".join(best)
    return words


def to_xlsx(outcome):
    """The bytes of the workbook; the same outcome gives the same bytes."""
    output = io.BytesIO()
    book = xlsxwriter.Workbook(
        output,
        {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False,
         "nan_inf_to_errors": True},
    )  # fmt: skip
    book.set_properties(
        {
            "title": f"Tolerances of {outcome.study.name}",
            "comments": f"Made by cornerbook {__version__}. {CAUTION}",
            "created": CREATED,
        }
    )
    writer = _Writer(book, outcome)
    writer.results()
    writer.shares()
    writer.tolerances()
    writer.histograms()
    book.close()
    return output.getvalue()


class _Writer:
    def __init__(self, book, outcome):
        self.book = book
        self.outcome = outcome
        self.formats = {}

    def look(self, name, number_format=None):
        key = (name, number_format)
        if key not in self.formats:
            self.formats[key] = self.book.add_format(properties(name, number_format))
        return self.formats[key]

    def page(self, name, title, lines, widths):
        page = self.book.add_worksheet(name)
        page.hide_gridlines(2)
        page.set_landscape()
        page.fit_to_pages(1, 0)
        for column, width in enumerate(widths):
            page.set_column(column, column, width)
        page.write(0, 0, title, self.look("title"))
        for row, line in enumerate(lines, 1):
            page.merge_range(row, 0, row, min(len(widths), 9) - 1, line, self.look("text"))
            page.set_row(row, 15 * (1 + len(line) // 150))
        return page, len(lines) + 2

    def headings(self, page, row, titles):
        for column, title in enumerate(titles):
            page.write(row, column, title, self.look("column" if column else "column first"))
        page.set_row(row, 30)

    def number(self, page, row, column, value, number_format):
        if value is None or not np.isfinite(value):
            page.write_blank(row, column, None, self.look("value"))
        else:
            page.write_number(row, column, float(value), self.look("value", number_format))

    # The pages

    def results(self):
        outcome = self.outcome
        law = (
            f"by the normal law, the tolerance being {SIGMAS:g} standard deviations"
            if outcome.spread == "normal"
            else "alike over all of the tolerance to either side"
        )
        lines = [
            f"{outcome.cars} cars built to {outcome.study.name}, each coordinate or jig off on "
            f"its own {law}; seed {outcome.seed}. Tolerances "
            "stand on the page Tolerances.",
            "A car without a value, because its linkage does not reach or an input does not "
            "suit, counts as outside the band. " + CAUTION,
        ]
        page, row = self.page(
            "Results", f"Tolerances of {outcome.study.name}", lines,
            [34, 26, 10, 12, 12, 12, *[11] * 5, 11, 11, 11, 11],
        )  # fmt: skip
        row = self.overall(page, row)
        titles = ["result", "row", "unit", "as drawn", "mean", "standard deviation"]
        titles += [f"{percent} %" for percent in PERCENTS]
        titles += ["wanted from", "to", "within the band", "cars without a value"]
        self.headings(page, row, titles)
        for i, result in enumerate(outcome.results):
            row += 1
            shown_as = _format_for(outcome.deviation[i], result.drawn)
            page.write(row, 0, result.name, self.look("label"))
            page.write(row, 1, result.label, self.look("label"))
            page.write(row, 2, result.unit, self.look("unit"))
            numbers = [result.drawn, outcome.mean[i], outcome.deviation[i]]
            numbers += list(outcome.percentiles[i])
            for column, value in enumerate(numbers, 3):
                self.number(page, row, column, value, shown_as)
            for column, value in enumerate((result.low, result.high), 3 + len(numbers)):
                self.number(page, row, column, value, "0.####")
            self.number(page, row, 13, outcome.inside[i], "0.0%")
            self.number(page, row, 14, outcome.missing[i], "0")
        row += 2
        if outcome.left_out:
            page.write(row, 0, "Left out", self.look("heading"))
            for name, why in outcome.left_out:
                row += 1
                page.write(row, 0, name, self.look("label"))
                page.write(row, 1, why, self.look("label"))

    def overall(self, page, row):
        outcome = self.outcome
        page.write(row, 0, "All together", self.look("heading"))
        row += 1
        if outcome.banded:
            page.write(row, 0, "Cars within all bands", self.look("label"))
            self.number(page, row, 1, outcome.passing, "0.0%")
            row += 1
        page.write(row, 0, "Cars without some result", self.look("label"))
        self.number(page, row, 1, outcome.without, "0")
        row += 2
        page.write(row, 0, "Worth a better jig", self.look("heading"))
        row += 1
        self.headings(page, row, ["what", "cars within all bands without it",
                                  "tolerance", "gain", "weight"])  # fmt: skip
        for number in outcome.ranking[:SHOWN]:
            row += 1
            part = outcome.parts[number]
            widest = max(a.within for a in outcome.amounts if a.part == part)
            page.write(row, 0, part, self.look("label"))
            self.number(page, row, 1, outcome.part_passing[number], "0.0%")
            self.number(page, row, 2, widest, "0.###")
            self.number(page, row, 3, outcome.part_passing[number] - outcome.passing, "0.0%")
            self.number(page, row, 4, outcome.part_weight[number], "0.0000")
        row += 1
        page.merge_range(
            row, 0, row, 8,
            "Without it: had this coordinate, or this jig, no deviation, by first-order slopes "
            "fitted to all cars. Weight: its variance in each result over half the band "
            "squared, added up" + ("." if outcome.banded else "; no row has a band, so shares."),
            self.look("aside"),
        )  # fmt: skip
        page.set_row(row, 26)
        return row + 2

    def shares(self):
        outcome = self.outcome
        page, row = self.page(
            "Shares", "What moves each result",
            ["Shares of each result's variance, of first order: least-squares slopes over the "
             "deviations, squared, times their variances. What is missing to 100 % is bent, or "
             "noise. The five largest for each result."],
            [34, 12, *[30, 9] * _MOST_SHARES],
        )  # fmt: skip
        titles = ["result", "all, first order"]
        titles += [word for n in range(_MOST_SHARES) for word in (f"{n + 1}.", "share")]
        self.headings(page, row, titles)
        for i, result in enumerate(outcome.results):
            row += 1
            page.write(row, 0, result.name, self.look("label"))
            self.number(page, row, 1, outcome.shares[i].sum(), "0.0%")
            order = np.argsort(-outcome.shares[i], kind="stable")[:_MOST_SHARES]
            column = 2
            for number in order:
                if outcome.shares[i, number] < 0.0005:
                    break
                page.write(row, column, outcome.amounts[number].name, self.look("label"))
                self.number(page, row, column + 1, outcome.shares[i, number], "0.0%")
                column += 2

    def tolerances(self):
        outcome = self.outcome
        law = (
            f"normal: {SIGMAS:g} standard deviations"
            if outcome.spread == "normal"
            else "uniform: the end of the range"
        )
        page, row = self.page(
            "Tolerances", "Tolerances", ["In the workbook's unit of length; " + law + "."],
            [44, 12, 16, 12, *[9] * 4],
        )  # fmt: skip
        gains = dict(zip(outcome.parts, outcome.part_passing - outcome.passing, strict=True))
        self.headings(page, row, ["what is off", "tolerance", "coordinates moved", "gain without"])
        for amount in outcome.amounts:
            row += 1
            page.write(row, 0, amount.name, self.look("label"))
            self.number(page, row, 1, amount.within, "0.###")
            self.number(page, row, 2, len(amount.cells), "0")
            self.number(page, row, 3, gains[amount.part], "0.0%")

    def histograms(self):
        outcome = self.outcome
        page, top = self.page(
            "Histograms", "Histograms",
            ["How many cars came to what. The end bars hold what lies beyond them, from the "
             "lowest and the highest thousandth on."],
            [9] * 24,
        )  # fmt: skip
        data = self.book.add_worksheet("Histogram data")
        place = 0
        for i, result in enumerate(outcome.results):
            if outcome.varies[i]:
                chart = self.histogram(data, place, i, result)
                page.insert_chart(top + 16 * (place // 3), 7 * (place % 3), chart)
                place += 1

    def histogram(self, data, place, i, result):
        values = self.outcome.values[i]
        values = values[np.isfinite(values)]
        edges, inside, outside = histogram_of(values, result.low, result.high)
        left = 4 * place
        data.write(0, left, result.name)
        titles = ["from", "to", "cars", ""] if result.low is None else ["from", "to", "within",
                                                                         "outside"]  # fmt: skip
        for column, title in enumerate(titles):
            data.write(1, left + column, title)
        for row in range(BINS):
            numbers = [_short(edges[row], edges), _short(edges[row + 1], edges)]
            numbers += [int(inside[row]), int(outside[row])]
            for column, value in enumerate(numbers[: 3 if result.low is None else 4]):
                data.write_number(row + 2, left + column, value)
        chart = self.book.add_chart({"type": "column", "subtype": "stacked"})
        series = [(2, _INSIDE)] if result.low is None else [(2, _INSIDE), (3, _OUTSIDE)]
        for column, colour in series:
            chart.add_series(
                {
                    "name": ["Histogram data", 1, left + column],
                    "categories": ["Histogram data", 2, left, BINS + 1, left],
                    "values": ["Histogram data", 2, left + column, BINS + 1, left + column],
                    "fill": {"color": colour}, "gap": 5,
                }
            )  # fmt: skip
        title = result.name + (f" ({result.unit})" if result.unit else "")
        if result.low is not None:
            title += f", wanted {result.low:g} to {result.high:g}"
        chart.set_title({"name": title, "name_font": {"size": 10}, "overlay": False})
        chart.set_legend({"none": True})
        chart.set_x_axis({"num_font": {"size": 8, "rotation": -45}, "interval_unit": 5})
        chart.set_y_axis({"num_font": {"size": 8}, "major_gridlines": {"visible": False}})
        chart.set_size({"width": 430, "height": 300})
        return chart


def histogram_of(values, low, high):
    """(edges, cars within the band, cars outside it) by bins; without a band all are within."""
    start, end = np.percentile(values, (0.1, 99.9))
    if not end > start:
        start, end = values.min(), values.max()
    edges = np.linspace(start, end, BINS + 1)
    if low is None:
        inside = np.ones(values.shape, dtype=bool)
    else:
        inside = (values >= low) & (values <= high)
    held = np.clip(values, start, end)
    return (
        edges,
        np.histogram(held[inside], bins=BINS, range=(start, end))[0],
        np.histogram(held[~inside], bins=BINS, range=(start, end))[0],
    )


def _short(value, edges):
    """An edge with as many digits as tell it from the next."""
    digits = int(np.clip(2 - np.floor(np.log10(edges[1] - edges[0])), 0, 15))
    return float(np.round(value, digits))


def _format_for(deviation, drawn):
    """A number format with three digits of what varies, or enough of what does not."""
    size = deviation if np.isfinite(deviation) and deviation > 1e-9 else abs(drawn)
    digits = 3 if not size > 0.0 else int(np.clip(2 - np.floor(np.log10(size)), 0, 8))
    return "0." + "0" * digits if digits else "0"
