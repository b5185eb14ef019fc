"""A formula's text as a tree, by openpyxl's tokenizer and the usual precedence.

The tree is made of tuples: ('number', 1.0), ('text', 'a'), ('logical', True),
('error', '#N/A'), ('reference', "Sheet1!A1:B2" or a name), ('call', 'SUM', [trees; None
for an omitted argument]), ('infix', '+', left, right), ('prefix', '-', tree),
('postfix', '%', tree).
"""

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError

from ..file.trouble import Trouble

_STRENGTH = {
    "=": 1, "<>": 1, "<": 1, ">": 1, "<=": 1, ">=": 1,
    "&": 2, "+": 3, "-": 3, "*": 4, "/": 4, "^": 5,
}  # fmt: skip


def parse(text):
    """The tree of a formula that begins with '='; raises `Trouble` if it is none."""
    try:
        tokens = [t for t in Tokenizer(text).items if t.type != Token.WSPACE]
        parser = _Parser(tokens, text)
        tree = parser.expression(0)
    except (TokenizerError, IndexError) as error:
        raise Trouble(f"the formula {text} cannot be read") from error
    except RecursionError as error:
        raise Trouble(f"the formula {text[:40]} ... is nested too deeply") from error
    if parser.next is not None:
        raise parser.trouble()
    return tree


class _Parser:
    def __init__(self, tokens, text):
        self.tokens = tokens
        self.at = 0
        self.text = text

    @property
    def next(self):
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def trouble(self):
        return Trouble(f"the formula {self.text} cannot be read near its part {self.at + 1}")

    def take(self):
        token = self.next
        if token is None:
            raise self.trouble()
        self.at += 1
        return token

    def expression(self, floor):
        left = self.operand()
        while self.next is not None:
            token = self.next
            if token.type == Token.OP_POST:
                self.at += 1
                left = ("postfix", token.value, left)
            elif token.type == Token.OP_IN and _STRENGTH.get(token.value, 0) > floor:
                self.at += 1
                right = self.expression(_STRENGTH[token.value])
                left = ("infix", token.value, left, right)
            else:
                break
        return left

    def operand(self):
        token = self.take()
        if token.type == Token.OP_PRE:
            # In a spreadsheet the sign binds tighter than any infix: -2^2 is 4.
            return ("prefix", token.value, self.operand())
        if token.type == Token.PAREN and token.subtype == Token.OPEN:
            inner = self.expression(0)
            if self.take().type != Token.PAREN:
                raise self.trouble()
            return inner
        if token.type == Token.FUNC and token.subtype == Token.OPEN:
            return ("call", token.value[:-1].upper(), self.arguments())
        if token.type == Token.OPERAND:
            return _operand(token)
        raise self.trouble()

    def arguments(self):
        found, waiting = [], None
        closed = False
        while not closed:
            token = self.next
            if token is None:
                raise self.trouble()
            if token.type == Token.FUNC and token.subtype == Token.CLOSE:
                closed = True
                if waiting is not None or found:
                    found.append(waiting)
            elif token.type == Token.SEP:
                found.append(waiting)
                waiting = None
            else:
                waiting = self.expression(0)
                continue
            self.at += 1
        return found


def _operand(token):
    if token.subtype == Token.NUMBER:
        return ("number", float(token.value))
    if token.subtype == Token.TEXT:
        return ("text", token.value[1:-1].replace('""', '"'))
    if token.subtype == Token.LOGICAL:
        return ("logical", token.value.upper() == "TRUE")
    if token.subtype == Token.ERROR:
        return ("error", token.value)
    return ("reference", token.value)
