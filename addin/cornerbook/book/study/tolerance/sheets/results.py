"""The sheet of results: what each spreads, how many cars are right, what is worth a better jig."""

import numpy as np

from ....file.appearance import CAUTION
from ..draws import SIGMAS
from ..figures import PERCENTS
from ..parts import SHOWN
from .sheet import Sheet


def add_results(book, looks, outcome):
    """Add the sheet."""
    sheet = Sheet(
        book, looks, "Results", f"Tolerances of {outcome.study.name}", _lines(outcome),
        [34, 26, 10, 12, 12, 12, *[11] * 5, 11, 11, 11, 11],
    )  # fmt: skip
    row = _write_overall(sheet, sheet.row, outcome)
    row = _write_parts(sheet, row, outcome)
    row = _write_table(sheet, row, outcome)
    if outcome.left_out:
        _write_left_out(sheet, row, outcome.left_out)


def _lines(outcome):
    law = (
        f"by the normal law, the tolerance being {SIGMAS:g} standard deviations"
        if outcome.spread == "normal"
        else "alike over all of the tolerance to either side"
    )
    return [
        f"{outcome.cars} cars built to {outcome.study.name}, each coordinate or jig off on "
        f"its own {law}; seed {outcome.seed}. Tolerances stand on the page Tolerances.",
        "A car without a value, because its linkage does not reach or an input does not "
        "suit, counts as outside the band. " + CAUTION,
    ]


# Each writes from a row on and returns the next one free.


def _write_overall(sheet, row, outcome):
    if outcome.failing:
        sheet.text(row, 0, "The drawing itself is outside what is wanted", "heading")
        row += 1
        sheet.headings(row, ["result", "as drawn", "unit", "wanted"])
        for result in outcome.failing:
            row += 1
            sheet.text(row, 0, result.shown)
            sheet.number(row, 1, result.drawn, _format_for(np.nan, result.drawn))
            sheet.text(row, 2, result.unit, "unit")
            sheet.text(row, 3, result.band)
        row += 1
        sheet.paragraph(
            row, 9,
            "No jig mends these: change the drawing, or what is wanted. What follows is about the "
            "other results alone.", "aside", 14,
        )  # fmt: skip
        row += 2
    sheet.text(row, 0, "All together", "heading")
    row += 1
    if outcome.banded:
        rest = " of the rest" if outcome.failing else ""
        sheet.text(row, 0, f"Cars within all bands{rest}")
        sheet.number(row, 1, outcome.passing, "0.0%")
        row += 1
    sheet.text(row, 0, "Cars without some result")
    sheet.number(row, 1, outcome.without, "0")
    return row + 2


def _write_parts(sheet, row, outcome):
    sheet.text(row, 0, "Worth a better jig", "heading")
    row += 1
    sheet.headings(row, ["what", "cars within all bands without it", "tolerance", "gain", "weight"])
    for number in outcome.ranking[:SHOWN]:
        row += 1
        part = outcome.parts[number]
        widest = max(a.within for a in outcome.amounts if a.part == part)
        sheet.text(row, 0, part)
        sheet.number(row, 1, outcome.part_passing[number], "0.0%")
        sheet.number(row, 2, widest, "0.###")
        sheet.number(row, 3, outcome.part_passing[number] - outcome.passing, "0.0%")
        sheet.number(row, 4, outcome.part_weight[number], "0.0000")
    row += 1
    sheet.paragraph(
        row, 9,
        "Without it: had this coordinate, or this jig, no deviation, by first-order slopes "
        "fitted to all cars. Weight: its variance in each result over half the band "
        "squared, added up" + ("." if outcome.banded else "; no row has a band, so shares."),
        "aside", 26,
    )  # fmt: skip
    return row + 2


def _write_table(sheet, row, outcome):
    titles = ["result", "cell", "unit", "as drawn", "mean", "standard deviation"]
    titles += [f"{percent} %" for percent in PERCENTS]
    titles += ["wanted from", "to", "within the band", "cars without a value"]
    sheet.headings(row, titles)
    for i, result in enumerate(outcome.results):
        row += 1
        shown_as = _format_for(outcome.deviation[i], result.drawn)
        sheet.text(row, 0, result.shown)
        sheet.text(row, 1, "%s!%s" % result.cell)
        sheet.text(row, 2, result.unit, "unit")
        numbers = [result.drawn, outcome.mean[i], outcome.deviation[i]]
        numbers += list(outcome.percentiles[i])
        for column, value in enumerate(numbers, 3):
            sheet.number(row, column, value, shown_as)
        for column, value in enumerate((result.low, result.high), 3 + len(numbers)):
            sheet.number(row, column, value, "0.####")
        sheet.number(row, 13, outcome.inside[i], "0.0%")
        sheet.number(row, 14, outcome.missing[i], "0")
    return row + 2


def _write_left_out(sheet, row, left_out):
    sheet.text(row, 0, "Left out", "heading")
    for name, why in left_out:
        row += 1
        sheet.text(row, 0, name)
        sheet.text(row, 1, why)


def _format_for(deviation, drawn):
    """A number format with three digits of what varies, or enough of what does not."""
    size = deviation if np.isfinite(deviation) and deviation > 1e-9 else abs(drawn)
    digits = 3 if not size > 0.0 else int(np.clip(2 - np.floor(np.log10(size)), 0, 8))
    return "0." + "0" * digits if digits else "0"
