"""The input cells that may move: their numbers, their limits, and what counts as a step."""

import math

from openpyxl.utils.cell import coordinate_to_tuple

from ...file.cell_error import CellError
from ...file.trouble import Trouble
from .asked import as_number, parted
from .targets import is_number
from .words import described, first_text


class Input:
    """An input cell that may move: its number now, its limits and its scale.

    low, high: may be infinite. is_given: whether the limits were asked for.
    """

    def __init__(self, cell, words, value, limits, is_given, kind):
        self.cell = cell
        self.words = words
        self.value = value
        self.low, self.high = limits
        self.is_given = is_given
        self.kind = kind
        self.scale = 1.0

    def end_at(self, number):
        """The end of its limits that a number is at: "lower", "upper" or None."""
        near = 1e-6 * self.scale
        if number - self.low <= near:
            return "lower"
        return "upper" if self.high - number <= near else None


def inputs_asked(book, change, within):
    """The `Input`s. book: a `Recalculation`. change: cells; within: "cell=low..high" texts."""
    asked = _limits_asked(book, within)
    found = {}
    for text in change:
        cell = book.find(text)
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given twice as an input")
        found[cell] = _input(book, cell, asked.get(cell))
    if not found:
        raise Trouble("no input is given; say which cells may move, as in --change Front!B7")
    for cell in asked:
        if cell not in found:
            raise Trouble(f"{book.said(cell)} is given limits, and is not among the inputs")
    inputs = list(found.values())
    _set_scales(inputs)
    return inputs


def _input(book, cell, asked):
    words = described(book, cell)
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
    kind = (cell[0], own, unit) if unit else (cell[0], own, coordinate_to_tuple(cell[1])[0])
    return Input(cell, words, float(value), asked or own, asked is not None, kind)


def _limits_asked(book, within):
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
        cell = book.find(name)
        if cell in found:
            raise Trouble(f"{book.said(cell)} is given limits twice")
        found[cell] = (low, high)
    return found


def _unit(book, cell):
    """The first text to the right, if it is short enough for a unit."""
    row, column = coordinate_to_tuple(cell[1])
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
        width = one.high - one.low
        if one.is_given and math.isfinite(width):
            one.scale = width
        else:
            size = sizes[one.kind] or 1.0
            one.scale = min(size, width) if math.isfinite(width) else size
