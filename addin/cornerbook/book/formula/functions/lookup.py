"""Finding a value in a range, and picking cells by their number."""

from ...file.cell_error import CellError
from ...file.trouble import Trouble
from .. import near
from ..cell_values import compared, is_number, number_of
from ..ranges import Range, element, is_whole, rows_of, size_of
from .entry import function
from .wildcards import wildcards


def _is_like(wanted):
    """A function that tells whether a cell equals what is looked for; texts with wildcards."""
    if isinstance(wanted, str):
        pattern = wildcards(wanted)
        if pattern is not None:
            return lambda value: isinstance(value, str) and bool(pattern.fullmatch(value))
        return lambda value: isinstance(value, str) and compared(value, wanted) == 0
    if wanted is None:
        raise CellError("#N/A")
    number = number_of(wanted)
    return lambda value: is_number(value) and near.equal(number_of(value), number)


def _first_like(values, wanted):
    """The place of the first equal value, from 0; #N/A if there is none."""
    like = _is_like(wanted)
    for place, value in enumerate(values):
        if like(value):
            return place
    raise CellError("#N/A")


def _last_up_to(values, wanted, sign=1):
    """The place of the last value that is not beyond the wanted one; #N/A if there is none.

    The values are taken to be sorted, upwards for a sign of 1; those of another kind than the
    wanted one are passed over.
    """
    is_text = isinstance(wanted, str)
    found = None
    for place, value in enumerate(values):
        if isinstance(value, str) != is_text or not (is_text or is_number(value)):
            continue
        if compared(value, wanted) * sign > 0:
            break
        found = place
    if found is None:
        raise CellError("#N/A")
    return found


def _columns(rows):
    return list(zip(*rows, strict=True))


def _shown(value):
    """A value as these functions give it: a logical as a number, an empty cell as it is."""
    if isinstance(value, CellError):
        raise value
    return float(value) if isinstance(value, bool) else value


def _with_first_column(wanted, table, *others):
    return [wanted, *others, *(row[0] for row in rows_of(table))]


@function("VLOOKUP", "value", "array", "whole", "truth?", found_by=_with_first_column)
def in_first_column(wanted, table, column, is_sorted=True):
    """What stands in a column, in the row whose first cell is looked for."""
    return _beside(wanted, rows_of(table), column, is_sorted)


def _with_first_row(wanted, table, *others):
    return [wanted, *others, *rows_of(table)[0]]


@function("HLOOKUP", "value", "array", "whole", "truth?", found_by=_with_first_row)
def in_first_row(wanted, table, row, is_sorted=True):
    """What stands in a row, in the column whose first cell is looked for."""
    return _beside(wanted, _columns(rows_of(table)), row, is_sorted)


def _beside(wanted, rows, place, is_sorted):
    if place < 1:
        raise CellError("#VALUE!")
    if place > len(rows[0]):
        raise CellError("#REF!")
    first = [row[0] for row in rows]
    found = _last_up_to(first, wanted) if is_sorted else _first_like(first, wanted)
    return _shown(rows[found][place - 1])


@function("LOOKUP", "value", "array", "array?")
def in_sorted(wanted, table, results=None):
    """What stands beside the last value that is not beyond the wanted one.

    Without results: in the table's last column, or its last row if it is wider than high.
    """
    rows = rows_of(table)
    height, width = size_of(rows)
    if width > height:
        rows = _columns(rows)
    first = [row[0] for row in rows]
    found = _last_up_to(first, wanted)
    if results is None:
        return _shown(rows[found][-1])
    beside = [value for row in rows_of(results) for value in row]
    if found >= len(beside):
        raise CellError("#REF!")
    return _shown(beside[found])


@function("MATCH", "value", "array", "number?")
def place_in(wanted, table, kind=1.0):
    """The number of the cell that is looked for: 0 for an equal one, 1 or -1 in sorted ones."""
    height, width = size_of(table)
    if height > 1 and width > 1:
        raise CellError("#VALUE!")
    values = [value for row in rows_of(table) for value in row]
    if kind == 0.0:
        return _first_like(values, wanted) + 1.0
    return _last_up_to(values, wanted, 1 if kind > 0.0 else -1) + 1.0


@function("INDEX", "place", "whole?", "whole?")
def by_number(table, row=0, column=None):
    """A cell by its row and column, counted from 1; 0 for a whole row or column.

    In a single row the one number given counts the columns.
    """
    if isinstance(table, CellError):
        raise table
    if not is_whole(table):
        raise CellError("#VALUE!")
    height, width = size_of(table)
    if column is None:
        column = 0
        if height == 1:
            row, column = 0 if row == 0 else 1, row
    if row < 0 or column < 0:
        raise CellError("#VALUE!")
    if row > height or column > width:
        raise CellError("#REF!")
    top, bottom = (0, height - 1) if row == 0 else (row - 1, row - 1)
    left, right = (0, width - 1) if column == 0 else (column - 1, column - 1)
    if isinstance(table, Range):
        return table.part(top, left, bottom, right)
    rows = rows_of(table)
    if (top, left) == (bottom, right):
        value = element(rows, top, left)
        if isinstance(value, CellError):
            raise value
        return value
    return tuple(tuple(line[left : right + 1]) for line in rows[top : bottom + 1])


@function("ROWS", "place")
def height(cells):
    if isinstance(cells, CellError):
        raise cells
    return float(size_of(cells)[0])


@function("COLUMNS", "place")
def width(cells):
    if isinstance(cells, CellError):
        raise cells
    return float(size_of(cells)[1])


@function("AREAS", "place")
def areas(cells):
    if not isinstance(cells, Range):
        raise CellError("#VALUE!")
    return 1.0


@function("ROW", "tree?")
def row_of(evaluator, trees, here, wide):
    """The number of a cell's row; a column of them for a range in an array formula."""
    return _numbers_of(evaluator, trees, here, wide, 1)


@function("COLUMN", "tree?")
def column_of(evaluator, trees, here, wide):
    return _numbers_of(evaluator, trees, here, wide, 2)


def _numbers_of(evaluator, trees, here, wide, side):
    if not trees or trees[0] is None:
        if wide:
            raise Trouble("ROW or COLUMN without a cell is not known here in an array formula")
        return here[side] + 1.0
    cells = evaluator.whole(trees[0], here, wide)
    if isinstance(cells, CellError):
        raise cells
    if not isinstance(cells, Range):
        raise CellError("#VALUE!")
    first, last = cells.place[side], cells.place[side + 2]
    if not wide or first == last:
        return first + 1.0
    numbers = [place + 1.0 for place in range(first, last + 1)]
    return tuple((n,) for n in numbers) if side == 1 else (tuple(numbers),)
