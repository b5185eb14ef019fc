"""How a sheet goes on paper: whole pages of A4, as few as can be read, no drawing cut.

The program fits the sheet's width to the paper's, whatever the fonts that it finds make of the
width. It would leave out our page breaks if it fitted the height too, or in Excel if it had a scale
besides, so a scale below that of the width is had by wider margins. Where pages end is found here,
with the widths of the font that the file asks for: a wider one makes a page hold more rows.
"""

from bisect import bisect_right

# A4 in points, and what the margins leave of it: left and right, top and bottom together.
_SHORT, _LONG = 595.3, 841.9
MARGINS = {"top": 0.4, "bottom": 0.55}
"""In inches; the footer stands within the lower one."""
_SIDE = 0.35
_INCH = 72.0
_DOWN = _INCH * (MARGINS["top"] + MARGINS["bottom"])

# Of the paper, what is reckoned with: programs round heights in their own ways.
_SPARE = 0.97

LEAST = 55
"""The smallest scale in per cent: text of ten points is then five and a half."""

# Points of a pixel, and the pixels of a column that no width is given for.
_PIXEL = 0.75
_USUAL = 64

# Rows that are to stand on the page of the row below them.
_LEADING = {
    "title", "below", "heading", "aside", "column", "column first", "column verdict", "column unit",
}  # fmt: skip


class Paper:
    """landscape: whether the long side lies across. scale: in per cent. side: the margin to the
    left and to the right, in inches. breaks: rows before which a page ends."""

    def __init__(self, landscape, scale, side, breaks):
        self.landscape = landscape
        self.scale = scale
        self.side = side
        self.breaks = breaks

    @property
    def pages(self):
        """How many it takes."""
        return len(self.breaks) + 1


def paper_of(sheet):
    """The `Paper` of a sheet: the fewest pages, and of these the largest scale."""
    tops = sheet.tops()
    if sheet.last_printed is not None:
        tops = tops[: sheet.last_printed + 2]
    places = _places(sheet, len(tops) - 1)
    width = width_of(sheet)
    found = []
    for landscape in (True, False):
        across, down = (_LONG, _SHORT) if landscape else (_SHORT, _LONG)
        most = int(min(100.0, 100.0 * _SPARE * (across - 2.0 * _SIDE * _INCH) / width))
        for scale in range(most, min(most, LEAST) - 1, -1):
            height = _SPARE * (down - _DOWN) * 100.0 / scale
            found.append((landscape, scale, height, _last_breaks(tops, places, height)))
    readable = [one for one in found if one[1] >= LEAST] or [max(found, key=lambda one: one[1])]
    landscape, scale, height, last = min(
        readable, key=lambda one: (len(one[3]), -one[1], not one[0])
    )
    side = ((_LONG if landscape else _SHORT) - 0.01 * scale * width / _SPARE) / (2.0 * _INCH)
    breaks = _breaks(set(sheet.blocks), tops, places, height, last)
    return Paper(landscape, scale, max(_SIDE, side), breaks)


def width_of(sheet):
    """How wide a sheet is, in points, with the drawings on it."""
    used = max((cell.span or column for (_, column), cell in sheet.cells.items()), default=0)
    ends = [sum(_pixels(sheet, column) for column in range(used + 1))]
    for drawn in sheet.charts:
        ends.append(sum(_pixels(sheet, c) for c in range(drawn.at[1])) + 12 + drawn.size[0])
    for drawn in sheet.pictures:
        ends.append(sum(_pixels(sheet, c) for c in range(drawn.at[1])) + drawn.width)
    return max(ends) * _PIXEL


def last_column_of(sheet):
    """The last column that the sheet's cells or the drawings on it reach into."""
    last, end = len(sheet.widths) - 1, width_of(sheet) / _PIXEL
    while sum(_pixels(sheet, column) for column in range(last + 1)) < end:
        last += 1
    return last


def _pixels(sheet, column):
    if column >= len(sheet.widths):
        return _USUAL
    return int(sheet.widths[column] * 7 + 0.5) + 5


def _breaks(blocks, tops, places, height, last):
    """The rows before which a page ends, of as few pages so high, in points at full size.

    last: those of `_last_breaks`.
    """
    breaks: list = []
    while len(breaks) < len(last):
        first = breaks[-1] if breaks else 0
        within = [row for row in places if first < row <= last[len(breaks)]]
        left = len(last) - len(breaks) - 1
        # A block's own beginning is the best place, if it does not take a page more.
        enough = [
            row for row in within
            if row in blocks and len(_last_breaks(tops, places, height, row)) <= left
        ]  # fmt: skip
        breaks.append((enough or [last[len(breaks)]])[-1])
    return breaks


def _last_breaks(tops, places, height, first=0):
    """The rows before which a page ends, from a row on, if each page is as full as can be."""
    breaks = []
    while tops[-1] - tops[first] > height:
        end = bisect_right(tops, tops[first] + height) - 1
        at = bisect_right(places, end) - 1
        # Where there is no such place, even a drawing is cut.
        first = places[at] if at >= 0 and places[at] > first else max(end, first + 1)
        breaks.append(first)
    return breaks


def _places(sheet, count):
    """The rows before which a page may end: no drawing is cut, no heading left alone."""
    held = set()
    for drawn in sheet.charts + sheet.pictures:
        held.update(range(drawn.at[0] + 1, drawn.at[0] + drawn.rows))
    for (row, _), cell in sheet.cells.items():
        if cell.look in _LEADING:
            held.add(row + 1)
    return [row for row in range(1, count) if row not in held]
