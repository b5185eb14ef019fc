"""What makes two arguments one, so that they share a row of the workings."""

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.rewrite import Call, is_opposite, quoted, taken_apart
from ..workings.asked import opposite
from .elsewhere import as_written

MOST_STEPS = 20
"""Cells that only refer to another one are followed this far."""


class Identity:
    """Names the cell or the text that an argument comes from, the same for equal arguments.

    package: the workbook. cells: {sheet: its cells} of it. elsewhere: its `Elsewhere`.
    """

    def __init__(self, package, cells, elsewhere):
        self._package = package
        self._cells = cells
        self._elsewhere = elsewhere

    def of(self, parts, sheet, address):
        """The text that equal arguments share. parts: the argument's, of a cell's formula."""
        if is_opposite(parts):
            # A formula of both wheels asks for the opposite of its rack in the same way.
            return opposite(self.of(parts[1:], sheet, address))
        text = self._elsewhere.text(parts, as_written, sheet, address)
        for _ in range(MOST_STEPS):
            cell = self._one_cell(text, sheet, address)
            if cell is None:
                return text
            sheet, address, fixed = cell
            text = f"{quoted(sheet)}!{fixed}"
            content = self._cells[sheet].get(address)
            if content is None or content.formula is None:
                return text
            inner = taken_apart(content.formula)
            if is_opposite(inner):
                return opposite(self.of(inner[1:], sheet, address))
            if len(inner) != 1 or isinstance(inner[0], Call) or "(" in content.formula:
                return text
            following = self._elsewhere.text(inner, as_written, sheet, address)
            if not self._is_range(following, sheet, address):
                return text
            text = following
        return text

    def _one_cell(self, text, sheet, address):
        """(sheet, address, address with $ signs) of the one cell that a text means, or None."""
        try:
            where, top, left, bottom, right = self._package.resolve(text, sheet, address)
        except Trouble:
            return None
        if (top, left) != (bottom, right):
            return None
        return where, cell_name(top, left), cell_name(top, left, True)

    def _is_range(self, text, sheet, address):
        try:
            self._package.resolve(text, sheet, address)
        except Trouble:
            return False
        return True
