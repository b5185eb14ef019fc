"""Numbers of a scenario between its own unit and mm, and as a person would write them."""

import math

from ...make.texts import units
from ...make.texts.corner_rows import kind_of_row
from ...make.texts.text_files import follows
from ...make.texts.tree import changed, leaves, put
from .keys import known_keys

POINTS = {"mm": (0.1, 0.01), "in": (0.005, 0.0005)}
"""To what points are rounded: to the second where the first would cost a wish."""

_DIGITS = 3
_WHOLE = 1000.0


def kind_of(path, value):
    """The kind of quantity at a path of a scenario, None where the unit is of no account."""
    if path[0] in ("corner", "column"):
        return kind_of_row(path[-1], value)
    if path[0] == "adjusters":
        return "length"
    known = known_keys().get(".".join(path))
    return None if known is None else known.kind


def in_mm(content, unit):
    """A content with every length in mm, and what else goes with it."""
    found: dict = {}
    for path in leaves(content):
        value = content
        for name in path:
            value = value[name]
        put(found, path, of_unit(value, kind_of(path, value), unit, "mm"))
    return found


def of_unit(value, kind, given, wanted):
    """A leaf in another system of units."""
    if kind in (None, "text"):
        return value
    if isinstance(kind, tuple):
        return [
            [_cell_of_unit(one, each, given, wanted) for one, each in zip(row, kind, strict=False)]
            for row in value
        ]  # fmt: skip
    if isinstance(value, str):
        return _cell_of_unit(value, kind, given, wanted)
    return changed(value, lambda number: units.converted(number, kind, given, wanted))


def _cell_of_unit(cell, kind, given, wanted):
    followed = follows(cell) if kind != "text" else None
    if followed is not None:
        name, number = followed
        if number is None:
            return cell
        return f"={name} or {units.converted(number, kind, given, wanted):.9g}"
    return cell if cell == "" else units.converted(cell, kind, given, wanted)


def rounded(value, step):
    """A leaf rounded to whole steps, without the dust of binary fractions."""
    return changed(value, lambda number: float(f"{round(number / step) * step + 0.0:.10g}"))


def neat(value):
    """A leaf with three digits, or whole where it has four."""
    return changed(value, _neat)


def _neat(number):
    if number == 0.0 or not math.isfinite(number):
        return number
    if abs(number) >= _WHOLE:
        return float(round(number))
    return float(f"{number:.{_DIGITS}g}")
