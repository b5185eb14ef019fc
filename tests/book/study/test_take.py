"""What was edited in a shared copy, taken into the workbook that it was made of."""

import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.plain.edits import edits_of
from cornerbook.book.study.take import take

from tests.support.yellow import edited, hold_alike, other_values, yellow_of, yellow_once

FEW = ("sensitivity", "survey", "set-up")
"""Sheets with filled and blank yellow cells and with such as follow others by a formula."""


@pytest.fixture
def car(once):
    return once.workbook(chapters=FEW)


@pytest.fixture
def copy(once):
    return once.copy(chapters=FEW)[0]


@pytest.fixture
def at(car):
    """A function of a name: the (sheet, address) that it means."""
    package = Package.read(car)

    def found(name):
        (text,) = (text for other, _, text in package.names if other == name)
        sheet, address = text.rsplit("!", 1)
        return sheet.strip("'"), address.replace("$", "")

    return found


@pytest.fixture
def put(tmp_path):
    """A function of a workbook's bytes: the path where they are."""
    made = []

    def path(content):
        made.append(tmp_path / f"{len(made)}.xlsx")
        made[-1].write_bytes(content)
        return made[-1]

    return path


def taken(car, copy):
    """(the yellow cells of what comes of it, its lines)."""
    shared = Package.read(copy)
    edits, messages = edits_of(shared)
    content, lines = take(car, shared, edits)
    return yellow_of(content), [*messages, *lines]


@pytest.mark.parametrize("seed", [1, 2])
def test_whatever_was_edited_is_in_the_workbook_and_nothing_else(car, copy, put, seed):
    # What a formula gave when the copy was made is what the sheet of the copy has of it.
    changes = {
        cell: value for cell, value in other_values(car, seed).items()
        if not str(value).startswith("=") and value != yellow_of(car)[cell]
    }  # fmt: skip
    assert len(changes) > 150
    found, _ = taken(car, put(edited(copy, changes)))
    hold_alike(found, yellow_once(car, changes))


def test_each_is_listed_with_what_stood_there(car, copy, put, at):
    sheet, cell = at("FrontTrack")
    _, lines = taken(car, put(edited(copy, {(sheet, cell): 1150.0})))
    heads, line = lines
    assert heads.split() == ["before", "now"]
    assert line.split() == [f"{sheet}!{cell}", "(Front", "track)", "1120", "1150"]


def test_what_follows_by_a_formula_is_taken_only_where_it_was_typed_over(car, copy, put):
    follows = [cell for cell, value in yellow_of(copy).items() if str(value).startswith("=")]
    assert len(follows) > 10
    typed = follows[3]
    found, lines = taken(car, put(edited(copy, {typed: 123.5})))
    hold_alike(found, yellow_once(car, {typed: 123.5}))
    assert len(lines) == 2


def test_what_was_changed_here_too_stays(car, copy, put, at):
    track, base = at("FrontTrack"), at("Wheelbase")
    here = put(edited(car, {track: 1130.0}))
    copy = put(edited(copy, {track: 1150.0, base: 1600.0}))
    found, lines = taken(here, copy)
    assert found[track] == 1130.0 and found[base] == 1600.0
    assert lines[-1] == (
        "Changed in the workbook too since the copy was made, and left as they are there: "
        f"{'!'.join(track)} (Front track): 1150."
    )
    found, lines = taken(put(edited(car, {track: 1150.0})), copy)
    assert lines[-1].startswith("The workbook has these already: ")


def test_a_cell_that_is_another_one_there_is_left_out(once, car, copy, put, at):
    """Of a workbook with other sheets, and of one where another row stands."""
    base, gap = at("Wheelbase"), at("RimsRear")
    copy = put(edited(copy, {base: 1600.0, gap: 431.0}))
    found, lines = taken(once.workbook(chapters=("sensitivity",)), copy)
    assert found[base] == 1600.0
    assert lines[-1].startswith(f"The workbook has no such yellow cell, so left out: {gap[0]}!")
    package = Package.read(car)
    package.set_value(gap[0], "A" + gap[1][1:], "Another")
    found, lines = taken(put(package.to_bytes()), copy)
    assert found[gap] == yellow_of(car)[gap]
    assert lines[-1].startswith(f"The workbook has no such yellow cell, so left out: {gap[0]}!")


def test_a_formula_that_was_typed_is_taken_by_its_value(car, copy, put, at):
    package = Package.read(copy)
    package.set_formula(*at("Wheelbase"), "=2*800", 1600.0)
    found, lines = taken(car, put(package.to_bytes()))
    assert found[at("Wheelbase")] == 1600.0
    assert lines[-1].startswith("Taken as the value that the formula typed there gives now: ")


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        ({}, "no yellow cell of the copy was edited since it was made; nothing was made"),
        ({"FrontTrack": "twice"}, "nothing was taken, and nothing was made. Changed in the workb"),
    ],
)
def test_nothing_to_take_is_said(car, copy, put, at, edit, words):
    copy = put(edited(copy, {at(name): value for name, value in edit.items()}))
    here = put(edited(car, {at("FrontTrack"): 1130.0}))
    with pytest.raises(Trouble, match=words):
        taken(here, copy)


def test_what_is_no_copy_is_said(car, once, copy):
    for path in (car, once.copy(values=True, chapters=FEW)[0]):
        with pytest.raises(Trouble, match="is no copy that cornerbook share made"):
            edits_of(Package.read(path))
    package = Package.read(copy)
    for wrong in ("Car", 7.0, "Car!B", "Car!B5:"):
        package.set_value("As shared", "A6", wrong)
        with pytest.raises(Trouble, match="what it held; the sheet on which it does so was chan"):
            edits_of(package)
    package.set_value("As shared", "A6", "Gone!B5")
    assert edits_of(package)[1] == [f"Not in {package.where}, so nothing was taken of: Gone."]


def test_a_copy_of_another_unit_is_refused(once, car, put, at):
    """A length that is typed where nothing stood would be taken for one of the other unit."""
    inches = put(edited(once.copy(system="in", chapters=FEW)[0], {at("FrontTrack"): 45.0}))
    with pytest.raises(Trouble, match="has its lengths in in and "):
        taken(car, inches)
