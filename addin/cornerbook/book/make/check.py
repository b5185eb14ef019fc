"""Whether a template's tables hold what they may hold, said by key and line where not.

Every function gives the `PlacedTrouble`s that it finds; there is no first one that stops it.
"""

import re

from .declare import PIXELS, Row
from .kinds import KINDS
from .mistakes import PlacedTrouble
from .text_files import LONGEST_LIST, kind_name, near, nearest, number_wrong, text_wrong

_PIXELS = ("width", "height")
"""Keys that are a size in pixels in a block of any kind that has them."""


class Place:
    """A table of a file, for what is said of it.

    file: the `TextFile`. path: the way to the table, as `lines.Lines` has it.
    """

    def __init__(self, file, *path):
        self.file = file
        self.path = path

    def inside(self, *path):
        """The place of something within it."""
        return Place(self.file, *self.path, *path)

    def wrong(self, message, *path):
        """A `PlacedTrouble` at something within it."""
        return self.file.at(message, *self.path, *path)


def wrong_block(block, place):
    """What is wrong with a block by the declaration of its kind."""
    if not isinstance(block, dict):
        yield place.wrong("a block begins with [[sheet.block]]")
        return
    name = block.get("kind")
    kind = KINDS.get(name) if isinstance(name, str) else None
    if kind is None:
        said = "a block has no kind" if name is None else f'the kind "{name}" is not known'
        yield place.wrong(f"{said}; {nearest(str(name), sorted(KINDS))}", "kind")
        return
    fields = dict(kind.fields)
    for key in _PIXELS:
        if key in fields:
            fields[key] = PIXELS.but(required=fields[key].required)
    found = list(wrong_keys(block, fields, f'a block of kind "{name}"', place))
    yield from found
    if kind.check is not None and not found:
        yield from _checked(kind, block, place)


def _checked(kind, block, place):
    """What the kind's own check finds: the first thing."""

    def trouble(message, word):
        if word is None or word in block:
            return place.wrong(message, *([] if word is None else [word]))
        return place.file.trouble(message, word, *place.path[1::2])

    try:
        kind.check(block, trouble)
    except PlacedTrouble as found:
        yield found


def wrong_keys(table, fields, what, place):
    """What is wrong with a table by {key: `Field`}; `what` it is, for messages."""
    meant = set()
    for key in table:
        if key not in fields:
            meant.add(near(key, [each for each in fields if each not in table]))
            yield place.wrong(
                f'the key "{key}" is not known in {what}; {nearest(key, fields)}', key
            )
    for key, field in fields.items():
        if key in table:
            yield from _wrong_value(table[key], field, key, what, place)
        elif field.required and key not in meant:
            yield place.wrong(f'the key "{key}" is missing in {what}')


def _wrong_value(value, field, key, what, place):
    if field.holds is not None and kind_name(value) != field.holds:
        yield place.wrong(
            f'in {what} the key "{key}" is {kind_name(value)}; {field.holds} was expected', key
        )
        return
    said = _unfit(value, field)
    if said is not None:
        yield place.wrong(f'in {what} the key "{key}" {said}', key)
    elif field.among and value not in field.among:
        yield place.wrong(
            f'in {what} the {key} "{value}" is not known; {nearest(value, field.among)}', key
        )
    if field.each is not None:
        for number, item in enumerate(value):
            yield from _wrong_item(item, field.each, key, what, place.inside(key, number))


def _wrong_item(item, each, key, what, place):
    if isinstance(each, Row):
        yield from _wrong_row(item, each, place)
    elif kind_name(item) != each.holds:
        yield place.wrong(
            f'in {what} the list "{key}" has {kind_name(item)}; {each.holds} was expected'
        )
    elif _unfit(item, each) is not None:
        yield place.wrong(f'in {what} an item of the list "{key}" {_unfit(item, each)}')


def _unfit(value, field):
    """Why a value of the right kind does not fit, in words that follow its name; else None."""
    if isinstance(value, str):
        wrong = text_wrong(value)
        if wrong is None and field.form is not None and not re.fullmatch(field.form[0], value):
            wrong = f'is "{value}"; {field.form[1]} was expected'
        return wrong
    if isinstance(value, list):
        if len(value) > LONGEST_LIST:
            return f"has {len(value)} items; {LONGEST_LIST} at most were expected"
        texts = [text_wrong(item) for item in value if isinstance(item, str)]
        return next((wrong for wrong in texts if wrong is not None), None)
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return None
    wrong = number_wrong(value)
    if wrong is not None:
        return "is " + wrong
    low, high = field.least, field.most
    if (low is None or value >= low) and (high is None or value <= high):
        return None if not field.whole or value == int(value) else f"is {value:g}; {_limits(field)}"
    return f"is {value:g}; {_limits(field)}"


def _limits(field):
    what = "a whole number" if field.whole else "a number"
    return f"{what} from {field.least:g} to {field.most:g} was expected"


def _wrong_row(row, declared, place):
    if not isinstance(row, dict):
        yield place.wrong(f"a {declared.what} is {kind_name(row)}; {declared.shown} was expected")
        return
    name = f'the {declared.what} "{row.get(declared.named_by, "?")}"'
    yield from wrong_keys(row, declared.fields, name, place)
    if declared.one_of and sum(key in row for key in declared.one_of) != 1:
        yield place.wrong(f"{name} needs one of: {' or '.join(declared.one_of)}")
