"""A spreadsheet open in the Calc that `calc.py` drives, and what its cells hold."""

import contextlib
import shutil
from dataclasses import dataclass
from pathlib import Path

from tests.calc.errors import CalcError


@dataclass(frozen=True)
class Fault:
    """An error value in a cell. code: Calc's number, 32767 for #N/A; text: what it shows."""

    code: int
    text: str


def typed(text):
    """What a user types, read as Calc reads it: '5' is a number, '=1,5' is not."""
    return {"typed": text}


def array(formula):
    """A formula entered with Ctrl+Shift+Enter over the range that it is set on."""
    return {"array": formula}


def _values(answer):
    rows, errors = answer
    values = [[None if v == "" else v for v in row] for row in rows]
    for row, column, code, text in errors:
        values[row][column] = Fault(code, text)
    return values


def _errors(listed):
    return {(sheet, cell): Fault(code, text) for sheet, cell, code, text in listed}


class Book:
    """A spreadsheet open in Calc. Closed at the end of a `with` statement."""

    def __init__(self, calc, number):
        self._calc = calc
        self._number = number

    def __enter__(self):
        return self

    def __exit__(self, kind, problem, trace):
        try:
            self.close()
        except CalcError:
            if kind is None:
                raise

    def _ask(self, do, **what):
        return self._calc.ask(do, book=self._number, **what)

    def sheets(self):
        """The names of the sheets, in order."""
        return self._ask("sheets")

    def get(self, sheet, range):
        """The values of a range, as a list of rows. sheet: a name, or a position from 0."""
        return _values(self._ask("get", sheet=sheet, range=range))

    def value(self, sheet, cell):
        """The value of one cell."""
        return self.get(sheet, cell)[0][0]

    def formulas(self, sheet, range):
        """The formulas (or the values, as text) of a range, as a list of rows."""
        return self._ask("formulas", sheet=sheet, range=range)

    def texts(self, sheet, range):
        """What the cells of a range show, as a list of rows."""
        return self._ask("texts", sheet=sheet, range=range)

    def set(self, sheet, cell, what):
        """Change one cell (a range for `array(...)`)."""
        self._ask("set", edits=[(sheet, cell, what)])

    def set_many(self, edits):
        """Change many cells: (sheet, cell, what) each, in order."""
        self._ask("set", edits=list(edits))

    def set_together(self, edits):
        """Change many cells: (sheet, cell, what) each; what depends on them is computed once."""
        self._ask("set_together", edits=list(edits))

    def fill(self, sheet, range, rows):
        """Put rows of numbers, texts and formulas in a range of that very size, at once."""
        self._ask("fill", sheet=sheet, range=range, rows=[list(row) for row in rows])

    def steps(self, steps, sheet, range):
        """For each of `steps`, a list of edits: make them, then read the range. A list of reads."""
        return [
            _values(answer)
            for answer in self._ask(
                "steps", steps=[list(edits) for edits in steps], sheet=sheet, range=range
            )
        ]

    def errors(self):
        """{(sheet, cell): its `Fault`} of every formula of the book that gives an error."""
        return _errors(self._ask("errors"))

    def seen(self, ranges):
        """The values of each of some ranges, (sheet, range), as rows; None for an error."""
        return self._ask("seen", ranges=list(ranges))

    def edited(self, edits, seen=()):
        """For each edit by itself, (the errors, the values of the ranges seen) while it is made.

        edits: (sheet, cell, what) each. seen: (sheet, range) each. Afterwards the book is as it
        was.
        """
        answers = self._ask("edited", edits=list(edits), seen=list(seen))
        return [(_errors(errors), rows) for errors, rows in answers]

    @contextlib.contextmanager
    def with_edits(self, *changes):
        """The book with cells changed, each as (sheet, cell, what); afterwards it is as it was."""
        was = self._ask("exchange", edits=list(changes))
        try:
            yield self
        finally:
            self.set_many(was)

    def name_range(self, name, sheet, range):
        """Give a range a name that formulas may use."""
        self._ask("name_range", name=name, sheet=sheet, range=range)

    def recalculate(self):
        """Recalculate every formula in the book; returns the seconds that Calc took."""
        return self._ask("recalculate")

    def save(self, path, format=None):
        """Save a copy as 'xlsx', 'ods' or 'pdf'; by the path's ending if not given."""
        path = Path(path)
        format = format or path.suffix.lstrip(".").lower()
        inside = self._calc._place("saved." + format)
        self._ask("save", path=str(inside), format=format)
        shutil.copyfile(inside, path)
        inside.unlink()
        return path

    def close(self):
        """Close without saving."""
        self._ask("close")
