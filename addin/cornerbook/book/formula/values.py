"""The values of a workbook as it stands.

A formula of ours is always worked out anew: the program that wrote the file may not have had
it. An ordinary formula is worked out anew, too, and then this rule says which value counts, ours
or the one that the file stores:

- The file stores none, an error, 0 or an empty text: ours. Programs that write files put 0 where
  they never worked anything out.
- Nothing vouches for the file's values (`Package.is_calculated`): ours.
- A cell that it reads counts with another value than the file stores: ours.
- Both are the same but for rounding: ours, which has all digits; a file may have 15.
- Else the file's, and a sentence says so (`doubts`).

Where the formula has something that is not known here, the file's value counts, unless there is
none, or it is 0 or empty and nothing vouches for it: that is refused, with the cell's name.
"""

from ..file.address import cell_name
from ..file.cell_error import CellError
from ..file.trouble import Trouble, some_of
from .cell_values import is_number
from .evaluate import Evaluator
from .in_cell import InCell, in_cell
from .order import Needed, ask_for, work_out
from .parse import parse
from .ranges import Range, hold_size, rows_of, said_place, single, spread
from .rewrite import has_call
from .trees import Trees

_NEAR = 1e-9
"""Numbers that differ by less than this part of themselves count as one; and by less than
this part of what they are made of, times a thousandth."""

NAMED = 5
"""How many cells a sentence names."""


class Unknown:
    """The value of a cell that cannot be worked out here. trouble: says why."""

    def __init__(self, trouble):
        self.trouble = trouble

    @property
    def why(self):
        """A sentence that names the cell."""
        return str(self.trouble)


class Values:
    """The values of a workbook's cells.

    trees: the `Trees` of the same package, if there are any.
    """

    def __init__(self, package, trees=None):
        self.package = package
        self.trees = trees or Trees(package)
        self.cells = self.trees.cells
        self.known = {}
        self.changed = set()
        """Cells that count with another value than the file stores."""
        self._against = []
        self._rows = {}
        self._meanings = {}

    def at(self, sheet, address):
        """The value of a cell; a table for the first cell of an array formula.

        Raises `Trouble` for one that is not known, naming the cell.
        """
        value = self.seen((sheet, address))
        if isinstance(value, Unknown):
            raise value.trouble
        return value

    def seen(self, cell):
        """The same; an `Unknown` in place of what is not known."""
        if cell not in self.known:
            if not self.trees.is_made(cell):
                content = self.trees.content(cell)
                return None if content is None else content.value
            if not self._makes_at_once(cell):
                work_out(cell, self.known, self.trees.surely_reads, self._make, self._circle)
        return self.known[cell]

    def of(self, text, sheet, address):
        """What a formula of ours is given for an argument's text in a cell; raises `Trouble`.

        A single value, None for an empty cell, or rows of them for a range.
        """
        tree = parse("=" + text)
        while True:
            try:
                return Evaluator(self).argument(tree, self.trees.at((sheet, address)))
            except CellError as error:
                return error.as_value()
            except Needed as needed:
                for cell in needed.cells:
                    self.seen(cell)

    def block(self, sheet, top, left, bottom, right):
        """The values of a range, as rows; raises `Trouble` as `at` does, and for a large one."""
        hold_size(
            bottom - top + 1,
            right - left + 1,
            f"the range {said_place((sheet, top, left, bottom, right))}",
        )
        return tuple(
            tuple(single(self.at(sheet, cell_name(r, c))) for c in range(left, right + 1))
            for r in range(top, bottom + 1)
        )

    def doubts(self):
        """Sentences on cells whose stored value is not what comes out here."""
        if not self._against:
            return []
        named = some_of(self._against, NAMED)
        return [f"What the file holds was kept where something else comes out here: {named}."]

    # What the evaluator asks for

    def meaning(self, reference, here):
        key = (reference, here[0])
        found = self._meanings.get(key)
        if found is None:
            found = self.trees.meaning(reference, here, self._range)
            if not self.trees.moves(*key):
                self._meanings[key] = found
        return found

    def _range(self, place):
        return Range(self, place)

    def rows(self, place):
        if place not in self._rows:
            block = self.trees.block(place)
            ask_for(cell for row in block for cell in row if self._waits(cell))
            self._rows[place] = tuple(tuple(map(self._read, row)) for row in block)
        return self._rows[place]

    def filled(self, place):
        """The values of the filled cells of a range, as a column."""
        cells = self.trees.filled(place)
        ask_for(filter(self._waits, cells))
        return tuple((self._read(cell),) for cell in cells)

    def cut(self, place):
        return self.trees.cut(place)

    def _waits(self, cell):
        """Whether a formula makes a cell, which is not known yet."""
        return cell not in self.known and self.trees.is_made(cell)

    def _read(self, cell):
        if cell in self.known:
            value = self.known[cell]
            if isinstance(value, Unknown):
                raise value.trouble
            return single(value)
        content = self.trees.content(cell)
        return None if content is None else content.value

    # Working out

    def _circle(self, cell):
        return self._settled(cell, Unknown(InCell(f"{said(cell)} needs its own result")))

    def _makes_at_once(self, cell):
        """Work out a cell that asks for none that is not known yet, as most do; whether it is one.

        Where it counts whether one that it reads has changed, all of these are worked out first.
        """
        if self.trees.first_of_array(cell) is not None:
            return False
        try:
            made = self._made(cell)
        except Needed:
            return False
        content = self.trees.content(cell)
        if isinstance(made, Unknown) or not (
            _same(single(made), content.value, 0.0) or self._is_ours(content)
        ):
            return False
        self.known[cell] = self._settled(cell, made)
        return True

    def _make(self, cell):
        first = self.trees.first_of_array(cell)
        if first is not None:
            return self._inside(cell, first)
        return self._settled(cell, self._made(cell))

    def _made(self, cell):
        """What the formula of a cell comes to here."""
        content = self.trees.content(cell)
        try:
            made = Evaluator(self).value(
                self.trees.tree(cell), self.trees.at(cell), content.array is not None
            )
        except Trouble as trouble:
            made = Unknown(in_cell(cell, trouble))
        if content.array is not None and not isinstance(made, Unknown):
            _, top, left, bottom, right = self.trees.place(content.array, self.trees.at(cell))
            made = spread(rows_of(made), bottom - top + 1, right - left + 1)
        return made

    def _inside(self, cell, first):
        """The value of a cell within an array formula, which its first cell has worked out."""
        if first not in self.known:
            raise Needed(first)
        table = self.known[first]
        content = self.trees.content(cell)
        stored = None if content is None else content.value
        if not isinstance(table, tuple):
            # Not known, or the file's own values count.
            return table if isinstance(table, Unknown) else stored
        _, top, left = self.trees.at(first)
        _, row, column = self.trees.at(cell)
        value = table[row - top][column - left]
        if not _same(value, stored, 0.0):
            self.changed.add(cell)
        return value

    def _settled(self, cell, made):
        """Which value of a cell counts: what was made, or what is stored."""
        content = self.trees.content(cell)
        stored = content.value
        if isinstance(made, Unknown):
            is_empty = stored is None or stored == 0 or stored == ""
            if stored is None or (is_empty and not self.package.is_calculated):
                return made
            return stored
        shown = single(made)
        if _same(shown, stored, 0.0):
            return made
        if self._is_ours(content) or self._reads_changed(cell):
            if not self._differs_by_rounding(cell, shown, stored):
                self.changed.add(cell)
            return made
        if self._differs_by_rounding(cell, shown, stored):
            return made
        self._against.append(f"{said(cell)} ({_words(stored)}, here {_words(shown)})")
        return stored

    def _is_ours(self, content):
        """Whether what comes out here counts whatever the cells that it reads do."""
        return (
            has_call(content.formula)
            or content.value in (None, 0, "")
            or isinstance(content.value, CellError)
            or not self.package.is_calculated
        )

    def _reads_changed(self, cell):
        reads, _ = self.trees.reads(cell)
        return not self.changed.isdisjoint(reads)

    def _differs_by_rounding(self, cell, shown, stored):
        """Whether two values of a cell that are not the same are so beside what it reads."""
        if not (is_number(shown) and is_number(stored)):
            return False
        return _same(shown, stored, self._size(cell))

    def _size(self, cell):
        """The largest number that a cell reads."""
        numbers = [single(self.seen(other)) for other in self.trees.reads(cell)[0]]
        return max((abs(n) for n in numbers if isinstance(n, float)), default=0.0)


def said(cell):
    """A cell in words: Sheet!B7."""
    return "%s!%s" % cell


def _words(value):
    if isinstance(value, CellError):
        return value.code
    return f"{value:.9g}" if isinstance(value, float) else str(value)


def _same(one, other, size):
    """Whether two values are one but for rounding, which may be as large as what they come from."""
    if isinstance(one, CellError) or isinstance(other, CellError):
        return isinstance(one, CellError) and isinstance(other, CellError) and (
            one.code == other.code
        )  # fmt: skip
    if is_number(one) and is_number(other):
        apart = abs(one - other)
        return apart <= _NEAR * max(abs(one), abs(other)) or apart <= 1e-3 * _NEAR * size
    return one == other and isinstance(one, str) == isinstance(other, str)
