"""Whether a cell of a copy still holds what it held when the copy was made."""

from ..file.cell_error import CellError

_SAME = 1e-12
"""Numbers that differ by less than this part are the same: a program may round another way."""

NOTHING = object()
"""What a range holds in which no cell holds anything."""


def same(cell, value, then):
    """The formula, without '=', that holds a cell or a range to what it held.

    cell: the reference to it. value: what it held. then: the cell where that stands.
    """
    if value is NOTHING:
        return f"COUNTA({cell})=0"
    if value is None or value == "":
        return f'{cell}=""'
    if isinstance(value, CellError):
        return f"NOT(OR(ISNUMBER({cell}),ISTEXT({cell})))"
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return f"IF(ISNUMBER({cell}),{_near(cell, then, _SAME)},FALSE)"
    return f"{cell}={then}"


def alike(one, other, part=_SAME):
    """The formula, without '=', whether two cells hold alike, whatever it is; so do two errors.

    part: by which part of itself a number may differ.
    """
    near = f"IF(ISNUMBER({other}),{_near(one, other, part)},FALSE)"
    either = ",".join(f"{kind}({cell})" for cell in (one, other) for kind in ("ISNUMBER", "ISTEXT"))
    return f"IFERROR(IF(ISNUMBER({one}),{near},{one}={other}),NOT(OR({either})))"


def _near(one, other, part):
    return f"ABS({one}-{other})<={part:.12f}*MAX(1,ABS({other}))"


def is_same(value, other):
    """Whether two values that a cell held are the same by that rule; None is an empty cell."""
    if isinstance(value, CellError) and isinstance(other, CellError):
        return True
    if isinstance(value, float) and isinstance(other, float):
        return abs(value - other) <= _SAME * max(1.0, abs(other))
    return type(value) is type(other) and value == other


def shown(value):
    """What stands in a cell for a value that was held."""
    if value is NOTHING:
        return "nothing"
    return value.code if isinstance(value, CellError) else value
