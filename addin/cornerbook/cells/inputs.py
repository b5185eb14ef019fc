"""From what a host passes for an argument to what a formula takes, or a sentence."""

import re
from functools import lru_cache
from itertools import chain

from .corner import Corner
from .declare import REQUIRED
from .mend import Mend, Words, finite, is_number, shown
from .rows import rows_of

_KINDS = {
    "block": "a block of cells (names in the first column, then x, y, z)",
    "number": "a number",
    "whole": "a whole number",
    "text": "a text",
    "names": "names, as a text with commas or as cells",
    "cells": "cells with numbers",
    "gaps": "cells with numbers, of which some may be empty,",
    "labels": "cells with texts, of which some may be empty,",
    "any": "cells",
}


@lru_cache(maxsize=256)
def corner_of(rows):
    """The `Corner` of a block; the same cells give the same corner, solved once."""
    return Corner(rows)


def value_of(argument, raw):
    """The argument's value for the formula; raises `Mend` with the argument's name."""
    if argument.kind == "block":
        return _block(argument, raw)
    if argument.kind == "names":
        return _names(argument, raw)
    if argument.kind in _CELLS_OF:
        return _cells(argument, raw, _CELLS_OF[argument.kind])
    if argument.kind == "rows":
        return _rows(argument, raw)
    raw = _single(argument, raw)
    if _empty(raw):
        if argument.default is REQUIRED:
            raise Mend(f"{argument.name} is missing; {_KINDS[argument.kind]} was expected")
        return argument.default
    if argument.kind == "text":
        return _text(argument, raw)
    return _number(argument, raw)


def _empty(raw):
    return raw is None or (isinstance(raw, (str, tuple)) and not raw)


def _single(argument, raw):
    """A range of one cell is that cell."""
    if not isinstance(raw, (tuple, list)):
        return raw
    cells = [cell for row in raw for cell in (row if isinstance(row, (tuple, list)) else (row,))]
    if len(cells) == 1:
        return cells[0]
    raise Mend(
        f"{argument.name}: {len(cells)} cells given, one cell with "
        f"{_KINDS[argument.kind]} was expected"
    )


def _block(argument, raw):
    if isinstance(raw, (tuple, list)):
        if not all(type(row) is tuple for row in raw):
            raw = tuple(tuple(r) if isinstance(r, (tuple, list)) else (r,) for r in raw)
        alone = len(raw) == 1 and len(raw[0]) == 1
        cell = raw[0][0] if alone else None
    else:
        alone, cell = True, raw
    if alone:
        given = "nothing" if _empty(cell) else shown(cell)
        raise Mend(f"{argument.name}: {given} given, {_KINDS['block']} was expected")
    return corner_of(_kept(raw if isinstance(raw, tuple) else tuple(raw)))


_IN_CELLS = {float, int, str, type(None)}


def _kept(rows):
    """The rows as corners are remembered by: of cells that are alike only if they mean the same.

    To Python TRUE equals 1, and what else may stand in a cell may not be comparable at all.
    """
    if _are_plain(rows):
        return rows
    return tuple((*_label(row), *map(_cell_kept, row[1:])) for row in rows)


def _are_plain(rows):
    return set(map(type, chain.from_iterable(rows))) <= _IN_CELLS


def _label(row):
    return [str(label) if isinstance(label, str) else None for label in row[:1]]


def _cell_kept(cell):
    if cell is None or type(cell) is str:
        return cell
    return float(cell) if is_number(cell) and finite(cell) is not None else Words(shown(cell))


def _rows(argument, raw):
    if type(raw) is tuple and all(type(row) is tuple for row in raw) and _are_plain(raw):
        return _plain_rows(argument, raw)
    return rows_of(argument, raw)


@lru_cache(maxsize=256)
def _plain_rows(argument, raw):
    """The `Row`s of plain cells; the same cells are judged once for all formulas that take them."""
    return rows_of(argument, raw)


_COMMA = re.compile(r"\s*[-+]?\d+,\d+\s*")


def _number(argument, raw):
    if isinstance(raw, str) and raw.startswith("# "):
        # Another formula's sentence: what is to be mended is said once, as it stands.
        raise Mend(raw[2:])
    if not is_number(raw):
        comma = isinstance(raw, str) and _COMMA.fullmatch(raw)
        asked = ": is its comma a decimal point?" if comma else ""
        raise Mend(f"{argument.name}: {shown(raw)} given, a number was expected{asked}")
    number = finite(raw)
    low, high = argument.above, argument.below
    if number is None:
        raise Mend(f"{argument.name}: no finite number")
    if (low is not None and not number > low) or (high is not None and not number < high):
        raise Mend(
            f"{argument.name}: {shown(number)} given, a number {argument.between} was expected"
        )
    if argument.kind == "whole" and number != int(number):
        raise Mend(f"{argument.name}: {shown(number)} given, a whole number was expected")
    return int(number) if argument.kind == "whole" else number


def _text(argument, raw):
    if not isinstance(raw, str):
        raise Mend(f"{argument.name}: {shown(raw)} given, a text was expected")
    text = raw.strip()
    if argument.choices:
        for choice in argument.choices:
            if text.lower() == choice:
                return choice
        raise Mend(
            f"{argument.name}: {shown(raw)} given, one of these was expected: "
            f"{', '.join(argument.choices)}"
        )
    return text


def _names(argument, raw):
    if _empty(raw) and argument.default is not REQUIRED:
        return argument.default
    if isinstance(raw, str):
        cells = raw.split(",")
    elif isinstance(raw, (tuple, list)):
        rows = [row if isinstance(row, (tuple, list)) else (row,) for row in raw]
        cells = [cell for row in rows for cell in row]
    else:
        cells = [raw]
    names = []
    for cell in cells:
        if _empty(cell):
            raise Mend(f"{argument.name}: a name is empty")
        if not isinstance(cell, str):
            raise Mend(f"{argument.name}: {shown(cell)} given, a name was expected")
        names.append(cell.strip())
    return tuple(names)


def _cells(argument, raw, cell_of):
    """Rows of cells, each row as long as the others."""
    if not isinstance(raw, (tuple, list)):
        raw = ((raw,),)
    rows = [row if isinstance(row, (tuple, list)) else (row,) for row in raw]
    if all(_empty(cell) for row in rows for cell in row) and argument.default is not REQUIRED:
        return argument.default
    nothing = all(cell is None for row in rows for cell in row) or (
        argument.kind == "cells" and all(_empty(cell) for row in rows for cell in row)
    )
    if nothing and not argument.blank:
        raise Mend(f"{argument.name} is missing; {_KINDS[argument.kind]} were expected")
    if len({len(row) for row in rows}) > 1:
        raise Mend(f"{argument.name}: the rows are of different lengths")
    return tuple(
        tuple(cell_of(argument, cell, i, j) for j, cell in enumerate(row, 1))
        for i, row in enumerate(rows, 1)
    )


def _cell(argument, cell, row, column):
    if _empty(cell):
        raise Mend(
            f"{argument.name}: the cell in row {row}, column {column} is empty; a "
            "number was expected"
        )
    return _number(argument, cell)


def _cell_or_none(argument, cell, row, column):
    if _empty(cell):
        return None
    try:
        return _number(argument, cell)
    except Mend as mend:
        start, own = f"{argument.name}: ", str(mend)
        if not own.startswith(start):
            raise
        raise Mend(f"{start}in row {row}, {own[len(start) :]}") from None


def _label_of(argument, cell, row, column):
    # To some programs an empty cell is 0.
    if _empty(cell) or (is_number(cell) and cell == 0):
        return ""
    if not isinstance(cell, str):
        raise Mend(f"{argument.name}: in row {row}, {shown(cell)} given, a text was expected")
    return cell.strip()


def _as_it_is(argument, cell, row, column):
    return None if _empty(cell) else cell


_CELLS_OF = {"cells": _cell, "gaps": _cell_or_none, "labels": _label_of, "any": _as_it_is}
