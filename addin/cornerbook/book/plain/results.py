"""Arguments of a call as they are given, and where its result is found."""

from .tables import Table


class Given:
    """One argument of a call.

    make_text: a function for its formula for other sheets, without '=', called once all is
    placed. value: what it is now, as a host would pass it. identity: what makes two arguments
    the same. literal: whether it is a plain number or text. cells: for a block or a range of
    names, a function from a row and a column of it to the cell's address. name: of a block,
    for headings.
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


ZERO = Given(lambda: "0", 0.0, "0", True)


class Constant:
    """A result that no edit of a number changes: a sentence about the block's shape."""

    def __init__(self, value):
        self.value = value

    def text(self):
        """The result as a formula's text."""
        if isinstance(self.value, float):
            return repr(self.value)
        return '"%s"' % str(self.value).replace('"', '""')


class Place:
    """A result in a table: its row and step, known by address once all is placed."""

    def __init__(self, table, row, step, guards=()):
        self.table = table
        self.row = row
        self.step = step
        self.guards = list(guards)

    def text(self):
        """The reference to the result; it says so if a text that chose it was edited."""
        return _guarded(self.table.reference(self.step, self.row), self.guards)


class Range:
    """A table of results in a `Spread`."""

    def __init__(self, spread, guards=()):
        self.spread = spread
        self.guards = list(guards)

    def text(self):
        """The reference to all of it."""
        return _guarded(self.spread.range_reference(), self.guards)


CHANGED = "# a text that chose what this shows was edited; make the copy anew to change it"


def _guarded(reference, guards):
    if not guards:
        return reference
    return f'IF(AND({",".join(guard() for guard in guards)}),{reference},"{CHANGED}")'


class Spread(Table):
    """A block of cells that each show a result: what a table formula gives."""

    def __init__(self, title, headings):
        super().__init__(title)
        for place, heading in enumerate(headings):
            self.given[place] = ("Results", heading)

    def settle(self):
        self.columns = list(self.given)
        self._column = {what: place for place, what in enumerate(self.columns)}

    def compute(self):
        self.values = [{} for _ in self.rows]

    def range_reference(self):
        """All its results, for formulas of other sheets."""
        last = len(self.rows) - 1
        end = self.address(self.columns[-1], last, True)
        return f"{self.reference(self.columns[0])}:{end}"
