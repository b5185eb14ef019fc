"""The sheet of tolerances: how far everything was taken to be off."""

from ..draws import SIGMAS
from .sheet import Sheet


def add_tolerances(book, looks, outcome):
    """Add the sheet."""
    law = (
        f"normal: {SIGMAS:g} standard deviations"
        if outcome.spread == "normal"
        else "uniform: the end of the range"
    )
    sheet = Sheet(
        book, looks, "Tolerances", "Tolerances",
        ["In the workbook's unit of length; " + law + "."], [44, 12, 16, 12, *[9] * 4],
    )  # fmt: skip
    row = sheet.row
    gains = dict(zip(outcome.parts, outcome.part_passing - outcome.passing, strict=True))
    sheet.headings(row, ["what is off", "tolerance", "coordinates moved", "gain without"])
    for amount in outcome.amounts:
        row += 1
        sheet.text(row, 0, amount.name)
        sheet.number(row, 1, amount.within, "0.###")
        sheet.number(row, 2, len(amount.cells), "0")
        sheet.number(row, 3, gains[amount.part], "0.0%")
