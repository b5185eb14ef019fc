"""Every formula of a book worked out."""

from ...file.trouble import Trouble
from ...formula.evaluate import Evaluator
from ...formula.order import Needed, work_out
from ...formula.parse import nodes, parse
from ...formula.ranges import Range, rows_of, single, spread
from ..sheet.model import CellTrouble


def compute(book, references, trees):
    """Fill in the value of every formula of a `Book`; raises `CellTrouble` for one without.

    references: the book's `References`. trees: {(name of the sheet, row, column): tree} of
    formulas that are known already.
    """
    _Computing(book, references, trees).run()


class _Computing:
    """Works out every formula of a book; a cell is (sheet, row, column) here."""

    def __init__(self, book, references, trees):
        self.references = references
        self.sheets = {sheet.name: sheet for sheet in book.sheets}
        self.cells = {sheet.name: sheet.cells for sheet in book.sheets}
        self.trees = dict(trees)
        self.known = {}
        self.arrays = {}
        self.tables = {}
        self.places = {}
        self.ranges = {}
        self.made = {}

    def run(self):
        for sheet, cells in self.cells.items():
            for (row, column), cell in list(cells.items()):
                if cell.array is not None or cell.formula is not None:
                    cell.value = self.value((sheet, row, column))

    def value(self, key):
        if key not in self.known:
            # Most formulas read what stands before them: what they name need not be looked for.
            try:
                self.known[key] = self.make(key)
            except Needed:
                work_out(key, self.known, self.reads, self.make, self.circle)
        return self.known[key]

    # What the evaluator asks for

    def meaning(self, reference, here):
        key = reference, here[0]
        if key not in self.ranges:
            self.ranges[key] = Range(self, self.place(reference, here))
        return self.ranges[key]

    def place(self, reference, here):
        key = reference, here[0]
        if key not in self.places:
            sheet, *block = self.references.block(reference, self.sheets[here[0]])
            self.places[key] = (sheet.name, *block)
        return self.places[key]

    def rows(self, place):
        if place not in self.tables:
            sheet, top, left, bottom, right = place
            self.tables[place] = tuple(
                tuple([self.seen((sheet, r, c)) for c in range(left, right + 1)])
                for r in range(top, bottom + 1)
            )
        return self.tables[place]

    def seen(self, key):
        if key in self.known:
            return self.known[key]
        cell = self.content(key)
        if cell is None:
            return None
        if cell.array is not None or cell.formula is not None:
            raise Needed(key)
        return cell.value

    # Working out

    def content(self, key):
        return self.cells[key[0]].get(key[1:])

    def first_of_array(self, key):
        """The cell that holds the array formula in which another stands; None for any other."""
        array = self.content(key).array
        if array is None or array.place[:2] == key[1:]:
            return None
        return (key[0], *array.place[:2])

    def reads(self, key):
        first = self.first_of_array(key)
        if first is not None:
            yield first
            return
        # Each once: a formula that asks first names its cells many times.
        found = (node[1] for node in nodes(self.tree(key)) if node[0] == "reference")
        for reference in dict.fromkeys(found):
            try:
                place = self.place(reference, key)
            except Trouble as trouble:
                raise _in_cell(key, trouble) from None
            if place not in self.made:
                self.made[place] = self._made_in(*place)
            yield from self.made[place]

    def _made_in(self, sheet, top, left, bottom, right):
        """The cells of a range that formulas make."""
        cells = self.cells[sheet]
        return [
            (sheet, row, column)
            for row in range(top, bottom + 1)
            for column in range(left, right + 1)
            for cell in [cells.get((row, column))]
            if cell is not None and (cell.formula is not None or cell.array is not None)
        ]

    def tree(self, key):
        if key not in self.trees:
            cell = self.content(key)
            try:
                self.trees[key] = parse(cell.formula if cell.array is None else cell.array.formula)
            except Trouble as trouble:
                raise _in_cell(key, trouble) from None
        return self.trees[key]

    def make(self, key):
        first = self.first_of_array(key)
        if first is None:
            return self.of_formula(key, self.content(key).array)
        if first not in self.known:
            raise Needed(first)
        table = self.arrays[first]
        return table[key[1] - first[1]][key[2] - first[2]]

    def of_formula(self, key, array):
        try:
            value = Evaluator(self).value(self.tree(key), key, array is not None)
        except Trouble as trouble:
            raise _in_cell(key, trouble) from None
        if array is not None:
            top, left, bottom, right = array.place
            value = spread(rows_of(value), bottom - top + 1, right - left + 1)
            self.arrays[key] = value
        return single(value)

    def circle(self, key):
        formula = self.content(key).formula
        raise CellTrouble(*key, f"the formula {formula} needs its own result")


def _in_cell(key, trouble):
    """The `Trouble` as one of a cell; as it is, if it names one that the cell needs."""
    return trouble if isinstance(trouble, CellTrouble) else CellTrouble(*key, str(trouble))
