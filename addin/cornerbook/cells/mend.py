"""What is wrong with an input, in a sentence that says what to mend."""

import math
import numbers

# A text longer than this is not shown whole in a sentence.
_LONGEST = 80


class Mend(ValueError):
    """An input that a formula cannot work with; the text is for the user's cell."""

    @property
    def sentence(self):
        """The text as a cell shows it: it begins with '#'."""
        return "# " + str(self)


def hold(condition, sentence, *values):
    """Raise `Mend` unless the condition holds.

    sentence: with a %s for each of the values that it shows. A condition that is no plain
    truth, but one of numbers that record what is done to them, keeps the sentence instead.
    """
    if not isinstance(condition, bool):
        condition.hold(sentence, values)
    elif not condition:
        raise Mend(sentence % tuple(shown(value) for value in values))


def hold_not_negative(value, name):
    """Raise `Mend` for a number below 0; name: the argument's."""
    hold(value >= 0.0, name + ": %s given, a number of 0 or more was expected", value)


class Words(str):
    """A part of a sentence, shown as it stands and not as somebody's text."""


def rounded(value, digits):
    """A number rounded for a sentence."""
    return round(value, digits) if isinstance(value, float) else value.rounded(digits)


def shown(value):
    """A value in a sentence: numbers short, texts in quotation marks."""
    if isinstance(value, Words):
        return str(value)
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if is_number(value):
        number = finite(value)
        return "a number too large to show" if number is None else f"{number:.6g}"
    # A sentence is one line, whatever stands in a cell.
    text = " ".join(str(value).splitlines())
    return f'"{text[: _LONGEST - 3]}..."' if len(text) > _LONGEST else f'"{text}"'


def is_number(value):
    """Whether a cell or argument is a number of any kind, and no truth."""
    return isinstance(value, (float, int, numbers.Real)) and not isinstance(value, bool)


def finite(value):
    """A number of any kind as a float; None for one that is none or beyond all floats."""
    try:
        number = float(value)
    except OverflowError:
        return None
    # Added to it, nothing makes a zero with a minus one without.
    return number + 0.0 if math.isfinite(number) else None
