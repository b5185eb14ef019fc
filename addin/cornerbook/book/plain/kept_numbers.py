"""Cells whose formulas have no plain form: they keep what they show."""

from ...catalogue import FORMULAS
from ..formula.rewrite import Call, taken_apart
from .array_cells import array_cells, single


class KeptNumbers:
    """Makes cells of formulas that have no plain form what they show, and says which they are.

    package: the workbook. values: its `Values`.
    """

    def __init__(self, package, values):
        self._package = package
        self._values = values
        self._names = set()
        self._sheets = set()

    def keep(self, sheet, address, content):
        """Keep the numbers of a cell, or of its table, if it needs that; whether it did."""
        names = _without_plain_form(content.formula)
        if not names:
            return False
        self._names |= names
        self._sheets.add(sheet)
        value = self._values.at(sheet, address)
        if content.array:
            for cell, one in array_cells(self._package, sheet, content.array, value):
                self._package.set_value(sheet, cell, one)
        else:
            self._package.set_value(sheet, address, single(value))
        return True

    @property
    def any(self):
        """Whether there are any such cells."""
        return bool(self._names)

    def sentence(self):
        """What is said of them, if there are any."""
        return (
            f"On {' and '.join(sorted(self._sheets))} cells that call "
            f"{', '.join('CORNER.' + name for name in sorted(self._names))} keep their numbers "
            "of now: that has no plain form."
        )


def _without_plain_form(formula):
    """The names of such formulas that a cell calls, at any depth."""
    names, stack = set(), list(taken_apart(formula))
    while stack:
        part = stack.pop()
        if isinstance(part, Call):
            if part.name in FORMULAS and not FORMULAS[part.name].plain:
                names.add(part.name)
            stack.extend(p for argument in part.arguments for p in argument or ())
    return names
