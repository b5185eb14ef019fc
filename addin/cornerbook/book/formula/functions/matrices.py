"""Tables as matrices."""

import math

from ...file.cell_error import CellError
from ..cell_values import is_number, number_of
from ..ranges import hold_size, rows_of, size_of
from .entry import function


def _matrix(cells):
    """Rows of floats; #VALUE! where a cell holds anything else."""
    rows = []
    for row in rows_of(cells):
        for value in row:
            if isinstance(value, CellError):
                raise value
            if not is_number(value):
                raise CellError("#VALUE!")
        rows.append([number_of(value) for value in row])
    return rows


def _square(cells):
    rows = _matrix(cells)
    if len(rows) != len(rows[0]):
        raise CellError("#VALUE!")
    return rows


@function("TRANSPOSE", "array")
def transposed(cells):
    return tuple(zip(*rows_of(cells), strict=True))


@function("MMULT", "array", "array")
def product(one, other):
    if size_of(one)[1] != size_of(other)[0]:
        raise CellError("#VALUE!")
    hold_size(size_of(one)[0], size_of(other)[1], "the table of MMULT")
    columns = list(zip(*_matrix(other), strict=True))
    return tuple(
        tuple(math.fsum(a * b for a, b in zip(row, column, strict=True)) for column in columns)
        for row in _matrix(one)
    )


@function("MUNIT", "whole")
def unit(size):
    if size < 1:
        raise CellError("#VALUE!")
    hold_size(size, size, "the table of MUNIT")
    return tuple(tuple(float(r == c) for c in range(size)) for r in range(size))


@function("MDETERM", "array")
def determinant(cells):
    return _eliminated(_square(cells))


@function("MINVERSE", "array")
def inverse(cells):
    rows = _square(cells)
    size = len(rows)
    wide = [row + [float(r == c) for c in range(size)] for r, row in enumerate(rows)]
    if _eliminated(wide) == 0.0:
        raise CellError("#NUM!")
    for place in range(size - 1, -1, -1):
        pivot = wide[place]
        wide[place] = [value / pivot[place] for value in pivot]
        for other in range(place):
            factor = wide[other][place]
            wide[other] = [a - factor * b for a, b in zip(wide[other], wide[place], strict=True)]
    return tuple(tuple(row[size:]) for row in wide)


def _eliminated(rows):
    """Bring a square, with whatever stands to its right, to a triangle; its determinant.

    Each row is compared by its size among its own numbers, so that a row in other units does
    not count for more; what is left by rounding alone is 0.
    """
    size = len(rows)
    sizes = [max((abs(v) for v in row[:size]), default=0.0) for row in rows]
    result = 1.0
    for place in range(size):
        best = max(
            range(place, size), key=lambda r: abs(rows[r][place]) / sizes[r] if sizes[r] else 0.0
        )
        if not sizes[best] or abs(rows[best][place]) <= 1e-15 * sizes[best]:
            return 0.0
        if best != place:
            rows[place], rows[best] = rows[best], rows[place]
            sizes[place], sizes[best] = sizes[best], sizes[place]
            result = -result
        pivot = rows[place]
        result *= pivot[place]
        for other in range(place + 1, size):
            factor = rows[other][place] / pivot[place]
            if factor:
                rows[other] = [a - factor * b for a, b in zip(rows[other], pivot, strict=True)]
    return result
