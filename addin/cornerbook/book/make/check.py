"""Whether a template's tables hold what they may hold, said by key and line where not.

`trouble` stands for a function of a message and a word: it gives the `Trouble` that names the
file and the line where the word stands.
"""

from .declare import Row
from .kinds import KINDS
from .text_files import kind_name, nearest


def check_block(block, trouble):
    """Hold a block to the declaration of its kind; raises `Trouble`."""
    if not isinstance(block, dict):
        raise trouble("a block begins with [[sheet.block]]", "block")
    name = block.get("kind")
    kind = KINDS.get(name) if isinstance(name, str) else None
    if kind is None:
        said = "a block has no kind" if name is None else f'the kind "{name}" is not known'
        raise trouble(f"{said}; {nearest(str(name), sorted(KINDS))}", "kind")
    check_keys(block, kind.fields, f'a block of kind "{name}"', trouble)
    if kind.check is not None:
        kind.check(block, trouble)


def check_keys(table, fields, what, trouble):
    """Hold a table to {key: `Field`}; `what` it is, for messages. Raises `Trouble`."""
    for key, value in table.items():
        if key not in fields:
            raise trouble(f'the key "{key}" is not known in {what}; {nearest(key, fields)}', key)
        wanted = fields[key].holds
        if wanted is not None and kind_name(value) != wanted:
            raise trouble(
                f'in {what} the key "{key}" is {kind_name(value)}; {wanted} was expected', key
            )
    for key, field in fields.items():
        if field.required and key not in table:
            raise trouble(f'the key "{key}" is missing in {what}', None)
    for key, value in table.items():
        among, each = fields[key].among, fields[key].each
        if among and value not in among:
            raise trouble(
                f'in {what} the {key} "{value}" is not known; {nearest(value, among)}', value
            )
        for item in value if each else ():
            if isinstance(each, Row):
                _check_row(item, each, key, trouble)
            elif kind_name(item) != each.holds:
                raise trouble(
                    f'in {what} the list "{key}" has {kind_name(item)}; {each.holds} was expected',
                    key,
                )


def _check_row(row, declared, key, trouble):
    if not isinstance(row, dict):
        raise trouble(f"a {declared.what} is {kind_name(row)}; {declared.shown} was expected", key)
    named = row.get(declared.named_by, "?")
    name = f'the {declared.what} "{named}"'
    check_keys(row, declared.fields, name, trouble)
    if declared.one_of and sum(key in row for key in declared.one_of) != 1:
        raise trouble(f"{name} needs one of: {' or '.join(declared.one_of)}", named)
