"""The single cells with which a formula reckons, and whether it may come to no number."""

from ....catalogue import FORMULAS
from ...file.address import cell_name
from ...file.trouble import Trouble
from ...formula.evaluate import NAMESPACE
from ...formula.functions import function_named
from ...formula.parse import parse
from ...formula.spell import spelt
from ..sheet.said import shown_as
from .known import asked_by, key_of

_ARITHMETIC = frozenset("+-*/^")
_ORDER = frozenset(("<", ">", "<=", ">="))
"""Comparisons that take a text for more than any number."""

_NUMBERS = ("number", "whole")

_SURE = frozenset(
    "IF AND OR NOT TRUE FALSE NA ISNUMBER ISTEXT ISNONTEXT ISBLANK ISERROR ISNA N T COUNT COUNTA "
    "COUNTIF COUNTIFS SUMIF SUMIFS ROWS COLUMNS PI ABS INT ROUND SIN COS TAN ATAN RADIANS DEGREES "
    "SIGN HYPERLINK".split()
)  # fmt: skip
"""Functions that come to something whatever numbers they are given."""

SWEPT = frozenset(("CORNER.AT", "CORNER.IN_ROLL"))
"""Formulas of ours for points of a sweep: #N/A, which charts skip, where there is none."""

_OF_CELLS = frozenset(("MIN", "MAX", "SUM"))
"""Functions that come to something of cells of which none has an error."""


class Operands:
    """Looks through formulas of a `Book`; a cell is (sheet, row, column) here.

    references: the book's `References`. trees: {(name of the sheet, row, column): tree} of
    formulas that are known already.
    """

    def __init__(self, references, trees):
        self._references = references
        self._trees = trees
        self._sure = {}

    def place(self, reference, sheet):
        """(sheet, row, column) of a single cell that a reference on a sheet means; None for more.

        Raises `Trouble` for what is none.
        """
        where, top, left, bottom, right = self._references.block(reference, sheet)
        return (where, top, left) if (top, left) == (bottom, right) else None

    def said(self, tree, sheet):
        """Cells as a sentence shows them; those of a name with where they stand."""
        shown = shown_as(spelt(tree))
        if tree[0] != "reference" or ":" in shown or "!" in shown:
            return shown
        where, top, left, bottom, right = self._references.block(tree[1], sheet)
        return f"{shown} ({where.name}!{cell_name(top, left)}:{cell_name(bottom, right)})"

    def cell(self, place):
        """The `Cell` at a place; None for one that is empty."""
        return place[0].cells.get(place[1:])

    def is_for_a_number(self, place):
        """Whether a cell is a yellow one for a number that must be there."""
        cell = self.cell(place)
        return is_yellow_number(cell) and not _may_be_blank(cell)

    def shows_yellow(self, tree, sheet):
        """Whether a tree is a yellow cell for a number that must be there, or may be, by INDEX."""
        if tree[0] == "reference":
            place = self.place(tree[1], sheet)
            return place is not None and self.is_for_a_number(place)
        if tree[:2] != ("call", "INDEX") or not tree[2][0] or tree[2][0][0] != "reference":
            return False
        return any(self.is_for_a_number(place) for place in self._indexed(tree[2], sheet))

    def _indexed(self, arguments, sheet):
        """The places that an INDEX of a range may mean."""
        where, top, left, bottom, right = self._references.block(arguments[0][1], sheet)
        rows, columns = range(top, bottom + 1), range(left, right + 1)
        if len(arguments) == 2 and top == bottom:
            arguments = [arguments[0], None, arguments[1]]
        rows = _picked(rows, arguments[1])
        columns = _picked(columns, arguments[2] if len(arguments) > 2 else None)
        return [(where, row, column) for row in rows for column in columns]

    def holds_points(self, tree, sheet):
        """Whether a range holds points of a sweep, of which one may be #N/A."""
        if tree[0] != "reference":
            return False
        where, top, left, bottom, right = self._references.block(tree[1], sheet)
        rows, columns = range(top, bottom + 1), range(left, right + 1)
        cells = (where.cells.get((row, column)) for row in rows for column in columns)
        texts = [cell.formula for cell in cells if cell is not None and cell.formula is not None]
        return any(f"{name}(" in text for text in texts for name in SWEPT)

    def is_sure(self, place):
        """Whether a cell has a number whatever is typed anywhere."""
        key = (place[0].name, *place[1:])
        if key not in self._sure:
            self._sure[key] = False  # in a circle
            cell = self.cell(place)
            if cell is not None and cell.typed is None and cell.array is None:
                if cell.formula is None:
                    self._sure[key] = isinstance(cell.value, (int, float))
                else:
                    tree = self._trees.get(key) or parse(cell.formula)
                    self._sure[key] = self._is_sure_tree(tree, place[0])
        return self._sure[key]

    def _is_sure_tree(self, tree, sheet):
        if tree[0] == "number":
            return True
        if tree[0] == "reference":
            place = self.place(tree[1], sheet)
            return place is not None and self.is_sure(place)
        if tree[0] == "prefix" or (tree[0] == "infix" and tree[1] in "+-*"):
            return all(self._is_sure_tree(part, sheet) for part in tree[2:])
        if tree[0] == "infix" and tree[1] == "/":
            return _is_divisor(tree[3]) and self._is_sure_tree(tree[2], sheet)
        if tree[0] != "call":
            return False
        if tree[1] in ("MIN", "MAX", "INT", "MOD") or (tree[1] == "IF" and len(tree[2]) == 3):
            parts = tree[2][tree[1] == "IF" :]
            return all(part is not None and self._is_sure_tree(part, sheet) for part in parts)
        return tree[1] in ("COUNT", "ROWS", "PI")

    def is_sure_tree(self, tree, sheet):
        """Whether what a tree on a sheet gives is a number whatever is typed anywhere."""
        return tree is not None and self._is_sure_tree(tree, sheet)

    def of(self, tree, sheet, known, numeric=False):
        """({key: tree} of what must be a number, whether it may still come to none).

        known: a `Known`. numeric: whether what the tree gives is reckoned with.
        """
        look = _Look(self, sheet, known)
        look.at(tree, numeric)
        return look.needed, look.risky


class _Look:
    """One look through a tree."""

    def __init__(self, operands, sheet, known):
        self.operands = operands
        self.sheet = sheet
        self.known = known
        self.needed = {}
        self.risky = False

    def at(self, node, numeric):
        """Look at a part; at none, where an argument is left out."""
        kind = node and node[0]
        if kind == "reference":
            if numeric:
                self.reference(node)
        elif kind == "error":
            self.risky = True
        elif kind == "infix":
            reckons = node[1] in _ARITHMETIC
            if node[1] == "/" or node[1] == "^":
                self.risky = self.risky or not _is_divisor(node[3])
            for part in node[2:]:
                self.at(part, reckons or (node[1] in _ORDER and self.is_undoubted(part)))
        elif kind in ("prefix", "postfix"):
            self.at(node[2], True)
        elif kind == "call":
            self.call(node, numeric)

    def is_undoubted(self, node):
        """Whether a part of a comparison is a cell, or a call of ours, that nothing asks about."""
        if node[0] == "reference":
            place = self.operands.place(node[1], self.sheet)
            if place is None or may_be_blank(self.operands.cell(place)):
                return False
        elif node[0] != "call" or not node[1].startswith(NAMESPACE):
            return False
        return key_of(node) not in self.known.doubted

    def reference(self, node):
        place = self.operands.place(node[1], self.sheet)
        if place is None:
            self.risky = True
        elif not self.operands.is_sure(place):
            self.need(node, may_be_blank(self.operands.cell(place)))

    def need(self, node, doubted=False):
        key = key_of(node)
        if key in self.known.numbers:
            return
        if doubted or key in self.known.doubted:
            self.risky = True
        else:
            self.needed.setdefault(key, node)

    def call(self, node, numeric):
        _, name, arguments = node
        if self.operands.is_sure_tree(node, self.sheet):
            return
        if name == "IF":
            self.choice(arguments, numeric)
        elif name == "IFERROR":
            self.at(arguments[1], numeric)
        elif name.startswith(NAMESPACE):
            self.ours(name[len(NAMESPACE) :], arguments)
            self.risky = self.risky or name in SWEPT
            if numeric:
                self.need(node)
        elif name == "INDEX" and arguments[0] is not None:
            points = arguments[0]
            if key_of(points) not in self.known.numbers:
                self.risky = self.risky or self.operands.holds_points(points, self.sheet)
            for part in arguments[1:]:
                if not self.operands.is_sure_tree(part, self.sheet):
                    self.risky = True
                    self.at(part, True)
            if numeric:
                self.need(node)
        else:
            self.ordinary(name, arguments)

    def choice(self, arguments, numeric):
        """An IF within something else: what only one of its choices needs is not asked before."""
        condition, *choices = arguments
        self.at(condition, False)
        sure, asked = asked_by(condition) if condition is not None else ((), ())
        true = self.known.and_doubted(asked).and_numbers(sure)
        for part, known in zip(choices, (true, self.known.and_doubted(asked)), strict=False):
            if part is not None:
                needed, risky = self.operands.of(part, self.sheet, known, numeric)
                self.risky = self.risky or risky or bool(needed.keys() - self.needed.keys())

    def ours(self, name, arguments):
        """Formulas of ours say themselves what is wrong, but take a blank cell for 0."""
        for declared, part in zip(FORMULAS[name].arguments, arguments, strict=False):
            if part is not None:
                number = declared.kind in _NUMBERS
                self.at(part, number and self.operands.shows_yellow(part, self.sheet))

    def ordinary(self, name, arguments):
        function = function_named(name)
        if function is None:
            raise Trouble(f"the function {name} is not known")
        chosen = name == "CHOOSE" and self.operands.is_sure_tree(arguments[0], self.sheet)
        if not chosen and name not in _SURE and name not in _OF_CELLS:
            self.risky = True
        for kind, part in zip(function.kinds_of(len(arguments)), arguments, strict=True):
            if name in _OF_CELLS and part and part[0] == "reference":
                if self.operands.place(part[1], self.sheet) is None:
                    self.risky = self.risky or key_of(part) not in self.known.numbers
                    continue
                self.at(part, True)
            else:
                self.at(part, kind in _NUMBERS)


def is_yellow_number(cell):
    """Whether a cell is yellow and for a number."""
    return cell is not None and cell.typed is not None and cell.look == "input"


def may_be_blank(cell):
    """Whether a cell is yellow and for a number that may be left out."""
    return is_yellow_number(cell) and _may_be_blank(cell)


def _may_be_blank(cell):
    return cell.typed.may_be_blank or (cell.value is None and cell.formula is None)


def _picked(lines, tree):
    """The rows or columns of a range that an argument of INDEX picks: all, where it may be any."""
    if tree is not None and tree[0] == "number" and 0 < tree[1] <= len(lines):
        return [lines[int(tree[1]) - 1]]
    return lines


def _is_divisor(tree):
    return tree[0] == "number" and tree[1] > 0.0
