"""Sentences that a table need not work out: of numbers that are typed in a call itself."""

from ..recorded.steps import is_empty
from ..recorded.work import evaluated


class Unsaid:
    """The cells of a settled `Table` that would say what is wrong with literals, and say nothing.

    `blank`: {step: the rows in which its cell stays blank}, once the wanted is followed.
    A blank cell stands in place of each. It is an empty text to all who ask, but a 0 to who takes
    it over: so all that read it ask first, IF(cell="", result, cell).
    """

    def __init__(self, table):
        self._table = table
        self.blank = {}
        self._literal = [
            {key for key, (formula, _) in row.items() if formula is None} for row in table.rows
        ]
        self._reads = {}
        self._asked = set()
        if any(self._literal):
            self._find_out()

    def _find_out(self):
        """The given columns that each choice reads, where it reads nothing else."""
        table, reads = self._table, self._reads
        taken_over = {part for step in table.order for part in _taken_over(step)}
        for step in table.order:
            if step.kind == "constant":
                reads[step] = frozenset()
            elif step.kind == "input":
                owner, key = step.what
                if owner is table and key in table.given:
                    reads[step] = frozenset([key])
            elif all(part in reads for part in step.parts):
                reads[step] = frozenset().union(*(reads[part] for part in step.parts))
        self._asked = {step for step in reads if step.kind == "IF" and step not in taken_over}

    def leave_out(self, step, rows):
        """The set of those of some rows in which the step, a choice, has to be worked out."""
        if step not in self._asked:
            return rows
        reads = self._reads[step]
        blank = {row for row in rows if reads <= self._literal[row] and self._is_empty(step, row)}
        if blank:
            self.blank[step] = blank
        return rows - blank

    def _is_empty(self, step, row):
        given = self._table.rows[row]
        return evaluated(step, lambda what: given[what[1]][1], {}) == ""

    def said(self, what, rows):
        """Those of a set of rows in which the cell of a step or a given column is written."""
        return rows - self.blank[what] if what in self.blank else rows


def _taken_over(step):
    """The parts of a step of which it takes more than whether they are an empty text."""
    if step.kind == "=" and is_empty(step.parts[1]):
        return ()
    if step.kind == "IF" and step.parts[0].kind == "=":
        asked, other = step.parts[0].parts
        if is_empty(other) and step.parts[2] is asked:
            return (step.parts[1],)
    return step.parts
