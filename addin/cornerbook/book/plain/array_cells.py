"""What the cells of an array formula show of a value that is a table."""

from ..file.address import cell_name
from ..file.cell_error import CellError


def array_cells(package, sheet, array, value):
    """(address, value) of each cell of an array formula, its first cell first.

    array: the range that it fills. value: rows of cells, or one value for all of them. Cells
    beyond the value's rows and columns are #N/A, as programs show them.
    """
    _, top, left, bottom, right = package.resolve(array, sheet)
    rows = value if isinstance(value, tuple) else ((value,),)
    is_one = len(rows) == 1 and len(rows[0]) == 1
    for row in range(bottom - top + 1):
        for column in range(right - left + 1):
            if is_one:
                cell = rows[0][0]
            elif row < len(rows) and column < len(rows[row]):
                cell = rows[row][column]
            else:
                cell = CellError("#N/A")
            yield cell_name(top + row, left + column), cell
