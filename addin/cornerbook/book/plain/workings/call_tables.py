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
    numbers. fixed: values by argument name for arguments that are not numbers, or left out,
    but for those that only choose which of a row's results is meant. rows: `RowsWorkings` by the
    name of an argument that is a range of rows.
    """

    def __init__(self, entry, workings, fixed, rows=None):
        title = f"CORNER.{entry.name}"
        if workings is not None:
            title += f" of {workings.name}"
        super().__init__(title, "a row for each call", workings)
        self._entry = entry
        self._values = dict(fixed)
        self._numbers = []
        self._rows = []
        self._answers = {}
        for argument in entry.arguments:
            if argument.kind == "block":
                self._values[argument.name] = CallCorner(self)
            elif argument.kind == "rows" and argument.name not in fixed:
                self._values[argument.name] = rows[argument.name].imported(self)
                self._rows.append(rows[argument.name])
            elif argument.kind not in ("text", "names") and argument.name not in fixed:
                step = self._values[argument.name] = self.number(argument.name)
                self._numbers.append((argument, step))

    def answer(self, chosen):
        """(result, said) for one choice of the results. chosen: values by argument name."""
        key = tuple(chosen.items())
        if key not in self._answers:
            self._answers[key] = self._record({**self._values, **chosen})
        return self._answers[key]

    def _record(self, values):
        recorder, workings = self.recorder, self.workings
        recorder.said = []
        said = [each.imported_said(self) for each in self._rows]
        said += [number_said(recorder, step, argument.name, argument)
                 for argument, step in self._numbers]  # fmt: skip
        if workings is not None:
            workings.points.forget_said()
        with named_steps():
            result = self._entry.function(*[values[a.name] for a in self._entry.arguments])
        if workings is not None:
            said.append(workings.points.imported_said(self))
            said += workings.points.said_besides(self)
        said = recorder.first_said([*said, *recorder.said])
        return result, self.show(said, "What is wrong", "said")


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
