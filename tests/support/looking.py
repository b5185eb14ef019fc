"""Workbooks as openpyxl reads them, for tests that look at cells alone."""

import contextlib
import functools
import os
from unittest import mock

import openpyxl
from openpyxl.reader import excel
from openpyxl.worksheet import _reader
from openpyxl.worksheet.cell_range import CellRange, MultiCellRange


def looked_into(file, data_only=False):
    """A workbook of openpyxl to look at: cells, their styles, names, sizes.

    Charts, pictures, bands, and what it puts in place of merged cells are left out: they take two
    thirds of its time. A path that is asked for again gives the same workbook.
    """
    if not isinstance(file, (str, os.PathLike)):
        return _read(file, data_only)
    state = os.stat(file)
    return _kept(os.fspath(file), state.st_mtime_ns, state.st_size, data_only)


def block_of(file, name="Front"):
    """The rows of the cells of a name, with the values that the file has of them; of all sheets
    openpyxl reads theirs alone."""
    with contextlib.closing(openpyxl.load_workbook(file, read_only=True, data_only=True)) as book:
        (sheet, cells), *_ = book.defined_names[name].destinations
        return [[cell.value for cell in row] for row in book[sheet][cells.replace("$", "")]]


@functools.lru_cache(maxsize=4)
def _kept(path, time, size, data_only):
    return _read(path, data_only)


def _read(file, data_only):
    with contextlib.ExitStack() as without:
        for owner, name, instead in (
            (_reader.WorksheetReader, "bind_merged_cells", _name_merged_cells),
            (_reader.WorkSheetParser, "parse_formatting", lambda *_: None),
            (excel, "find_images", lambda *_: ([], [])),
        ):
            without.enter_context(mock.patch.object(owner, name, instead))
        return openpyxl.load_workbook(file, data_only=data_only)


def _name_merged_cells(reader):
    if reader.parser.merged_cells:
        merged = reader.parser.merged_cells.mergeCell
        reader.ws.merged_cells = MultiCellRange([CellRange(one.ref) for one in merged])
