"""The sheet of shares: which deviations move each result."""

import numpy as np

from .sheet import Sheet

_MOST = 5
"""How many are named for each result."""


def add_shares(book, looks, outcome):
    """Add the sheet."""
    sheet = Sheet(
        book, looks, "Shares", "What moves each result",
        ["Shares of each result's variance, of first order: least-squares slopes over the "
         "deviations, squared, times their variances. What is missing to 100 % is bent, or "
         "noise. The five largest for each result."],
        [34, 12, *[30, 9] * _MOST],
    )  # fmt: skip
    row = sheet.row
    titles = ["result", "all, first order"]
    titles += [word for n in range(_MOST) for word in (f"{n + 1}.", "share")]
    sheet.headings(row, titles)
    for result, shares in zip(outcome.results, outcome.shares, strict=True):
        row += 1
        sheet.text(row, 0, result.shown)
        sheet.number(row, 1, shares.sum(), "0.0%")
        column = 2
        for number in np.argsort(-shares, kind="stable")[:_MOST]:
            if shares[number] < 0.0005:
                break
            sheet.text(row, column, outcome.amounts[number].name)
            sheet.number(row, column + 1, shares[number], "0.0%")
            column += 2
