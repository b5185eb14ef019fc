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
        self._reads = {}
        self._literal = []  # for each row a number, of which each bit is a column with a literal
        self._asked = set()
        if any(formula is None for row in table.rows for formula, _ in row.values()):
            self._find_out()

    def _find_out(self):
        """The given columns that each choice reads, as bits, where it reads nothing else."""
        table, reads = self._table, self._reads
        bits = {key: 1 << place for place, key in enumerate(table.given)}
        self._literal = [
            sum(bits[key] for key, (formula, _) in row.items() if formula is None)
            for row in table.rows
        ]
        taken_over = set()
        for step in table.order:
            taken_over.update(_taken_over(step))
            if step.kind == "constant":
                reads[step] = 0
            elif step.kind == "input":
                owner, key = step.what
                if owner is table and key in bits:
                    reads[step] = bits[key]
            else:
                read = 0
                for part in step.parts:
                    theirs = reads.get(part)
                    if theirs is None:
                        break
                    read |= theirs
                else:
                    reads[step] = read
        self._asked = {step for step in reads if step.kind == "IF" and step not in taken_over}

    def leave_out(self, step, rows):
        """The set of those of some rows in which the step, a choice, has to be worked out."""
        if step not in self._asked:
            return rows
        reads = self._reads[step]
        blank = {
            row for row in rows if not reads & ~self._literal[row] and self._is_empty(step, row)
        }
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
