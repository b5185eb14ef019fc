"""What a copy says of itself, in a Calc without the extension: what was edited, what moved."""

import random

import pytest
from cornerbook.book.file.package import Package
from openpyxl.utils.cell import range_boundaries as boundaries

from tests.support.looking import looked_into
from tests.support.yellow import yellow_of

PAGE, HELD = "Shared copy", "As shared"
SOUND = "as shared: no yellow cell was edited, and the "


@pytest.fixture(scope="module")
def copy(once):
    return once.copy()[0]


@pytest.fixture(scope="module")
def place(copy):
    """A function of a name: the (sheet, address) that it means in the copy."""
    names = looked_into(copy).defined_names

    def found(name):
        ((sheet, cell),) = names[name].destinations
        return sheet, cell.replace("$", "")

    return found


def listed(book):
    """The rows of the page's list of edits that say anything."""
    return [row for row in book.get(PAGE, "A6:D17") if row[0]]


def test_as_it_was_made(opened_copy, place):
    said = opened_copy.value(PAGE, "B3")
    assert said.startswith(SOUND)
    assert opened_copy.value(*place("CopyState")) == f"a copy without the formulas; {said}"
    assert listed(opened_copy) == []


def test_an_edit_is_named_with_what_stood_there(opened_copy, place):
    sheet, cell = place("PedalRatio")
    was = opened_copy.value(sheet, cell)
    with opened_copy.with_edits((sheet, cell, was + 0.5)) as book:
        assert listed(book) == [[f"{sheet}!{cell}", "Pedal ratio", was, was + 0.5]]
        said = f"edited since: 1 place, {sheet}!{cell}"
        assert book.value(PAGE, "B3") == said
        assert book.value(*place("CopyState")) == f"a copy without the formulas; {said}"
    assert opened_copy.value(PAGE, "B3").startswith(SOUND)


@pytest.mark.parametrize("kind", ["number", "text", "formula", "blank"])
@pytest.mark.parametrize("typed", [12.5, "no number", None, {"typed": "=1/0"}])
def test_whatever_is_typed_is_seen(opened_copy, copy, kind, typed):
    kinds = {}
    for (sheet, address), value in yellow_of(copy).items():
        is_formula = isinstance(value, str) and value.startswith("=")
        of = "blank" if value is None else "formula" if is_formula else (
            "text" if isinstance(value, str) else "number")  # fmt: skip
        kinds.setdefault(of, []).append((sheet, address))
    where = random.Random(kind).choice(kinds[kind])
    with opened_copy.with_edits((*where, typed)) as book:
        nothing_new = kind == "blank" and typed is None
        assert len(listed(book)) == (0 if nothing_new else 1), where
        assert book.value(PAGE, "B3").startswith(SOUND if nothing_new else "edited since: 1 place")


def test_what_follows_an_edit_is_no_edit_itself(opened_copy, copy, place):
    """Nor is a number that is typed over a formula which gives the same."""
    yellow = yellow_of(copy)
    follow = [cell for cell, value in yellow.items() if str(value).startswith("=")]
    values = {cell: opened_copy.value(*cell) for cell in follow}
    (sheet, cell), value = next((c, v) for c, v in values.items() if isinstance(v, float))
    with opened_copy.with_edits((sheet, cell, value)) as book:
        assert book.value(PAGE, "B3").startswith(SOUND)
    edit = place("FrontTrack")
    with opened_copy.with_edits((*edit, opened_copy.value(*edit) + 10.0)) as book:
        moved = [cell for cell in follow if book.value(*cell) != values[cell]]
        assert len(moved) > 3
        assert [row[0] for row in listed(book)] == ["!".join(edit)]


def test_every_yellow_cell_is_looked_at(opened_copy, copy):
    """All of them changed at once: each row of the sheet of what they held counts one edit."""
    edits = []
    for (sheet, address), value in yellow_of(copy).items():
        number = isinstance(value, (int, float))
        edits.append((sheet, address, value + 0.5 if number else "x" if value else 1.0))
    rows = opened_copy.get(HELD, "A5:E1500")
    rows = [row for row in rows if row[0]]
    covered = 0
    for where, *_ in rows:
        left, top, right, bottom = boundaries(where.rpartition("!")[2])
        covered += (right - left + 1) * (bottom - top + 1)
    assert covered == len(edits) > 2000
    with opened_copy.with_edits(*edits) as book:
        last = book.get(HELD, f"E5:E{len(rows) + 4}")
        assert last == [[float(number)] for number in range(1, len(rows) + 1)]
        assert len(listed(book)) == 12
        assert book.value(PAGE, "B3").startswith(f"edited since: {len(rows)} places, the first ")


def test_a_program_that_computes_otherwise_is_seen(bare_calc, copy, place, tmp_path):
    """As if it had another number for a step of the workings, no yellow cell being edited."""
    package = Package.read(copy)
    sheet, cell = place("Caster")
    steps, at = package.cells(sheet)[cell].formula[1:].replace("'", "").split("!")
    step = package.cells(steps)[at.replace("$", "")]
    assert step.formula
    package.set_formula(steps, at.replace("$", ""), f"{step.formula}+0.001", step.value)
    path = tmp_path / "otherwise.xlsx"
    path.write_bytes(package.to_bytes())
    with bare_calc.open(path) as book:
        book.recalculate()
        rows = [row for row in book.get(PAGE, "A20:E300") if row[4] in ("as shared", "moved")]
        moved = [row[0] for row in rows if row[4] == "moved"]
        assert "Caster" in moved
        assert len(moved) < len(rows) / 2
        said = f"look here: no yellow cell was edited, yet {len(moved)} of {len(rows)} results "
        assert book.value(PAGE, "B3").startswith(said)
