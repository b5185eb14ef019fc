"""Formulas of a workbook with calls of ours: found, taken apart, and put together again."""

import re

from ..file.trouble import Trouble
from .targets import formula_name
from .tokens import Token
from .tokens import tokens as tokens_of

_MAYBE = re.compile(r"CORNER[._][A-Z0-9_]+\s*\(", re.IGNORECASE)
_CELLS = re.compile(r"^\$?[A-Z]{1,3}\$?\d+(:\$?[A-Z]{1,3}\$?\d+)?$|^\$?[A-Z]{1,3}:\$?[A-Z]{1,3}$"
                    r"|^\$?\d+:\$?\d+$", re.IGNORECASE)  # fmt: skip


def has_call(formula):
    """Whether a formula calls one of ours, in any program's spelling."""
    return bool(_MAYBE.search(formula))


class Call:
    """A call of ours: the formula's name, and the tokens of each argument (None: left out)."""

    def __init__(self, name, arguments):
        self.name = name
        self.arguments = arguments


def taken_apart(formula):
    """A formula as a list of tokens and `Call`s, calls within arguments included."""
    tokens = tokens_of(formula)
    parts, at = _parts(tokens, 0, False)
    if at != len(tokens):
        raise Trouble(f"the formula {formula} cannot be read")
    return parts


def _parts(tokens, at, in_call):
    found, end = [], len(tokens)
    while at < end:
        token = tokens[at]
        kind = token.type
        if kind == Token.FUNC:
            if token.subtype == Token.OPEN:
                name = formula_name(token.value)
                inner, at = _arguments(tokens, at + 1)
                if name:
                    found.append(Call(name, [_trimmed(a) for a in inner]))
                else:
                    found.append(token)
                    for number, argument in enumerate(inner):
                        if number:
                            found.append(",")
                        found.extend(argument)
                    found.append(")")
                continue
            if in_call:
                return found, at
        elif in_call and kind == Token.SEP:
            return found, at
        found.append(token)
        at += 1
    return found, at


def _arguments(tokens, at):
    found = []
    while True:
        parts, at = _parts(tokens, at, True)
        if at >= len(tokens):
            raise Trouble("a bracket is not closed")
        closing = tokens[at].type == Token.FUNC
        if parts or not closing or found:
            found.append(parts)
        at += 1
        if closing:
            return found, at


def _trimmed(parts):
    kept = [p for p in parts if not (isinstance(p, Token) and p.type == Token.WSPACE)]
    return kept or None


def ranges_in(parts):
    """The text of every reference in parts, calls of ours included."""
    for part in parts:
        if isinstance(part, Call):
            for argument in part.arguments:
                yield from ranges_in(argument or ())
        elif isinstance(part, Token) and part.type == Token.OPERAND:
            if part.subtype == Token.RANGE:
                yield part.value


def is_literal(parts):
    """Whether an argument is one number or text, with a sign or without."""
    last = parts[-1]
    return (
        len(parts) <= 2
        and isinstance(last, Token)
        and last.type == Token.OPERAND
        and last.subtype in (Token.NUMBER, Token.TEXT)
        and all(isinstance(p, Token) and p.type == Token.OP_PRE for p in parts[:-1])
    )


def put_together(parts, replaced=None, sheet=None, at=None, local=()):
    """The text of parts, without '='.

    replaced: a function from a `Call` to its text. sheet: where given, references without a
    sheet get this one, so that the text means the same on another sheet; at is then the
    cell's address, for ROW() and COLUMN(), and local are the names that belong to the sheet.
    """
    texts = []
    for number, part in enumerate(parts):
        if isinstance(part, str):
            texts.append(part)
        elif isinstance(part, Call):
            texts.append(replaced(part))
        elif sheet is None:
            texts.append(part.value)
        elif part.type == Token.OPERAND and part.subtype == Token.RANGE:
            texts.append(_elsewhere(part.value, sheet, local))
        elif part.type == Token.FUNC and part.value.upper() in ("ROW(", "COLUMN("):
            texts.append(part.value)
            if parts[number + 1 : number + 2] == [")"]:
                texts.append(f"{quoted(sheet)}!{at}")
        else:
            texts.append(part.value)
    return "".join(texts)


def _elsewhere(reference, sheet, local):
    if "!" in reference:
        return reference
    if "[" in reference:
        raise Trouble(f"{reference} is a table's own way of naming cells; give their addresses")
    if _CELLS.match(reference) or reference.lower() in local:
        return f"{quoted(sheet)}!{reference}"
    return reference


def in_quotes(text):
    """A text as a formula holds it."""
    return '"%s"' % text.replace('"', '""')


def quoted(sheet):
    """A sheet's name as formulas have it."""
    return "'%s'" % sheet.replace("'", "''")
