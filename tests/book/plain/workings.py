"""What the workings of a copy come to, beside what the formulas themselves give."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.plain.share import share

from tests.support.workbooks import notes_and_block


def shown_in_workings(path, cells):
    """{address: what the workings come to for that cell of the sheet Notes, or its own value}."""
    content, _ = share(notes_and_block(path, cells))
    copy = path.with_name("copy.xlsx")
    copy.write_bytes(content)
    package = Package.read(copy)
    notes = package.cells("Notes")
    sheets = {sheet: package.cells(sheet) for sheet in package.sheets}
    found = {}
    for address, content in cells.items():
        if str(getattr(content, "text", content)).startswith("="):
            sheet, cell = notes[address].formula[1:].split(":")[0].rsplit("!", 1)
            found[address] = sheets[sheet.strip("'")][cell.replace("$", "")].value
    return found


def agree(got, want):
    if isinstance(want, float):
        # Ill-conditioned second derivatives keep this much.
        assert got == pytest.approx(want, rel=1e-9, abs=1e-11)
    else:
        assert isinstance(got, str) and got.startswith("# ") and want.startswith("# ")
