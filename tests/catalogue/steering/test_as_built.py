"""An axle of two unlike corners: each wheel closed by SciPy from its own points."""

import numpy as np
import openpyxl
import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.example import EXAMPLE
from openpyxl.workbook.defined_name import DefinedName

from tests.catalogue.independent import VALUE, _front_arm, measured
from tests.catalogue.independent_steering import upright
from tests.catalogue.test_bad_input import block, said
from tests.support.corners import random_corners

CORNERS = random_corners(1781, 4)
PLANE = ("steer left", "steer right", "ideal outer", "ackermann", "turning radius", "toe sum",
         "track")  # fmt: skip


def welded(i, seed):
    """A corner's rows with every point off by a few millimetres."""
    draw = np.random.default_rng([1782, i, seed])
    return tuple(
        (row[0], *(row[k] + draw.normal(0.0, 2.0) for k in (1, 2, 3))) if row[3] != "" else row
        for row in CORNERS.rows(i)
    )


@pytest.mark.parametrize("i", range(CORNERS.count))
@pytest.mark.parametrize("rack", [-25.0, 20.0])
def test_each_wheel_goes_by_its_own_corner(i, rack):
    left, right = welded(i, 0), welded(i, 1)
    given = left, right
    for quantity in PLANE:
        wanted = VALUE["AXLE_AS_BUILT"](*given, quantity, 1580.0, rack, 8.0)
        found = call("AXLE_AS_BUILT", *given, quantity, 1580.0, rack, 8.0)
        assert found == pytest.approx(wanted, rel=1e-6, abs=1e-7), quantity
    pushes = [
        upright(rows, 8.0, at).push_of_moment(upright(rows, 8.0, at).moment(0.0, 0.0, 1.0))
        for rows, at in ((left, rack), (right, -rack))
    ]
    pull = call("AXLE_AS_BUILT", *given, "rack pull", 1580.0, rack, 8.0)
    assert pull == pytest.approx(pushes[0] - pushes[1], rel=1e-6, abs=1e-9)
    # Two lines in front view, y to the left: z = z0 + slope * (y0 - y) and its mirror image.
    ends = []
    for rows, at, side in ((left, rack, 1.0), (right, -rack, -1.0)):
        inboard, up = _front_arm(rows, 8.0, at)
        _, y, z = measured(rows, 8.0, at).contact_centre
        ends.append((side * y, z, -side * up / inboard))
    (a, h, m), (b, k, n) = ends
    y = (k - h + m * a - n * b) / (m - n)
    height = h + m * (y - a) - (h + (k - h) * (y - a) / (b - a))
    found = call("AXLE_AS_BUILT", *given, "roll centre", 1580.0, rack, 8.0)
    assert found == pytest.approx(height, rel=1e-5, abs=1e-5)


def test_of_two_alike_it_is_the_formula_of_one():
    for quantity in ("steer left", "steer right", "ideal outer", "ackermann", "turning radius"):
        name = quantity.upper().replace(" ", "_")
        assert call("AXLE_AS_BUILT", EXAMPLE, EXAMPLE, quantity, 1600.0, -30.0) == call(
            name, EXAMPLE, 1600.0, -30.0
        )
    alike = EXAMPLE, EXAMPLE
    assert call("AXLE_AS_BUILT", *alike, "roll centre", 1600.0, 0.0) == pytest.approx(
        call("ROLL_CENTRE", EXAMPLE)
    )
    assert call("AXLE_AS_BUILT", *alike, "rack pull", 1600.0, 0.0) == 0.0


@pytest.mark.parametrize(
    "given, words",
    [
        ((EXAMPLE, EXAMPLE, "colour", 1600.0, 0.0), ("quantity", "colour", "steer left")),
        ((EXAMPLE, EXAMPLE, "ackermann", 1600.0, 0.0), ("straight ahead",)),
        ((EXAMPLE, block(Tie_rod_inner=None), "track", 1600.0, 0.0), ("right corner", "tie rod")),
        ((EXAMPLE, EXAMPLE, "track", 1600.0, 400.0), ("left corner", "rack")),
    ],
)
def test_what_cannot_be_asked(given, words):
    said(call("AXLE_AS_BUILT", *given), *words)


def test_it_lives_in_the_copy_without_an_add_in(tmp_path):
    book = openpyxl.Workbook()
    sheet = book.active
    for name, rows in (("Left", welded(0, 0)), ("Right", welded(0, 1))):
        page = book.create_sheet(name)
        for row in rows:
            page.append([None if cell == "" else cell for cell in row])
        book.defined_names[name] = DefinedName(name, attr_text=f"{name}!$A$1:$D${len(rows)}")
    sheet["A1"] = -20.0
    for number, quantity in enumerate((*PLANE, "rack pull", "roll centre"), 1):
        sheet[f"B{number}"] = f'=CORNER.AXLE_AS_BUILT(Left,Right,"{quantity}",1580,$A$1)'
    path = tmp_path / "car.xlsx"
    book.save(path)
    (tmp_path / "copy.xlsx").write_bytes(share(path)[0])
    cells = Package.read(tmp_path / "copy.xlsx").cells("Sheet")
    for number, quantity in enumerate((*PLANE, "rack pull", "roll centre"), 1):
        assert "CORNER" not in cells[f"B{number}"].formula
        wanted = call("AXLE_AS_BUILT", welded(0, 0), welded(0, 1), quantity, 1580.0, -20.0)
        assert cells[f"B{number}"].value == pytest.approx(wanted, rel=1e-9)
