"""Recorded steps as the text of formulas in a table's rows."""

from ..recorded.steps import STRENGTH

_STRONGEST = 5


class FormulaText:
    """A table's steps as formulas: what has a column is referred to, the rest written out.

    table: the `Table`, settled and placed.
    """

    def __init__(self, table):
        self._table = table
        self._layout = table.layout

    def whole(self, step, row):
        """The formula, without '=', of a step's own cell in a row."""
        return self._written(step, row, 0)

    def _text(self, step, row, strength):
        """A step within another one; in brackets if it binds more weakly than `strength`."""
        if step in self._layout:
            return self._layout.address(step, row)
        return self._written(step, row, strength)

    def _written(self, step, row, strength):
        if step.kind == "constant":
            return constant_text(step.what)
        if step.kind == "input":
            return self._read(*step.what, row)
        if step.kind == "minus":
            text = "-" + self._text(step.parts[0], row, _STRONGEST)
            return f"({text})" if strength > 0 else text
        if step.kind in STRENGTH:
            own = STRENGTH[step.kind]
            left = self._text(step.parts[0], row, own)
            # The right side needs brackets at equal strength too, but for + and *.
            right = self._text(step.parts[1], row, own + (step.kind not in "+*&"))
            text = left + step.kind + right
            return f"({text})" if own < strength else text
        return f"{step.kind}({','.join(self._text(part, row, 0) for part in step.parts)})"

    def _read(self, table, key, row):
        """An input: a cell of the table's own row, of another table's one row, or elsewhere."""
        if table is self._table:
            return table.direct[key][0] if key in table.direct else self._layout.address(key, row)
        if table.layout.sheet == self._layout.sheet:
            return table.layout.address(key, 0, True)
        return table.layout.reference(key)


def constant_text(value):
    """A number, text or truth as formulas have it."""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, str):
        return '"%s"' % value.replace('"', '""')
    text = repr(value)
    return text[:-2] if text.endswith(".0") else text.replace("e", "E")
