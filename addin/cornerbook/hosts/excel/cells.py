"""From what xlwings hands over for an argument to what `catalogue.call` takes, and back."""

import decimal
import math

NOT_AVAILABLE = "#N/A"
"""xlwings' runtime in Excel makes Excel's own error of this text. A classic function cannot
return an error at all, since pywin32 has no way to: there it stays a text."""

READ = {"ndim": 2, "err_to_str": True}
"""xlwings' options for every argument: cells always come as rows, so that a row is not taken
for a column, and an error in a cell comes as its text, so that a sentence can name it.
(Without the second one it would come as None, the same as an empty cell.)"""


def raw_value(value):
    """One argument for `call`: a single cell as its value, cells as a tuple of row tuples.

    value: None where the argument is left out, a value, or rows as lists.
    """
    if not isinstance(value, (list, tuple)):
        return _number_as_float(value)
    if len(value) == 1 and isinstance(value[0], (list, tuple)) and len(value[0]) == 1:
        return _number_as_float(value[0][0])
    return rows_of(value)


def rows_of(value):
    """Cells as a tuple of row tuples. value: rows as xlwings reads them with `READ`."""
    rows = (row if isinstance(row, (list, tuple)) else (row,) for row in value)
    return tuple(tuple(map(_cell_of_several, row)) for row in rows)


def _number_as_float(value):
    # Excel for Windows hands a cell formatted as currency over as a decimal number.
    return float(value) if isinstance(value, decimal.Decimal) else value


def _cell_of_several(value):
    # Blocks are remembered by their cells, and to Python True equals 1.
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    return _number_as_float(value)


def shown_value(result):
    """What goes back to Excel for a result of `call`: a cell, or a list of rows."""
    if isinstance(result, (tuple, list)):
        rows = [[_cell(value) for value in row] for row in result]
        return rows if any(rows) else [[NOT_AVAILABLE]]
    return _cell(result)


def _cell(value):
    if value is None or (isinstance(value, float) and not math.isfinite(value)):
        return NOT_AVAILABLE
    return value
