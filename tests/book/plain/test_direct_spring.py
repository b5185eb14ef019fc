"""The demonstration with its spring straight on the lower arm: every sheet, and its copy."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.formula.values import Values
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call

from tests.support.looking import looked_into
from tests.support.yellow import edited

SHEETS = ("Springs", "Cornering", "Loads", "Feel", "Overview")


@pytest.fixture(scope="module")
def made(once):
    return once.workbook(scenario="lapwing-direct")


# The chapters of `SHEETS`; the overview comes along.
FEW = ("cornering", "loads", "feel")


def numbers(path):
    """{(sheet, address): value} of what the sheets that hang on the spring show."""
    book = looked_into(path, data_only=True)
    return {
        (name, cell.coordinate): cell.value
        for name in SHEETS for row in book[name].iter_rows() for cell in row
        if cell.value is not None
    }  # fmt: skip


def test_no_sheet_has_a_sentence_on_what_to_mend(made):
    said = {where: value for where, value in numbers(made).items() if str(value).startswith("#")}
    assert not said


def test_every_verdict_of_springs_and_turn_is_known(made):
    verdicts = [value for (sheet, _), value in numbers(made).items() if sheet == "Overview"]
    assert "not known" not in verdicts
    assert "pass" in verdicts


def test_the_copy_says_the_same(once):
    made = once.workbook(scenario="lapwing-direct", chapters=FEW)
    copy, _ = once.copy(scenario="lapwing-direct", chapters=FEW)
    package = Package.read(copy)
    values, compared = Values(package), 0
    for (sheet, address), value in numbers(made).items():
        content = package.cells(sheet).get(address)
        if content is None or content.formula is None or not isinstance(value, float):
            continue
        assert values.at(sheet, address) == pytest.approx(value, rel=1e-8, abs=1e-8), (
            sheet, address,
        )  # fmt: skip
        compared += 1
    assert compared > 200


def test_blank_rows_of_a_rocker_do_as_well_and_a_copy_says_when_one_is_filled(tmp_path, once):
    made = once.workbook(chapters=("springs",))
    sheet = looked_into(made)["Front corner"]
    points = {row[0].value: row for row in sheet.iter_rows(max_col=4)}
    blank = ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker")
    places = dict.fromkeys(blank, (None, None, None))
    places |= {"Rod outer": (2, 460, 170), "Spring frame": (0, 360, 338)}
    edits = {
        ("Front corner", cell.coordinate): value
        for name, place in places.items()
        for cell, value in zip(points[name][1:], place, strict=True)
    }
    path, copy = tmp_path / "blank.xlsx", tmp_path / "copy.xlsx"
    path.write_bytes(edited(made, edits))
    copy.write_bytes(share(path)[0])
    block = [
        [name, *places.get(name, [cell.value for cell in row[1:]])]
        for name, row in points.items() if isinstance(name, str)
    ]  # fmt: skip
    ratio = call("MOTION_RATIO", block)
    where = _cell(copy, "Springs", "Motion ratio")
    assert Values(Package.read(copy)).at(*where) == pytest.approx(ratio, rel=1e-9)
    filled = ("Front corner", points["Rocker axis"][2].coordinate)
    copy.write_bytes(edited(copy, {filled: 205.0}))
    said = Values(Package.read(copy)).at(*where)
    assert said == "# Rocker axis: this row was blank; make the copy anew to fill it"


def _cell(path, sheet, label):
    """The cell beside a label."""
    cells = Package.read(path).cells(sheet)
    (row,) = (int(a[1:]) for a, c in cells.items() if a[0] == "A" and c.value == label)
    return sheet, f"B{row}"


def test_a_spring_that_is_loose_as_drawn_is_said_on_every_sheet_that_needs_it(once, tmp_path):
    made = once.workbook(scenario="lapwing-direct", chapters=FEW)
    points = looked_into(made)["Front corner"]
    (row,) = (r for r in points.iter_rows() if r[0].value == "Spring frame")
    path = tmp_path / "loose.xlsx"
    path.write_bytes(edited(made, {("Front corner", row[3].coordinate): row[3].value + 60.0}))
    values = Values(Package.read(path))
    for sheet, label in (("Springs", "Wheel rate"), ("Cornering", "Roll")):
        said = values.at(*_cell(path, sheet, label))
        assert "the spring is loose as drawn" in str(said)
