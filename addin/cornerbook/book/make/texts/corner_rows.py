"""The rows of a corner in a scenario: names held to those that formulas read, and values."""

import difflib

from ....cells.block import (
    ACTUATION_POINTS,
    COLUMN_POINTS,
    OPTIONAL,
    POINTS,
    ROD_MOUNT,
    VALUE_KEYS,
    VALUES,
    key_of,
)
from ....cells.corner import MOUNTS
from .text_files import kind_name, nearest, number_wrong, text_wrong

_NEEDED = {key_of(label): label for label in POINTS + VALUES}
_COLUMN = {key_of(label): label for label in COLUMN_POINTS}
_COLUMN_ENDS = {key_of(label) for label in (COLUMN_POINTS[0], COLUMN_POINTS[-1])}
_POINTS = {key_of(label) for label in (*POINTS, *ACTUATION_POINTS)}
_MOUNT = key_of(ROD_MOUNT)

_ALIKE = ((_NEEDED, 0.75), (_COLUMN, 0.75), (OPTIONAL, 0.9))
"""How like a known name one must be to be that one misspelt. A row of the user's own, such as
"spring rate", is no misspelt "spring frame"."""


class CornerRows:
    """A corner's table of a scenario, {name: value}, read row by row.

    whole: whether it must have every row that a linkage needs; else it may be points of another
    kind, such as those of a steering column.

    rows: (name, kind of quantity, values) of the good ones: three numbers or one, of the kind
    "length" or "angle", or a word, of the kind "text". wrong: (name or None, message) of what is
    not. own: names of rows that no formula reads.
    """

    def __init__(self, table, whole):
        self.rows = []
        self.wrong = []
        self.own = []
        self._keys = {}
        for label in table:
            self._keys.setdefault(key_of(label), label)
        column = not whole or not _COLUMN_ENDS.isdisjoint(self._keys)
        self._known = {**_NEEDED, **OPTIONAL, **(_COLUMN if column else {})}
        for label, value in table.items():
            self._read(label, value)
        if whole:
            self._hold_whole()

    def _read(self, label, value):
        key = key_of(label)
        said = self._name_wrong(label, key) or _value_wrong(key, value)
        if said is not None:
            self.wrong.append((label, f'the row "{label}" {said}'))
            return
        if key not in self._known:
            self.own.append(label)
        values = value if isinstance(value, list) else [value]
        self.rows.append((label, kind_of_row(label, value), values))

    def _name_wrong(self, label, key):
        """What is wrong with a row's name, in words that follow it; None where it is good."""
        if not label.strip() or text_wrong(label) is not None:
            return "has no name that can be shown"
        if self._keys[key] != label:
            return f'stands there already, as "{self._keys[key]}"'
        if key in self._known:
            return None
        meant = self._meant(key)
        return None if meant is None else f'is not known; did you mean "{meant}"?'

    def _meant(self, key):
        """The known name, of those that are not there, of which this one is a misspelling."""
        best = (0.0, None)
        for names, least in _ALIKE:
            left = [each for each in names if each in self._known and each not in self._keys]
            for found in difflib.get_close_matches(key, left, n=1, cutoff=least):
                alike = difflib.SequenceMatcher(None, found, key).ratio()
                best = max(best, (alike, names[found]))
        return best[1] and best[1].capitalize()

    def _hold_whole(self):
        meant = " ".join(said for _, said in self.wrong)
        for key, name in _NEEDED.items():
            # Where it is there misspelt, that says it.
            if key not in self._keys and f'did you mean "{name.capitalize()}"' not in meant:
                shape = "one number" if key in VALUE_KEYS else "[x, y, z]"
                said = f'the row "{name.capitalize()}" is missing; {shape} was expected'
                self.wrong.append((None, said))


def kind_of_row(label, value):
    """The kind of quantity of a row's value: "text", "angle" or "length"."""
    if isinstance(value, str):
        return "text"
    one = not isinstance(value, list) or len(value) == 1
    return "angle" if one and "radius" not in label.lower() else "length"


def _value_wrong(key, value):
    """What is wrong with a row's value, in words that follow its name; None where it is good."""
    if key == _MOUNT:
        if isinstance(value, str) and key_of(value) in map(key_of, MOUNTS):
            return None
        said = f'"{value}"' if isinstance(value, str) else kind_name(value)
        return f"is {said}; {nearest(str(value), MOUNTS)}"
    if isinstance(value, str):
        return _text_wrong(key, value)
    if not isinstance(value, list):
        if key in _POINTS and number_wrong(value) is None:
            return "is one number; [x, y, z] was expected"
        wrong = number_wrong(value)
        return None if wrong is None else "is " + wrong
    if key in VALUE_KEYS:
        return "is a list in square brackets; one number was expected"
    if len(value) not in (1, 3) or (key in _POINTS and len(value) != 3):
        comma = "; a decimal is written with a point" if len(value) > 3 else ""
        return f"has a list of {len(value)}; [x, y, z] was expected{comma}"
    for axis, number in zip("xyz", value, strict=False):
        wrong = number_wrong(number)
        if wrong is not None:
            return f"has a wrong {axis}: it is {wrong}"
    return None


def _text_wrong(key, text):
    """The same of a value that is a text; only a row of the user's own may be a word."""
    number = number_wrong(text)
    if key in VALUE_KEYS or "without quotation marks" in number:
        return "is " + number
    if key in _POINTS:
        return f'is the text "{text}"; [x, y, z] was expected'
    wrong = text_wrong(text)
    return None if wrong is None else f"has a text that {wrong}"
