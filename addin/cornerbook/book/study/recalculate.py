"""A workbook as a function of some of its cells.

Given new numbers for input cells, the values of the cells that are wanted: only what stands
between the two is worked out, each time in the same order. All else keeps its value.
"""

from ..file.address import cell_name
from ..file.asked import is_address, place_asked
from ..file.cell_error import CellError
from ..file.package import Package
from ..file.trouble import Trouble, some_of
from ..formula.evaluate import Evaluator
from ..formula.in_cell import in_cell
from ..formula.ranges import Range, rows_of, single, spread
from ..formula.trees import Trees
from ..formula.values import Unknown, Values

_NAMED = 8
"""How many cells a sentence names."""

CIRCLE = Unknown(Trouble("it refers to itself, by way of other cells"))


class Recalculation:
    """A workbook whose cells are worked out for changed inputs; the file is only read.

    A cell is (sheet, address), such as ("Front corner", "B7"), everywhere below. Values are
    numbers, texts, logicals, `CellError`, None for an empty cell, or `Unknown`.
    """

    def __init__(self, package):
        self.package = package
        self.trees = Trees(package)
        self.cells = self.trees.cells
        self.values = Values(package, self.trees)
        self._names = None

    @classmethod
    def read(cls, path):
        """From a file; raises `Trouble` as `Package.read` does."""
        return cls(Package.read(path))

    def find(self, text):
        """The one cell that a name (`Trail`) or an address (`Sheet!B7`) means.

        A sheet's name may stand without quotes. Raises `Trouble` for anything else.
        """
        asked = text.strip()
        if len(self.cells) > 1 and is_address(asked):
            raise Trouble(f"{text}: say on which sheet, as in '{self.package.sheets[0]}!{asked}'")
        where, top, left, bottom, right = place_asked(self.package, asked)
        if (top, left) != (bottom, right):
            raise Trouble(f"{text} is more than one cell; give one of them")
        return where, cell_name(top, left)

    def content(self, cell):
        """The `CellContent` of a cell; None if it is empty."""
        return self.trees.content(cell)

    def said(self, cell):
        """A cell in words: its name if it has one, and its address."""
        if self._names is None:
            self._names = {}
            for name, scope, text in self.package.names:
                try:
                    where, top, left, *end = self.package.resolve(text, scope)
                except (Trouble, ValueError, AttributeError):
                    continue
                if [top, left] == end:
                    self._names.setdefault((where, cell_name(top, left)), name)
        address = "%s!%s" % cell
        name = self._names.get(cell)
        return f"{name} ({address})" if name else address

    def function(self, inputs, wanted):
        """A `Function` from values of input cells to the values of wanted cells."""
        return Function(self, list(inputs), list(wanted))

    def moved(self, inputs):
        """The formula cells that input cells can move, in an order to work them out."""
        formulas = [
            (sheet, address)
            for sheet, cells in self.cells.items()
            for address, content in cells.items()
            if content.formula is not None or content.in_array is not None
        ]
        return self.between(inputs, formulas)

    def between(self, inputs, wanted):
        """The formula cells on the way from inputs to wanted cells, in an order of work."""
        inputs = set(inputs)
        self.trees.will_fill(inputs)
        done = dict.fromkeys(inputs, True)
        order, entered = [], set()
        waiting = list(wanted)
        while waiting:
            cell = waiting[-1]
            if cell in done:
                waiting.pop()
                continue
            reads, hidden = self.trees.reads(cell)
            if cell not in entered:
                entered.add(cell)
                # A cell entered and not done is on the way to itself: a circle.
                waiting.extend(c for c in reads if c not in done and c not in entered)
                continue
            waiting.pop()
            done[cell] = hidden or any(done.get(other, True) for other in reads)
            if done[cell] and cell not in inputs:
                order.append(cell)
        return order

    def write(self, changes):
        """Put new numbers into input cells of the package, and the values that follow.

        changes: {cell: number}. Returns the cells that cannot be worked out; they hold no
        value then, so that a program works them out as it opens the file.
        """
        order = self.moved(changes)
        run = _Run(self, changes)
        run.work_out(order)
        for cell, number in changes.items():
            self.package.set_value(*cell, number)
        lost = []
        for cell in order:
            content = self.content(cell)
            if content is None:
                continue  # inside an array, and never written
            value = run.single(cell)
            if isinstance(value, Unknown):
                lost.append(cell)
                if content.in_array is not None or content.formula.startswith("=TABLE("):
                    continue
                value = None
            elif _same(value, content.value):
                continue
            if content.in_array is not None:
                self.package.set_value(*cell, value)
            else:
                self.package.set_formula(*cell, content.formula, value, content.array)
        return lost


def lost_said(lost):
    """Sentences on the cells that `Recalculation.write` could not work out; none if there are
    none."""
    if not lost:
        return []
    cells = some_of(["%s!%s" % cell for cell in lost], _NAMED)
    return [
        "Cells with functions that cannot be worked out here are without a value until a program "
        f"opens the file: {cells}."
    ]


class Function:
    """Wanted cells as a function of input cells. Made by `Recalculation.function`."""

    def __init__(self, book, inputs, wanted):
        self.book = book
        self.inputs = inputs
        self.wanted = wanted
        self.order = book.between(inputs, wanted)

    def __call__(self, values):
        """The values of the wanted cells, for one value of each input cell."""
        run = _Run(self.book, dict(zip(self.inputs, values, strict=True)))
        run.work_out(self.order)
        return [run.single(cell) for cell in self.wanted]


class _Run:
    """Values of cells for one choice of inputs: what the evaluator reads."""

    def __init__(self, book, changes):
        self.book = book
        self.trees = book.trees
        self.values = dict(changes)
        self._known_rows = {}

    def work_out(self, order):
        """Find the values of cells, each after those that it reads."""
        # Inside a circle a cell is read before it is known; that must not look like a value.
        self.values.update(dict.fromkeys(order, CIRCLE))
        for cell in order:
            self.values[cell] = self.made(cell)

    def made(self, cell):
        """The value of a formula; a table for the first cell of an array, or for one call."""
        first = self.trees.first_of_array(cell)
        if first is not None:
            return self._inside(cell, first)
        array = self.trees.content(cell).array
        try:
            value = Evaluator(self).value(
                self.trees.tree(cell), self.trees.at(cell), array is not None
            )
        except Trouble as trouble:
            return Unknown(in_cell(cell, trouble))
        if array is not None:
            _, top, left, bottom, right = self.trees.place(array, self.trees.at(cell))
            value = spread(rows_of(value), bottom - top + 1, right - left + 1)
        return value

    def single(self, cell):
        """The value that a cell itself shows."""
        value = self.values[cell] if cell in self.values else self.book.values.seen(cell)
        return single(value)

    def _inside(self, cell, first):
        table = self.values[first] if first in self.values else self.book.values.seen(first)
        if not isinstance(table, tuple):
            return table
        _, top, left = self.trees.at(first)
        _, row, column = self.trees.at(cell)
        return table[row - top][column - left]

    # What the evaluator asks for

    def meaning(self, reference, here):
        return self.trees.meaning(reference, here, self._range)

    def _range(self, place):
        return Range(self, place)

    def rows(self, place):
        # What each cell of a range shows is settled before it is read here.
        if place not in self._known_rows:
            self._known_rows[place] = tuple(
                tuple(map(self._seen, row)) for row in self.trees.block(place)
            )
        return self._known_rows[place]

    def filled(self, place):
        return tuple((self._seen(cell),) for cell in self.trees.filled(place))

    def cut(self, place):
        return self.trees.cut(place)

    def _seen(self, cell):
        value = self.single(cell)
        if isinstance(value, Unknown):
            raise value.trouble
        return value


def _same(one, other):
    if isinstance(one, CellError) and isinstance(other, CellError):
        return one.code == other.code
    return type(one) is type(other) and one == other
