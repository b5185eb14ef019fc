"""Recorded steps as the text of formulas in a table's rows."""

from ...formula.rewrite import in_quotes
from ..recorded.steps import STRENGTH
from ..recorded.words import IN_WORDS, text_of, times

# In a spreadsheet a sign binds more strongly than a power: -x^2 is the square of -x.
_STRONGEST = 6
_NEVER_IN_BRACKETS = 9


class FormulaText:
    """A table's steps as formulas: what has a column is referred to, the rest written out.

    table: the `Table`, laid out and placed.
    """

    def __init__(self, table):
        self._table = table
        self._layout = table.layout
        self._formulas = {}  # {a step with a column: (its formula, the addresses for its %s)}
        self._write()

    def for_rows(self, step):
        """A function from a row to the formula, with '=', of a step's own cell there."""
        # Rows differ in addresses alone, so the rest is written once.
        text, addresses = self._formulas[step]
        if not addresses:
            return lambda row, text=text % (): text
        return lambda row: text % tuple([each[row] for each in addresses])

    def _write(self):
        """Write every formula that is wanted, parts before wholes."""
        table, layout = self._table, self._layout
        known = {}  # {step: how another one has it, see `_written`}
        columns = set(layout.columns)
        for step in table.order:
            rows = table.wanted.get(step)
            if not rows:
                continue
            if step.kind == "input":
                known[step] = self._read(step)
            elif step not in columns:
                known[step] = _written(step, known)
            else:
                if table.unsaid.said(step, rows):
                    text, addresses, _ = _written(step, known)
                    self._formulas[step] = "=" + text, addresses
                known[step] = _reference(layout.addresses(step))

    def _read(self, step):
        """An input: a cell of the table's rows, of one row of another table, or elsewhere."""
        table, key = step.what
        if table is self._table:
            if key in table.direct:
                return table.direct[key][0].replace("%", "%%"), (), _NEVER_IN_BRACKETS
            return _reference(table.given_addresses(key))
        if table.layout.sheet == self._layout.sheet:
            return table.layout.address(*key, True), (), _NEVER_IN_BRACKETS
        return table.layout.reference(*key).replace("%", "%%"), (), _NEVER_IN_BRACKETS


def _written(step, known):
    """(a step's text, the addresses for each %s in it row by row, how strongly it binds).

    known: {step: the same} of its parts.
    """
    kind, parts = step.kind, step.parts
    if kind == "constant":
        return constant_text(step.what).replace("%", "%%"), (), _NEVER_IN_BRACKETS
    own = STRENGTH.get(kind)
    if own is not None:
        left, addresses, strength = known[parts[0]]
        right, more, other = known[parts[1]]
        if strength < own:
            left = f"({left})"
        # The right side needs brackets at equal strength too, but for + and *.
        if other < own or (other == own and kind not in "+*&"):
            right = f"({right})"
        return left + kind + right, (addresses + more if more else addresses), own
    if kind == "minus":
        text, addresses, strength = known[parts[0]]
        return "-" + (text if strength >= _STRONGEST else f"({text})"), addresses, 0
    if kind == IN_WORDS:
        number, addresses, _ = known[parts[0]]
        return text_of(step, number), addresses * times(step), _NEVER_IN_BRACKETS
    found = [known[part] for part in parts]
    inside = ",".join([text for text, _, _ in found])
    addresses = ()
    for _, more, _ in found:
        if more:
            addresses += more
    return f"{kind}({inside})", addresses, _NEVER_IN_BRACKETS


def _reference(addresses):
    """What `FormulaText` knows of a cell in each row."""
    if len(addresses) == 1:
        return addresses[0], (), _NEVER_IN_BRACKETS
    return "%s", (addresses,), _NEVER_IN_BRACKETS


def constant_text(value):
    """A number, text or truth as formulas have it."""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, str):
        return in_quotes(value)
    text = repr(value)
    return text[:-2] if text.endswith(".0") else text.replace("e", "E")
