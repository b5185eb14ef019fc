"""A shared copy edited and saved by a Calc without the extension, taken into its workbook."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.plain.edits import edits_of
from cornerbook.book.study.take import take

from tests.support.looking import looked_into

EDITS = {"FrontTrack": 1150.0, "PedalRatio": 6.0, "Wheelbase": 1600.0, "LateralG": 0.75}
"""By the names of yellow cells."""

RESULTS = (
    "Caster", "Trail", "RollCentre", "KerbToKerb", "MotionRatio", "FrontForceRatio", "FirstLock",
)  # fmt: skip


def test_the_workbook_then_shows_what_the_copy_showed(calc, opened_copy, starter, tmp_path):
    names = looked_into(starter).defined_names

    def place(name):
        ((sheet, cell),) = names[name].destinations
        return sheet, cell.replace("$", "")

    copy, path = tmp_path / "edited.xlsx", tmp_path / "car.xlsx"
    before = [opened_copy.value(*place(name)) for name in RESULTS]
    with opened_copy.with_edits(*((*place(name), new) for name, new in EDITS.items())) as book:
        wanted = [book.value(*place(name)) for name in RESULTS]
        book.save(copy)
    assert sum(one != other for one, other in zip(before, wanted, strict=True)) > 2
    shared = Package.read(copy)
    edits, messages = edits_of(shared)
    assert {edit.cell: edit.now for edit in edits} == {place(n): v for n, v in EDITS.items()}
    content, lines = take(starter, shared, edits)
    assert messages == [] and len(lines) == 1 + len(EDITS)
    path.write_bytes(content)
    with calc.open(path) as book:
        stored = [book.value(*place(name)) for name in RESULTS]
        book.recalculate()
        now = [book.value(*place(name)) for name in RESULTS]
    assert stored == pytest.approx(wanted, rel=1e-9)
    assert now == pytest.approx(wanted, rel=1e-9)
