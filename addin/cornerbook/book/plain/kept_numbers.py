"""Cells that show what they showed while that is true, for want of a plain form or of a need of it.

Some formulas have no plain form; others need none, since nobody can edit what they read. Such a
cell keeps its number of when the copy was made, and shows it only while the cells that its formula
reads hold what they held then; once one is edited it says that a new copy is needed. An added
sheet holds what the cells held, beside what they hold now.
"""

from functools import lru_cache

from ...catalogue import FORMULAS
from ..file.address import cell_name
from ..file.cell_error import CellError
from ..file.new_sheet import free_name
from ..file.trouble import Trouble
from ..formula.ranges import single
from ..formula.rewrite import Call, in_quotes, quoted, ranges_in, taken_apart
from .added_sheet import AddedSheet
from .array_cells import array_cells
from .held import NOTHING, same, shown

STALE = "# an input was edited: make a new copy"
"""What a cell says in place of a number that may no longer be true."""

TITLE = "Kept numbers"
_NOTE = (
    "Some cells of this copy call formulas that have no plain form, or read locked cells alone. "
    "They are grey, and show their numbers of when the copy was made only while the cells that "
    "they read are as they were then. "
    "Of a table of TWO_WAY nine cells are live all the same: where the first, the middle and the "
    "last row and column cross. Here: what these held, and whether they still do. For live numbers "
    "open the workbook itself with the cornerbook extension, or make a new copy."
)

_LONGEST = 250
"""Characters of a text in a formula; Excel takes 255."""


class KeptNumbers:
    """Makes such cells show what they showed while it is true, and says which they are.

    package: the workbook. values: its `Values`.
    """

    def __init__(self, package, values):
        self._package = package
        self._values = values
        self._sheet = free_name(TITLE, package.sheets)
        self._inputs = {}  # (ranges that a formula reads): the row of their verdict, from 0
        self._partly = []  # sheets with tables of which part is live
        self._cells = {}  # {sheet: names of formulas without a plain form that its cells call}
        self._shut = []  # sheets with cells of which nobody can edit what they read

    @staticmethod
    def needs(formula):
        """Whether a cell's formula has no plain form."""
        return bool(_without_plain_form(formula))

    def keep(self, sheet, address, content, live=(), is_shut=False):
        """Keep the numbers of a cell, or of its table.

        live: those of the table's cells that need not; a chart then skips the others, once
        they are no longer true. is_shut: whether that is because nobody can edit what they read.
        """
        if is_shut:
            if sheet not in self._shut:
                self._shut.append(sheet)
        else:
            names = _without_plain_form(content.formula)
            self._cells.setdefault(sheet, set()).update(names)
        if live and sheet not in self._partly:
            self._partly.append(sheet)
        verdict = self._verdict(self._ranges(sheet, address, content.formula))
        value = self._values.at(sheet, address)
        cells = [(address, single(value))]
        if content.array:
            cells = list(array_cells(self._package, sheet, content.array, value))
            # The array goes as a whole, before its cells get formulas of their own.
            self._package.set_value(sheet, address, None)
        for cell, one in cells:
            if cell in live:
                continue
            otherwise = "NA()" if live else '""'
            otherwise = _written(STALE) if cell == address else otherwise
            if one in (None, "") and otherwise == '""':
                # Nothing either way: no formula is needed for that.
                self._package.set_value(sheet, cell, None)
                self._package.grey(sheet, cell)
                continue
            formula = f"=IF({verdict},{_written(one)},{otherwise})"
            self._package.set_formula(sheet, cell, formula, "" if one is None else one)
            self._package.grey(sheet, cell)

    def _ranges(self, sheet, address, formula):
        """The ranges (sheet, top, left, bottom, right) that a cell's formula reads."""
        found = []
        for text in ranges_in(taken_apart(formula)):
            try:
                place = self._package.resolve(text, sheet, address)
            except Trouble:
                continue  # the formula's own value told of it, if it mattered
            if place not in found:
                found.append(place)
        return tuple(found)

    def _verdict(self, ranges):
        """The reference to the cell that tells whether some ranges are as they were."""
        row = self._inputs.setdefault(ranges, _FIRST + len(self._inputs))
        return f"{quoted(self._sheet)}!{cell_name(row, 1, True)}"

    @property
    def any(self):
        """Whether there are any such cells."""
        return bool(self._cells or self._shut)

    def listed(self):
        """(sheet, which of its cells in words) of each sheet that has such cells."""
        found = [(sheet, _called(names)) for sheet, names in self._cells.items()]
        return found + [(sheet, _LOCKED) for sheet in self._shut]

    def sentences(self):
        """What is said of them, if there are any."""
        found = []
        if self._cells:
            said = "; ".join(f"on {sheet} those that call {_called(names)}"
                             for sheet, names in self._cells.items())  # fmt: skip
            if self._partly:
                said += (
                    f". Live on {', '.join(self._partly)} is where the first, the middle and the "
                    "last row and column of a table cross"
                )
            found.append(
                f"Cells without a plain form show their numbers of now only while their inputs are "
                f"as they are now, and say so else: {said}."
            )
        if self._shut:
            found.append(
                f"On {', '.join(self._shut)} results of locked cells alone keep their numbers: "
                "nobody can edit what they read."
            )
        return found

    def add_sheet(self):
        """Add the sheet that holds what the cells' inputs held."""
        sheet = AddedSheet(TITLE, _NOTE, "E", [34, 16, 22, 22, 12])
        row = _FIRST + len(self._inputs) + 1
        sheet.head(_FIRST - 1, ("read together", "as shared"))
        blocks = {}
        for ranges, at in self._inputs.items():
            for place in ranges:
                if place not in blocks:
                    blocks[place] = row
                    row = self._write(sheet, place, row)
            checks = ",".join(cell_name(blocks[place], 1, True) for place in ranges)
            formula = f"=AND({checks})" if ranges else "=TRUE"
            sheet.cells += [
                (at, 0, None, ", ".join(map(_said, ranges)), "label"),
                (at, 1, formula, True, "label"),
            ]
        sheet.add_to(self._package, self._sheet)

    def _write(self, sheet, place, row):
        """Write the cells of a range from a row on; the next free row."""
        held = list(self._held(place))
        first, last = row + 2, row + 1 + len(held)
        verdicts = f"{cell_name(row + 1, 3, True)}:{cell_name(last - 1, 3, True)}"
        sheet.cells += [
            (row, 0, None, _said(place), "first heading"),
            (row, 1, f"=COUNTIF({verdicts},TRUE)={len(held)}", True, "heading"),
            (row, 2, None, "when shared", "heading"),
            (row, 3, None, "same", "heading"),
        ]
        for at, (cell, value) in enumerate(held, first - 1):
            then = cell_name(at, 2)
            sheet.cells += [
                (at, 1, None, cell.replace("$", ""), "label"),
                (at, 2, None, shown(value), "label"),
                (at, 3, "=" + same(cell, value, then), True, "label"),
            ]
        return last + 1

    def _held(self, place):
        """(reference, value) of the cells of a range; rows with nothing in them go together."""
        where, top, left, bottom, right = place
        rows = self._values.block(*place)
        columns = range(right - left + 1)
        first = None  # of the rows at hand that hold nothing
        for r in range(bottom - top + 2):
            blank = r < len(rows) and all(self._is_blank(where, top + r, left + c) for c in columns)
            if blank:
                first = r if first is None else first
                continue
            if first is not None:
                ends = cell_name(top + first, left, True), cell_name(top + r - 1, right, True)
                yield f"{quoted(where)}!{ends[0]}:{ends[1]}", NOTHING
                first = None
            if r < len(rows):
                for c in columns:
                    cell = cell_name(top + r, left + c, True)
                    yield f"{quoted(where)}!{cell}", rows[r][c]

    def _is_blank(self, sheet, row, column):
        cell = sheet, cell_name(row, column)
        content = self._values.cells[sheet].get(cell[1])
        if content is None:
            return self._values.trees.first_of_array(cell) is None
        holds = content.formula is not None or content.value not in (None, "")
        return not holds and self._values.trees.first_of_array(cell) is None


_LOCKED = "results of locked cells alone, which nobody can edit"

_FIRST = 4
"""The row of the first verdict on the added sheet, from 0."""


def _called(names):
    return ", ".join("CORNER." + name for name in sorted(names))


def _said(place):
    sheet, top, left, bottom, right = place
    first, last = cell_name(top, left), cell_name(bottom, right)
    return f"{sheet}!{first}" if first == last else f"{sheet}!{first}:{last}"


def _written(value):
    """A value as a formula has it."""
    if value is None:
        return '""'
    if isinstance(value, CellError):
        return "NA()"
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, (int, float)):
        return repr(float(value))
    pieces = [value[i : i + _LONGEST] for i in range(0, len(value), _LONGEST)] or [""]
    return "&".join(in_quotes(piece) for piece in pieces)


@lru_cache(maxsize=1)
def _none():
    """The names of the formulas without a plain form."""
    return tuple(name for name, entry in FORMULAS.items() if not entry.plain)


def _without_plain_form(formula):
    """The names of such formulas that a cell calls, at any depth."""
    shown = formula.upper().replace(" ", "")
    if not any(name in shown for name in _none()):
        return set()
    names, stack = set(), list(taken_apart(formula))
    while stack:
        part = stack.pop()
        if isinstance(part, Call):
            if part.name in FORMULAS and not FORMULAS[part.name].plain:
                names.add(part.name)
            stack.extend(p for argument in part.arguments for p in argument or ())
    return names
