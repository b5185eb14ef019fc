"""The sheet of histograms, with the sheet of the numbers that they show."""

import numpy as np

from .sheet import Sheet

BINS = 30

_DATA = "Histogram data"
_INSIDE, _OUTSIDE = "#3B8A4E", "#B5472F"


def add_histograms(book, looks, outcome):
    """Add both sheets, with a chart for each result that varies."""
    sheet = Sheet(
        book, looks, "Histograms", "Histograms",
        ["How many cars came to what. The end bars hold what lies beyond them, from the "
         "lowest and the highest thousandth on."],
        [9] * 24,
    )  # fmt: skip
    data = book.add_worksheet(_DATA)
    place = 0
    for i, result in enumerate(outcome.results):
        if outcome.varies[i]:
            left = 4 * place
            _write_numbers(data, left, result, outcome.values[i])
            row, column = sheet.row + 16 * (place // 3), 7 * (place % 3)
            sheet.page.insert_chart(row, column, _chart(book, left, result))
            place += 1


def _write_numbers(data, left, result, values):
    """The bins of a result, in three columns from `left` on, or four where it has a band."""
    edges, inside, outside = histogram_of(values[np.isfinite(values)], result.low, result.high)
    data.write(0, left, result.shown)
    titles = ["from", "to", "within", "outside"] if result.is_banded else ["from", "to", "cars", ""]
    for column, title in enumerate(titles):
        data.write(1, left + column, title)
    for row in range(BINS):
        numbers = [_short(edges[row], edges), _short(edges[row + 1], edges)]
        numbers += [int(inside[row]), int(outside[row])]
        for column, value in enumerate(numbers[: 4 if result.is_banded else 3]):
            data.write_number(row + 2, left + column, value)


def _chart(book, left, result):
    """The chart of the numbers of a result that begin in column `left`."""
    chart = book.add_chart({"type": "column", "subtype": "stacked"})
    series = [(2, _INSIDE), (3, _OUTSIDE)] if result.is_banded else [(2, _INSIDE)]
    for column, colour in series:
        chart.add_series(
            {
                "name": [_DATA, 1, left + column],
                "categories": [_DATA, 2, left, BINS + 1, left],
                "values": [_DATA, 2, left + column, BINS + 1, left + column],
                "fill": {"color": colour}, "gap": 5,
            }
        )  # fmt: skip
    title = result.shown + (f" ({result.unit})" if result.unit else "")
    if result.is_banded:
        title += f", wanted {result.band}"
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
