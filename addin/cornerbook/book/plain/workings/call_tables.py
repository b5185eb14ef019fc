"""Tables for formulas that need more than a pose of the poses' table.

A formula that takes several poses, or numbers besides, is recorded once, with given columns
for its arguments and a row for each call. Measures of one subject share a table with a row
for each pose that one of them is asked for at.
"""

from ..recorded.corners import CallCorner, SubjectCorner
from ..recorded.naming import named_steps
from ..recorded.said import number_said
from .fetching import FetchingTable
from .measures import Measures


class CallTable(FetchingTable):
    """Calls of one formula, for one block or for none.

    entry: the `Formula`. workings: the `BlockWorkings`, or None for a formula of plain
    numbers. fixed: values by argument name for arguments that are not numbers, or left out.
    rows: `RowsWorkings` by the name of an argument that is a range of rows.
    """

    def __init__(self, entry, workings, fixed, rows=None):
        title = f"CORNER.{entry.name}"
        if workings is not None:
            title += f" of {workings.name}"
        super().__init__(title, "a row for each call", workings)
        recorder = self.recorder
        values, said = [], []
        for argument in entry.arguments:
            if argument.kind == "block":
                values.append(CallCorner(self))
            elif argument.kind == "rows" and argument.name not in fixed:
                values.append(rows[argument.name].imported(self))
                said.append(rows[argument.name].imported_said(self))
            elif argument.name in fixed:
                values.append(fixed[argument.name])
            else:
                step = self.number(argument.name)
                said.append(number_said(recorder, step, argument.name, argument))
                values.append(step)
        if workings is not None:
            workings.points.forget_said()
        with named_steps():
            self.result = entry.function(*values)
        if workings is not None:
            said.append(workings.points.imported_said(self))
            said += workings.points.said_besides(self)
        self.said = recorder.first_said([*said, *recorder.said])
        self.show(self.said, "What is wrong", "said")


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
