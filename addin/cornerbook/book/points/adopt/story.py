"""What adopting has moved, and what that brings, as lines of text."""

from ....cells.mend import is_number
from ...study.solve.words import aligned, number_text


class Moved:
    """A cell of a point: its row's label, its axis ('' for a single value), before and after."""

    def __init__(self, label, axis, before, after):
        self.label = label
        self.axis = axis
        self.before = before
        self.after = after


class Result:
    """A result that has an aim: its label, the aim, before and after."""

    def __init__(self, label, aim, before, after):
        self.label = label
        self.aim = aim
        self.before = before
        self.after = after


def lines_of(adopted):
    """The tables of an `Adopted`, and what is worth saying besides."""
    rows = [("", "before", "after", "moved by")]
    for one in adopted.moved:
        by = ""
        if is_number(one.before) and is_number(one.after):
            by = number_text(one.after - one.before)
        rows.append((f"{one.label} {one.axis}".rstrip(), _text(one.before), _text(one.after), by))
    lines = aligned(rows)
    if adopted.results:
        rows = [("", "wanted", "before", "after")]
        rows += [(r.label, _text(r.aim), _text(r.before), _text(r.after)) for r in adopted.results]
        lines += ["", *aligned(rows)]
    for message in adopted.messages:
        lines += ["", message]
    return lines


def _text(value):
    """A cell's value in a table; a sentence is too long for it, and the sheet shows it."""
    if value is None or value == "":
        return "blank"
    if is_number(value):
        return number_text(value)
    return "no number" if not isinstance(value, str) or value.startswith("#") else value
