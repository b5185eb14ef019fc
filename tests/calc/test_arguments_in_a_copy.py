"""Arguments that reckon with cells: an edit of a copy gives and says what the original does."""

import pytest
from cornerbook.book.plain.share import share

from tests.support.workbooks import notes_and_block

ARGUMENTS = (
    "-F2", "2*F2", "F2/2", "F2+1", "1-F2", "F2-F3", "-(F2+F3)/2", "F2*F3", "F2%", "F2^2", "F2",
)  # fmt: skip
"""Racks, of a cell whose formula may hold a sentence, and of one for typing."""

EDITS = ({"G2": 7.5}, {"G2": None}, {"G2": "abc"}, {"F3": None}, {"G2": None, "F3": None})


@pytest.fixture(scope="module")
def original(tmp_path_factory):
    """In each row a call with the argument, one behind a question, and one by a cell that asks."""
    cells = {"G2": 10, "F2": '=IF(ISNUMBER(G2),G2,"# G2: no number")', "F3": 4}
    for row, argument in enumerate(ARGUMENTS, 1):
        cells[f"A{row}"] = f"=CORNER.CAMBER(Front,0,{argument})"
        cells[f"B{row}"] = f"=IF(ISNUMBER(F2),CORNER.CAMBER(Front,0,{argument}),F2)"
        cells[f"C{row}"] = f"=IF(ISNUMBER(F2),{argument},F2)"
        cells[f"D{row}"] = f"=CORNER.CAMBER(Front,0,C{row})"
    return notes_and_block(tmp_path_factory.mktemp("arguments") / "book.xlsx", cells)


@pytest.fixture(scope="module")
def copy(original):
    path = original.with_name("copy.xlsx")
    path.write_bytes(share(original)[0])
    return path


def found(program, path, edits):
    area = f"A1:D{len(ARGUMENTS)}"
    with program.open(path) as book:
        book.set_many([("Notes", cell, value) for cell, value in edits.items()])
        book.recalculate()
        return book.get("Notes", area)


@pytest.mark.parametrize("edits", EDITS, ids=str)
def test_an_edit_gives_and_says_the_same(calc, bare_calc, original, copy, edits):
    wanted, got = found(calc, original, edits), found(bare_calc, copy, edits)
    sentences = 0
    for argument, one, other in zip(ARGUMENTS, wanted, got, strict=True):
        for column, was, now in zip("ABCD", one, other, strict=True):
            if isinstance(was, float):
                assert now == pytest.approx(was, rel=1e-9, abs=1e-9), (argument, column)
            elif isinstance(was, str):
                sentences += 1
                assert now == was, (argument, column)
            else:
                # A bare error of the user's own formula: a sentence in its place is no worse.
                assert not isinstance(now, float), (argument, column)
    assert bool(sentences) == (edits.get("G2", 10) in (None, "abc"))
