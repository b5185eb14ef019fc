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
        self._known = {}

    def for_rows(self, step):
        """A function from a row to the formula, with '=', of a step's own cell there."""
        # Rows differ in addresses alone, so the rest is written once.
        text, addresses, _ = self._written(step)
        text = "=" + text
        if not addresses:
            return lambda row, text=text % (): text
        return lambda row: text % tuple([each[row] for each in addresses])

    def _part(self, step, strength, addresses):
        """The text of a step within another one, in brackets if it binds more weakly than that.

        The addresses that stand for its %s are added to those of the other one.
        """
        known = self._known.get(step)
        if known is None:
            of_rows = self._layout.addresses(step)
            known = self._written(step) if of_rows is None else _reference(of_rows)
            self._known[step] = known
        text, inner, own = known
        if inner:
            addresses += inner
        return f"({text})" if own < strength else text

    def _written(self, step):
        """(a step's text, the addresses for each %s in it row by row, how strongly it binds)."""
        kind, parts = step.kind, step.parts
        if kind == "constant":
            return constant_text(step.what).replace("%", "%%"), (), _NEVER_IN_BRACKETS
        if kind == "input":
            return self._read(step)
        addresses = []
        if kind == "minus":
            return "-" + self._part(parts[0], _STRONGEST, addresses), addresses, 0
        if kind == IN_WORDS:
            number = self._part(parts[0], 0, addresses)
            return text_of(step, number), addresses * times(step), _NEVER_IN_BRACKETS
        own = STRENGTH.get(kind)
        if own is None:
            inside = ",".join([self._part(part, 0, addresses) for part in parts])
            return f"{kind}({inside})", addresses, _NEVER_IN_BRACKETS
        left = self._part(parts[0], own, addresses)
        # The right side needs brackets at equal strength too, but for + and *.
        right = self._part(parts[1], own + (kind not in "+*&"), addresses)
        return left + kind + right, addresses, own

    def _read(self, step):
        """An input: a cell of the table's rows, of another table's one row, or elsewhere."""
        table, key = step.what
        if table is self._table:
            if key in table.direct:
                return table.direct[key][0].replace("%", "%%"), (), _NEVER_IN_BRACKETS
            return _reference(table.given_addresses(key))
        if table.layout.sheet == self._layout.sheet:
            return table.layout.address(key, 0, True), (), _NEVER_IN_BRACKETS
        return table.layout.reference(key).replace("%", "%%"), (), _NEVER_IN_BRACKETS


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
