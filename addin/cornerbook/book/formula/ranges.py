"""Ranges of cells and tables of values on their way through a formula.

A `Range` knows where its cells stand and reads them when it is asked. A table is a tuple of row
tuples: what an array formula works with, or a formula such as SWEEP gives.
"""

from weakref import ref

from ..file.address import cell_name
from ..file.cell_error import CellError
from ..file.trouble import Trouble
from .cell_values import BLANK, SKIPPED

LARGEST = 200_000
"""Cells of a range or a table that are held at once; more only of ranges that are mostly empty."""


def hold_size(height, width, what):
    """Raise `Trouble` for a range or a table of too many cells, before anything of it is made.

    what: what has them, such as "the range Notes!A1:XFD1048576".
    """
    if height * width > LARGEST:
        raise Trouble(
            f"{what} has {height * width} cells, and {LARGEST} are worked out here at most; "
            "name only the rows and columns that are needed"
        )


def said_place(place):
    """A range in words, such as Notes!A1:B7, or Notes!A1 for one cell."""
    sheet, top, left, bottom, right = place
    first, last = cell_name(top, left), cell_name(bottom, right)
    return f"{sheet}!{first}" if first == last else f"{sheet}!{first}:{last}"


class Range:
    """Cells that a formula names, to be asked for as long as their reader is there.

    reader: as `Evaluator` has it. place: as `Package.resolve`.
    """

    __slots__ = ("_filled", "_reader", "_rows", "is_one", "place")

    def __init__(self, reader, place):
        # Readers keep their ranges: held by these they would stay, in a circle, with all they know.
        self._reader = ref(reader)
        self.place = place
        self.is_one = place[1] == place[3] and place[2] == place[4]
        """Whether it is a single cell."""
        self._rows = self._filled = None

    @property
    def height(self):
        return self.place[3] - self.place[1] + 1

    @property
    def width(self):
        return self.place[4] - self.place[2] + 1

    @property
    def is_large(self):
        """Whether it has more cells than are held at once."""
        return self.height * self.width > LARGEST

    @property
    def filled(self):
        """A table of the values of its cells, without empty ones where it is large."""
        if not self.is_large:
            return self.rows
        if self._filled is None:
            self._filled = self._reader().filled(self.place)
        return self._filled

    @property
    def rows(self):
        """The values of all cells, as a table; raises `Trouble` where it is large."""
        if self._rows is None:
            if self.is_large:
                hold_size(self.height, self.width, f"the range {said_place(self.place)}")
            self._rows = self._reader().rows(self.place)
        return self._rows

    def cut(self):
        """The same without the rows and columns at its end that are beyond all that is filled."""
        return Range(self._reader(), self._reader().cut(self.place))

    def cell(self, row, column):
        """The value of one cell, counted from 0 within the range; the others are not read."""
        return self.part(row, column, row, column).rows[0][0]

    def part(self, top, left, bottom, right):
        """Some of its cells as a range, counted from 0 within it, both ends included."""
        sheet, first_row, first_column, _, _ = self.place
        return Range(
            self._reader(),
            (sheet, first_row + top, first_column + left, first_row + bottom, first_column + right),
        )

    def crossed(self, here):
        """The cell of a column or a row that stands beside the asking one.

        A spreadsheet takes that one where a formula wants a single value. #VALUE! without.
        """
        _, top, left, bottom, right = self.place
        if left == right and top <= here[1] <= bottom:
            return self.cell(here[1] - top, 0)
        if top == bottom and left <= here[2] <= right:
            return self.cell(0, here[2] - left)
        raise CellError("#VALUE!")


def is_whole(value):
    """Whether a value is a range or a table, rather than a single value."""
    return isinstance(value, (Range, tuple))


def rows_of(value):
    """A range, a table or a single value as a table."""
    if isinstance(value, Range):
        return value.rows
    return value if isinstance(value, tuple) else ((value,),)


def single(value):
    """What one cell shows of a value: of a table, its first."""
    return value[0][0] if isinstance(value, tuple) and value and value[0] else value


def size_of(value):
    """(height, width) of a range, a table or a single value."""
    if isinstance(value, Range):
        return value.height, value.width
    return (len(value), len(value[0])) if isinstance(value, tuple) else (1, 1)


def cells_of(values, empty=False):
    """(value, whether it stands in a range or table) of arguments, a range's row by row.

    empty: whether empty cells count; without them a large range gives those that are filled.
    """
    for value in values:
        if isinstance(value, (Range, tuple)):
            rows = rows_of(value) if empty or isinstance(value, tuple) else value.filled
            for row in rows:
                for cell in row:
                    yield cell, True
        else:
            yield value, False


def element(table, row, column):
    """A table's value at a place; one row or column counts for all. IndexError beyond it."""
    line = table[0] if len(table) == 1 else table[row]
    return line[0] if len(line) == 1 else line[column]


def spread(table, height, width):
    """A table as the cells of an array formula show it: #N/A where it has no value."""
    hold_size(height, width, "the array formula")

    def at(row, column):
        try:
            value = element(table, row, column)
        except IndexError:
            return CellError("#N/A")
        return BLANK if value is None or value is SKIPPED else value

    return tuple(tuple(at(r, c) for c in range(width)) for r in range(height))


def smaller(one, other):
    """The height or the width of what two of them are combined to by an operator.

    The smaller, as in Calc; one alone goes with all. Excel takes the larger, with #N/A beyond.
    """
    if one == 1 or other == 1:
        return max(one, other)
    return min(one, other)
