"""Where the result of a call is found: what stands in its formula in place of the call."""

from ..workings.formula_text import constant_text

CHANGED = "# a text that chose what this shows was edited; make the copy anew to change it"


class Constant:
    """A sentence that no edit of a number changes: on the block's shape, or on a text.

    guards: as for `Place`.
    """

    def __init__(self, value, guards=()):
        self.value = value
        self.guards = list(guards)

    def text(self):
        """The result as a formula's text."""
        if isinstance(self.value, float):
            return repr(self.value)
        return _guarded(constant_text(str(self.value)), self.guards)


class Place:
    """A result in a table: its row and step, known by address once all is placed.

    guards: functions for the text of conditions on which it may be shown.
    """

    def __init__(self, table, row, step, guards=()):
        self.table = table
        self.row = row
        self.step = step
        self.guards = list(guards)
        table.want(step, row)

    def text(self):
        """The reference to the result; it says so if a text that chose it was edited."""
        return _guarded(self.table.layout.reference(self.step, self.row), self.guards)

    @property
    def cell(self):
        """(formula, value) of a cell of another table that shows the result."""
        return (lambda: "=" + self.text()), (lambda: self.table.values.of(self.row, self.step))


class Range:
    """A table of results: all of a `Spread`. guards: as for `Place`."""

    def __init__(self, spread, guards=()):
        self.spread = spread
        self.guards = list(guards)

    def text(self):
        """The reference to all of it."""
        return _guarded(self.spread.layout.range_reference(), self.guards)


def _guarded(shown, guards):
    if not guards:
        return shown
    return f'IF(AND({",".join(guard() for guard in guards)}),{shown},"{CHANGED}")'
