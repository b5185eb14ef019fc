"""Recorded steps as a table of plain formulas: a column a step, a row a call.

A table is first filled (given columns, rows, what must be shown) and then settled, which
decides what stands in a column of its own and what is folded into the formula that uses
it. Only then do its cells have addresses.
"""

from ..recorded.steps import Recorder, parts_first
from .folding import Folding
from .layout import Layout
from .row_values import RowValues


class Table:
    """A table of workings: what each row asks for, and the steps that answer it.

    title, note: texts above it. `rows`: for each row a dictionary from a given column's key
    to (formula, value), where formula is a function without arguments that gives its text
    once all tables are placed, or None for a plain value. `given`: {key: (group, heading)} of
    these columns. `shown`: {step: (group, heading)} of steps that have a column in any case.
    `direct`: (address, value) of cells elsewhere in the workbook that steps read without a
    column here. `layout`: its `Layout`, once settled. `values`: its `RowValues`.
    """

    def __init__(self, title, note=""):
        self.title = title
        self.note = note
        self.recorder = Recorder()
        self.given = {}
        self.direct = {}
        self.rows = []
        self.shown = {}
        self.layout = None
        self.values = RowValues(self)
        self._row_numbers = {}

    # Filling

    def input(self, key, group, name):
        """The step for a given column; each row brings its own formula and value for it."""
        if key not in self.given:
            self.given[key] = (group, name)
        return self.recorder.input((self, key))

    def cell(self, address, value):
        """The step for a cell elsewhere in the workbook."""
        self.direct[address] = (address, value)
        return self.recorder.input((self, address))

    def import_step(self, table, step):
        """The step here that reads another table's step, which has one row."""
        if step.kind == "constant":
            return self.recorder.step(step.what)
        return self.recorder.input((table, step))

    def show(self, step, group=None, name=None):
        """Make a step a column of its own, with a heading if it is given."""
        if step not in self.shown or name is not None:
            self.shown[step] = (group, name)
        return step

    def row(self, key, asked):
        """The number of the row for what is asked: {given column's key: (formula, value)}.

        key: what makes two of them the same, which then stand in one row.
        """
        if key not in self._row_numbers:
            self._row_numbers[key] = len(self.rows)
            self.rows.append(dict(asked))
        return self._row_numbers[key]

    # Settling

    def needed(self):
        """Every step that the shown ones are made of, parts before wholes."""
        return parts_first(reversed(list(self.shown)), lambda step: reversed(step.parts))

    def imports(self):
        """(table, step) for everything that is read from other tables."""
        return [
            step.what for step in self.needed() if step.kind == "input" and step.what[0] is not self
        ]

    def settle(self):
        """Decide the columns: given ones in use, then steps in the order of the work."""
        order = self.needed()
        own = {s: s.what[1] for s in order if s.kind == "input" and s.what[0] is self}
        used = set(own.values())
        alone = Folding(order, self.shown).alone
        columns = [key for key in self.given if key in used]
        columns += [step for step in order if step in alone and step not in own]
        self.layout = Layout(columns, own, self.rows)
