"""Tables for formulas that need more than a pose of the poses' table.

Formulas that take several poses, or numbers besides, are recorded with given columns for their
arguments and a row for each call; those of one subject that are given the same numbers share a
table, and what their work has in common. Measures of one subject share a table with a row for each
pose that one of them is asked for at.
"""

from ..recorded.corners import CallCorner, SubjectCorner
from ..recorded.naming import named_steps
from ..recorded.said import number_said
from .fetching import FetchingTable
from .measures import Measures

MOST_STEPS = 3000
"""A table that has recorded more takes no other formula: a sheet should not be too wide."""


class CallTable(FetchingTable):
    """Calls of formulas of one subject, for one block or for none.

    group: their subject. names: the arguments that stay alive in them. workings: the
    `BlockWorkings`, or None for formulas of plain numbers. rows: `RowsWorkings` by the name of
    an argument that is a range of rows. `names`: of the formulas.
    """

    def __init__(self, group, names, workings, rows=None):
        title = group if workings is None else f"{workings.name}: {group}"
        super().__init__(title, "a row for each call", workings)
        self._asked = {name: self.number(name) for name in names}
        self._rows = {name: each.imported(self) for name, each in (rows or {}).items()}
        self._said_of_rows = [each.imported_said(self) for each in (rows or {}).values()]
        self._answers = {}
        self.names = set()

    @property
    def is_full(self):
        """Whether it should take no other formula."""
        return self.recorder.count > MOST_STEPS

    def answer(self, entry, fixed):
        """(result, said) of a formula.

        entry: the `Formula`. fixed: values by argument name for arguments that are not numbers,
        or left out.
        """
        key = (entry.name, *sorted(fixed.items()))
        if key not in self._answers:
            self._answers[key] = self._record(entry, {**self._asked, **self._rows, **fixed})
        return self._answers[key]

    def _record(self, entry, values):
        recorder, workings = self.recorder, self.workings
        recorder.said = []
        said = list(self._said_of_rows)
        corner = None if workings is None else CallCorner(self)
        for argument in entry.arguments:
            if argument.kind == "block":
                values[argument.name] = corner
            elif argument.name in self._asked:
                step = self._asked[argument.name]
                said.append(number_said(recorder, step, argument.name, argument))
        if workings is not None:
            workings.points.forget_said()
        with named_steps():
            result = entry.function(*[values[a.name] for a in entry.arguments])
        if workings is not None:
            if corner.needs_linkage:
                said.append(workings.points.imported_said(self))
                said += workings.points.said_besides(self)
            else:
                said += workings.points.said_as_drawn(self)
        said = recorder.first_said([*said, *recorder.said])
        return result, self.show(said, "What is wrong", "said")


def table_for(tables, call, make):
    """The table for a `SortedCall`. tables: {what calls have in common: table}, which is added to.

    make: makes a new one, where there is none or the one that there is is full.
    """
    key = call.key
    while key in tables:
        table = tables[key]
        if call.entry.name in table.names or not table.is_full:
            break
        key = (*key, "more")
    else:
        table = tables[key] = make()
    table.names.add(call.entry.name)
    return table


class SubjectTable(FetchingTable):
    """Measures of one subject at a corner's poses, with rows only where one is asked for.

    A measure is worked out for every row of its table; with a table for each subject, one
    that is asked for at few poses costs few cells.
    """

    def __init__(self, subject, workings):
        title = f"{workings.name}: {subject}"
        super().__init__(title, "a row for each travel and rack asked for", workings)
        self.asked = (self.number("travel"), self.number("rack"))
        corner = SubjectCorner(self)
        self.measures = Measures(self, workings.points, self.asked, lambda: corner)
