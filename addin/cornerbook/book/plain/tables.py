"""Recorded steps as a table of plain formulas: a column a step, a row a call.

A table is first filled (given columns, rows, what must be shown) and then settled, which
decides what stands in a column of its own and what is folded into the formula that uses
it. Only then do its cells have addresses.
"""

from ..file.address import cell_name, column_letters
from ..file.cell_error import CellError
from .record import STRENGTH, Recorder, Step, evaluated

# A folded formula is kept about this short, in characters.
LONGEST = 450

_REFERENCE = 5

# Headings for steps that the geometry has no name for.
_PLAIN = {
    "+": "sum", "-": "difference", "*": "product", "/": "quotient", "minus": "opposite",
    "IF": "choice", "=": "same", "&": "words", "SQRT": "square root", "DEGREES": "in degrees",
    "RADIANS": "in radians", "<": "less", ">": "more", "<=": "at most", ">=": "at least",
}  # fmt: skip


class Table:
    """Rows of calls over columns of steps.

    title, note: texts above it. `rows`: for each row a dictionary from a given column's key
    to (formula, value), where formula is a function without arguments that gives its text
    once all tables are placed, or None for a plain value. `direct`: (address, value) of cells
    elsewhere in the workbook that steps read without a column here.
    """

    def __init__(self, title, note=""):
        self.title = title
        self.note = note
        self.recorder = Recorder()
        self.given = {}
        self.direct = {}
        self.rows = []
        self.values = []
        self.shown = {}
        self.columns = []
        self.sheet = None
        self.top = None
        self._column = {}

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

    def import_step(self, table, step):
        """The step here that reads another table's step, which has one row."""
        if step.kind == "constant":
            return self.recorder.step(step.what)
        return self.recorder.input((table, step))

    def show(self, step, group=None, name=None):
        """Make a step a column of its own, with a heading if it is given."""
        if step not in self.shown or name is not None:
            self.shown[step] = (group, name)
        return step

    # Settling

    def needed(self):
        """Every step that the shown ones are made of, parts before wholes."""
        order, seen = [], set()
        stack = [(step, False) for step in reversed(list(self.shown))]
        while stack:
            step, done = stack.pop()
            if done:
                order.append(step)
            elif step not in seen:
                seen.add(step)
                stack.append((step, True))
                stack.extend((part, False) for part in reversed(step.parts))
        return order

    def imports(self):
        """(table, step) for everything that is read from other tables."""
        return [
            step.what for step in self.needed() if step.kind == "input" and step.what[0] is not self
        ]

    def settle(self):
        """Decide the columns: given ones in use, then steps in the order of the work."""
        order = self.needed()
        used = {step.what[1] for step in order if step.kind == "input" and step.what[0] is self}
        uses = dict.fromkeys(order, 0)
        for step in order:
            for part in step.parts:
                uses[part] += 1
        alone = set(self.shown)
        lengths, work = {}, {}
        for step in order:
            _fold(step, alone, lengths, work)
            # A little work is done again where it is used; more, or often used, stands once.
            if step.parts and (
                (uses[step] == 2 and work[step] > 14) or (uses[step] > 2 and work[step] > 5)
            ):
                alone.add(step)
                lengths[step], work[step] = _REFERENCE, 0
        self.columns = [key for key in self.given if key in used] + [
            step for step in order if step in alone and not self._is_given(step)
        ]
        self._column = {what: place for place, what in enumerate(self.columns)}

    def _is_given(self, step):
        return step.kind == "input" and step.what[0] is self

    def compute(self):
        """The values of every row; the tables that it reads must be computed."""
        self.values = []
        for row in self.rows:
            known = {}

            def read(what, row=row):
                return self._read(what, row)

            for step in self.shown:
                evaluated(step, read, known)
            self.values.append(known)

    def value(self, row, step):
        """What a row's step computes, as a cell stores it."""
        known = self.values[row]
        if step not in known:
            value = self._read(step.what, self.rows[row])
        else:
            value = known[step]
        return _stored(value)

    def _read(self, what, row):
        table, key = what
        if table is not self:
            return table.values[0][key]
        value = self.direct[key][1] if key in self.direct else row[key][1]
        # A value that another table computes is asked for only now.
        return value() if callable(value) else value

    # Addresses, once settled and placed

    @property
    def height(self):
        """How many rows it takes, headings and note included."""
        return len(self.rows) + 4

    @property
    def first_row(self):
        """The row of its first call, from zero."""
        return self.top + 3

    def address(self, what, row=0, fixed=False):
        """The address of a column's cell in a row, on its own sheet."""
        return cell_name(self.first_row + row, self._place(what), fixed)

    def reference(self, what, row=0):
        """The same for formulas on other sheets."""
        return "'%s'!%s" % (self.sheet.replace("'", "''"), self.address(what, row, True))

    def column_range(self, what):
        """All rows of a column, for formulas on its own sheet."""
        letters = column_letters(self._place(what))
        first, last = self.first_row + 1, self.first_row + len(self.rows)
        return f"{letters}${first}:{letters}${last}"

    def _place(self, what):
        if isinstance(what, Step) and self._is_given(what):
            what = what.what[1]
        return self._column[what]

    # Writing

    def cells(self):
        """The table's cells: (row, column, formula, value, style), all from zero."""
        yield self.top, 0, None, self.title + (". " + self.note if self.note else ""), "group"
        groups = None
        counts = {}
        for place, what in enumerate(self.columns):
            group, name = self._heading(what)
            key = (group, name)
            counts[key] = counts.get(key, 0) + 1
            if counts[key] > 1:
                name = f"{name} ({counts[key]})"
            if group != groups:
                yield self.top + 1, place, None, group, "note"
                groups = group
            yield self.top + 2, place, None, name, "heading"
        for number, row in enumerate(self.rows):
            at = self.first_row + number
            for place, what in enumerate(self.columns):
                if isinstance(what, Step):
                    text = "=" + self._text(what, number, 0, True)
                    value = self.value(number, what)
                    yield at, place, text, value, "plain" if isinstance(value, str) else "number"
                else:
                    formula = row[what][0]
                    value = _stored(self._read((self, what), row))
                    yield at, place, formula() if formula else None, value, "number"

    def heights(self):
        """The heights in points of the rows of headings, which wrap: {row from zero: points}."""
        return {self.top + 1: 52, self.top + 2: 28}

    def _heading(self, what):
        if not isinstance(what, Step):
            return self.given[what]
        group, name = self.shown.get(what, (None, None))
        if name is not None:
            return group or "", name
        return what.label or ("Parts of what follows", _PLAIN.get(what.kind, what.kind.lower()))

    def _text(self, step, row, strength, whole=False):
        """A step as a formula's text in a row; in brackets if it binds too weakly."""
        if not whole and step in self._column:
            return self.address(step, row)
        if step.kind == "constant":
            return _constant(step.what)
        if step.kind == "input":
            table, key = step.what
            if table is not self:
                return _other(table, key, self.sheet)
            return self.direct[key][0] if key in self.direct else self.address(key, row)
        if step.kind == "minus":
            text = "-" + self._text(step.parts[0], row, 5)
            return f"({text})" if strength > 0 else text
        if step.kind in STRENGTH:
            own = STRENGTH[step.kind]
            left = self._text(step.parts[0], row, own)
            # The right side needs brackets at equal strength too, but for + and *.
            right = self._text(step.parts[1], row, own + (step.kind not in "+*&"))
            text = left + step.kind + right
            return f"({text})" if own < strength else text
        return f"{step.kind}({','.join(self._text(part, row, 0) for part in step.parts)})"


def _stored(value):
    return CellError("#N/A") if isinstance(value, float) and value != value else value


def _other(table, key, sheet):
    return table.address(key, 0, True) if table.sheet == sheet else table.reference(key)


def _constant(value):
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, str):
        return '"%s"' % value.replace('"', '""')
    text = repr(value)
    return text[:-2] if text.endswith(".0") else text.replace("e", "E")


def _fold(step, alone, lengths, work):
    """The length and work of a step's formula; parts that make it too long stand alone."""
    parts = step.parts
    while True:
        length = sum(lengths[part] for part in parts) + len(step.kind) + 2
        if length <= LONGEST:
            break
        longest = max(parts, key=lambda part: lengths[part])
        if lengths[longest] <= _REFERENCE or not longest.parts:
            break
        alone.add(longest)
        lengths[longest], work[longest] = _REFERENCE, 0
    if step in alone or step.kind == "input":
        lengths[step], work[step] = _REFERENCE, 0
    elif step.kind == "constant":
        lengths[step], work[step] = len(_constant(step.what)), 0
    else:
        lengths[step] = length
        work[step] = 1 + sum(work[part] for part in parts)
