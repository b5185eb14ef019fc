"""The names by which Excel knows the formulas and their arguments."""

import keyword

NAMESPACE = "CORNER"
"""What a user types before the dot, where Excel allows one."""

CLASSIC_PREFIX = NAMESPACE + "_"
"""What stands before the name where it does not: in VBA a name has no dot."""

_WORDS_OF_VBA = frozenset(
    "addressof alias and any as boolean byref byte byval call case close const currency date "
    "debug decimal declare defbool defbyte defcur defdate defdbl defint deflng defobj defsng "
    "defstr defvar dim do double each else elseif empty end endif enum eqv erase error event "
    "exit false for friend function get global gosub goto if imp implements in input integer "
    "is let lib like line lock long longlong longptr loop lset me mod new next not nothing null "
    "object on open option optional or paramarray preserve print private property ptrsafe "
    "public put raiseevent redim rem resume return rset seek select set shared single static "
    "step stop string sub then to true type typeof unlock until variant wend while with "
    "withevents write xor".split()
)
"""Words that VBA keeps for itself, in lower case; it does not tell capitals apart."""

_WORDS_OF_XLWINGS = frozenset({"caller"})
"""An argument of this name would be filled in by xlwings and not by the user."""


def function_name(name):
    """The Python name of a formula, the same in every kind of Excel: CORNER_TRAIL for TRAIL."""
    return CLASSIC_PREFIX + name


def shown(name, classic=False):
    """The name of a formula as a user types it: CORNER.TRAIL, or CORNER_TRAIL if classic."""
    return CLASSIC_PREFIX + name if classic else NAMESPACE + "." + name


def parameter_name(name):
    """The name of an argument, with `_value` behind it where Python or VBA need the word.

    Excel shows it in the function wizard. SWEEP's `from` and `to` are such words.
    """
    taken = keyword.iskeyword(name) or name.lower() in _WORDS_OF_VBA | _WORDS_OF_XLWINGS
    return name + "_value" if taken else name
