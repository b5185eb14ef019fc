"""A range of rows in plain formulas: each number read once, and what is wrong with them said."""

from ....cells.rows import Row, hold_any_given, hold_rising, hold_row, label_of, parts_of
from .points import mapped
from .range_table import RangeTable
from .tables import Table


class RowsWorkings:
    """The rows of a range as steps of a table with a row for each, and what is said of them all.

    argument: the declared one. given: the `Given` of the range. Raises `Mend` for a range of
    another shape, which no edit of a number mends.
    """

    def __init__(self, argument, given):
        parts_of(argument, given.value)  # refuses another shape
        self._named = argument.named
        title = f"Rows of {given.name}"
        self.table = RangeTable(title, "each number read once; a blank is 0", given)
        self.together = Table(title, "what is wrong with them")
        self.together.rows.append({})
        recorder = self.table.recorder
        self._row, no_number = self._recorded(argument, len(given.value[0]))
        recorder.said = []
        hold_row(argument, self._row)
        of_each = recorder.first_said(no_number), recorder.first_said(recorder.said)
        self.said = self._said_together(argument, *of_each)

    def _recorded(self, argument, width):
        """(the `Row` that each of them is, what is said of cells that are no number)."""
        table, recorder = self.table, self.table.recorder
        label = recorder.make("&", "row ", table.number())
        if argument.named:
            named = table.outside(0)
            label = recorder.where(recorder.make("=", named, ""), label, named)
        numbers, has, said = [], [], []
        for place, column in enumerate(argument.columns, argument.named):
            if place >= width:
                numbers.append(0.0)
                has.append(False)
                continue
            cell = table.outside(place)
            is_number = recorder.make("ISNUMBER", cell)
            step = recorder.where(is_number, cell, 0.0)
            step.label = ("Numbers of the rows", column.name)
            numbers.append(step)
            has.append(is_number)
            wrong = recorder.joined(
                f"{argument.name}: the {column.name} of %s is %s, where a number was expected",
                (label, cell),
            )
            passed_on = recorder.make("=", recorder.make("LEFT", cell, 2.0), "# ")
            wrong = recorder.where(passed_on, cell, wrong)
            wrong = recorder.where(recorder.make("=", cell, ""), "", wrong)
            said.append(recorder.where(is_number, "", wrong))
        return Row(label, tuple(numbers), tuple(has)), said

    def _said_together(self, argument, no_number, wrong):
        """What is said of all the rows, those that have cells which are no number first."""
        together, recorder = self.together, self.together.recorder
        rows = self.imported(together)
        recorder.said = []
        hold_any_given(argument, rows)
        none, recorder.said = recorder.said, []
        hold_rising(argument, rows)
        said = recorder.first_said([
            *self._in_each(together, no_number), *none, *self._in_each(together, wrong),
            *recorder.said,
        ])  # fmt: skip
        return together.show(said, "What is wrong with the rows", "said of the rows")

    def _in_each(self, table, step):
        """A step of the table of rows as another one reads it, in each row."""
        return [table.import_step(self.table, step, row) for row in self._row_numbers()]

    def imported(self, table):
        """The rows in steps as another table reads them."""
        return tuple(self._row_in(table, number) for number in self._row_numbers())

    def _row_numbers(self):
        return range(len(self.table.rows))

    def _row_in(self, table, number):
        row = mapped(self._row, lambda step: table.import_step(self.table, step, number))
        # Whoever shows it must know a text by its looks: of a cell one cannot say.
        row.label = (
            table.recorder.make("&", row.label, "") if self._named else label_of(None, number + 1)
        )
        return row

    def imported_said(self, table):
        """What is wrong with them, as another table reads it."""
        return table.import_step(self.together, self.said)


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
        """Those of the ranges, each after what it reads."""
        known = self._known.values()
        return [*(each.table for each in known), *(each.together for each in known)]

    def settle(self, calls):
        """Decide the cells of every table, the calls' tables being settled; returns them."""
        tables = self.tables
        known = set(tables)
        for table in calls:
            table.show_what_is_read(known)
        for table in reversed(tables):
            table.settle()
            table.show_what_is_read(known)
        return tables

    def compute(self):
        """Work out the values of every table."""
        for table in self.tables:
            table.values.compute()
