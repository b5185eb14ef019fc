"""What a cell of a spreadsheet file holds, read from and written to its element."""

import math
import re
from typing import NamedTuple

from lxml import etree

from .cell_error import CellError
from .markup import MAIN, child_of
from .trouble import Trouble

LONGEST_FORMULA = 8192
"""Characters; the limit of Excel. The equals sign does not count."""

LONGEST_TEXT = 32767
"""Characters in a cell; the limit of Excel."""

_CODED = re.compile("_x([0-9A-Fa-f]{4})_")
_UNWRITABLE = re.compile("[\x00-\x08\x0b-\x1f\ud800-\udfff\ufffe\uffff]")
_FORMULA, _VALUE = MAIN + "f", MAIN + "v"
_HELD = (_FORMULA, _VALUE, MAIN + "is")
_SPACE = "{http://www.w3.org/XML/1998/namespace}space"


class CellContent(NamedTuple):
    """What a cell holds.

    formula: None, or text that begins with '='. array: None, or on the first cell of an
    array formula the range that it fills ("A8:H28"). in_array: None, or on the others the
    address of that first cell. value: a float, text, logical, `CellError` or None; with a
    formula, its result as stored. style: the number of its style in the file.
    """

    formula: str | None
    array: str | None
    in_array: str | None
    value: float | str | bool | CellError | None
    style: int


def decoded(text):
    """Text as the user sees it: _x000D_ in the file stands for a carriage return."""
    return _CODED.sub(lambda m: chr(int(m[1], 16)), text) if "_x" in text else text


def encoded(text):
    """Text as the file holds it; the reverse of `decoded`."""
    if "_x" in text:
        text = _CODED.sub(lambda m: "_x005F" + m[0], text)
    return _UNWRITABLE.sub(lambda m: "_x%04X_" % ord(m[0]), text)


def plain_text(element):
    """The text of a shared or inline string, without its formats and phonetic hints."""
    found = []
    for part in element:
        if part.tag == MAIN + "t":
            found.append(part.text or "")
        elif part.tag == MAIN + "r":
            found.extend(t.text or "" for t in part.iterchildren(MAIN + "t"))
    return decoded("".join(found))


def value_of(cell, strings, since_1904=False):
    """The value of a `c` element. strings: the file's shared strings, as a list of texts."""
    kind = cell.get("t", "n")
    if kind == "inlineStr":
        inline = cell.find(MAIN + "is")
        return None if inline is None else plain_text(inline)
    found = child_of(cell, _VALUE)
    text = None if found is None else found.text or ""
    if kind == "str":
        return None if text is None else decoded(text)
    if not text or not text.strip():
        return None
    text = text.strip()
    try:
        if kind == "s":
            return strings[int(text)]
        if kind == "b":
            return text.lower() in ("1", "true")
        if kind == "e":
            return CellError(text)
        if kind == "d":
            return _serial_number(text, since_1904)
        return float(text)
    except (ValueError, IndexError, TypeError):
        # A value that the file garbles is shown as it stands; it is not ours to mend.
        return text


def _serial_number(text, since_1904):
    """The number that a date of ISO 8601 is in a sheet."""
    # Such cells are seldom, and openpyxl takes long to import.
    from openpyxl.utils import datetime as dates

    epoch = dates.CALENDAR_MAC_1904 if since_1904 else dates.CALENDAR_WINDOWS_1900
    return float(dates.to_excel(dates.from_ISO8601(text), epoch))


def written(value):
    """A value as the file holds it: its type for `t` (None for a number) and its text.

    A text's type is "str". A number that is none (NaN, infinite) becomes #NUM!.
    """
    if isinstance(value, str):
        return "str", encoded(value)
    if isinstance(value, CellError):
        return "e", value.code
    if isinstance(value, bool):
        return "b", "1" if value else "0"
    number = float(value)
    if not math.isfinite(number):
        return "e", "#NUM!"
    return None, repr(int(number) if number.is_integer() and abs(number) < 1e15 else number)


def bare(formula, where):
    """A formula as the file holds it, without '='. where: the cell, for messages.

    Raises `Trouble` when it is longer than Excel takes.
    """
    text = formula[1:] if formula.startswith("=") else formula
    if len(text) > LONGEST_FORMULA:
        raise Trouble(
            f"the formula for {where} would have {len(text)} characters, and Excel takes "
            f"{LONGEST_FORMULA}"
        )
    if text.isprintable():
        return text
    return _UNWRITABLE.sub("", text)


def fitting(value, where):
    """The value, if it fits in a cell; raises `Trouble` for a text that is too long."""
    if isinstance(value, str) and len(value) > LONGEST_TEXT:
        raise Trouble(
            f"the text for {where} has {len(value)} characters, and a cell takes {LONGEST_TEXT}"
        )
    return value


def fill(cell, formula, value, array=None, inline=True):
    """Replace what a `c` element holds and leave its style.

    formula: bare, or None. array: the range of an array formula. inline: whether a text
    without a formula is an inline string (a cell in an array holds it as a result does).
    """
    for child in list(cell):
        if child.tag in _HELD:
            cell.remove(child)
    # `cm` and `vm` tell of the old formula and value (a spilling array, a data type).
    attributes = cell.attrib
    for attribute in ("t", "cm", "vm"):
        attributes.pop(attribute, None)
    made = []
    if formula is not None:
        element = etree.SubElement(cell, _FORMULA)
        element.text = formula
        if array is not None:
            element.set("t", "array")
            element.set("ref", array)
        made.append(element)
    if value is not None:
        kind, text = written(value)
        if kind == "str" and formula is None and inline:
            cell.set("t", "inlineStr")
            element = etree.SubElement(cell, MAIN + "is")
            inner = etree.SubElement(element, MAIN + "t")
            inner.text = text
            if text != text.strip():
                inner.set(_SPACE, "preserve")
        else:
            if kind is not None:
                cell.set("t", kind)
            element = etree.SubElement(cell, _VALUE)
            element.text = text
        made.append(element)
    if len(made) < len(cell):
        # Before whatever the cell holds besides.
        for place, element in enumerate(made):
            cell.insert(place, element)
