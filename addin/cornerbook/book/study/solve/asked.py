"""What is asked, as texts such as "Trail=22.5", taken apart."""

import math
import re

from ...file.trouble import Trouble

_AS_IN = "write it as in Trail=22.5"


def parted(text, what):
    """(cell, value) of "cell=value", both as texts. what: the sentence's word for the text."""
    cell, mark, value = text.rpartition("=")
    if not mark or not cell.strip() or not value.strip():
        raise Trouble(f"{text}: {what} was expected")
    return cell.strip(), value.strip()


def as_number(text, whole):
    """The number in a part of a text. whole: all of it, for the sentence."""
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        comma = re.fullmatch(r"[-+]?\d+,\d+", text.strip())
        right = f"with a decimal point: {text.replace(',', '.')}" if comma else _AS_IN
        raise Trouble(f"{whole}: {text} is no number; {right}")
    return number
