"""Spreadsheet programs that compute a workbook: each gives {(sheet, address): value}.

A value is a float, a text, or None for an empty cell; an error is a `Fault` of Calc's where it
is one, so that texts that look like errors are not taken for them.
"""

import functools
import shutil
import subprocess
from pathlib import Path

from cornerbook.book.file.cell_error import CellError
from cornerbook.book.file.package import Package
from openpyxl.utils.cell import coordinate_to_tuple, get_column_letter

from tests.calc.calc import Fault
from tests.support.patience import HANGING
from tests.support.yellow import edited

ERRORS = frozenset(
    ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#CIRC!", "#SPILL!",
     "#CALC!", "#ERROR!", "#N/IMPL!")
)  # fmt: skip


class Missing(Exception):
    """A program that is not on this machine; the text says what to install."""


@functools.cache
def wanted_and_stored(path):
    """({sheet: [addresses of its formulas]}, their stored values) of a copy that nobody changes.

    Without the sheets of workings.
    """
    package = Package.read(path)
    cells = {
        sheet: [a for a, content in package.cells(sheet).items() if content.formula is not None]
        for sheet in package.sheets
        if not sheet.startswith("Workings")
    }
    return cells, _stored(package, cells)


def wanted_cells(path):
    """The first of these."""
    return wanted_and_stored(path)[0]


def stored(path, cells):
    """The values that a file has of these cells."""
    return _stored(Package.read(path), cells)


def _stored(package, cells):
    found = {}
    for sheet, addresses in cells.items():
        at = package.cells(sheet)
        for address in addresses:
            found[sheet, address] = _plain(at[address].value if address in at else None)
    return found


class InCalc:
    """A copy open in Calc. book: a `Book` of the Calc without the extension."""

    def __init__(self, book, cells):
        self._book, self._cells = book, cells

    def set(self, edits):
        self._book.set_together([(*cell, value) for cell, value in edits.items()])

    def values(self):
        found = {}
        for sheet, addresses in self._cells.items():
            if not addresses:
                continue
            places = [coordinate_to_tuple(address) for address in addresses]
            last = get_column_letter(max(c for _, c in places)) + str(max(r for r, _ in places))
            rows = self._book.get(sheet, f"A1:{last}")
            for address, (row, column) in zip(addresses, places, strict=True):
                found[sheet, address] = _plain(rows[row - 1][column - 1])
        return found


class InIronCalc:
    """A copy open in IronCalc (the PyPI package `ironcalc`)."""

    def __init__(self, path, cells):
        try:
            import ironcalc
        except ImportError:
            raise Missing("The package ironcalc is not installed (pip install ironcalc)") from None
        self._cells = cells
        self._model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
        self._numbers = {
            sheet["name"]: number
            for number, sheet in enumerate(self._model.get_worksheets_properties())
        }

    def set(self, edits):
        for (sheet, address), value in edits.items():
            at = (self._numbers[sheet], *coordinate_to_tuple(address))
            if value is None:
                self._model.clear_cell_contents(*at)
            elif isinstance(value, str) and value.startswith("="):
                self._model.update_cell_with_formula(*at, value)
            elif isinstance(value, str):
                self._model.update_cell_with_text(*at, value)
            else:
                self._model.update_cell_with_number(*at, float(value))

    def values(self):
        self._model.evaluate()
        return {
            (sheet, address): _plain(
                self._model.get_cell_value(self._numbers[sheet], *coordinate_to_tuple(address))
            )
            for sheet, addresses in self._cells.items()
            for address in addresses
        }


class InGnumeric:
    """A copy computed by Gnumeric's `ssconvert`, anew for each set of edits.

    folder: where the edited file and what comes of it are put.
    """

    def __init__(self, path, cells, folder):
        self._program = shutil.which("ssconvert")
        if self._program is None:
            raise Missing("Gnumeric is not installed (Debian, Ubuntu, Mint: apt install gnumeric)")
        self._path, self._cells, self._folder = Path(path), cells, Path(folder)
        self._edits = {}

    def set(self, edits):
        self._edits.update(edits)

    def values(self):
        given, made = (self._folder / f"{self._path.stem} {kind}.xlsx" for kind in ("in", "out"))
        given.write_bytes(
            edited(self._path, self._edits) if self._edits else self._path.read_bytes()
        )
        run = subprocess.run(
            [self._program, "--recalc", given, made], capture_output=True, text=True,
            timeout=HANGING,
        )  # fmt: skip
        assert run.returncode == 0, run.stderr
        return stored(made, self._cells)


def _plain(value):
    if isinstance(value, CellError):
        return Fault(0, value.code)
    if isinstance(value, Fault):
        return Fault(0, value.text)
    if isinstance(value, str):
        return Fault(0, value) if value in ERRORS else (value or None)
    return None if value is None else float(value)
