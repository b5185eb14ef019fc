"""A formula's text in tokens; what cannot be read is said in words.

One pattern finds each token. Kinds and their names are those of openpyxl's tokenizer, to which a
test holds it; that one goes letter by letter, and takes a tenth of the time of a workbook.
"""

import re
from functools import lru_cache

from ..file.trouble import Trouble
from .shapes import blank, filled, numbered, parted

DEEPEST = 64
"""Functions inside one another: the limit of Excel."""


class Token:
    """A piece of a formula. value: its text. type, subtype: of the names below."""

    __slots__ = ("subtype", "type", "value")

    LITERAL = "LITERAL"
    OPERAND = "OPERAND"
    TEXT, NUMBER, LOGICAL, ERROR, RANGE = "TEXT", "NUMBER", "LOGICAL", "ERROR", "RANGE"

    FUNC, ARRAY, PAREN = "FUNC", "ARRAY", "PAREN"
    OPEN, CLOSE = "OPEN", "CLOSE"

    SEP = "SEP"
    ARG, ROW = "ARG", "ROW"

    OP_PRE, OP_IN, OP_POST = "OPERATOR-PREFIX", "OPERATOR-INFIX", "OPERATOR-POSTFIX"
    WSPACE = "WHITE-SPACE"

    def __init__(self, value, type, subtype=""):
        self.value = value
        self.type = type
        self.subtype = subtype

    def __repr__(self):
        return f"{self.type} {self.subtype} {self.value}:"


_ENDS = r"(?=[,;}) +\-*/^&=><%\n]|$)"
_LINK = r"'(?:[^']|'')*'(?!')"  # the name of a sheet or of a file
_INDEX = r"\[(?:[^][]|\[(?:[^][]|\[[^][]*\])*\])*\]"  # of a table or of a file
_PLAIN = r"[^[,;{}() +\-*/^&=><%\"'#\n]"
_NAME = rf"(?:{_LINK}|{_INDEX}|{_PLAIN}){_PLAIN}*(?:(?:{_INDEX}|(?<=:){_LINK}){_PLAIN}*)*"
_ERROR = r"\#(?:NULL!|DIV/0!|VALUE!|REF!|NAME\?|NUM!|N/A|GETTING_DATA)"
_TOKEN = re.compile(
    rf"""
    (?P<NUMBER>(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?){_ENDS}
    |(?P<RANGE>{_NAME})(?:{_ENDS}|(?P<call>\()|(?P<gone>(?<=!){_ERROR}))
    |(?P<TEXT>"(?:[^"]|"")*"(?!"))
    |(?P<ERROR>{_ERROR})
    |(?P<sign>>=|<=|<>|[-+*/^&=><%])
    |(?P<mark>[,;()}}{{])
    |(?P<blank>[ \n]+)
    """,
    re.VERBOSE,
)
_OPERANDS = {
    "NUMBER": Token.NUMBER,
    "RANGE": Token.RANGE,
    "TEXT": Token.TEXT,
    "ERROR": Token.ERROR,
    "gone": Token.RANGE,  # a cell of a sheet that was deleted
}

_SIGNS = {
    kind: {sign: Token(sign, kind) for sign in signs}
    for kind, signs in (
        (Token.OP_PRE, "+-"),
        (Token.OP_IN, (*"+-*/^&=><,", ">=", "<=", "<>")),
        (Token.OP_POST, "%"),
    )
}
"""The token of each sign by its kind, one for all formulas, as those below."""

_OPEN = {"(": Token("(", Token.PAREN, Token.OPEN), "{": Token("{", Token.ARRAY, Token.OPEN)}
_CLOSE = {
    Token.PAREN: Token(")", Token.PAREN, Token.CLOSE),
    Token.FUNC: Token(")", Token.FUNC, Token.CLOSE),
    Token.ARRAY: Token("}", Token.ARRAY, Token.CLOSE),
}
_ARGUMENT, _ROW = Token(",", Token.SEP, Token.ARG), Token(";", Token.SEP, Token.ROW)


@lru_cache(maxsize=16384)
def tokens(formula):
    """The tokens of a formula that begins with '='; raises `Trouble` where it is none.

    They are shared among formulas: whoever has them only reads them.
    """
    shape, addresses = parted(formula)
    of_shape = _of_shape(shape) if addresses else None
    if of_shape is None:
        return _read(formula)
    found, blanks = list(of_shape[0]), of_shape[1]
    for place, kind, taken in blanks:
        found[place] = _operand(filled(taken, addresses), kind)
    return tuple(found)


@lru_cache(maxsize=16384)
def _of_shape(shape):
    """(the tokens of a shape, (place, kind, `blank`) of those with addresses); None if it cannot
    be read as one."""
    text = numbered(shape)
    try:
        found = text and tokens(text)
    except Trouble:
        return None
    blanks = []
    for place, token in enumerate(found or ()):
        taken = blank(token.value)
        if taken is not None:
            if token.type != Token.OPERAND:
                return None
            blanks.append((place, token.subtype, taken))
    return found and (found, blanks)


def _read(formula):
    if not formula.startswith("="):
        return (Token(formula, Token.LITERAL),) if formula else ()
    found, opened, deep = [], [], 0
    match, last = None, None  # last: the kind of the last one but blanks
    # Each match begins where the one before it ended.
    for match in iter(_TOKEN.scanner(formula, 1).match, None):
        kind, value = match.lastgroup, match[0]
        if kind in _OPERANDS:
            found.append(_operand(value, kind))
            last = Token.OPERAND
        elif kind == "blank":
            found.append(Token(value[0], Token.WSPACE))
        elif kind == "sign":
            last = _kind_of_sign(value, last)
            found.append(_SIGNS[last][value])
        elif kind == "call" or value in _OPEN:
            token = _OPEN.get(value) or Token(value, Token.FUNC, Token.OPEN)
            found.append(token)
            opened.append(token.type)
            last = Token.OPEN
            deep += token.type == Token.FUNC
            if deep > DEEPEST:
                raise Trouble(
                    f"the formula {shortened(formula)} has more than {DEEPEST} functions inside "
                    "one another"
                )
        elif value == ";":
            found.append(_ROW)
            last = Token.SEP
        elif value == ",":
            joins = not opened or opened[-1] == Token.PAREN
            found.append(_SIGNS[Token.OP_IN][","] if joins else _ARGUMENT)
            last = Token.SEP
        else:
            token = _CLOSE[opened.pop()] if opened else None
            if token is None or token.value != value:
                raise _unreadable(formula)
            found.append(token)
            last = Token.CLOSE
            deep -= token.type == Token.FUNC
    if (1 if match is None else match.end()) != len(formula):
        raise _unreadable(formula)
    return tuple(found)


@lru_cache(maxsize=16384)
def _operand(value, kind):
    """The token of an operand, one for all formulas that have it."""
    subtype = Token.LOGICAL if value in ("TRUE", "FALSE") else _OPERANDS[kind]
    return Token(value, Token.OPERAND, subtype)


def _kind_of_sign(sign, last):
    """Whether a sign stands before, between or behind, by the kind of what stands before it."""
    if sign == "%":
        return Token.OP_POST
    if sign in "+-" and last not in (Token.OPERAND, Token.CLOSE, Token.OP_POST):
        return Token.OP_PRE
    return Token.OP_IN


def _unreadable(formula):
    """An open quote, a bracket that nothing opened, a mark that means nothing."""
    return Trouble(f"the formula {shortened(formula)} cannot be read")


def shortened(formula):
    """A formula as a sentence shows it."""
    return formula if len(formula) <= 80 else formula[:77] + "..."
