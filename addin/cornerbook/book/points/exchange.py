"""A workbook's points out into a file of their own, and in again."""

import re

from ..file.package import Package
from ..file.trouble import Trouble
from .block import PointBlock
from .csv_file import csv_of, rows_of_csv
from .dxf.read import rows_of_dxf
from .dxf.write import dxf_of
from .intake import Intake

_KIND = re.compile(r"\.(csv|dxf)$", re.IGNORECASE)


def kind_of(path):
    """ "csv" or "dxf" by the end of a file's name; `Trouble` for another."""
    found = _KIND.search(str(path))
    if not found:
        raise Trouble(f"{path}: a name that ends in .csv or .dxf was expected")
    return found[1].lower()


def export(book, path, block="Front", unit=None, axle=False):
    """(bytes, sentences): the points of a workbook's block as a file of the path's kind.

    book: an .xlsx file, which is only read. unit: of its lengths, where it does not say.
    axle: whether a drawing shows the right-hand corner too.
    """
    kind = kind_of(path)
    found = PointBlock(Package.read(book), block, unit)
    messages = []
    if not found.unit:
        messages.append(
            "The workbook does not say its unit of length, so the file does not; give --unit."
        )
    rows = found.going_out()
    if kind == "csv":
        return csv_of(rows), messages
    content, said = dxf_of(rows, found.unit, axle)
    return content, messages + said


def take_in(book, path, block="Front", unit=None):
    """(bytes, sentences): a copy of a workbook with the points of a file in its block.

    The stored value of every formula that they move is worked out anew. Raises `Trouble`,
    with the row, for a file that does not fit.
    """
    package = Package.read(book)
    warnings = package.warnings()
    found = PointBlock(package, block, unit)
    if kind_of(path) == "csv":
        rows, messages = rows_of_csv(path), []
    else:
        rows, messages = rows_of_dxf(path)
    messages += Intake(found, rows, path).write() + found.values.doubts()
    verdict = PointBlock(package, block, found.unit).check()
    if verdict not in (None, "ok"):
        messages.append(f"The check of the points says: {str(verdict).lstrip('# ').rstrip('.')}.")
    return package.to_bytes(), warnings + messages
