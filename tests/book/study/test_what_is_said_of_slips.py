"""Numbers that still compute though they are a slip: a sentence says so, no verdict passes them.

Each has once been passed, or shown as a number that was not so.
"""

import pytest
from cornerbook.book.study.recalculate import Recalculation

THREAD = "# the rod ends leave no tube, or would be in by more than their length: look at that"
SLIPS = [
    ({"FrameBottom": 440.0, "FrameTop": 75.0}, "Body", "Frame's box below the body's top",
     "# a row of the table below has no value; it says why there"),
    ({"FrameBottom": 440.0, "FrameTop": 75.0}, "Body", "Frame's box above the body's underside",
     "# a row of the table below has no value; it says why there"),
    ({"FrameHalf": 0.0}, "Body", "Frame's box beside the body's wall",
     "# a row of the table below has no value; it says why there"),
    ({"UnsprungFront": 400.0}, "Springs", "Sprung load of one wheel",
     "# the front wheels carry no more than the unsprung mass of the front pair"),
    ({"FrontWheelLoad": "# not known"}, "Feel", "Largest rim force",
     "# not every row of the table above has a number; it says why"),
    ({"RodEndLength": 200.0}, "Build sheet", "Push or pull rod", THREAD),
    ({"ThreadBuilt": 60.0}, "Build sheet", "Upper arm, likewise", THREAD),
    ({"RodEndLength": 200.0}, "Build sheet", "Tube of the tie rod, end to end", THREAD),
]  # fmt: skip


@pytest.fixture(scope="module")
def book(starter):
    return Recalculation.read(starter)


def told(book, sheet, label):
    """The cells beside a label: what it comes to, wherever it stands more than once."""
    cells = book.cells[sheet]
    rows = [address[1:] for address, cell in cells.items()
            if address[0] == "A" and cell.value == label]  # fmt: skip
    assert rows, label
    return [(sheet, f"B{row}") for row in rows]


@pytest.mark.parametrize(("slips", "sheet", "label", "sentence"), SLIPS)
def test_a_slip_is_said(book, slips, sheet, label, sentence):
    wanted = told(book, sheet, label)
    function = book.function([book.find(name) for name in slips], wanted)
    found = function(list(slips.values()))
    assert any(str(value).startswith(sentence) for value in found), found
    # As it stands each is a number.
    assert all(isinstance(book.values.seen(cell), (int, float)) for cell in wanted)


def test_of_tyres_of_no_known_friction_no_place_is_said(book):
    cells = told(book, "Drive", "Tyres limit the force up to")
    function = book.function([book.find("Friction")], cells)
    assert function([1.1]) == ["nowhere"]
    (said,) = function(["abc"])
    assert said.startswith("# Friction (Cornering!")


BARS = [("Body", f"{column}{row}") for row in (51, 52) for column in "ABCD"]
PART = ("Body", "A62")


def test_bars_and_parts_that_are_not_typed_are_not_judged(book):
    """And one that is half typed, or a part that there is not, is not known."""
    assert [book.values.seen(cell) for cell in (BARS[0], PART)] == [
        "Bulkhead, upper edge", "Battery",
    ]  # fmt: skip
    (bar,) = told(book, "Body", "Leg to a bar of the frame")
    (part,) = told(book, "Body", "Leg to a part")
    wanted = [(sheet, cell.replace("B", column)) for sheet, cell in (bar, part) for column in "BF"]
    function = book.function([*BARS, PART], wanted)
    typed = [book.values.seen(cell) for cell in BARS]
    assert function([None] * 9) == ["", "", "", ""]
    assert function([*typed, "Battery"])[1::2] == ["pass", "pass"]
    half = function([*typed[:2], None, *typed[3:], "Batery"])
    assert half[1::2] == ["not known", "not known"] and half[0].startswith("# a bar of the table")
    shin = function([*typed[:2], 230.0, *typed[3:], "Battery"])
    assert shin[0] < 0.0 and shin[1] == "look here"
