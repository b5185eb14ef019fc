"""Whether what is given of a scenario can be worked with: each value of its kind and size."""

from ....cells import usual
from ....cells.block import key_of
from ....cells.judge import within
from ...make.texts import units
from ...make.texts.mistakes import PlacedTrouble
from ...make.texts.text_files import follows, number_said, number_wrong
from ...make.texts.tree import at
from .keys import known_keys

CORNERS = {"corner.front": True, "corner.beam": False, "column": False}
"""Tables of points, and whether their rows are those of a linkage."""

ANGLES = {"static camber": usual.CAMBER[1], "static toe": usual.TOE[1]}
"""Degrees to either side beyond which no car has them."""


def is_sound(scenario, mistakes):
    """Whether nothing is wrong with what a scenario gives; what is goes to the `Mistakes`."""
    found = [trouble for trouble in _troubles(scenario) if trouble]
    for trouble in found:
        mistakes.take(trouble)
    return not found


def _troubles(scenario):
    for key, known in known_keys().items():
        if not known.wished and scenario.has_given(key):
            yield _value_trouble(scenario, key, known)
    for name in sorted(scenario.wishes()):
        yield _trouble(lambda name=name: scenario.wish(name, "ratio", scenario.unit))
    for key, whole in CORNERS.items():
        if scenario.has_given(key):
            yield _trouble(lambda key=key, whole=whole: scenario.corner(key, "mm", whole, True))
            yield from _angle_troubles(scenario, key)
    if scenario.has_given("adjusters"):
        yield _trouble(lambda: scenario.adjusters("adjusters", "mm"))


def _trouble(read):
    try:
        read()
    except PlacedTrouble as trouble:
        return trouble
    return None


def _value_trouble(scenario, key, known):
    if isinstance(known.kind, tuple):
        return _trouble(lambda: scenario.rows(key, known.kind, "mm"))
    trouble = _trouble(lambda: scenario.value(key, known.kind, "mm"))
    if trouble is not None or known.kind == "text":
        return trouble
    value = scenario.value(key, known.kind, "mm")
    if follows(value):
        return None
    said = out_of_limits(value, known, scenario.unit)
    return said and scenario.wrong(f"{key} is {said}", key)


def out_of_limits(value, known, unit):
    """What is wrong with a number, in mm and such, by the limits of its yellow cell; '' if nothing.

    unit: of the lengths in the words.
    """
    low, high = known.least, known.most
    if (low is None or value >= low) and (high is None or value <= high):
        return ""
    shown = [
        None if end is None else number_said(units.converted(float(end), known.kind, "mm", unit))
        for end in (value, low, high)
    ]
    symbol = units.unit_of(known.kind, unit)
    named = f" {symbol}" if symbol else ""
    if shown[1] is None or shown[2] is None:
        limit = f"{shown[2]} or less" if shown[1] is None else f"{shown[1]} or more"
    else:
        limit = f"{shown[1]} to {shown[2]}"
    return f"{shown[0]}{named}; {limit} was expected"


def _angle_troubles(scenario, key):
    table = at(scenario.file.content, key.split("."))[1]
    for label, value in table.items() if isinstance(table, dict) else ():
        for name, most in ANGLES.items():
            wrong = key_of(label) == key_of(name) and number_wrong(value) is None
            if wrong and not within(float(value), -most, most):
                said = f'{key}: the row "{label}" is {number_said(value)} deg; {-most:g} to '
                yield scenario.wrong(f"{said}{most:g} was expected", key, label)
