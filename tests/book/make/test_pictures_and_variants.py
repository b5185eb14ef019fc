"""Pictures, variants and tables of the workbook: what its charts draw, and what is shared."""

import numpy as np
import pytest
from cornerbook.book.file.package import Package
from cornerbook.cells.call import call
from openpyxl.utils import range_boundaries
from scipy.spatial.transform import Rotation

from tests.support.looking import looked_into, read_whole


@pytest.fixture(scope="module")
def values(starter):
    return looked_into(starter, data_only=True)


@pytest.fixture(scope="module")
def formulas(starter):
    return read_whole(starter)


def named(book, name):
    """The cells of a name, as rows of values."""
    sheet, cells = next(book.defined_names[name].destinations)
    found = book[sheet][cells.replace("$", "")]
    if not isinstance(found, tuple):
        return found.value
    return tuple(tuple(cell.value for cell in row) for row in found)


def drawn(book, reference):
    """The numbers of a chart's range; None where the pen is lifted."""
    sheet, cells = reference.rsplit("!", 1)
    left, top, right, bottom = range_boundaries(cells.replace("$", ""))
    assert left == right
    column = [book[sheet.strip("'")].cell(row, left).value for row in range(top, bottom + 1)]
    return [None if value is None else float(value) for value in column]


def drawn_pose(book):
    """Roll, heave and rack of the picture: both wheels up by the travel is the body down by it."""
    roll, travel, rack = (float(named(book, f"Pose{name}")) for name in ("Roll", "Travel", "Rack"))
    return [roll, -travel, rack]


def charts(book):
    found = {}
    for chart in book["Picture"]._charts:
        title = "".join(run.t for p in chart.title.tx.rich.p for run in p.r)
        found[title.removesuffix(" (mm)")] = chart
    return found


def test_three_views(formulas):
    assert set(charts(formulas)) == {"Front view", "Side view, left wheel", "Plan view"}


def views(book):
    """Every drawing of the workbook: a chart whose both axes have ends of their own."""
    for sheet in book:
        for chart in sheet._charts:
            axes = (chart.x_axis.scaling, chart.y_axis.scaling)
            if all(axis.max is not None and axis.min is not None for axis in axes):
                yield chart, *(axis.max - axis.min for axis in axes)


def test_no_drawing_stands_beside_what_each_page_repeats(formulas):
    """A page on paper that begins with a row of heads begins with a strip of what is beside it."""
    repeated = [sheet for sheet in formulas if sheet.print_title_rows]
    assert any(sheet._charts for sheet in repeated)
    for sheet in repeated:
        last = int(sheet.print_title_rows.rpartition(":")[2].replace("$", ""))
        assert all(chart.anchor._from.row >= last for chart in sheet._charts), sheet.title


def test_views_are_to_scale(formulas):
    """A length is as many pixels across as up: the plot's shape is the ranges' shape.

    The chart's size is in the file and not taken from columns, which each program measures with a
    font of its own.
    """
    found = list(views(formulas))
    assert len(found) == 9  # on Overview, Front corner, Picture, Driver and Body
    for chart, across, up in found:
        inside, size = chart.layout.manualLayout, chart.anchor.ext
        assert (size.width * inside.w / across) == pytest.approx(
            size.height * inside.h / up, rel=0.005
        )


def test_the_left_upright_is_drawn_where_it_is(values, formulas):
    """Every drawn point of the left corner is that of VIEW_POINT, here by its own call."""
    front = named(values, "Front")
    pose = drawn_pose(values)
    chart = charts(formulas)["Front view"]
    (series,) = [s for s in chart.series if s.tx.strRef is None and s.tx.v == "left corner"]
    across = drawn(values, series.xVal.numRef.f)
    up = drawn(values, series.yVal.numRef.f)
    sheet = values["Picture points"]
    names = [sheet.cell(row, 1).value for row in range(5, 5 + len(up))]
    assert names.count("lower ball joint") >= 2
    for name, y, z in zip(names, across, up, strict=True):
        if name is None:
            assert y is None
            continue
        for axis, value in (("y", y), ("z", z)):
            expected = call("VIEW_POINT", front, name, axis, *pose, "left")
            assert value == pytest.approx(expected, abs=1e-9), (name, axis)


def test_drawn_rims_are_circles_of_the_loaded_radius_on_the_road(values, formulas):
    """In space: radius from the wheel centre, lowest on the road (a rigid disc)."""
    front = named(values, "Front")
    radius = next(row[1] for row in front if row[0] == "Tyre radius")
    pose = drawn_pose(values)
    plan, face = charts(formulas)["Plan view"], charts(formulas)["Front view"]
    for side in ("left", "right"):
        (above,) = [s for s in plan.series if s.tx.v == side + " wheel"]
        (ahead,) = [s for s in face.series if s.tx.v == side + " wheel"]
        y, x = drawn(values, above.xVal.numRef.f), drawn(values, above.yVal.numRef.f)
        assert drawn(values, ahead.xVal.numRef.f) == y
        z = drawn(values, ahead.yVal.numRef.f)
        points = np.array([x, y, z]).T
        centre = [call("VIEW_POINT", front, "wheel centre", axis, *pose, side) for axis in "xyz"]
        assert np.linalg.norm(points - centre, axis=1) == pytest.approx(radius, abs=1e-8)
        # All in one plane, through the centre.
        assert np.linalg.svd(points - centre)[1][2] < 1e-7
        # 25 points are 15 degrees apart, so one is within 7.5 degrees of the lowest.
        highest_gap = radius * (1 - np.cos(np.radians(7.5)))
        assert -1e-8 < min(z) <= highest_gap + 1e-9


def test_rolled_points_by_scipy(values):
    """A pickup is fixed to the body, which turns about the line on the road mid-car."""
    front = named(values, "Front")
    pickup = next(row[1:4] for row in front if row[0] == "Upper front pickup")
    roll, heave, _ = drawn_pose(values)
    road = np.array([0.0, 0.0, named(values, "RoadHeight")])
    turned = road + Rotation.from_euler("x", roll, degrees=True).apply(pickup - road)
    turned += [0.0, 0.0, heave]
    sheet = values["Picture points"]
    (row,) = [
        r for r in range(1, 30)
        if sheet.cell(r, 1).value == "upper front pickup"
    ]  # fmt: skip
    found = [sheet.cell(row, column).value for column in (2, 3, 4)]
    assert found == pytest.approx(list(turned), abs=1e-9)


def test_two_way_table_holds_its_formula_over_the_range(values, formulas):
    table = named(values, "TwoWay")
    assert len(table) == 12
    assert table[0][0] == "bump steer"
    front = [list(row) for row in named(values, "Front")]
    for row in front:
        if row[0] == "Tie rod inner":
            row[3], row[2] = table[5][0], table[0][4]
    moved = tuple(tuple("" if c is None else c for c in row) for row in front)
    _, heave, rack = drawn_pose(values)
    assert table[5][4] == pytest.approx(call("BUMP_STEER", moved, -heave, rack), rel=1e-9)
    sheet, cells = next(formulas.defined_names["TwoWay"].destinations)
    assert formulas[sheet][cells.replace("$", "").split(":")[0]].value.ref.replace("$", "") == (
        cells.replace("$", "")
    )


def test_blank_variants_are_as_good(values):
    sheet = values["What-if"]
    verdicts = [
        cell.value for row in sheet.iter_rows() for cell in row
        if cell.value in ("better", "worse", "as good")
    ]  # fmt: skip
    assert verdicts == ["as good"] * 36


def test_it_is_shared_with_a_word_on_what_keeps_its_numbers(once, values):
    """That no call is left in a copy, tests/calc/test_shared_copy.py has."""
    shared, messages = once.copy()
    assert any("TWO_WAY" in m and "only while their inputs are as they are" in m for m in messages)
    copy = Package.read(shared)
    was = values["Sensitivity"]["B10"].value
    assert copy.cells("Sensitivity")["B10"].value == pytest.approx(was)
    cells = copy.cells("What-if")
    (row,) = [r for r in range(1, 60) if f"A{r}" in cells and cells[f"A{r}"].value == "Caster"]
    assert "Workings" in cells[f"C{row}"].formula


def test_inches(values, once):
    book = looked_into(once.workbook("car", system="in"), data_only=True)
    assert named(book, "Trail") * 25.4 == pytest.approx(named(values, "Trail"), rel=1e-9)
    turns = [row[0] for row in named(book, "AdjusterTurns")]
    assert turns == pytest.approx([row[0] for row in named(values, "AdjusterTurns")])
