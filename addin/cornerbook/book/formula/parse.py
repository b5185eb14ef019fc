"""A formula's text as a tree, with the usual precedence.

The tree is made of tuples: ('number', 1.0), ('text', 'a'), ('logical', True),
('error', '#N/A'), ('reference', "Sheet1!A1:B2" or a name), ('call', 'SUM', [trees; None
for an omitted argument]), ('infix', '+', left, right), ('prefix', '-', tree),
('postfix', '%', tree), ('rows', ((1.0, 'a'), (2.0, True))) for an array that is written out.

Names of functions are in capitals, without the marks that files put before newer ones, and
calls of ours are in the plain spelling (CORNER.TRAIL), whatever the program's is.
"""

from functools import lru_cache

from ..file.cell_error import CellError
from ..file.trouble import Trouble
from .shapes import numbered, parted
from .targets import formula_name
from .tokens import Token, shortened, tokens
from .tree_of_shape import with_addresses

# A sign binds tighter than any of them: -2^2 is 4 in a spreadsheet.
_STRENGTH = {
    "=": 1, "<>": 1, "<": 1, ">": 1, "<=": 1, ">=": 1,
    "&": 2, "+": 3, "-": 3, "*": 4, "/": 4, "^": 5,
}  # fmt: skip

DEEPEST = 250
"""Levels of a tree; a long sum is none, for its terms stand beside one another."""

_MARKS = ("_XLFN.", "_XLWS.")

_LOGICAL = {"TRUE": True, "FALSE": False}


@lru_cache(maxsize=16384)
def parse(text):
    """The tree of a formula that begins with '='; raises `Trouble` if it is none.

    Trees are shared: whoever has one only reads it.
    """
    shape, addresses = parted(text)
    of_shape = _of_shape(shape) if addresses else None
    return _Parser(text).tree() if of_shape is None else of_shape(addresses)


@lru_cache(maxsize=16384)
def _of_shape(shape):
    """A function from the addresses of a formula to its tree; None if it is not to be had so."""
    text = numbered(shape)
    try:
        return text and with_addresses(_Parser(text).tree())
    except Trouble:
        return None


class _Parser:
    """Puts a tree together from tokens, without nesting calls of its own.

    Each open bracket, function and array has a level of operands and operators that wait.
    """

    def __init__(self, text):
        self.text = text
        self.levels = [_Level(None)]
        # Whether an operand comes next, rather than an operator.
        self.wanting = True

    def trouble(self, why="cannot be read"):
        return Trouble(f"the formula {shortened(self.text)} {why}")

    def tree(self):
        for token in tokens(self.text):
            if token.type != Token.WSPACE:
                self.take(token)
        if len(self.levels) != 1 or self.wanting:
            raise self.trouble()
        return self.levels[0].whole()[0]

    def take(self, token):
        kind = token.type
        if kind == Token.OPERAND:
            self.operand(_operand(token), 0)
        elif kind in (Token.PAREN, Token.FUNC, Token.ARRAY):
            if token.subtype == Token.OPEN:
                self.open(token)
            else:
                self.close(token)
        elif kind == Token.SEP:
            self.separate(token)
        elif kind == Token.OP_PRE:
            if not self.wanting:
                raise self.trouble()
            self.levels[-1].operators.append(("prefix", token.value))
        elif kind == Token.OP_POST:
            self.postfix(token.value)
        elif kind == Token.OP_IN and not self.wanting and token.value in _STRENGTH:
            self.levels[-1].reduce(_STRENGTH[token.value])
            self.levels[-1].operators.append(("infix", token.value))
            self.wanting = True
        elif token.value == ",":
            raise self.trouble("joins ranges with a comma, which is not worked out here")
        else:
            raise self.trouble()

    def operand(self, tree, depth):
        if not self.wanting:
            raise self.trouble()
        level = self.levels[-1]
        operators = level.operators
        while operators and operators[-1][0] == "prefix":
            tree, depth = ("prefix", operators.pop()[1], tree), depth + 1
        if depth > DEEPEST:
            raise self.trouble(f"is nested more than {DEEPEST} deep")
        level.operands.append((tree, depth))
        self.wanting = False

    def postfix(self, sign):
        if self.wanting or sign != "%":
            raise self.trouble()
        operands = self.levels[-1].operands
        tree, depth = operands.pop()
        if tree[0] == "prefix":
            # The sign was put on first; a hundredth of it is the same.
            operands.append((("prefix", tree[1], ("postfix", sign, tree[2])), depth + 1))
        else:
            operands.append((("postfix", sign, tree), depth + 1))

    def open(self, token):
        if not self.wanting:
            raise self.trouble()
        self.levels.append(_Level(token))

    def close(self, token):
        level = self.levels.pop()
        opened = level.token
        if opened is None or opened.type != token.type:
            raise self.trouble()
        if opened.type == Token.PAREN:
            if self.wanting:
                raise self.trouble()
            self.wanting = True
            self.operand(*level.whole())
            return
        if not self.wanting:
            level.arguments.append(level.whole())
        elif level.operators:
            raise self.trouble()
        elif level.arguments:
            level.arguments.append((None, 0))  # as in IF(A1,)
        self.wanting = True
        if opened.type == Token.ARRAY:
            level.rows.append(level.arguments)
            self.operand(("rows", self.constants(level.rows)), 0)
            return
        name = opened.value[:-1].strip().upper()
        ours = formula_name(opened.value)
        for mark in _MARKS:
            name = name.removeprefix(mark)
        if name in _LOGICAL and not level.arguments:
            self.operand(("logical", _LOGICAL[name]), 0)  # as Calc writes it
            return
        deepest = max((depth for _, depth in level.arguments), default=0)
        trees = [tree for tree, _ in level.arguments]
        self.operand(("call", "CORNER." + ours if ours else name, trees), deepest + 1)

    def separate(self, token):
        level = self.levels[-1]
        if level.token is None or level.token.type == Token.PAREN:
            raise self.trouble()
        if level.operators and self.wanting:
            raise self.trouble()
        level.arguments.append((None, 0) if self.wanting else level.whole())
        if token.subtype == Token.ROW:
            if level.token.type != Token.ARRAY:
                raise self.trouble()
            level.rows.append(level.arguments)
            level.arguments = []
        self.wanting = True

    def constants(self, rows):
        """An array's values; it holds nothing but constants."""
        found = tuple(tuple(map(self.constant, row)) for row in rows)
        if len({len(row) for row in found}) != 1 or not found[0]:
            raise self.trouble("holds an array whose rows are not of one length")
        return found

    def constant(self, argument):
        tree = argument[0]
        if tree is not None and tree[0] == "prefix" and tree[2][0] == "number":
            return -tree[2][1] if tree[1] == "-" else tree[2][1]
        if tree is not None and tree[0] == "error":
            return CellError(tree[1])
        if tree is None or tree[0] not in ("number", "text", "logical"):
            raise self.trouble("holds an array with something other than constants")
        return tree[1]


class _Level:
    """What waits inside one bracket. Operands are (tree, depth)."""

    def __init__(self, token):
        self.token = token
        self.operands = []
        self.operators = []
        self.arguments = []
        self.rows = []

    def reduce(self, strength):
        """Join operands by the waiting operators that bind at least as strongly."""
        while self.operators and _STRENGTH[self.operators[-1][1]] >= strength:
            sign = self.operators.pop()[1]
            right, below = self.operands.pop()
            left, above = self.operands.pop()
            # What stands to the left is worked out in a loop, so it adds no level.
            self.operands.append((("infix", sign, left, right), max(above, below + 1)))

    def whole(self):
        """The one operand that all comes to, taken out."""
        if self.operators:
            self.reduce(0)
        return self.operands.pop()


@lru_cache(maxsize=16384)
def _operand(token):
    if token.subtype == Token.NUMBER:
        return ("number", float(token.value))
    if token.subtype == Token.TEXT:
        return ("text", token.value[1:-1].replace('""', '"'))
    if token.subtype == Token.LOGICAL:
        return ("logical", token.value.upper() == "TRUE")
    if token.subtype == Token.ERROR:
        return ("error", token.value)
    if token.value.upper().endswith("#REF!"):
        return ("error", "#REF!")  # a cell of a sheet that was deleted
    return ("reference", token.value)


_INNER = ("call", "infix", "prefix", "postfix")


def inner_nodes(tree):
    """Those nodes of a tree that have others within them: calls and signs; in the same order."""
    waiting = [tree] if tree[0] in _INNER else []
    while waiting:
        node = waiting.pop()
        yield node
        within = node[2] if node[0] == "call" else node[2:]
        waiting.extend([one for one in within[::-1] if one is not None and one[0] in _INNER])


def nodes(tree):
    """Every node of a tree, from the left, each before those within it."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        yield node
        kind = node[0]
        if kind == "call":
            waiting += [argument for argument in node[2][::-1] if argument is not None]
        elif kind == "infix":
            waiting += node[:1:-1]
        elif kind == "prefix" or kind == "postfix":
            waiting.append(node[2])
