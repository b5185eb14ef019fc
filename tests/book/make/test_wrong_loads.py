"""Load cases that no road can give: a sentence stands in place of every force that follows."""

import pytest
from cornerbook.book.file.address import cell_name
from cornerbook.book.study.recalculate import Recalculation

from tests.support.looking import looked_into

SHEET = "Loads"


@pytest.fixture(scope="module")
def sheet(starter):
    return looked_into(starter, data_only=True, sheets=[SHEET])[SHEET]


@pytest.fixture(scope="module")
def recalculation(starter):
    return Recalculation.read(starter)


def row_of(sheet, label):
    return next(row for row in sheet.iter_rows() if row[0].value == label)


def place(sheet, label, title):
    """The cell beside a label, below the title that stands nearest above it."""
    top = row_of(sheet, label)[0].row
    for row in range(top - 1, 0, -1):
        for cell in sheet[row][:8]:  # past these, the worst pull and push and their cases
            if cell.value == title:
                return SHEET, cell_name(top - 1, cell.column - 1)
    raise AssertionError(title)


def test_a_road_that_pulls_a_wheel_down_is_refused(sheet, recalculation):
    factor, acts = place(sheet, "Bump", "up x"), place(sheet, "Bump", "acts at")
    force = place(sheet, "Spring and damper", "Bump")
    shown = recalculation.function([factor, acts], [force])
    assert shown([3.0, "contact centre"])[0] < 0
    assert "0 or more was expected" in shown([-3.0, "contact centre"])[0]
    assert "0 or more was expected" in shown([-3.0, "brake"])[0]
    # A wheel's own weight, or a strap's pull, is a load downward at its centre.
    assert shown([-3.0, "wheel centre"])[0] > 0


def test_a_rear_wheel_likewise(sheet, recalculation):
    up = place(sheet, "Rear, bump", "up, left")
    force = place(sheet, "Left bearing, up", "Rear, bump")
    shown = recalculation.function([up], [force])
    assert isinstance(shown([900.0])[0], float)
    assert "0 or more was expected" in shown([-900.0])[0]


def test_a_deceleration_below_0_is_said(sheet, recalculation):
    given = recalculation.find("BrakingG")
    forces = [place(sheet, "Tie rod", "Braking"), place(sheet, "Left bearing, up", "Rear, braking")]
    shown = recalculation.function([given], forces)
    assert all(isinstance(force, float) for force in shown([0.8]))
    assert all("deceleration" in said for said in shown([-0.8]))


def test_a_camber_stiffness_below_0_is_said(recalculation):
    parts = [recalculation.find(name) for name in ("UnderCamber", "UnderToeCamber")]
    shown = recalculation.function([recalculation.find("CamberThrust")], parts)
    assert all(isinstance(part, float) for part in shown([0.1]))
    assert all("0 or more was expected" in said for said in shown([-1.0]))


def test_parts_that_give_more_than_what_is_small_are_pointed_at(starter, recalculation):
    sheet = looked_into(starter, sheets=["What gives"])["What gives"]
    rack, size = (
        ("What gives", f"B{row_of(sheet, label)[0].row}") for label in ("Rack", "Size of these")
    )
    parts = [recalculation.find(name) for name in ("UnderToe", "UnderToeCamber")]
    shown = recalculation.function([rack], [size, *parts])
    size, *parts = shown([2000.0])
    assert size.startswith("ok") and all(isinstance(part, float) for part in parts)
    size, *parts = shown([2.0])
    assert size.startswith("look here") and all("What gives" in part for part in parts)
