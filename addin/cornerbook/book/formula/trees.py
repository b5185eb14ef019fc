"""The formulas of a workbook as trees, and which cells each of them reads."""

from ..file.address import cell_name, row_and_column
from ..file.trouble import Trouble
from .functions import function_named
from .parse import nodes, parse
from .ranges import LARGEST, hold_size, said_place

HIDING = {"INDIRECT", "OFFSET"}
"""Functions whose text does not show which cells they read."""

_LISTED = 1_000
"""Cells of a range up to which all of them are listed; of a larger one those that are filled."""


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
        self._around = {}
        self._ends = {}
        self._trees = {}
        self._fixed = {}
        self._places = {}
        self._blocks = {}
        self._reads = {}
        self._to_fill = set()
        self._sure = {}
        self._made = {}
        self._at = {}
        self._names = None
        self._named = {}

    def content(self, cell):
        """The `CellContent` of a cell; None if it is empty."""
        return self.cells[cell[0]].get(cell[1])

    def first_of_array(self, cell):
        """The cell that holds the array formula in which another stands; None for any other.

        Raises `Trouble` for a cell that has a formula of its own all the same.
        """
        if not self._arrays:
            return None
        if self._inside is None:
            self._find_arrays()
        first = self._inside.get(cell)
        if first is None and cell[0] in self._around:
            for place, other in self._around[cell[0]]:
                if other != cell and _holds(place, self.at(cell)):
                    return other
        return first

    def _find_arrays(self):
        """Note the cells inside array formulas; of a large one its range alone."""
        self._inside = {}
        for first in self._arrays:
            place = self.array_place(first)
            if _count(place) > _LISTED:
                self._around.setdefault(first[0], []).append((place, first))
            else:
                for row in self.block(place):
                    self._inside.update(dict.fromkeys(row, first))
                self._inside.pop(first, None)
        for sheet in {first[0] for first in self._arrays}:
            for address, content in self.cells[sheet].items():
                first = content.formula is not None and self.first_of_array((sheet, address))
                if first:
                    raise Trouble(
                        f"the array of {sheet}!{first[1]} runs over {address}, which has a formula "
                        "of its own; take one of them out"
                    )

    def array_place(self, first):
        """The range that an array formula fills from its first cell."""
        return self.place(self._arrays[first], self.at(first))

    def at(self, cell):
        """(sheet, row, column) of a cell, counted from 0."""
        if cell not in self._at:
            row, column = row_and_column(cell[1])
            self._at[cell] = (cell[0], row - 1, column - 1)
        return self._at[cell]

    def made(self):
        """Every cell that a formula makes, those inside arrays too, sheet by sheet."""
        for sheet, contents in self.cells.items():
            for address, content in contents.items():
                if content.formula is not None:
                    yield (sheet, address)
                    if content.array is not None:
                        place = self.array_place((sheet, address))
                        inside = self.filled(place) if _count(place) > LARGEST else self.flat(place)
                        yield from (cell for cell in inside if cell != (sheet, address))

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
        sheet, row, column = here
        place = self._fixed_place(reference, sheet)
        if place is not None:
            return place
        key = (reference, here)
        if key not in self._places:
            self._places[key] = self.package.resolve(reference, sheet, cell_name(row, column))
        return self._places[key]

    def moves(self, reference, sheet):
        """Whether a reference may mean another range in another cell of a sheet."""
        return self._fixed_place(reference, sheet) is None and self.named(reference, sheet) is None

    def _fixed_place(self, reference, sheet):
        """The same where it is one in all cells of a sheet; None for the rest."""
        key = (reference, sheet)
        if key not in self._fixed:
            self._fixed[key] = self.package.fixed_place(reference, sheet)
        return self._fixed[key]

    def meaning(self, reference, here, range_at):
        """What a reference means: a `Range`, by `range_at(place)`, or the tree of a name."""
        place = self._fixed_place(reference, here[0])
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
        """The cells of a range, as rows; raises `Trouble` for more than `LARGEST`."""
        if place in self._blocks:
            return self._blocks[place]
        sheet, top, left, bottom, right = place
        hold_size(bottom - top + 1, right - left + 1, f"the range {said_place(place)}")
        rows = tuple(
            tuple((sheet, cell_name(r, c)) for c in range(left, right + 1))
            for r in range(top, bottom + 1)
        )
        if _count(place) <= _LISTED:
            self._blocks[place] = rows
        return rows

    def flat(self, place):
        """The cells of a range one after another, row by row."""
        return (cell for row in self.block(place) for cell in row)

    def end(self, sheet):
        """(last row, last column) from 0 of what a sheet holds, arrays with all that they fill."""
        if sheet not in self._ends:
            row, column = (end - 1 for end in self.package.used(sheet))
            for first in self._arrays:
                if first[0] == sheet:
                    _, _, _, bottom, right = self.array_place(first)
                    row, column = max(row, bottom), max(column, right)
            self._ends[sheet] = row, column
        return self._ends[sheet]

    def cut(self, place):
        """A range without what is beyond the last filled row and column of its sheet."""
        sheet, top, left, bottom, right = place
        row, column = self.end(sheet)
        return sheet, top, left, max(top, min(bottom, row)), max(left, min(right, column))

    def filled(self, place):
        """The cells of a range that hold anything, row by row, in proportion to how many there are.

        Raises `Trouble` for a range within an array formula that fills more than `LARGEST`.
        """
        if place[1:3] == place[3:5]:
            cell = place[0], cell_name(place[1], place[2])
            return [cell] if self._is_filled(cell) else []
        if _count(place) <= min(max(_LISTED, 4 * len(self.cells[place[0]])), LARGEST):
            return [cell for cell in self.flat(place) if self._is_filled(cell)]
        for around, _ in self._around_in(place[0]):
            hold_size(1, _count(around), f"the array formula over {said_place(around)}")
        sheet = place[0]
        found = {(sheet, address) for address in self.cells[sheet]}
        found.update(cell for cell in self._to_fill if cell[0] == sheet)
        found.update(cell for cell in self._inside if cell[0] == sheet)
        for around, _ in self._around_in(sheet):
            found.update(self.flat(around))
        return sorted((c for c in found if _holds(place, self.at(c))), key=lambda c: self.at(c)[1:])

    def _around_in(self, sheet):
        """The large array formulas of a sheet."""
        if self._inside is None:
            self._find_arrays()
        return self._around.get(sheet, ())

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
                        for one in self._made_in(reference, cell):
                            found[one] = None
                except Trouble:
                    pass  # what is wrong is said when it is worked out
            self._sure[cell] = tuple(found)
        return self._sure[cell]

    def _made_in(self, reference, cell):
        """The cells made by formulas among those that a reference in a cell means."""
        key = (reference, cell[0])
        made = self._made.get(key)
        if made is None:
            if self.named(*key) is not None:
                return ()
            place = self.place(reference, self.at(cell))
            made = tuple(one for one in self.filled(place) if self.is_made(one))
            if place is self._fixed_place(*key):
                self._made[key] = made
        return made

    def will_fill(self, cells):
        """Take blank cells for filled ones, since something is to be put into them: what reads them
        then follows."""
        blank = {cell for cell in cells if not self._is_filled(cell)}
        if blank:
            self._to_fill |= blank
            self._reads.clear()

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
                        place = self.place(node[1], self.at(cell))
                        found.update(dict.fromkeys(self.filled(place)))
                    elif node[1].lower() not in names:
                        names.add(node[1].lower())
                        waiting.append(named)
        except Trouble:
            return tuple(found), True
        return tuple(found), False

    def _is_filled(self, cell):
        if cell in self._to_fill or self.content(cell) is not None:
            return True
        return self.first_of_array(cell) is not None


def _count(place):
    """How many cells a range has."""
    _, top, left, bottom, right = place
    return (bottom - top + 1) * (right - left + 1)


def _holds(place, at):
    """Whether a cell, as `Trees.at` gives it, is in a range."""
    return at[0] == place[0] and place[1] <= at[1] <= place[3] and place[2] <= at[2] <= place[4]


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
