"""The cells of a table of workings: its headings, and a formula with its value for each step."""

from ..recorded.steps import Step
from .formula_text import FormulaText

# In points: the rows of groups and of headings, which wrap.
_GROUP_HEIGHT, _HEADING_HEIGHT = 52, 28

# Headings for steps that the geometry has no name for.
_WORK = {
    "+": "sum", "-": "difference", "*": "product", "/": "quotient", "minus": "opposite",
    "IF": "choice", "=": "same", "&": "words", "SQRT": "square root", "LN": "logarithm",
    "DEGREES": "in degrees", "RADIANS": "in radians", "<": "less", ">": "more",
    "<=": "at most", ">=": "at least",
}  # fmt: skip


def rows_of(table):
    """The rows of a `Table`: (row, [(column, formula, value, style)]), all from zero, in order.

    It must be settled, placed and computed, and so must what it reads. Each is made as it is
    asked for: of thousands of rows the texts take many times the room of all else.
    """
    layout, text = table.layout, FormulaText(table)
    note = f"{table.title}. {table.note}" if table.note else table.title
    yield layout.top, [(0, None, note, "group")]
    yield from _headings(table)
    columns = []
    for place, what in enumerate(layout.columns):
        rows = table.unsaid.said(what, table.wanted[what])
        of_row = text.for_rows(what) if rows and isinstance(what, Step) else None
        columns.append((place, what, rows, of_row))
    for row in layout.rows:
        cells = [
            (place, *_cell(table, row, what, of_row))
            for place, what, rows, of_row in columns
            if row in rows
        ]
        yield layout.line(row), cells


def _cell(table, row, what, of_row):
    """(formula, value, style) of a step, or of a given column, in a row."""
    if of_row is not None:
        value = table.values.of(row, what)
        return of_row(row), value, "plain" if isinstance(value, str) else "number"
    make = table.rows[row][what][0]
    return (make() if make else None), table.values.given(row, what), "number"


def heights_of(table):
    """The heights in points of the rows of headings, which wrap: {row from zero: points}."""
    return {table.layout.top + 1: _GROUP_HEIGHT, table.layout.top + 2: _HEADING_HEIGHT}


def _headings(table):
    """The row of groups, and that of headings."""
    top = table.layout.top
    groups, headings = [], []
    last_group = None
    counts = {}
    for place, what in enumerate(table.layout.columns):
        group, name = key = _heading(table, what)
        counts[key] = counts.get(key, 0) + 1
        if counts[key] > 1:
            name = f"{name} ({counts[key]})"
        if group != last_group:
            groups.append((place, None, group, "note"))
            last_group = group
        headings.append((place, None, name, "heading"))
    return (top + 1, groups), (top + 2, headings)


def _heading(table, what):
    if not isinstance(what, Step):
        return table.given[what]
    group, name = table.shown.get(what, (None, None))
    if name is not None:
        return group or "", name
    return what.label or ("Parts of what follows", _WORK.get(what.kind, what.kind.lower()))
