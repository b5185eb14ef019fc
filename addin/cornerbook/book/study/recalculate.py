"""A workbook as a function of some of its cells.

Given new numbers for input cells, the values of the cells that are wanted: only what stands
between the two is worked out, each time in the same order. All else keeps its value.
"""

from openpyxl.utils.cell import coordinate_to_tuple

from ..file.address import cell_name
from ..file.cell_error import CellError
from ..file.package import Package
from ..file.trouble import Trouble
from ..formula.evaluate import Evaluator
from ..formula.parse import parse
from ..formula.rewrite import has_call
from ..formula.targets import formula_name

HIDING = {"INDIRECT", "OFFSET"}
"""Functions whose text does not show which cells they read."""


class Unknown:
    """The value of a cell that cannot be worked out here. why: a sentence without the cell."""

    def __init__(self, why):
        self.why = why


CIRCLE = Unknown("it refers to itself, by way of other cells")


class Recalculation:
    """A workbook whose cells are worked out for changed inputs; the file is only read.

    A cell is (sheet, address), such as ("Front corner", "B7"), everywhere below. Values are
    numbers, texts, logicals, `CellError`, None for an empty cell, or `Unknown`.
    """

    def __init__(self, package):
        self.package = package
        self.cells = {sheet: package.cells(sheet) for sheet in package.sheets}
        self._trees = {}
        self._places = {}
        self._reads = {}
        self._blocks = {}
        self._still = {}
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
        sheet, mark, address = asked.rpartition("!")
        if mark and not sheet.startswith("'"):
            asked = "'%s'!%s" % (sheet.replace("'", "''"), address)
        elif not mark and len(self.cells) > 1 and _is_address(asked):
            raise Trouble(f"{text}: say on which sheet, as in '{self.package.sheets[0]}!{asked}'")
        where, top, left, bottom, right = self.package.resolve(asked, self.package.sheets[0])
        if (top, left) != (bottom, right):
            raise Trouble(f"{text} is more than one cell; give one of them")
        return where, cell_name(top, left)

    def content(self, cell):
        """The `CellContent` of a cell; None if it is empty."""
        return self.cells[cell[0]].get(cell[1])

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
        done = dict.fromkeys(inputs, True)
        order, entered = [], set()
        waiting = list(wanted)
        while waiting:
            cell = waiting[-1]
            if cell in done:
                waiting.pop()
                continue
            reads, hidden = self._read_by(cell)
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

    # What a cell reads

    def _read_by(self, cell):
        """(formula or filled cells that a cell reads, whether it may read others too)."""
        if cell not in self._reads:
            content = self.content(cell)
            reads, hidden = [], False
            if content is not None and content.in_array is not None:
                reads = [(cell[0], content.in_array)]
            elif content is not None and content.formula is not None:
                try:
                    for node in _nodes(self.tree(cell)):
                        if node[0] == "call" and node[1] in HIDING:
                            hidden = True
                        elif node[0] == "reference":
                            for row in self.block(self.place(node[1], cell)):
                                reads.extend(c for c in row if self.content(c) is not None)
                except Trouble:
                    hidden = True
            self._reads[cell] = (tuple(dict.fromkeys(reads)), hidden)
        return self._reads[cell]

    def tree(self, cell):
        """The tree of a formula, our calls in the plain spelling, whatever the file's is."""
        if cell not in self._trees:
            self._trees[cell] = _plainly_called(parse(self.content(cell).formula))
        return self._trees[cell]

    def place(self, reference, cell):
        """The range that a reference in a cell means, as `Package.resolve` gives it."""
        key = (reference, cell)
        if key not in self._places:
            self._places[key] = self.package.resolve(reference, *cell)
        return self._places[key]

    def block(self, place):
        """The cells of a range, as rows."""
        if place not in self._blocks:
            sheet, top, left, bottom, right = place
            self._blocks[place] = tuple(
                tuple((sheet, cell_name(r, c)) for c in range(left, right + 1))
                for r in range(top, bottom + 1)
            )
        return self._blocks[place]

    # Values that stay

    def still(self, cell):
        """The value of a cell with the inputs as they are in the file."""
        if cell not in self._still:
            # Those before it come first, each by itself: a long chain would nest too deep.
            for other in (*self._stale_before(cell), cell):
                if other not in self._still:
                    self._still[other] = CIRCLE
                    self._still[other] = self._stored_or_made(other)
        return self._still[cell]

    def _stored_or_made(self, cell):
        content = self.content(cell)
        if content is None or not _is_stale(content):
            return None if content is None else content.value
        made = _Run(self, {}).made(cell)
        return content.value if isinstance(made, Unknown) and content.value is not None else made

    def _stale_before(self, cell):
        """The cells that have to be worked out before a cell, in order."""
        order, entered, waiting = [], set(), [cell]
        while waiting:
            here = waiting[-1]
            content = self.content(here)
            if here in self._still or content is None or not _is_stale(content):
                waiting.pop()
            elif here not in entered:
                entered.add(here)
                waiting.extend(c for c in self._read_by(here)[0] if c not in entered)
            else:
                waiting.pop()
                if here not in order:
                    order.append(here)
        return order


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


def _as_in_a_cell(tree, array):
    """Whether an array formula gives what the same formula gives in an ordinary cell.

    It does if it is one call of ours, or fills one cell and no operator takes a range apart.
    """
    if tree[0] == "call" and tree[1].startswith("CORNER."):
        return True
    return ":" not in array.replace("$", "") and not _takes_a_range_apart(tree)


def _takes_a_range_apart(tree):
    """Whether an operator or a function works on the cells of a range one by one."""
    kind = tree[0]
    if kind in ("infix", "prefix", "postfix"):
        parts = [part for part in tree[2:] if isinstance(part, tuple)]
        taken_whole = False
    elif kind == "call":
        parts = [part for part in tree[2] if part is not None]
        taken_whole = tree[1] in _TAKE_RANGES or tree[1].startswith("CORNER.")
        if tree[1] == "IF":
            # A named cell may be what is shown; the condition must be one truth.
            parts = [p for i, p in enumerate(parts) if i == 0 or p[0] != "reference"]
    else:
        return False
    if not taken_whole and any(p[0] == "reference" and not _is_one(p[1]) for p in parts):
        return True
    return any(_takes_a_range_apart(part) for part in parts)


_TAKE_RANGES = {
    "AVERAGE", "COUNT", "COUNTA", "COUNTIF", "INDEX", "MATCH", "MAX", "MIN", "ROWS", "SUM",
}  # fmt: skip


def _is_one(reference):
    """Whether a reference is the address of one cell; a name may be a range."""
    return _is_address(reference.rpartition("!")[2].replace("$", ""))


class _Run(Evaluator):
    """Values of cells for one choice of inputs."""

    def __init__(self, book, changes):
        super().__init__(self._rows)
        self.book = book
        self.values = dict(changes)
        self._known_rows = {}
        self._at = None

    def work_out(self, order):
        """Find the values of cells, each after those that it reads."""
        # Inside a circle a cell is read before it is known; that must not look like a value.
        self.values.update(dict.fromkeys(order, CIRCLE))
        for cell in order:
            self.values[cell] = self.made(cell)

    def made(self, cell):
        """The value of a formula; a table for the first cell of an array, or for one call."""
        content = self.book.content(cell)
        if content.in_array is not None:
            return self._inside(cell, content)
        before, self._at = self._at, cell
        try:
            return self._whole(self.book.tree(cell), content)
        except CellError as error:
            return error
        except Trouble as trouble:
            return Unknown(str(trouble))
        except (OverflowError, ZeroDivisionError):
            return CellError("#NUM!")
        except (TypeError, ValueError, IndexError, KeyError):
            # More arguments than the few functions known here take, or of another kind.
            return Unknown(f"{content.formula} is more than can be worked out here")
        finally:
            self._at = before

    def single(self, cell):
        """The value that a cell itself shows."""
        value = self.values[cell] if cell in self.values else self.book.still(cell)
        return value[0][0] if isinstance(value, tuple) else value

    def _whole(self, tree, content):
        if content.array and not _as_in_a_cell(tree, content.array):
            raise Trouble(f"{content.formula} is an array formula, which cannot be worked out here")
        value = self._of(tree, self._at[0])
        if isinstance(value, complex) or (isinstance(value, float) and value - value != 0.0):
            return CellError("#NUM!")
        return value

    def _inside(self, cell, content):
        first = (cell[0], content.in_array)
        table = self.values[first] if first in self.values else self.book.still(first)
        if isinstance(table, Unknown):
            return table
        if not isinstance(table, tuple) or (len(table) == 1 and len(table[0]) == 1):
            return self.single(first)
        top, left = coordinate_to_tuple(content.in_array)
        row, column = coordinate_to_tuple(cell[1])
        row, column = row - top, column - left
        if row < len(table) and column < len(table[row]):
            return table[row][column]
        return CellError("#N/A")

    def _rows(self, reference, _):
        place = self.book.place(reference, self._at)
        # What each cell of a range shows is settled before it is read here.
        rows = self._known_rows.get(place)
        if rows is None:
            rows = tuple(tuple(map(self.single, row)) for row in self.book.block(place))
            for row in rows:
                for value in row:
                    if isinstance(value, Unknown):
                        raise Trouble(value.why)
            self._known_rows[place] = rows
        return rows

    def _single(self, tree, sheet):
        if tree[0] == "reference":
            rows = self._rows(tree[1], sheet)
            if len(rows) != 1 or len(rows[0]) != 1:
                # A program would take one of them, or work with all; which is not known here.
                raise Trouble(f"{tree[1]} is more than one cell where one value is worked with")
        return super()._single(tree, sheet)


def _is_stale(content):
    """Whether the stored value of a cell is not to be trusted, or missing."""
    if content.formula is None:
        return False
    return (
        content.value is None or isinstance(content.value, CellError) or has_call(content.formula)
    )


def _is_address(text):
    try:
        coordinate_to_tuple(text.replace("$", "").upper())
    except (ValueError, TypeError):
        return False
    return True


def _same(one, other):
    if isinstance(one, CellError) and isinstance(other, CellError):
        return one.code == other.code
    return type(one) is type(other) and one == other


def _nodes(tree):
    """Every node of a formula's tree."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        yield node
        if node[0] == "call":
            waiting.extend(argument for argument in node[2] if argument is not None)
        else:
            waiting.extend(part for part in node[1:] if isinstance(part, tuple))


def _plainly_called(tree):
    kind = tree[0]
    if kind == "call":
        ours = formula_name(tree[1] + "(")
        arguments = [None if a is None else _plainly_called(a) for a in tree[2]]
        return (kind, "CORNER." + ours if ours else tree[1], arguments)
    return tuple(_plainly_called(part) if isinstance(part, tuple) else part for part in tree)
