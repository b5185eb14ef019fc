"""Workbooks as openpyxl reads them, for tests that look at cells alone."""

import contextlib
import functools
import os
import zipfile
from unittest import mock
from xml.etree import ElementTree

import openpyxl
from openpyxl.reader import excel
from openpyxl.worksheet import _reader
from openpyxl.worksheet.cell_range import CellRange, MultiCellRange

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


def looked_into(file, data_only=False, sheets=None):
    """A workbook of openpyxl to look at: cells, their styles, names, sizes.

    Charts, pictures, bands, and what it puts in place of merged cells are left out: they take two
    thirds of its time. A path that is asked for again gives the same workbook. sheets: the names
    of those that are looked at, all if not given; the others are there without a cell.
    """
    if not isinstance(file, (str, os.PathLike)):
        return _read(file, data_only, sheets)
    state = os.stat(file)
    wanted = None if sheets is None else frozenset(sheets)
    return _kept(os.fspath(file), state.st_mtime_ns, state.st_size, data_only, wanted)


@functools.lru_cache(maxsize=1)
def read_whole(path):
    """A workbook as openpyxl reads it, charts and bands too, to look at. It is read once."""
    return openpyxl.load_workbook(path)


def formulas_of(path):
    """{name of a sheet: the texts of its formulas, without '='} of a workbook in which each cell
    has its own: in a fifth of the time that openpyxl takes."""
    with zipfile.ZipFile(path) as file:
        relations = ElementTree.fromstring(file.read("xl/_rels/workbook.xml.rels"))
        parts = {relation.get("Id"): relation.get("Target") for relation in relations}
        book = ElementTree.fromstring(file.read("xl/workbook.xml"))
        found = {}
        for sheet in book.iter(f"{MAIN}sheet"):
            (part,) = (parts[value] for key, value in sheet.items() if key.endswith("}id"))
            root = ElementTree.fromstring(file.read(f"xl/{part.removeprefix('/xl/')}"))
            formulas = list(root.iter(f"{MAIN}f"))
            assert all(one.text and one.get("t") != "shared" for one in formulas), part
            found[sheet.get("name")] = [one.text for one in formulas]
    return found


def block_of(file, name="Front"):
    """The rows of the cells of a name, with the values that the file has of them; of all sheets
    openpyxl reads theirs alone."""
    with contextlib.closing(openpyxl.load_workbook(file, read_only=True, data_only=True)) as book:
        (sheet, cells), *_ = book.defined_names[name].destinations
        return [[cell.value for cell in row] for row in book[sheet][cells.replace("$", "")]]


@functools.lru_cache(maxsize=4)
def _kept(path, time, size, data_only, sheets):
    return _read(path, data_only, sheets)


def _read(file, data_only, sheets):
    read_all = _reader.WorksheetReader.bind_all

    def read_sheet(reader):
        if sheets is None or reader.ws.title in sheets:
            read_all(reader)

    with contextlib.ExitStack() as without:
        for owner, name, instead in (
            (_reader.WorksheetReader, "bind_all", read_sheet),
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
