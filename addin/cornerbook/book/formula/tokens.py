"""A formula's text in tokens, by openpyxl's tokenizer; what it cannot read is said in words."""

from functools import lru_cache

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError

from ..file.trouble import Trouble

DEEPEST = 64
"""Functions inside one another: the limit of Excel."""


@lru_cache(maxsize=16384)
def tokens(formula):
    """The tokens of a formula that begins with '='; raises `Trouble` where it is none.

    They are shared, as a formula is both parsed and taken apart: whoever has them only reads them.
    """
    try:
        found = Tokenizer(formula).items
    except (TokenizerError, IndexError):
        # An open quote, a bracket that nothing opened, a mark that means nothing.
        raise Trouble(f"the formula {shortened(formula)} cannot be read") from None
    deep = 0
    for token in found:
        if token.type == Token.FUNC:
            deep += 1 if token.subtype == Token.OPEN else -1
            if deep > DEEPEST:
                raise Trouble(
                    f"the formula {shortened(formula)} has more than {DEEPEST} functions inside "
                    "one another"
                )
    return tuple(found)


def shortened(formula):
    """A formula as a sentence shows it."""
    return formula if len(formula) <= 80 else formula[:77] + "..."
