"""What the cells of a workbook depend on by their formulas' references, values not asked."""

import re
from bisect import bisect_left, bisect_right
from functools import cached_property
from itertools import groupby

from cornerbook.book.file.trouble import Trouble

_TEXT = re.compile(r'"[^"]*"')
_SHEET = r"(?:'(?:[^']|'')+'|[A-Za-z_][\w.]*)!"
_CELL = r"\$?[A-Z]{1,3}\$?[0-9]+"
_REFERENCE = re.compile(rf"(?:{_SHEET})?{_CELL}(?::{_CELL})?(?![\w(])|[A-Za-z_][\w.]*(?![\w.(!])")


class Dependence:
    """For each formula cell of a workbook, the formula cells within the ranges that it names.

    package: the workbook as a `Package`. `cells`: {(sheet, row, column) from zero: formula}. A
    cell is taken to depend on all of each range in its formula, whichever branch of an IF it
    stands in and whichever cell of it a look-up takes: as the strictest programs have it.
    """

    def __init__(self, package):
        self._package = package
        self.cells = {}
        self._arrays = {}
        for sheet in package.sheets:
            for address, content in package.cells(sheet).items():
                if content.formula is not None:
                    for cell in self._within(content.array or address, sheet):
                        self.cells[cell] = content.formula
                        self._arrays[cell] = (sheet, address)
        self._rows = {}
        self._known = {}
        for sheet, row, column in sorted(self.cells):
            self._rows.setdefault((sheet, row), []).append(column)

    def _within(self, text, sheet, address=None):
        where, top, left, bottom, right = self._package.resolve(text, sheet, address)
        for row in range(top, bottom + 1):
            for column in range(left, right + 1):
                yield where, row, column

    @cached_property
    def needs(self):
        """{cell: the formula cells that it depends on}."""
        return {cell: self._of(cell) for cell in self.cells}

    def _of(self, cell):
        sheet, address = self._arrays[cell]
        ranges = set()
        for text in set(_REFERENCE.findall(_TEXT.sub("", self.cells[cell]))):
            try:
                ranges.add(self._package.resolve(text, sheet, address))
            except Trouble:
                continue  # TRUE, or a name that is no range
        return set().union(*map(self._formulas_in, ranges))

    def _formulas_in(self, place):
        """The formula cells of a range, which many formulas name."""
        if place not in self._known:
            where, top, left, bottom, right = place
            found = self._known[place] = []
            for row in range(top, bottom + 1):
                there = self._rows.get((where, row), ())
                within = there[bisect_left(there, left) : bisect_right(there, right)]
                found += [(where, row, column) for column in within]
        return self._known[place]

    def circles(self):
        """The cells that depend on themselves, by any way, and the ways between them."""
        needs = self.needs
        for forward in (True, False):
            needs = _without_ends(needs) if forward else _turned(_without_ends(_turned(needs)))
        return needs


def _without_ends(needs):
    """A graph without the cells from which every way comes to an end."""
    waits = {cell: len(others) for cell, others in needs.items()}
    needed_by = _turned(needs)
    done = [cell for cell, count in waits.items() if count == 0]
    for cell in done:  # it grows on the way
        for other in needed_by[cell]:
            waits[other] -= 1
            if waits[other] == 0:
                done.append(other)
    ended = set(done)
    return {cell: others - ended for cell, others in needs.items() if cell not in ended}


def _turned(needs):
    turned = {cell: set() for cell in needs}
    for cell, others in needs.items():
        for other in others:
            turned[other].add(cell)
    return turned


def told(cells):
    """Sheets and how many cells of each, for a message."""
    return [(sheet, len(list(some))) for sheet, some in groupby(sorted(cells), lambda c: c[0])]
