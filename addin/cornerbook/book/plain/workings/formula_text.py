"""Recorded steps as the text of formulas in a table's rows."""

from ..recorded.steps import STRENGTH

_STRONGEST = 5


class FormulaText:
    """A table's steps as formulas: what has a column is referred to, the rest written out.

    table: the `Table`, laid out and placed.
    """

    def __init__(self, table):
        self._table = table
        self._layout = table.layout
        self._addresses = []

    def for_rows(self, step):
        """A function from a row to the formula, with '=', of a step's own cell there."""
        # Rows differ in addresses alone, so the rest is written once.
        self._addresses = addresses = []
        text = "=" + self._written(step, 0)
        if not addresses:
            return lambda row, text=text % (): text
        return lambda row: text % tuple([each[row] for each in addresses])

    def _text(self, step, strength):
        """A step within another one; in brackets if it binds more weakly than `strength`."""
        if step in self._layout:
            return self._address(self._layout.addresses(step))
        return self._written(step, strength)

    def _written(self, step, strength):
        if step.kind == "constant":
            return constant_text(step.what).replace("%", "%%")
        if step.kind == "input":
            return self._read(step)
        if step.kind == "minus":
            text = "-" + self._text(step.parts[0], _STRONGEST)
            return f"({text})" if strength > 0 else text
        if step.kind in STRENGTH:
            own = STRENGTH[step.kind]
            left = self._text(step.parts[0], own)
            # The right side needs brackets at equal strength too, but for + and *.
            right = self._text(step.parts[1], own + (step.kind not in "+*&"))
            text = left + step.kind + right
            return f"({text})" if own < strength else text
        return f"{step.kind}({','.join([self._text(part, 0) for part in step.parts])})"

    def _read(self, step):
        """An input: a cell of the table's rows, of another table's one row, or elsewhere."""
        table, key = step.what
        if table is self._table:
            if key in table.direct:
                return table.direct[key][0].replace("%", "%%")
            return self._address(table.given_addresses(key))
        if table.layout.sheet == self._layout.sheet:
            return table.layout.address(key, 0, True)
        return table.layout.reference(key).replace("%", "%%")

    def _address(self, addresses):
        self._addresses.append(addresses)
        return "%s"


def constant_text(value):
    """A number, text or truth as formulas have it."""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, str):
        return '"%s"' % value.replace('"', '""')
    text = repr(value)
    return text[:-2] if text.endswith(".0") else text.replace("e", "E")
