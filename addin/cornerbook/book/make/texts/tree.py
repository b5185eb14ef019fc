"""A scenario's content as a tree of tables; its leaves are numbers, words, lists and wishes."""

from ....cells.block import key_of

_WISH = {"from", "aim", "to"}
_STEPS = {"least", "most"}
_ADJUSTER = {"moves", "turn", "side", "step", "plus", "minus"} | _STEPS

_ROWS = {"corner": 2, "column": 1}
"""In which tables names are those of rows, and how deep: corner, front, row."""


def is_leaf(value):
    """Whether a value counts as one: no table, or that of a wish or of an adjuster."""
    return not isinstance(value, dict) or (bool(value) and set(value) <= _WISH | _ADJUSTER)


def leaves(content, path=()):
    """The paths of all leaves."""
    for name, value in content.items():
        if is_leaf(value):
            yield (*path, name)
        else:
            yield from leaves(value, (*path, name))


def at(content, path):
    """(whether there is a value at a path, the value).

    A corner's row may be spelled in any of the ways that the formulas take.
    """
    for depth in range(len(path)):
        name = spelled(content, path[: depth + 1]) if isinstance(content, dict) else None
        if name is None:
            return False, None
        content = content[name]
    return True, content


def spelled(table, path):
    """The last name of a path as a table has it; None where it has none such."""
    name = path[-1]
    if name in table:
        return name
    if _ROWS.get(path[0]) != len(path) - 1:
        return None
    return next((other for other in table if key_of(other) == key_of(name)), None)


def put(content, path, value):
    """Put a value at a path, with the tables on the way."""
    for name in path[:-1]:
        content = content.setdefault(name, {})
    content[path[-1]] = value


def merged(given, added, path=()):
    """Both trees in one, in the order of the second where it names what is in the first too.

    A value of None in the second keeps the place of one in the first.
    """
    if not isinstance(given, dict) or not isinstance(added, dict):
        return given
    found = {}
    for name, value in added.items():
        own = spelled(given, (*path, name))
        if own is None and value is not None:
            found[name] = value
        elif own is not None:
            found[own] = merged(given[own], value, (*path, name))
    found.update((name, value) for name, value in given.items() if name not in found)
    return found


def changed(value, change):
    """A copy of a leaf with every number in it changed by a function, but for counts of steps."""
    if isinstance(value, dict):
        return {
            name: part if name in _STEPS else changed(part, change) for name, part in value.items()
        }
    if isinstance(value, list):
        return [changed(part, change) for part in value]
    return value if isinstance(value, (str, bool)) else change(float(value))
