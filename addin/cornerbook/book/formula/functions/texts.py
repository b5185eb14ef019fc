"""Texts: parts of them, searches and joins."""

import re

from ...file.cell_error import CellError
from ..cell_values import number_in, text_of
from ..ranges import cells_of
from .entry import function
from .wildcards import wildcards

LONGEST = 32767
"""Characters in a cell."""


def _held(text):
    if len(text) > LONGEST:
        raise CellError("#VALUE!")
    return text


def _count(number):
    if number < 0:
        raise CellError("#VALUE!")
    return number


@function("LEFT", "text", "whole?")
def left(text, count=1):
    return text[: _count(count)]


@function("RIGHT", "text", "whole?")
def right(text, count=1):
    return text[max(len(text) - _count(count), 0) :]


@function("MID", "text", "whole", "whole")
def middle(text, start, count):
    if start < 1:
        raise CellError("#VALUE!")
    return text[start - 1 : start - 1 + _count(count)]


@function("LEN", "text")
def length(text):
    return float(len(text))


@function("TRIM", "text")
def trimmed(text):
    """Without spaces at its ends, and with one alone within."""
    return " ".join(filter(None, text.split(" ")))


@function("UPPER", "text")
def upper(text):
    return text.upper()


@function("LOWER", "text")
def lower(text):
    return text.lower()


@function("PROPER", "text")
def proper(text):
    """Each word with a capital; a word begins after anything that is no letter."""
    return re.sub(r"[^\W\d_]+", lambda found: found[0][0].upper() + found[0][1:].lower(), text)


@function("FIND", "text", "text", "whole?")
def find(wanted, text, start=1):
    """Where a text stands in another, from 1. #VALUE! for an empty one, as in Calc."""
    if not 1 <= start <= len(text) or wanted == "":
        raise CellError("#VALUE!")
    place = text.find(wanted, start - 1)
    if place < 0:
        raise CellError("#VALUE!")
    return place + 1.0


@function("SEARCH", "text", "text", "whole?")
def search(wanted, text, start=1):
    """The same, with wildcards, capitals being like small letters."""
    if not 1 <= start <= len(text) or wanted == "":
        raise CellError("#VALUE!")
    pattern = wildcards(wanted) or re.compile(re.escape(wanted), re.IGNORECASE)
    found = pattern.search(text, start - 1)
    if found is None:
        raise CellError("#VALUE!")
    return found.start() + 1.0


@function("SUBSTITUTE", "text", "text", "text", "whole?")
def substituted(text, old, new, which=None):
    """All of one text by another, or the one of a number."""
    if which is not None and which < 1:
        raise CellError("#VALUE!")
    if old == "":
        return text
    if which is None:
        return _held(text.replace(old, new))
    place = -len(old)
    for _ in range(which):
        place = text.find(old, place + len(old))
        if place < 0:
            return text
    return _held(text[:place] + new + text[place + len(old) :])


@function("REPLACE", "text", "whole", "whole", "text")
def replaced(text, start, count, new):
    if start < 1:
        raise CellError("#VALUE!")
    return _held(text[: start - 1] + new + text[start - 1 + _count(count) :])


@function("REPT", "text", "whole")
def repeated(text, times):
    if _count(times) * len(text) > LONGEST:
        raise CellError("#VALUE!")
    return text * times


@function("CONCATENATE", "text", "text?...")
def concatenated(*texts):
    return _held("".join(texts))


@function("CONCAT", "cells", "cells?...")
def joined(*arguments):
    return _held("".join(text_of(value) for value, _ in cells_of(arguments)))


@function("TEXTJOIN", "text", "truth", "cells", "cells?...")
def joined_by(mark, skips_empty, *arguments):
    texts = [text_of(value) for value, _ in cells_of(arguments, empty=not skips_empty)]
    return _held(mark.join(text for text in texts if text or not skips_empty))


@function("EXACT", "text", "text")
def is_exact(one, other):
    return one == other


@function("CHAR", "whole")
def character(code):
    """The character of a code up to 127; those beyond differ from program to program."""
    if not 1 <= code <= 127:
        raise CellError("#VALUE!")
    return chr(code)


@function("UNICHAR", "whole")
def unicode_character(code):
    if not 1 <= code <= 0x10FFFF or 0xD800 <= code <= 0xDFFF:
        raise CellError("#VALUE!")
    return chr(code)


@function("CODE UNICODE", "text")
def code(text):
    """Of the first character; 0 of none, as in Calc."""
    return float(ord(text[0])) if text else 0.0


@function("CLEAN", "text")
def cleaned(text):
    """Without what does not print."""
    return "".join(letter for letter in text if ord(letter) >= 32)


@function("VALUE", "value")
def as_number(value):
    if isinstance(value, str):
        return number_in(value)
    return float(value or 0.0)
