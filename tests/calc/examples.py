"""The catalogue's examples, as values for Python and as sheets for Calc."""

import ast
import functools

from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE, NAME, TABLES
from openpyxl.utils import get_column_letter, range_boundaries

NAMED = {NAME: EXAMPLE, **TABLES}
"""What examples speak of by name: the corner, and tables."""


def block_at(column):
    """The range that the example corner fills when it stands at the top of `column` (a number)."""
    return blocks_at(column)[NAME][1]


def blocks_at(column):
    """{name: (rows, range)} of what examples name, one beside the other from `column` on."""
    found = {}
    for name, rows in NAMED.items():
        first, last = (get_column_letter(c) for c in (column, column + len(rows[0]) - 1))
        found[name] = rows, f"{first}1:{last}{len(rows)}"
        column += len(rows[0]) + 1
    return found


def raw_arguments(formula):
    """What a host hands over for the formula's example."""
    return [NAMED[node.id] if _is_named(node) else _literal(node) for node in _arguments(formula)]


def in_calc_grammar(formula):
    """The example as Calc's programming interface takes it, with ';' between arguments."""
    words = []
    for node in _arguments(formula):
        value = node.id if _is_named(node) else _literal(node)
        is_text = isinstance(value, str) and not _is_named(node)
        words.append(f'"{value}"' if is_text else str(value))
    return f"=CORNER.{formula.name}({';'.join(words)})"


def _arguments(formula):
    # An example is spelled like a call in Python.
    parsed = ast.parse(formula.example.lstrip("="), mode="eval").body
    assert isinstance(parsed, ast.Call)
    return parsed.args


def _is_named(node):
    return isinstance(node, ast.Name)


def _literal(node):
    value = ast.literal_eval(node)
    return float(value) if isinstance(value, int) else value


@functools.cache
def expected(formula):
    """What Python gives for the example, as rows with None for #N/A."""
    return rows_of(call(formula.name, *raw_arguments(formula)))


def rows_of(result):
    """A result or a check value as a list of rows; a single one is a table of one cell."""
    if isinstance(result, (tuple, list)):
        return [list(row) for row in result]
    return [[result]]


@functools.cache
def places():
    """{name: range} for each example, one below the other with room for its table."""
    found = {}
    row = 1
    for formula in FORMULAS.values():
        rows = expected(formula)
        last = get_column_letter(len(rows[0]))
        found[formula.name] = f"A{row}:{last}{row + len(rows) - 1}"
        row += len(rows) + 1
    return found


def area():
    """The range that holds them all."""
    corners = [range_boundaries(place)[2:] for place in places().values()]
    columns, rows = (max(ends) for ends in zip(*corners, strict=True))
    return f"A1:{get_column_letter(columns)}{rows}"


def part(rows, range):
    """The cells of a range, of the rows of one that begins in A1."""
    left, top, right, bottom = range_boundaries(range)
    return [row[left - 1 : right] for row in rows[top - 1 : bottom]]
