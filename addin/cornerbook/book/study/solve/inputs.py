"""The input cells that may move: their numbers, their limits, and what counts as a step."""

import math

from ....cells.block import CROWN, VALUES, key_of
from ....cells.mend import is_number
from ...file.address import row_and_column
from ...file.cell_error import CellError
from ...file.trouble import Trouble
from .asked import as_number, parted
from .words import described, first_text


class Input:
    """An input cell that may move: its number now, its limits and its scale.

    low, high: may be infinite. is_given: whether the limits were asked for. source: where they
    come from, in words.
    """

    def __init__(self, cell, words, value, limits, is_given, kind, source="of the cell"):
        self.cell = cell
        self.words = words
        self.value = value
        self.low, self.high = limits
        self.is_given = is_given
        self.kind = kind
        self.source = source
        self.scale = 1.0

    def end_at(self, number):
        """The end of its limits that a number is at: "lower", "upper" or None."""
        near = 1e-6 * self.scale
        if number - self.low <= near:
            return "lower"
        return "upper" if self.high - number <= near else None


def inputs_asked(book, points, change, within):
    """The `Input`s. book: a `Recalculation`. points: its `PointCells`.

    change: cells, or points as "Front: upper ball joint x". within: "cell=low..high" texts.
    """
    asked = _limits_asked(book, points, within)
    found = {}
    for text in change:
        cell = _cell(book, points, text)
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given twice as an input")
        found[cell] = _input(book, cell, points.at(cell), asked.get(cell))
    if not found:
        raise Trouble("no input is given; say which cells may move, as in --change Front!B7")
    for cell in asked:
        if cell not in found:
            raise Trouble(f"{book.said(cell)} is given limits, and is not among the inputs")
    inputs = list(found.values())
    _set_scales(inputs)
    return inputs


def _cell(book, points, text):
    if not text.strip():
        raise Trouble("an input without a name is given; say which cell may move")
    return points.asked(text) or book.find(text)


def _input(book, cell, point, asked):
    words = f"{point.words} ({book.said(cell)})" if point else described(book, cell)
    content = book.content(cell)
    if content is None:
        raise Trouble(f"{words} is empty; an input that holds a number was expected")
    if content.formula is not None or content.in_array is not None:
        raise Trouble(
            f"{words} is a formula "
            f"({content.formula or f'of the array at {content.in_array}'}); give the input "
            "cells that it is made from"
        )
    value = content.value
    if not is_number(value):
        shown = value.code if isinstance(value, CellError) else value
        raise Trouble(f"{words} holds {shown}; an input that holds a number was expected")
    limits = book.package.limits(*cell)
    if limits is not None and limits[2]:
        raise Trouble(f"{words} takes whole numbers only, so it cannot be moved by little")
    own = (-math.inf, math.inf) if limits is None else limits[:2]
    if not own[0] < own[1]:
        own = (-math.inf, math.inf)
    unit = _unit(book, cell)
    # Inputs of one sheet with the same limits and unit, or of one row, are of one kind.
    kind = (cell[0], own, unit) if unit else (cell[0], own, row_and_column(cell[1])[0])
    source = "asked for" if asked else "of the cell"
    if point is not None and asked is None:
        proper = _in_proportion(point, float(value))
        if proper is not None:
            own = (max(own[0], proper[0]), min(own[1], proper[1]))
            source = "in proportion"
    return Input(cell, words, float(value), asked or own, asked is not None, kind, source)


FARTHEST = 0.5
"""How far a coordinate may move where nobody says, in tyre radii: a chosen limit, past which a
corner is another one."""

_TURNED = 5.0  # degrees; the same for static camber and toe


def _in_proportion(point, value):
    """(low, high) of a number of a corner, from the corner's own size; None where it has none."""
    if point.axis:
        if point.radius is None:
            return None
        return value - FARTHEST * point.radius, value + FARTHEST * point.radius
    if key_of(point.label) == key_of(VALUES[0]):
        return 0.8 * value, 1.25 * value
    if key_of(point.label) == key_of(CROWN):
        return None if point.radius is None else (0.0, FARTHEST * point.radius)
    return value - _TURNED, value + _TURNED


def _limits_asked(book, points, within):
    found = {}
    for text in within:
        name, limits = parted(text, "a cell and its limits, as in B7=140..160,")
        low, mark, high = limits.partition("..")
        if not mark or not (low.strip() or high.strip()):
            raise Trouble(f"{text}: limits were expected as LOW..HIGH, as in B7=140..160")
        low = as_number(low, text) if low.strip() else -math.inf
        high = as_number(high, text) if high.strip() else math.inf
        if not low < high:
            raise Trouble(f"{text}: the lower limit must be less than the upper one")
        cell = _cell(book, points, name)
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given limits twice")
        found[cell] = (low, high)
    return found


def _unit(book, cell):
    """The first text to the right, if it is short enough for a unit."""
    row, column = row_and_column(cell[1])
    text = first_text(book, cell[0], ((row, c) for c in range(column + 1, column + 6)))
    return text if text is not None and len(text) <= 10 else None


def _set_scales(inputs):
    """How far each input counts as having moved by one.

    Limits that were asked for: the range between them. Else the size of the largest number
    among inputs of the same kind, so that a millimetre is a millimetre for x, y and z; at
    most the range of the cell's own limits.
    """
    sizes = {}
    for one in inputs:
        sizes[one.kind] = max(sizes.get(one.kind, 0.0), abs(one.value))
    for one in inputs:
        # Limits in proportion only keep a solution sane: they are no measure of a movement.
        width = math.inf if one.source == "in proportion" else one.high - one.low
        if one.is_given and math.isfinite(width):
            one.scale = width
        else:
            size = sizes[one.kind] or 1.0
            one.scale = min(size, width) if math.isfinite(width) else size
