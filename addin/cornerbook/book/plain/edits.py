"""What was edited in a shared copy since it was made."""

from typing import NamedTuple

from ..file.address import boundaries, row_and_column
from ..file.trouble import Trouble, some_of
from ..file.words import words_of
from .as_shared import held_rows
from .held import NOTHING, is_same, shown

_NAMED = 5
"""How many sheets a sentence names."""


class Edit(NamedTuple):
    """A yellow cell that holds something else than when the copy was made.

    what: what it is, in words. before, now: a float, text, logical or None for an empty cell.
    followed: whether it had a formula, which before is the value of. by_formula: whether a formula
    that was typed there gives what it holds now.
    """

    sheet: str
    address: str
    what: str
    before: float | str | bool | None
    now: float | str | bool | None
    followed: bool
    by_formula: bool

    @property
    def cell(self):
        """(sheet, address)."""
        return self.sheet, self.address

    @property
    def place(self):
        """(row, column), from 0."""
        row, column = row_and_column(self.address)
        return row - 1, column - 1

    def was(self, value):
        """Whether a value is what the cell held when the copy was made."""
        return is_same(value, self.before)

    def is_now(self, value):
        """Whether a value is what the cell holds."""
        return is_same(value, self.now)

    @property
    def said(self):
        """Where it is, in words."""
        return f"{self.sheet}!{self.address}" + (f" ({self.what})" if self.what else "")


def edits_of(package):
    """(the `Edit`s of a copy, sheet by sheet from the top, sentences on what cannot be told).

    package: the copy. Raises `Trouble` for what is no copy that says what its cells held.
    """
    rows = held_rows(package)
    if rows is None:
        raise Trouble(
            f"{package.where} is no copy that cornerbook share made, or one of a version that did "
            "not write down what its yellow cells held"
        )
    edits, gone, sheets = [], [], {}
    for where, then in rows:
        try:
            sheet, area = _place(where)
        except ValueError:
            raise Trouble(
                f"{package.where} says of a cell called {where!r} what it held; the sheet on "
                "which it does so was changed"
            ) from None
        if sheet not in package.sheets:
            gone.append(sheet)
            continue
        if sheet not in sheets:
            sheets[sheet] = _Sheet(package, sheet)
        edits += sheets[sheet].edits_in(area, then)
    if not gone:
        return edits, []
    named = some_of(list(dict.fromkeys(gone)), _NAMED)
    return edits, [f"Not in {package.where}, so nothing was taken of: {named}."]


def _place(where):
    """(sheet, (left, top, right, bottom) from 1) of a place such as "Car!B5"."""
    sheet, _, area = str(where).rpartition("!")
    found = boundaries(area)
    if None in found:
        raise ValueError(f"{area} is no range of cells")
    return sheet, found


class _Sheet:
    """A sheet of a copy."""

    def __init__(self, package, name):
        self._name = name
        self._cells = package.cells(name)
        inputs = package.inputs(name)
        self._words = words_of(self._cells, inputs)
        self._inputs = [(row_and_column(address), address) for address in inputs]

    def edits_in(self, area, then):
        """The `Edit`s of one row of the sheet of what cells held; then: what that says of them."""
        left, top, right, bottom = area
        followed = then is not None and then.formula is not None
        before = None if then is None or then.value in ("", shown(NOTHING)) else then.value
        for (row, column), address in self._inputs:
            if not (top <= row <= bottom and left <= column <= right):
                continue
            content = self._cells.get(address)
            now = None if content is None or content.value == "" else content.value
            if not is_same(now, before):
                what = self._words.of(row - 1, column - 1)
                by_formula = content is not None and content.formula is not None
                yield Edit(self._name, address, what, before, now, followed, by_formula)
