"""A number in words: a text with no more decimals than it needs.

    FIXED(x,IF(ROUND(x,0)=ROUND(x,5),0,IF(ROUND(x,1)=ROUND(x,5),1, ... 5)),TRUE)

A number joined to a text as it is has 15, 17 or 20 digits, as the program pleases. Every sentence
with a number in it needs this, so it is one step, of the kind `IN_WORDS`, and not the seventeen of
which it consists. Its parts are the number, and how many decimals there may be.
"""

from ....geometry.numbers import NAN
from ...formula.functions.rounding import rounded

IN_WORDS = "FIXED"

MOST_DECIMALS = 5
"""Of a number in a sentence, if it is not rounded to fewer."""


def most_decimals(number):
    """How many decimals of a step a sentence may show."""
    return int(number.parts[1].what) if _is_rounded(number) else MOST_DECIMALS


def _is_rounded(number):
    return number.kind == "ROUND" and number.parts[1].kind == "constant"


def in_words(number, most):
    """What such a step comes to, of two floats."""
    if number != number:
        return NAN
    most = max(int(most), 0)
    whole = rounded(number, most)
    decimals = next((fewer for fewer in range(most) if rounded(number, fewer) == whole), most)
    # Added to it, nothing makes a zero with a minus one without.
    return f"{rounded(number, decimals) + 0.0:.{decimals}f}"


# Its formula


def text_of(step, number):
    """Its formula. number: the text of its number."""
    most = _most(step)
    whole = number if _is_rounded(step.parts[0]) else f"ROUND({number},{most})"
    decimals = str(most)
    for fewer in reversed(range(most)):
        decimals = f"IF(ROUND({number},{fewer})={whole},{fewer},{decimals})"
    return f"FIXED({number},{decimals},TRUE)"


def times(step):
    """How often its formula has its number."""
    return 2 * _most(step) + 1


def uses(step):
    """In how many of the pieces of work that it consists of its number is."""
    return _most(step) + 2 if not _is_rounded(step.parts[0]) else times(step)


def length(step, number):
    """How long its formula is about. number: how long that of its number is."""
    return times(step) * number + (16 if _is_rounded(step.parts[0]) else 24) * _most(step) + 12


def _most(step):
    return max(int(step.parts[1].what), 0)
