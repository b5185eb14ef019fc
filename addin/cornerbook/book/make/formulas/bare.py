"""Formulas without what they are made to ask first."""

from ...formula.parse import parse
from ...formula.spell import spelt
from ..sheet.said import EXPECTED, NONE


def before_asking(formula):
    """A formula as it was before it was made to ask first; any other as it is."""
    tree = parse(formula)
    bare = _bare(tree)
    return formula if bare == tree else "=" + spelt(bare)


def same_but_for_asking(one, other):
    """Whether two formulas are the same but for what they ask first."""
    return _bare(parse(one)) == _bare(parse(other))


def _bare(tree):
    """A tree without what is put around formulas here."""
    if tree[0] != "call":
        parts = [_bare(part) if isinstance(part, tuple) else part for part in tree]
        return tree if tree[0] == "rows" else tuple(parts)
    _, name, arguments = tree
    if name == "IF" and len(arguments) == 3 and arguments[0] and arguments[2]:
        question, one, otherwise = arguments
        if question[:2] == ("call", "ISNUMBER") and _is_said(otherwise, question[2][0]):
            return _bare(one)
    if name == "IFERROR" and arguments[1] and arguments[1][0] == "text":
        if arguments[1][1].startswith(NONE):
            return _bare(arguments[0])
    return ("call", name, [part and _bare(part) for part in arguments])


def _is_said(tree, operand):
    """Whether a tree is what is said here in place of an operand."""
    if tree[:2] == ("call", "IF"):
        tree = tree[2][2]
    return tree == operand or (tree[0] == "text" and tree[1].endswith(EXPECTED))
