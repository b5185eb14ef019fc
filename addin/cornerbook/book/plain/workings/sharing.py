"""Which rows of a table have a step in common: those with the same in all that it follows.

Such a step has one cell, in the first of these rows.
"""


class Sharing:
    """The rows of a settled `Table`, by what its steps follow of the given columns."""

    def __init__(self, table):
        self._table = table
        self._inputs = []
        self._follows = {}
        self._firsts = {}
        self._columns = {}
        self._counts = {}
        self._first_columns = {}
        if len(table.rows) > 1:
            self._find_out()

    def _find_out(self):
        """A number for each step, of which each bit is an input that the step follows."""
        follows = self._follows
        for step in self._table.order:
            if step.kind == "input" and step.what[0] is self._table:
                key = step.what[1]
                is_free = key in self._table.direct
                follows[step] = follows[key] = 0 if is_free else 1 << len(self._inputs)
                self._inputs.append(step)
            else:
                bits = 0
                for part in step.parts:
                    bits |= follows[part]
                follows[step] = bits

    def firsts(self, what):
        """For each row the first one that has a step, or a given column, in common with it."""
        bits = self._follows.get(what, 0)
        if bits not in self._firsts:
            self._firsts[bits] = self._firsts_by(bits, self._columns)
        return self._firsts[bits]

    def _firsts_by(self, bits, columns):
        """The same for what follows some inputs. columns: those of single ones, kept there."""
        count = len(self._table.rows)
        chosen = []
        for place, step in enumerate(self._inputs):
            if bits >> place & 1:
                if step not in columns:
                    columns[step] = _firsts_of(self._table.same(row, step) for row in range(count))
                chosen.append(columns[step])
        if len(chosen) == 1:
            return chosen[0]
        return _firsts_of(zip(*chosen, strict=True)) if chosen else [0] * count

    def count(self, step):
        """In how many rows the step differs, as far as is known before what it reads is settled."""
        bits = self._follows.get(step, 0)
        if bits not in self._counts:
            self._counts[bits] = len(set(self._firsts_by(bits, self._first_columns)))
        return self._counts[bits]

    def first_of(self, step, rows):
        """The set of the rows in which the step stands for some rows."""
        firsts = self.firsts(step)
        if len(firsts) == 1:
            return rows
        found = {firsts[row] for row in rows}
        return rows if found == rows else found


def _firsts_of(keys):
    """For each of some keys the place of the first one that is the same."""
    found: dict = {}
    return [found.setdefault(key, place) for place, key in enumerate(keys)]
