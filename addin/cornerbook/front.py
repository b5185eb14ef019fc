"""The Python front: blocks from files and frames, measures as arrays and DataFrames."""

import math
from pathlib import Path

import numpy as np

from . import catalogue  # noqa: F401 (it declares the quantities)
from .any_array import Namespace, made_like, of_library
from .book.file.trouble import Trouble
from .cells import corner as _corner
from .cells.mend import Mend
from .cells.quantity import chosen, name_of, value_at

# Poses worked on at once: few enough that the arrays stay in the processor's cache.
CHUNK = 12288

_UNITS = {"degrees": "deg", "length": "%s", "percent": "%",
          "degrees per length of travel": "deg/%s",
          "length per length of travel": "%s/%s", "per length of travel": "1/%s"}  # fmt: skip


class Corner(_corner.Corner):
    """A left-hand corner for use from Python.

    rows: a sequence of rows, each a name and then x, y, z or one number.
    unit: what its lengths are in, for column names only; results come back in it.
    Raises `Mend` where a row that is needed is missing or wrong.
    """

    def __init__(self, rows, unit="mm"):
        super().__init__(tuple(tuple(row) for row in rows))
        self.unit = unit

    def at(self, quantity, travel=0.0, rack=0.0, wheelbase=None):
        """One quantity at one pose or at many.

        quantity: its name, such as "camber", "camber gain" or "ackermann".
        travel, rack: numbers or arrays that broadcast together, in the corner's unit: NumPy's,
        what NumPy makes arrays of, or those of one library that answers `__array_namespace__`
        as the array API standard 2023.12 has it.
        wheelbase: needed for quantities of the steered axle.
        Returns a float or an array of the broadcast shape, of the library, device and floating
        type of what was given; NaN where the linkage cannot reach. Signs as in the formula of
        the same name.

        A function may be compiled by such a library, as by JAX, with some 16,000 poses a call:

            jax.config.update("jax_enable_x64", True)
            camber = jax.jit(lambda travel: front.at("camber", travel))

        There it is NaN also beside the ends of the reach, to where a linkage must be followed.
        """
        return self.table([quantity], travel, rack, wheelbase)[0]

    def table(self, quantities, travel=0.0, rack=0.0, wheelbase=None):
        """Several quantities at once, each pose solved once; a list of what `at` gives."""
        wanted = chosen("quantities", quantities)
        if wheelbase is not None:
            wheelbase = float(wheelbase)
        given = _of_another_library(travel, rack)
        if given is not None:
            return self._table_of(given, wanted, travel, rack, wheelbase)
        if np.ndim(travel) == 0 and np.ndim(rack) == 0:
            found = [value_at(e, self, wheelbase, float(travel), float(rack)) for e in wanted]
            return [math.nan if value is None else value for value in found]
        travel, rack = np.broadcast_arrays(
            np.asarray(travel, dtype=float), np.asarray(rack, dtype=float)
        )
        shape = travel.shape
        travel, rack = np.ravel(travel), np.ravel(rack)
        results = [np.empty(travel.size) for _ in wanted]
        with np.errstate(all="ignore"):
            for start in range(0, travel.size, CHUNK):
                part = slice(start, start + CHUNK)
                here = (travel[part], rack[part])
                for entry, result in zip(wanted, results, strict=True):
                    value = value_at(entry, self, wheelbase, *here)
                    result[part] = value
        return [result.reshape(shape) for result in results]

    def _table_of(self, given, wanted, travel, rack, wheelbase):
        """What `table` gives for arrays of another library. given: one of them."""
        library = given.__array_namespace__()
        if not library.isdtype(given.dtype, "real floating"):
            given = library.astype(given, library.float64)
        of = made_like(given)
        travel, rack = library.broadcast_arrays(
            *(library.asarray(each, **of) for each in (travel, rack))
        )
        shape = travel.shape
        numbers = Namespace(given)
        if not numbers.asked_again and given.dtype != library.float64:
            raise Mend(
                "travel, rack: in a function that is compiled, their numbers must be of 64 bits "
                '(in JAX: jax.config.update("jax_enable_x64", True)), not %s' % given.dtype
            )
        travel, rack = (library.reshape(each, (-1,)) for each in (travel, rack))
        parts = [[] for _ in wanted]
        count = travel.shape[0]
        # What is compiled is written once, for all poses.
        chunk = CHUNK if numbers.asked_again else count
        for start in range(0, count, chunk or 1):
            # The standard has no slice that ends beyond the array.
            part = slice(start, min(start + chunk, count))
            here = [numbers.asarray(each[part]) for each in (travel, rack)]
            for entry, found in zip(wanted, parts, strict=True):
                # Of a library that works through NumPy, which would warn of what is NaN.
                with np.errstate(all="ignore"):
                    value = numbers.asarray(value_at(entry, self, wheelbase, *here))
                found.append(library.broadcast_to(value.array, here[0].shape))
        empty = library.zeros((0,), **of)
        return [library.reshape(library.concat([empty, *each]), shape) for each in parts]

    def sweep(self, travel=0.0, rack=0.0, quantities=("camber", "toe"), wheelbase=None):
        """A DataFrame over travel or rack: one row a pose, units in the column names."""
        import pandas as pd

        travel, rack = (
            np.asarray(list(v) if isinstance(v, range) else v, float) for v in (travel, rack)
        )
        travel, rack = np.broadcast_arrays(np.atleast_1d(travel), np.atleast_1d(rack))
        columns = {
            f"travel ({self.unit})": np.ravel(travel),
            f"rack ({self.unit})": np.ravel(rack),
        }
        values = self.table(quantities, travel, rack, wheelbase)
        for entry, value in zip(chosen("quantities", quantities), values, strict=True):
            symbol = _UNITS[entry.unit].replace("%s", self.unit)
            columns[f"{name_of(entry)} ({symbol})"] = np.ravel(value)
        return pd.DataFrame(columns)


def _of_another_library(*values):
    """The first array that is of no NumPy, as arrays of it are worked on; None if there is none."""
    others = (value for value in values if not isinstance(value, (np.ndarray, np.generic)))
    return of_library(*others)


def read(path, name="Front", unit="mm"):
    """The corner in a file: a block of an .xlsx workbook, or a CSV file.

    name: of the block, or its address such as "Sheet1!A6:D24".
    """
    if Path(path).suffix.lower() == ".csv":
        return read_csv(path, unit)
    return read_workbook(path, name, unit)


def read_workbook(path, name="Front", unit="mm"):
    """The corner in the block of this name; nothing is changed in the file.

    Raises `Trouble` for a file that is no workbook that can be read, or has no such block.
    """
    from .book.formula.named_block import rows_of_block

    _, rows = rows_of_block(path, name)
    return Corner([[_value(cell) for cell in row] for row in rows], unit)


def _value(cell):
    """A cell's value; an error as its text, which `Mend` then names."""
    return getattr(cell, "code", cell)


def read_csv(path, unit="mm"):
    """The corner in a CSV file: a name, then x, y, z or one number in each line.

    Commas between cells, or semicolons with commas or points in the numbers. Lengths of
    lines that say their unit are converted to `unit`.
    """
    from .book.points.csv_file import cells_in, rows_of_csv

    return Corner(cells_in(rows_of_csv(path), unit), unit)


def read_frame(frame, unit="mm"):
    """The corner in a DataFrame: names as the index or the first column, then x, y, z."""
    if frame.index.dtype.kind not in "iuf":
        frame = frame.reset_index()
    rows = frame.astype(object).where(frame.notna(), None)
    return Corner([[_plain(cell) for cell in row] for row in rows.to_numpy()], unit)


def _plain(cell):
    return cell.item() if isinstance(cell, np.generic) else cell


__all__ = ["Corner", "Mend", "Trouble", "read", "read_csv", "read_frame", "read_workbook"]
