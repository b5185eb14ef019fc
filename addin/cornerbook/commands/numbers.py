"""Numbers that a user gives to a command, with a sentence where one is none."""

import argparse
import re


def length(text):
    """A length in the workbook's unit, as a float."""
    return _number(text, "a number in the workbook's own unit was expected, such as 1")


def number(text):
    """Any number, as a float."""
    return _number(text, "a number was expected, such as -12.5")


def whole(text):
    """A whole number."""
    try:
        return int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"{text} given, a whole number was expected, such as 1000"
        ) from None


def _number(text, wanted):
    try:
        return float(text)
    except ValueError:
        comma = re.fullmatch(r"\s*[-+]?\d+,\d+\s*", text)
        hint = f"; with a decimal point: {text.strip().replace(',', '.')}" if comma else ""
        raise argparse.ArgumentTypeError(f"{text} given, {wanted}{hint}") from None
