"""One argument of a call as it is given in the workbook."""

from ..workings.amount import amount_of, plain
from ..workings.asked import Asked
from ..workings.formula_text import constant_text


class Given:
    """One argument of a call: its formula for other sheets, and its value now.

    make_text: a function for its formula for other sheets, without '=', called once all is
    placed. value: what it is now, as a host would pass it. identity: what makes two arguments
    the same; of a number or a text its `Amount`, of a range its place. literal: whether it is
    a plain number or text. cells: for a block or a range of names, a function from a row and a
    column of it to the cell's address. name: of a block, for headings.
    """

    def __init__(self, make_text, value, identity, literal=False, cells=None, name=""):
        self._make_text = make_text
        self.value = value
        self.identity = identity
        self.literal = literal
        self.cells = cells
        self.name = name

    @property
    def text(self):
        """Its formula for other sheets; only once all is placed."""
        return self._make_text()

    def asked(self):
        """A number argument as an `Asked`; an empty cell counts as 0."""
        value = 0.0 if self.value is None else self.value
        while isinstance(value, tuple):
            value = value[0]
        if isinstance(value, int) and not isinstance(value, bool):
            value = float(value)
        literal = self.literal and isinstance(value, float)
        return Asked(lambda: "=" + self.text, value, self.identity, literal)

    def numbers(self):
        """Rows of `Asked`, one for each cell of a range of numbers; of a single number, one."""
        if self.cells is None:
            return [[self.asked()]]
        rows = self.value if isinstance(self.value, tuple) else ((self.value,),)
        return [
            [_asked_of_cell(self.cells(r, c), cell) for c, cell in enumerate(row)]
            for r, row in enumerate(rows)
        ]

    def names(self):
        """The names that a text with commas or a range of cells gives."""
        if isinstance(self.value, str):
            return self.value.split(",")
        return [str(cell) for row in self.value for cell in row]

    def guards(self):
        """Conditions, as functions for their text, that hold while what is given is as it was."""
        if self.literal:
            return []
        if isinstance(self.value, tuple):
            if self.cells is None:
                return []
            return [
                _equals(lambda r=r, c=c: self.cells(r, c), cell)
                for r, row in enumerate(self.value)
                for c, cell in enumerate(row)
            ]
        return [_equals(lambda: self.text, self.value)]

    def fits(self, argument):
        """Whether its shape is one that an edit of numbers can mend; argument: the declared one."""
        if argument.kind in ("block", "rows"):
            return self.cells is not None
        if argument.kind == "cells":
            return True
        if argument.kind in ("text", "names"):
            return isinstance(self.value, (str, tuple)) and self.value != ""
        return not isinstance(self.value, tuple) or (
            len(self.value) == 1 and len(self.value[0]) == 1
        )


ZERO = Given(lambda: "0", 0.0, plain(0.0), True)
"""What travel and rack are where they are left out."""


def guards_of(*given):
    """The guards of some arguments, of which those left out are None."""
    return [guard for one in given if one is not None for guard in one.guards()]


def _asked_of_cell(address, value):
    """The `Asked` of one cell of a range, where an empty one counts as no number."""
    if isinstance(value, int) and not isinstance(value, bool):
        value = float(value)
    text = f'=IF({address}="","",{address})'
    return Asked(lambda: text, "" if value is None else value, amount_of(address))


def _equals(text, value):
    return lambda: f"{text()}={constant_text('' if value is None else value)}"
