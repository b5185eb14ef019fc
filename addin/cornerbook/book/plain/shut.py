"""Calls of ours whose results nobody can move: they and all that they read are locked."""

from ..file.address import cell_name
from ..file.trouble import Trouble
from ..formula.evaluate import NAMESPACE
from ..formula.functions import function_named
from ..formula.parse import nodes


class Shut:
    """Tells which those are.

    package: the workbook. trees: its `Trees`.
    """

    def __init__(self, package, trees):
        self._trees = trees
        self._locked = {sheet: package.held_shut(sheet) for sheet in package.sheets}
        self._fixed = {}

    def has(self, sheet, address):
        """Whether a cell's formula, and every cell that it reads, is locked on a protected sheet.

        What it reads must be plain values: behind a formula there may be a cell for typing.
        """
        if address not in self._locked[sheet]:
            return False
        cell = sheet, address
        try:
            return all(self._is_fixed(node, cell) for node in nodes(self._trees.tree(cell)))
        except Trouble:
            return False  # what is wrong is said when it is written in plain formulas

    def _is_fixed(self, node, cell):
        """Whether a part of a cell's formula always comes to the same."""
        if node[0] == "reference":
            return self._holds_values(self._trees.place(node[1], self._trees.at(cell)))
        if node[0] != "call" or node[1].startswith(NAMESPACE):
            return True
        # Functions that come to something else each time, or from cells that their text does not
        # show, are not among those that are known.
        return function_named(node[1]) is not None

    def _holds_values(self, place):
        """Whether a range holds locked values alone."""
        if place not in self._fixed:
            sheet, top, left, bottom, right = place
            self._fixed[place] = all(
                self._is_value(sheet, cell_name(row, column))
                for row in range(top, bottom + 1)
                for column in range(left, right + 1)
            )
        return self._fixed[place]

    def _is_value(self, sheet, address):
        cell = sheet, address
        return address in self._locked[sheet] and not self._trees.is_made(cell)
