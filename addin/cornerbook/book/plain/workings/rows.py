"""A range of rows in plain formulas: each number read once, and what is wrong with them said."""

from ....cells.mend import Words
from ....cells.rows import Row, judged, label_of, parts_of
from .points import mapped
from .tables import Table


class RowsWorkings:
    """The rows of a range as steps of a table of one row.

    argument: the declared one. given: the `Given` of the range. Raises `Mend` for a range of
    another shape, which no edit of a number mends.
    """

    def __init__(self, argument, given):
        self.table = Table(f"Rows of {given.name}", "each number read once; a blank is 0")
        self.table.rows.append({})
        recorder = self.table.recorder
        recorder.said = []
        self._wrong = []
        rows = [
            self._row(argument, given, number, name, cells)
            for number, (name, cells) in enumerate(parts_of(argument, given.value))
        ]
        self._rows = judged(argument, rows)
        self.said = recorder.first_said([*self._wrong, *recorder.said])
        self.table.show(self.said, "What is wrong with the rows", "said of the rows")

    def _row(self, argument, given, number, name, cells):
        recorder = self.table.recorder
        # In a copy it is a text of the cells, or a plain one.
        label = str(label_of(name, number + 1))
        if argument.named:
            named = self.table.cell(given.cells(number, 0), name)
            label = recorder.where(recorder.make("=", named, ""), Words(f"row {number + 1}"), named)
        numbers, has = [], []
        for place, column in enumerate(argument.columns):
            if place >= len(cells):
                numbers.append(0.0)
                has.append(False)
                continue
            address = given.cells(number, place + argument.named)
            cell = self.table.cell(address, cells[place])
            is_number = recorder.make("ISNUMBER", cell)
            step = recorder.where(is_number, cell, 0.0)
            step.label = (column.name.capitalize(), f"row {number + 1}")
            numbers.append(step)
            has.append(is_number)
            said = recorder.joined(
                f"{argument.name}: the {column.name} of %s is %s, where a number was expected",
                (label, cell),
            )
            passed_on = recorder.make("=", recorder.make("LEFT", cell, 2.0), "# ")
            said = recorder.where(passed_on, cell, said)
            said = recorder.where(recorder.make("=", cell, ""), "", said)
            self._wrong.append(recorder.where(is_number, "", said))
        return Row(label, tuple(numbers), tuple(has))

    def imported(self, table):
        """The rows in steps as another table reads them."""
        return mapped(self._rows, lambda step: table.import_step(self.table, step))

    def imported_said(self, table):
        """What is wrong with them, as another table reads it."""
        return table.import_step(self.table, self.said)


class RowsOfCalls:
    """The ranges of rows that the calls of one sheet of workings are given, each once."""

    def __init__(self):
        self._known = {}

    def of(self, call):
        """{name of an argument: its `RowsWorkings`} of a `SortedCall`."""
        return {name: self._one(*table) for name, table in call.tables.items()}

    def _one(self, argument, given):
        key = argument.name, given.identity
        if key not in self._known:
            self._known[key] = RowsWorkings(argument, given)
        return self._known[key]

    @property
    def tables(self):
        """Those of the ranges."""
        return [each.table for each in self._known.values()]

    def settle(self, calls):
        """Decide the cells of every table, the calls' tables being settled; returns them."""
        tables = self.tables
        for table in calls:
            for source, step in table.imports():
                if source in tables:
                    source.show(step, *source.shown.get(step, (None, None)))
        for table in tables:
            table.settle()
        return tables

    def compute(self):
        """Work out the values of every table."""
        for each in self._known.values():
            each.table.values.compute()
