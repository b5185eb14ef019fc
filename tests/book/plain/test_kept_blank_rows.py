"""Kept numbers of ranges with blank rows: these go together, and a number typed there is seen."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.formula.values import Values
from cornerbook.book.plain.kept_numbers import STALE, TITLE
from cornerbook.book.plain.share import share

from tests.support.workbooks import notes_and_block

CALL = '=CORNER.ADJUSTED_CHANGE(Front,"camber",A1:A12,B1:B12,C1:C12,D1:D12,E1:E12)'


@pytest.fixture
def copy(tmp_path):
    """A copy of a workbook whose one call reads twelve rows, of which ten are blank."""
    cells = {"A2": "upper arm", "B2": 0, "C2": 0.75, "D2": 0, "E2": 2,
             "A7": "tie rod", "B7": 0.4, "E7": -1, "H1": CALL}  # fmt: skip
    content, _ = share(notes_and_block(tmp_path / "mine.xlsx", cells))
    path = tmp_path / "copy.xlsx"
    path.write_bytes(content)
    return path


def shown(path, address=None, value=None):
    package = Package.read(path)
    if address:
        package.set_value("Notes", address, value)
        path = path.with_name("edited.xlsx")
        path.write_bytes(package.to_bytes())
        package = Package.read(path)
    return Values(package).at("Notes", "H1")


def test_blank_rows_are_held_together(copy):
    formulas = [cell.formula or "" for cell in Package.read(copy).cells(TITLE).values()]
    blank = [text for text in formulas if "COUNTA(" in text]
    assert len(blank) == 3 + 3 + 2 + 2 + 3
    assert sum("A$3:$A$6" in text for text in blank) == 1
    # And one for each cell that held something.
    assert sum("'Notes'!" in text for text in formulas) == len(blank) + 2 + 2 + 1 + 1 + 2


@pytest.mark.parametrize("address", ["A1", "A4", "A12", "C7", "E9"])
def test_what_is_typed_into_a_blank_row_is_seen(copy, address):
    before = shown(copy)
    assert isinstance(before, float)
    assert shown(copy, address, 5.0) == STALE
    assert shown(copy, "G5", 5.0) == before


def test_a_number_that_was_there_is_still_held(copy):
    assert shown(copy, "E2", 3.0) == STALE
    assert shown(copy, "E2", None) == STALE
    assert shown(copy, "E2", 2.0) == shown(copy)
