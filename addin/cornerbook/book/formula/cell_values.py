"""What a cell's value is to a formula: a number, a text, a truth; how two of them compare.

A value is a float, a text, a bool, a `CellError`, or None for an empty cell. The rules are those
of Calc with a file of Excel's kind open. Where Excel is known to differ: there a logical is no
number in a comparison, joins a text as TRUE, and is passed over by SUM and the like when it
stands in a cell; here, as in Calc, it is 1 or 0 everywhere.
"""

import math
import re
import unicodedata
from datetime import date
from functools import lru_cache

from ..file.cell_error import CellError
from ..file.trouble import Trouble
from . import near

ERRORS = ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A")


class Blank(float):
    """What a cell shows whose formula comes to an empty cell: 0, and equal to an empty text.

    So in Calc; in Excel it is 0 and nothing else.
    """

    __slots__ = ()


BLANK = Blank(0.0)


class _Skipped:
    """What IF without a third argument leaves in an array: 0, and passed over by SUM and others."""

    __slots__ = ()


SKIPPED = _Skipped()


class Unseen(CellError):
    """A value of which no more is known than that it is no number."""

    def __init__(self):
        super().__init__("#VALUE!")


def is_number(value):
    """Whether a value counts as a number in a range: a logical does, an empty cell does not."""
    return isinstance(value, (float, int)) or hasattr(value, "__array_namespace__")


def number_of(value):
    """A value as a number, as arithmetic takes it; raises `CellError` for none."""
    if type(value) is float:
        return value
    if isinstance(value, (float, int)):
        return float(value)
    if value is None or value is SKIPPED:
        return 0.0
    if isinstance(value, str):
        return number_in(value)
    if isinstance(value, CellError):
        raise value
    if isinstance(value, tuple):
        raise CellError("#VALUE!")
    return value


def whole_of(value):
    """A value as a whole number, cut towards zero."""
    number = near.truncated(number_of(value))
    if not math.isfinite(number):
        raise CellError("#NUM!")
    return int(number)


def truth_of(value):
    """A value as a truth; raises `CellError` for none."""
    if isinstance(value, bool):
        return value
    return number_of(value) != 0.0


def text_of(value):
    """A value as a text, as & joins it."""
    if isinstance(value, str):
        return value
    if value is None:
        return ""
    if isinstance(value, CellError):
        raise value
    return "FALSE" if value is SKIPPED else number_text(float(value))


def number_text(number):
    """A number as a text of at most 15 digits; a large or a tiny one has an exponent.

    Excel writes more of them out in full, and an exponent with two digits.
    """
    if number.is_integer() and abs(number) < 2.0**53:
        plain = str(int(number))
        if len(plain.lstrip("-")) <= 16:
            return plain
    mantissa, _, exponent = f"{number:.14e}".partition("e")
    power = int(exponent)
    if power <= -15 or power >= 15:
        mantissa = mantissa.rstrip("0").rstrip(".")
        return f"{mantissa}E{'-' if power < 0 else '+'}{abs(power):03d}"
    text = f"{number:.{max(14 - power, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


# Texts that are numbers

_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?$")
_PERCENT = re.compile(r"([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)) ?%$")
_DATE = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})(?:[ T](.+))?$")
_TIME = re.compile(r"([0-9]{1,4}):([0-9]{1,2})(?::([0-9]{1,2}(?:\.[0-9]+)?))?$")
_OTHERWISE = re.compile(r"[0-9., /:()+$€£¥'-]+$")
_NAMED = re.compile(
    r"\b(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b|[0-9] ?[ap]m?$", re.IGNORECASE
)
DAY_ZERO = date(1899, 12, 30).toordinal()


def number_in(text):
    """The number that a text is, as arithmetic takes it: "5", " 1.5e3", "50%", an ISO date.

    Raises `CellError` for a text that is none. A text that one language or year reads as a
    number and another does not ("1,5", "1/2", "$5") raises `Trouble`: which it is does not
    stand in the file.
    """
    plain = text.strip(" ")
    if _NUMBER.match(plain):
        number = float(plain)
        if math.isfinite(number):
            return number
        raise CellError("#NUM!")
    found = _PERCENT.match(plain)
    if found:
        return float(found[1]) / 100.0
    if plain.upper() in ("TRUE", "FALSE"):
        return float(plain.upper() == "TRUE")
    moment = moment_in(plain)
    if moment is not None:
        return moment
    has_digit = any(letter in "0123456789" for letter in plain)
    if has_digit and (_OTHERWISE.match(plain) or _NAMED.search(plain)):
        if not _DATE.match(plain) and not _TIME.match(plain):
            raise Trouble(
                f'the text "{text}" may or may not be a number, by the language of the program; '
                "put a number in its place"
            )
    raise CellError("#VALUE!")


def moment_in(text):
    """The serial number of an ISO date, a time of day or both; None for any other text."""
    found = _DATE.match(text)
    if found:
        try:
            day = date(int(found[1]), int(found[2]), int(found[3])).toordinal() - DAY_ZERO
        except ValueError:
            return None
        if found[4] is None:
            return float(day)
        clock = _time_in(found[4])
        return None if clock is None else day + clock
    return _time_in(text)


def _time_in(text):
    found = _TIME.match(text)
    if not found or int(found[2]) > 59 or float(found[3] or 0) >= 60.0:
        return None
    return (int(found[1]) * 3600 + int(found[2]) * 60 + float(found[3] or 0)) / 86400.0


# Comparisons


def compared(a, b):
    """-1, 0 or 1: how two values stand to one another. Numbers come before texts.

    An empty cell is like 0 or an empty text, whichever it is compared with.
    """
    if isinstance(a, str) or isinstance(b, str):
        # An empty cell is an empty text here, and so is what shows one.
        a = "" if a is None or type(a) is Blank else a
        b = "" if b is None or type(b) is Blank else b
        if isinstance(a, str) and isinstance(b, str):
            one, other = collated(a), collated(b)
            return (one > other) - (one < other)
        return 1 if isinstance(a, str) else -1
    one, other = number_of(a), number_of(b)
    if near.equal(one, other):
        return 0
    return -1 if one < other else 1


_MARKS = "_-,;:!?.'\"()[]{}@*/\\&#%`^+<=>|~$"
_PLACES = {mark: place for place, mark in enumerate(_MARKS)}


@lru_cache(maxsize=16_384)
def collated(text):
    """A key to sort texts by: capitals are like small letters, accents matter last.

    Space, then marks, digits and letters, as in the Unicode collation's root order (from
    memory). Excel passes over hyphens and apostrophes.
    """
    lowered = text.casefold()
    if lowered.isascii():
        return tuple(map(_place, lowered)), ""
    bare, accents = [], []
    for letter in unicodedata.normalize("NFD", lowered):
        (accents if unicodedata.combining(letter) else bare).append(letter)
    return tuple(map(_place, bare)), "".join(accents)


def _place(letter):
    if letter in _PLACES:
        return (1, _PLACES[letter])
    if letter.isspace():
        return (0, ord(letter))
    if letter.isdigit():
        return (2, unicodedata.digit(letter, ord(letter)))
    return (3, ord(letter)) if letter.isalpha() else (1, len(_MARKS) + ord(letter))
