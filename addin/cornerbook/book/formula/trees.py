"""The formulas of a workbook as trees, and which cells each of them reads."""

from openpyxl.utils.cell import coordinate_to_tuple

from ..file.address import cell_name
from ..file.trouble import Trouble
from .functions import function_named
from .parse import nodes, parse

HIDING = {"INDIRECT", "OFFSET"}
"""Functions whose text does not show which cells they read."""


class Trees:
    """The formulas of a `Package`. A cell is (sheet, address) here."""

    def __init__(self, package):
        self.package = package
        self.cells = {sheet: package.cells(sheet) for sheet in package.sheets}
        self._arrays = {}
        for sheet, contents in self.cells.items():
            for address, content in contents.items():
                if content.array is not None:
                    self._arrays[sheet, address] = content.array
        self._inside = None
        self._trees = {}
        self._places = {}
        self._blocks = {}
        self._reads = {}
        self._sure = {}
        self._at = {}
        self._names = None
        self._named = {}

    def content(self, cell):
        """The `CellContent` of a cell; None if it is empty."""
        return self.cells[cell[0]].get(cell[1])

    def first_of_array(self, cell):
        """The cell that holds the array formula in which another stands; None for any other."""
        if not self._arrays:
            return None
        if self._inside is None:
            self._inside = {}
            for (sheet, first), array in self._arrays.items():
                for row in self.block(self.place(array, self.at((sheet, first)))):
                    self._inside.update(dict.fromkeys(row, (sheet, first)))
                del self._inside[sheet, first]
        return self._inside.get(cell)

    def at(self, cell):
        """(sheet, row, column) of a cell, counted from 0."""
        if cell not in self._at:
            row, column = coordinate_to_tuple(cell[1])
            self._at[cell] = (cell[0], row - 1, column - 1)
        return self._at[cell]

    def made(self):
        """Every cell that a formula makes, those inside arrays too, sheet by sheet."""
        for sheet, contents in self.cells.items():
            for address, content in contents.items():
                if content.formula is not None:
                    yield (sheet, address)
                    if content.array is not None:
                        place = self.place(content.array, self.at((sheet, address)))
                        for row in self.block(place):
                            yield from (cell for cell in row if cell != (sheet, address))

    def is_made(self, cell):
        """Whether a formula makes a cell's value: its own, or one of an array around it."""
        content = self.content(cell)
        if content is not None and content.formula is not None:
            return True
        return self.first_of_array(cell) is not None

    def tree(self, cell):
        """The tree of a cell's formula; raises `Trouble` where it cannot be read."""
        if cell not in self._trees:
            try:
                self._trees[cell] = parse(self.content(cell).formula)
            except Trouble as trouble:
                self._trees[cell] = trouble
        if isinstance(self._trees[cell], Trouble):
            raise self._trees[cell]
        return self._trees[cell]

    def place(self, reference, here):
        """The range that a reference means, as `Package.resolve` gives it; here: see `at`."""
        key = (reference, here)
        if key not in self._places:
            sheet, row, column = here
            self._places[key] = self.package.resolve(reference, sheet, cell_name(row, column))
        return self._places[key]

    def meaning(self, reference, here, range_at):
        """What a reference means: a `Range`, by `range_at(place)`, or the tree of a name."""
        place = self._places.get((reference, here))
        if place is None:
            named = self.named(reference, here[0])
            if named is not None:
                return named
            place = self.place(reference, here)
        return range_at(place)

    def named(self, reference, sheet):
        """The tree of a name that stands for a formula or a constant; None for any other text."""
        if self._names is None:
            self._names = {}
            for name, scope, text in self.package.names:
                self._names[name.lower(), scope] = text
        key = (reference, sheet)
        if key not in self._named:
            self._named[key] = self._tree_of_name(reference, sheet)
        return self._named[key]

    def _tree_of_name(self, reference, sheet, through=()):
        name = reference.lower()
        for scope in (sheet, None):
            text = self._names.get((name, scope))
            if text is None or name in through:
                continue
            try:
                tree = parse("=" + text)
            except Trouble:
                return None  # what it is, `place` says
            if tree[0] == "reference":
                return self._tree_of_name(tree[1], sheet, (*through, name))
            return tree
        return None

    def block(self, place):
        """The cells of a range, as rows."""
        if place not in self._blocks:
            sheet, top, left, bottom, right = place
            self._blocks[place] = tuple(
                tuple((sheet, cell_name(r, c)) for c in range(left, right + 1))
                for r in range(top, bottom + 1)
            )
        return self._blocks[place]

    def surely_reads(self, cell):
        """Cells made by formulas that a cell cannot do without, whichever branch it takes."""
        if cell not in self._sure:
            found: dict = {}
            first = self.first_of_array(cell)
            if first is not None:
                found[first] = None
            else:
                try:
                    for reference in _surely_in(self.tree(cell)):
                        if self.named(reference, cell[0]) is None:
                            for row in self.block(self.place(reference, self.at(cell))):
                                found.update(dict.fromkeys(c for c in row if self.is_made(c)))
                except Trouble:
                    pass  # what is wrong is said when it is worked out
            self._sure[cell] = tuple(found)
        return self._sure[cell]

    def reads(self, cell):
        """(filled cells that a cell reads, whether it may read others too)."""
        if cell not in self._reads:
            self._reads[cell] = self._read_by(cell)
        return self._reads[cell]

    def _read_by(self, cell):
        first = self.first_of_array(cell)
        if first is not None:
            return (first,), False
        content = self.content(cell)
        if content is None or content.formula is None:
            return (), False
        found: dict = {}
        try:
            waiting, names = [self.tree(cell)], set()
            while waiting:
                for node in nodes(waiting.pop()):
                    if node[0] == "call" and node[1] in HIDING:
                        return tuple(found), True
                    if node[0] != "reference":
                        continue
                    named = self.named(node[1], cell[0])
                    if named is None and _is_elsewhere(node[1]):
                        continue
                    if named is None:
                        for row in self.block(self.place(node[1], self.at(cell))):
                            found.update(dict.fromkeys(c for c in row if self._is_filled(c)))
                    elif node[1].lower() not in names:
                        names.add(node[1].lower())
                        waiting.append(named)
        except Trouble:
            return tuple(found), True
        return tuple(found), False

    def _is_filled(self, cell):
        return self.content(cell) is not None or self.first_of_array(cell) is not None


def _is_elsewhere(reference):
    """Whether a reference is to another workbook, which no cell of this one moves."""
    return "]" in reference.partition("!")[0] and "!" in reference and "[0]" not in reference


def _surely_in(tree):
    """The references of a tree that are read whichever way it goes."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if node[0] == "reference":
            yield node[1]
        elif node[0] in ("infix", "prefix", "postfix"):
            waiting.extend(node[2:])
        elif node[0] == "call":
            is_ours = node[1].startswith("CORNER.")
            function = None if is_ours else function_named(node[1])
            count = len(node[2])
            kinds = ("any",) * count if function is None else function.surely(count)
            waiting.extend(
                argument
                for kind, argument in zip(kinds, node[2], strict=False)
                if kind != "place" and argument is not None
            )
