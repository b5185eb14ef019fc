"""Recorded steps as a table of plain formulas: a column a step, a row a call.

A table is first filled (given columns, rows, what is wanted of them) and then settled, which
decides what stands in a cell of its own and what is folded into the formula that uses it.
Then what is wanted is followed down to the cells that it needs, and laid out; only then do
cells have addresses.
"""

from typing import Any, NamedTuple

from ..recorded.steps import Recorder
from .folding import REFERENCE, Folding
from .layout import Layout
from .row_values import RowValues
from .sharing import Sharing
from .unsaid import Unsaid


class InRow(NamedTuple):
    """What a table reads of another one: a step, in one of its rows."""

    step: Any
    row: int


class Table:
    """A table of workings: what each row asks for, and the steps that answer it.

    title, note: texts above it. `rows`: for each row a dictionary from a given column's key
    to (formula, value), where formula is a function without arguments that gives its text
    once all tables are placed, or None for a plain value. `given`: {key: (group, heading)} of
    these columns. `shown`: {step: (group, heading)} of steps that have a column in any case.
    `direct`: (address, value) of cells elsewhere in the workbook that steps read without a
    column here. `wanted`: {step or given column's key: numbers of the rows it is wanted in}.
    `order`, `alone`, `sharing`, `unsaid`: once settled, every step, parts before wholes; those of
    them that have cells; the rows' `Sharing` and what is `Unsaid` in them. `layout`: its
    `Layout`, once that is decided. `values`: its `RowValues`.
    """

    def __init__(self, title, note=""):
        self.title = title
        self.note = note
        self.recorder = Recorder()
        self.given = {}
        self.direct = {}
        self.rows = []
        self.shown = {}
        self.wanted = {}
        self.order = []
        self.alone = set()
        self.sharing = None
        self.unsaid = None
        self.layout = None
        self.values = RowValues(self)
        self._row_numbers = {}
        self._same = []

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

    def import_step(self, table, step, row=0):
        """The step here that reads another table's step in one row of that."""
        if step.kind == "constant":
            return self.recorder.step(step.what)
        return self.recorder.input((table, InRow(step, row)))

    def show(self, step, group=None, name=None):
        """Make a step a column of its own, with a heading if it is given."""
        if step not in self.shown or name is not None:
            self.shown[step] = (group, name)
        return step

    def row(self, asked):
        """The number of the row for what is asked: {given column's key: `Asked`}.

        What has the same keys stands in one row.
        """
        same = {name: one.key for name, one in asked.items()}
        key = tuple(same[name] for name in sorted(same))
        if key not in self._row_numbers:
            self._row_numbers[key] = len(self.rows)
            self.rows.append({name: one.cell for name, one in asked.items()})
            self._same.append(same)
        return self._row_numbers[key]

    def want(self, step, row):
        """Want a step's cell in a row."""
        self.wanted.setdefault(step, set()).add(row)

    def forget(self):
        """Let go of everything; see `Workings.forget`."""
        for each in (self.recorder, self):
            vars(each).clear()

    # Settling

    def settle(self):
        """Decide which steps have cells of their own; they may not be shown after that."""
        self.order = self.recorder.needed_for(self.shown)
        self.sharing, self.unsaid = Sharing(self), Unsaid(self)
        rows = self.sharing.count if len(self.rows) > 1 else None
        self.alone = Folding(self.order, self.shown, rows).alone

    def show_what_is_read(self, tables):
        """Make what this one, once settled, reads of some others columns there."""
        for table, key in (step.what for step in self.order if step.kind == "input"):
            if table is not self and table in tables:
                table.show(key.step)

    def follow_wanted(self):
        """Want what the wanted cells are made of, here and in the tables that they read."""
        wanted, alone, several = self.wanted, self.alone, len(self.rows) > 1
        for step in reversed(self.order):
            rows = wanted.get(step)
            if not rows or step.kind == "constant":
                continue
            if step.kind == "input":
                self._want_input(step, rows)
                continue
            if step in alone:
                rows = wanted[step] = self.sharing.first_of(step, rows)
                rows = self.unsaid.leave_out(step, rows)
            for part in step.parts:
                # Sets that are the same are one here, so none is changed.
                known = wanted.get(part)
                if not known:
                    wanted[part] = rows
                elif several and not (known is rows or rows <= known):
                    wanted[part] = rows if known <= rows else known | rows

    def _want_input(self, step, rows):
        table, key = step.what
        if table is not self:
            table.want(*key)
        elif key not in self.direct:
            self.want_given(step, key, rows)

    def want_given(self, step, key, rows):
        """Want what a step reads from a given column in some rows."""
        self.wanted[key] = self.wanted.get(key, set()) | self.sharing.first_of(step, rows)

    def same(self, row, step):
        """What rows have in common that have the same in an own input of theirs."""
        return self.same_given(row, step.what[1])

    def same_given(self, row, key):
        """The same for what a row brings for a given column."""
        return self._same[row][key] if self._same else row

    def given_addresses(self, key):
        """The address of what is read from a given column, for each row."""
        return self.layout.addresses(key)

    def given_value(self, row, key):
        """Its value in a row: a plain one, or a function for it."""
        return self.rows[row][key][1]

    def length_of(self, key):
        """How many characters a formula has of what is read here by a key, or by an `InRow`."""
        return len(self.direct[key][0]) if key in self.direct else REFERENCE

    def lay_out(self):
        """Decide the columns: given ones in use, then steps in the order of the work."""
        columns = [key for key in self.given if self.wanted.get(key)]
        columns += [s for s in self.order
                    if s in self.alone and self.wanted.get(s) and s.kind != "input"]  # fmt: skip
        self.layout = Layout(self, columns)
