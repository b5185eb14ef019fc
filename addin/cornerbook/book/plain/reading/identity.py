"""What makes two arguments one, so that they share a row of the workings."""

import operator

from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.evaluate import NAMESPACE
from ...formula.parse import inner_nodes, parse
from ...formula.rewrite import put_together, quoted
from ...formula.spell import spelt
from ..workings.amount import amount_of, plain
from .elsewhere import as_written

MOST_STEPS = 20
"""Cells that only work out a sum of others are followed this far."""


class Identity:
    """The `Amount` of an argument: of the cells that it comes from, the same for equal ones.

    A cell for typing is not followed, whatever formula stands in it: one types over it.

    package: the workbook. values: its `Values`. elsewhere: its `Elsewhere`.
    """

    def __init__(self, package, values, elsewhere):
        self._package = package
        self._values = values
        self._elsewhere = elsewhere
        self._inputs = {}
        self._known = {}
        self._asked = {}

    def of(self, parts, sheet, address):
        """The amount of an argument. parts: the argument's, of a cell's formula."""
        try:
            tree = parse("=" + put_together(parts, as_written))
            found = self._of_tree(tree, sheet, address, MOST_STEPS)
        except Trouble:
            found = None
        found = found or amount_of(self._elsewhere.text(parts, as_written, sheet, address))
        for asked, _, _ in self.asked_before(sheet, address):
            found = found.asked(asked)
        return found

    def asked_before(self, sheet, address):
        """The cells for typing that a cell's formula asks for numbers before it reckons with them.

        (the cell's amount, its text, the text of what is said where it has none) of each.
        """
        cell = sheet, address
        if cell not in self._asked:
            self._asked[cell] = tuple(self._find_asked(cell))
        return self._asked[cell]

    def _find_asked(self, cell):
        found = set()
        try:
            tree = self._values.trees.tree(cell)
        except Trouble:
            return
        for node in inner_nodes(tree):
            if node[1] == "IF" and node[0] == "call" and _asks_a_cell(node[2]):
                (_, _, (asks,)), _, otherwise = node[2]
                asked = self._typed(asks[1], *cell)
                if asked is not None and asked not in found:
                    found.add(asked)
                    yield asked, spelt(asks), spelt(otherwise)

    def _of_tree(self, tree, sheet, address, steps):
        """The amount of a formula in a cell; None for one that is no sum of cells."""
        kind = tree[0]
        if kind == "number":
            return plain(tree[1])
        if kind == "reference":
            return self._of_reference(tree[1], sheet, address, steps)
        if tree[:2] == ("call", "IF"):
            return self._of_asked(tree[2], sheet, address, steps)
        parts = [part for part in tree[2:] if isinstance(part, tuple)]
        if kind == "call":
            parts = tree[2]
        amounts = []
        for part in parts:
            amounts.append(part and self._of_tree(part, sheet, address, steps))
            if amounts[-1] is None:
                return None
        work = _WORK.get((kind, tree[1], len(amounts)))
        return work and work(*amounts)

    def _of_asked(self, arguments, sheet, address, steps):
        """The amount of an IF: of the choice that it takes in any case, or IF(ISNUMBER(cell), sum,
        sentence): that sum, of a cell that is asked.

        While a cell for typing has none a sentence takes the sum's place, so it is another amount
        than the sum by itself, for which a blank cell is 0.
        """
        if not _asks_a_cell(arguments):
            taken = self._taken(arguments, sheet, address, steps)
            return taken and self._of_tree(taken, sheet, address, steps)
        asked = self._typed(arguments[0][2][0][1], sheet, address)
        found = self._of_tree(arguments[1], sheet, address, steps)
        return found if asked is None or found is None else found.asked(asked)

    def _taken(self, arguments, sheet, address, steps):
        """The choice of an IF that compares two plain numbers; None for any other."""
        if len(arguments) != 3 or None in arguments or arguments[0][0] != "infix":
            return None
        _, sign, *compared = arguments[0]
        amounts = [self._of_tree(tree, sheet, address, steps) for tree in compared]
        if sign not in _COMPARED or any(one is None or one.parts for one in amounts):
            return None
        return arguments[1 if _COMPARED[sign](*(one.constant for one in amounts)) else 2]

    def _typed(self, reference, sheet, address):
        """The amount of a cell for typing; None for any other."""
        try:
            where, top, left, *_ = self._package.resolve(reference, sheet, address)
        except Trouble:
            return None
        if not self._is_typed(where, cell_name(top, left)):
            return None
        return amount_of(f"{quoted(where)}!{cell_name(top, left, True)}")

    def _is_typed(self, sheet, address):
        if sheet not in self._inputs:
            self._inputs[sheet] = set(self._package.inputs(sheet))
        return address in self._inputs[sheet]

    def _of_reference(self, reference, sheet, address, steps):
        try:
            where, top, left, bottom, right = self._package.resolve(reference, sheet, address)
        except Trouble:
            return None
        if (top, left) != (bottom, right):
            return None
        cell = where, cell_name(top, left)
        if cell not in self._known:
            found = self._of_cell(cell, steps)
            self._known[cell] = found or amount_of(f"{quoted(where)}!{cell_name(top, left, True)}")
        return self._known[cell]

    def _of_cell(self, cell, steps):
        """The amount that a cell's formula makes; None for any other cell."""
        sheet, address = cell
        content = self._values.trees.content(cell)
        if not steps or content is None or content.formula is None or content.array is not None:
            return None
        if self._is_typed(sheet, address):
            return None
        try:
            return self._of_tree(self._values.trees.tree(cell), sheet, address, steps - 1)
        except Trouble:
            return None


def _asks_a_cell(arguments):
    """Whether those of an IF ask whether a cell has a number, and call nothing of ours if not."""
    if len(arguments) != 3 or None in arguments or arguments[0][:2] != ("call", "ISNUMBER"):
        return False
    calls = (node[1] for node in inner_nodes(arguments[2]) if node[0] == "call")
    is_cell = arguments[0][2][0][0] == "reference"
    return is_cell and not any(name.startswith(NAMESPACE) for name in calls)


def _whole(number):
    return None if number.parts else plain(float(number.constant // 1.0))


def _rest(number, by):
    if number.parts or by.parts or not by.constant:
        return None
    return plain(number.constant % by.constant)


_COMPARED = {
    "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge,
    "=": operator.eq, "<>": operator.ne,
}  # fmt: skip

_WORK = {
    ("prefix", "-", 1): lambda a: a.times(-1.0),
    ("prefix", "+", 1): lambda a: a,
    ("postfix", "%", 1): lambda a: a.times(0.01),
    ("infix", "+", 2): lambda a, b: a.plus(b),
    ("infix", "-", 2): lambda a, b: a.minus(b),
    ("infix", "*", 2): lambda a, b: a.product(b),
    ("infix", "/", 2): lambda a, b: a.quotient(b),
    ("call", "INT", 1): _whole,
    ("call", "MOD", 2): _rest,
}
"""Work that leaves a sum of cells, by the kind of tree, its sign or name, and its parts."""
