"""Whether a template's tables hold what they may hold, said by key where not.

Every function gives pairs (path, message) of all that it finds: the path to what is wrong, as
`lines.Lines` has it, for the line.
"""

import re

from ..kinds import KINDS
from ..sheet.declare import PIXELS, Row
from ..texts.text_files import (
    LONGEST_LIST,
    kind_name,
    near,
    nearest,
    number_said,
    number_wrong,
    text_wrong,
)

_PIXELS = ("width", "height")
"""Keys that are a size in pixels in a block of any kind that has them."""


class _Wrong(Exception):
    """What a kind's own check stops with: a path and a message."""


def wrong_block(block, path):
    """What is wrong with a block by the declaration of its kind."""
    if not isinstance(block, dict):
        yield path, "a block begins with [[sheet.block]]"
        return
    name = block.get("kind")
    kind = KINDS.get(name) if isinstance(name, str) else None
    if kind is None:
        said = "a block has no kind" if name is None else f'the kind "{name}" is not known'
        yield (*path, "kind"), f"{said}; {nearest(str(name), sorted(KINDS))}"
        return
    fields = dict(kind.fields)
    for key in _PIXELS:
        if key in fields:
            fields[key] = PIXELS.but(required=fields[key].required)
    found = list(wrong_keys(block, fields, f'a block of kind "{name}"', path))
    yield from found
    beyond = [where[len(path) :] for where, _ in found]
    if kind.check is not None and all(where[:1] == ("rows",) and where[1:] for where in beyond):
        yield from _checked(kind, _without(block, {where[1] for where in beyond}), path)


def _without(block, wrong):
    """A block without its rows with a mistake, by their numbers."""
    if not wrong:
        return block
    rows = [row for number, row in enumerate(block["rows"]) if number not in wrong]
    return {**block, "rows": rows}


def _checked(kind, block, path):
    """What the kind's own check finds: the first thing."""

    def trouble(message, word):
        return _Wrong((*path, word) if word in block else path, message)

    try:
        kind.check(block, trouble)
    except _Wrong as found:
        yield found.args


def wrong_keys(table, fields, what, path):
    """What is wrong with a table by {key: `Field`}; `what` it is, for messages."""
    meant = set()
    for key in table:
        if key not in fields:
            meant.add(near(key, [each for each in fields if each not in table]))
            yield (*path, key), f'the key "{key}" is not known in {what}; {nearest(key, fields)}'
    for key, field in fields.items():
        if key in table:
            wrong = _value_wrong(table[key], field, key, what)
            if wrong is not None:
                yield (*path, key), wrong
            elif field.each is not None:
                for number, item in enumerate(table[key]):
                    yield from _wrong_item(item, field.each, key, what, (*path, key, number))
        elif field.required and key not in meant:
            yield path, f'the key "{key}" is missing in {what}'


def _value_wrong(value, field, key, what):
    """Why a key's value is not what it may be; None where it is."""
    if field.holds is not None and kind_name(value) != field.holds:
        return f'in {what} the key "{key}" is {kind_name(value)}; {field.holds} was expected'
    wrong = _unfit(value, field)
    if wrong is not None:
        return f'in {what} the key "{key}" {wrong}'
    if field.among and value not in field.among:
        return f'in {what} the {key} "{value}" is not known; {nearest(value, field.among)}'
    return None


def _wrong_item(item, each, key, what, path):
    if isinstance(each, Row):
        yield from _wrong_row(item, each, path)
    elif kind_name(item) != each.holds:
        yield path, f'in {what} the list "{key}" has {kind_name(item)}; {each.holds} was expected'
    elif _unfit(item, each) is not None:
        yield path, f'in {what} an item of the list "{key}" {_unfit(item, each)}'


def _wrong_row(row, declared, path):
    if not isinstance(row, dict):
        yield path, f"a {declared.what} is {kind_name(row)}; {declared.shown} was expected"
        return
    name = f'the {declared.what} "{row.get(declared.named_by, "?")}"'
    found = list(wrong_keys(row, declared.fields, name, path))
    yield from found
    if declared.one_of and sum(key in row for key in declared.one_of) != 1:
        yield path, f"{name} needs one of: {' or '.join(declared.one_of)}"
    elif declared.check is not None and not found:
        for key, subject, said in declared.check(row):
            yield (*path, key), f"{subject} of {name} {said}"


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
        if field.each is not None:
            return None  # each item is looked at in its own place
        texts = [text_wrong(item) for item in value if isinstance(item, str)]
        return next((f"has a text that {wrong}" for wrong in texts if wrong is not None), None)
    if kind_name(value) != "a number":
        return None
    if field.least is None:
        wrong = number_wrong(value)
        return None if wrong is None else "is " + wrong
    if field.least <= value <= field.most and not (field.whole and value != int(value)):
        return None
    what = "a whole number" if field.whole else "a number"
    return f"is {number_said(value)}; {what} from {field.least:g} to {field.most:g} was expected"
