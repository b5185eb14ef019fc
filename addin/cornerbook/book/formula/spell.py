"""Trees as text again, and the parts of an IF as they are written."""

from functools import lru_cache

from .rewrite import in_quotes
from .shapes import blank, filled, numbered, parted
from .tokens import Token, tokens

_JOINED = ("infix", "prefix", "postfix")


def spelt(tree):
    """The text of a tree, without '='; brackets stand wherever they may be needed."""
    kind, what = tree[:2]
    if kind == "number":
        return f"{what:.0f}" if what.is_integer() and abs(what) < 1e15 else repr(what)
    if kind == "text":
        return in_quotes(what)
    if kind == "logical":
        return "TRUE" if what else "FALSE"
    if kind == "call":
        return f"{what}({','.join('' if part is None else spelt(part) for part in tree[2])})"
    if kind in _JOINED:
        parts = [f"({spelt(part)})" if part[0] in _JOINED else spelt(part) for part in tree[2:]]
        if kind == "infix":
            return what.join(parts)
        return what + parts[0] if kind == "prefix" else parts[0] + what
    if kind == "rows":
        rows = (",".join(map(_constant, row)) for row in what)
        return "{%s}" % ";".join(rows)
    return str(what)


def _constant(value):
    if isinstance(value, str):
        return in_quotes(value)
    return str(value).upper()


def parts_of_if(text):
    """The texts of the arguments of an IF that a formula is, as a whole; () for any other.

    text: a formula without '='.
    """
    shape, addresses = parted(text)
    blanks = _parts_of_shape(shape) if addresses else None
    if blanks is None:
        return _parts_of_if(text)
    return tuple([part if taken is None else filled(taken, addresses) for part, taken in blanks])


@lru_cache(maxsize=16384)
def _parts_of_shape(shape):
    """(part, `blank` of it) of the arguments of an IF of a shape; None if it has too many marks."""
    text = numbered(shape)
    return text and tuple((part, blank(part)) for part in _parts_of_if(text))


def _parts_of_if(text):
    found = [token for token in tokens("=" + text) if token.type != Token.WSPACE]
    if not found or found[0].type != Token.FUNC or found[0].value.upper() != "IF(":
        return ()
    parts, depth = [[]], 0
    for number, token in enumerate(found):
        opens = token.subtype == Token.OPEN and token.type != Token.OPERAND
        closes = token.subtype == Token.CLOSE and token.type != Token.OPERAND
        depth -= closes
        if not depth and closes:
            if number + 1 < len(found):
                return ()  # something stands behind it
        elif depth == 1 and token.type == Token.SEP:
            parts.append([])
        elif number:
            parts[-1].append(token.value)
        depth += opens
    return tuple("".join(part) for part in parts)
