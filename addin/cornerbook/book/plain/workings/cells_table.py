"""A table for a formula of whole ranges of numbers, with one row."""

from ..recorded.said import number_said
from .tables import Table


class CellsTable(Table):
    """One call of a formula whose arguments are ranges of numbers.

    entry: the `Formula`. given: {argument's name: rows of `Asked`}. `results`: the steps of its
    first column. Raises `Mend` where the ranges do not go together.
    """

    def __init__(self, entry, given):
        super().__init__(f"CORNER.{entry.name}", "the cells given, and what follows from them")
        recorder = self.recorder
        row, values, said = {}, [], []
        for argument in entry.arguments:
            steps = []
            for r, cells in enumerate(given[argument.name], 1):
                steps.append([])
                for c, asked in enumerate(cells, 1):
                    name = f"{argument.name}, row {r}, column {c}"
                    step = self.input(name, "Asked for", name)
                    row[name] = asked.cell
                    steps[-1].append(step)
                    said.append(number_said(recorder, step, name))
            values.append(steps)
        result = entry.function(*values)
        self.rows.append(row)
        wrong = recorder.first_said([*said, *recorder.said])
        self.show(wrong, "What is wrong", "said")
        fine = recorder.make("=", wrong, "")
        beyond = recorder.sentence(entry.beyond)
        self.results = []
        for number, (one,) in enumerate(result, 1):
            good = recorder.where(recorder.make("ISNUMBER", one), one, beyond)
            shown = recorder.where(fine, good, wrong)
            self.results.append(self.show(shown, "Results", f"row {number}"))
