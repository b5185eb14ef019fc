"""Workbooks that somebody made: a block of points on one sheet, cells on another."""

import openpyxl
from cornerbook.cells.example import EXAMPLE
from openpyxl.workbook.defined_name import DefinedName


def notes_and_block(path, cells, rows=EXAMPLE, sheet="My points", name="Front", names=None):
    """Write a workbook; returns its path.

    cells: {address: content} of the first sheet, Notes. rows: those of the block, which
    stands on a sheet of its own under a name. names: {name: reference} of more.
    """
    book = openpyxl.Workbook()
    notes = book.active
    notes.title = "Notes"
    block = book.create_sheet(sheet)
    for row in rows:
        block.append([None if cell == "" else cell for cell in row])
    where = "'%s'!$A$1:$D$%d" % (sheet, len(rows))
    for one, text in {name: where, **(names or {})}.items():
        book.defined_names[one] = DefinedName(one, attr_text=text)
    for address, content in cells.items():
        notes[address] = content
    book.save(path)
    return path
