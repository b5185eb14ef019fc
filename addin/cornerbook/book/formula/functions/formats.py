"""Numbers written out by a format, such as "0.00", "#,##0", "0%" or "yyyy-mm-dd"."""

import re
from decimal import ROUND_HALF_UP, Decimal

from ...file.cell_error import CellError
from ...file.trouble import Trouble
from ..cell_values import number_in, number_text
from .dates import clock_of, day_of
from .entry import function
from .rounding import rounded

_MOST = 15
"""Digits of a float that are true."""


@function("TEXT", "value", "text")
def formatted(value, code):
    """A number by a format; a text that is no number stays as it is."""
    if isinstance(value, str):
        if "@" in code:
            return code.replace("@", value) if code == "@" else _refused(code)
        try:
            value = number_in(value)
        except CellError:
            return value
    number = float(value or 0.0)
    if code == "":
        return ""
    if code.lower() in ("general", "@"):
        return number_text(number) if abs(number) < 1e15 else _refused(code)
    sections = _sections(code)
    section = sections[0]
    if len(sections) > 1 and number < 0.0:
        section, number = sections[1], -number
    elif len(sections) > 2 and number == 0.0:
        section = sections[2]
    parts = _parts(section)
    if any(kind == "moment" for kind, _ in parts):
        return _moment(number, parts, code)
    return _number(number, parts, code)


def _refused(code):
    raise Trouble(f'TEXT is not known here with the format "{code}"')


def _sections(code):
    """The parts of a format between semicolons: for numbers above, below and at 0."""
    sections = [""]
    for found in re.finditer(r'"[^"]*"|\\.|[^;]|;', code, re.DOTALL):
        if found[0] == ";":
            sections.append("")
        else:
            sections[-1] += found[0]
    return sections if len(sections) <= 3 else _refused(code)


_PART = re.compile(
    r'(?P<said>"[^"]*"|\\.)|(?P<digits>[0#?.,]+(?:[eE][+-]0+)?)|(?P<percent>%)'
    r"|(?P<moment>y+|m+|d+|h+|s+|AM/PM)|(?P<plain>[ ()+:/$€£-])",
    re.IGNORECASE,
)


def _parts(section):
    """(kind, text) of each part of a section."""
    parts, at = [], 0
    while at < len(section):
        found = _PART.match(section, at)
        if not found:
            _refused(section)
        kind, text = found.lastgroup, found[0]
        if kind == "said":
            kind, text = "plain", text[1:-1] if text.startswith('"') else text[1:]
        parts.append((kind, text))
        at = found.end()
    return parts


def _number(number, parts, code):
    digits = [text for kind, text in parts if kind == "digits"]
    if len(digits) > 1:
        _refused(code)
    if any(kind == "percent" for kind, _ in parts):
        number *= 100.0 ** sum(kind == "percent" for kind, _ in parts)
    written, is_below = "", False
    if digits:
        written, is_below = _written(number, digits[0], code)
    texts = [written if kind == "digits" else text for kind, text in parts]
    return ("-" if is_below else "") + "".join(texts)


def _written(number, digits, code):
    """The digits of a number by a mask such as #,##0.0#, and whether a minus belongs before."""
    mask, _, power = digits.lower().partition("e")
    whole, _, fraction = mask.partition(".")
    if "," in fraction or "." in fraction or "?" in mask:
        _refused(code)
    if power:
        return _with_power(number, whole, fraction, power, code)
    shifts = len(whole) - len(whole.rstrip(","))
    grouped = "," in whole.rstrip(",")
    whole = whole.replace(",", "")
    size = rounded(abs(number) / 1000.0**shifts, float(len(fraction)))
    if size >= 1e15 and fraction:
        _refused(code)
    text = f"{_decimal(size):.{len(fraction)}f}"
    units, _, rest = text.partition(".")
    units = units.lstrip("0").rjust(whole.count("0"), "0")
    least = len(fraction.rstrip("#"))
    while len(rest) > least and rest.endswith("0"):
        rest = rest[:-1]
    if grouped:
        units = re.sub(r"(?<=[0-9])(?=(?:[0-9]{3})+$)", ",", units)
    is_below = number < 0.0 and size != 0.0
    return units + ("." + rest if rest or ("." in mask and "0" in fraction) else ""), is_below


def _decimal(size):
    """A float as the decimal number that its first 15 digits make."""
    return Decimal(f"{size:.{_MOST - 1}e}")


def _with_power(number, whole, fraction, power, code):
    if whole not in ("0", "#") or power[:1] != "+" or "#" in fraction:
        _refused(code)
    value = _decimal(abs(number))
    exponent = value.adjusted() if value else 0
    step = Decimal(1).scaleb(-len(fraction))
    mantissa = value.scaleb(-exponent).quantize(step, ROUND_HALF_UP)
    if mantissa >= 10:
        mantissa, exponent = (mantissa / 10).quantize(step, ROUND_HALF_UP), exponent + 1
    sign = "-" if exponent < 0 else "+"
    places = len(power) - 1
    return f"{mantissa}E{sign}{abs(exponent):0{places}d}", number < 0.0


# Days and times

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
           "September", "October", "November", "December")  # fmt: skip
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def _moment(serial, parts, code):
    """A day or a time of day; months and days have English names."""
    if serial < 0.0 or any(kind in ("digits", "percent") for kind, _ in parts):
        _refused(code)
    hours, minutes, seconds = clock_of(serial)
    there = day_of(serial)
    letters = [text.lower() for kind, text in parts if kind == "moment"]
    if "am/pm" in letters:
        _refused(code)
    shown, at = [], 0
    for kind, text in parts:
        if kind != "moment":
            shown.append(text)
            continue
        mask = letters[at]
        # An m beside hours or seconds is a minute, and else a month.
        beside = letters[at - 1 : at] + letters[at + 1 : at + 2]
        is_minute = (at > 0 and letters[at - 1][0] == "h") or (
            letters[at + 1 : at + 2] and letters[at + 1][0] == "s"
        )
        at += 1
        if mask[0] == "m" and is_minute and beside and len(mask) <= 2:
            shown.append(f"{minutes:0{len(mask)}d}")
        elif mask in ("h", "hh", "s", "ss"):
            shown.append(f"{hours if mask[0] == 'h' else seconds:0{len(mask)}d}")
        elif mask in ("d", "dd", "m", "mm"):
            shown.append(f"{there.day if mask[0] == 'd' else there.month:0{len(mask)}d}")
        elif mask in ("ddd", "dddd"):
            name = _DAYS[there.weekday()]
            shown.append(name if len(mask) == 4 else name[:3])
        elif mask in ("mmm", "mmmm"):
            name = _MONTHS[there.month - 1]
            shown.append(name if len(mask) == 4 else name[:3])
        elif mask in ("yy", "yyyy"):
            shown.append(f"{there.year:04d}"[-len(mask) :])
        else:
            _refused(code)
    return "".join(shown)


@function("FIXED", "number", "whole?", "truth?")
def with_decimals(number, digits=2, without_marks=False):
    """With so many decimals, and a comma before each three digits."""
    number = rounded(number, float(digits))
    if abs(number) >= 1e15:
        raise Trouble("FIXED is not known here for numbers of 16 digits or more")
    text = (
        f"{_decimal(number):.{max(digits, 0)}f}"
        if without_marks
        else (f"{_decimal(number):,.{max(digits, 0)}f}")
    )
    return text[1:] if number == 0.0 and text.startswith("-") else text
