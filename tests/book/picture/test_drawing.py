"""Pictures: what is drawn read back from matplotlib and from SVG, and held to outside values."""

import re
import subprocess
import sys
import xml.etree.ElementTree as Tree

import numpy as np
import openpyxl
import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.plain.share import share
from cornerbook.catalogue import call
from cornerbook.cells.corner import Corner
from cornerbook.cells.example import EXAMPLE
from openpyxl.workbook.defined_name import DefinedName

from tests.catalogue.independent import measured, moving
from tests.catalogue.independent_outline import FRAME, rim_by_rotation, seen
from tests.catalogue.independent_turn import on_road
from tests.support.command import run
from tests.support.corners import random_corners

pytest.importorskip("matplotlib")

from cornerbook.book.picture.drawing import VIEWS, draw, figure_of
from cornerbook.book.picture.scene import Picture, read_corner
from matplotlib.text import Annotation, Text

SHOWN = {"front": (1, 2), "side": (0, 2), "plan": (1, 0)}
NAMES = (
    "lower ball joint", "upper ball joint", "tie rod outer", "wheel centre", "contact centre",
    "axis at ground",
)  # fmt: skip


def drawn(picture, view="all"):
    """{gid: (n, 2) array} of every line of a picture."""
    return {
        line.get_gid(): np.column_stack(line.get_data()).astype(float)
        for axes in figure_of(picture, view).axes
        for line in axes.lines
        if line.get_gid()
    }


def at_pose(travel, rack, side):
    """{name: (3,)} of the example's points, closed by SciPy."""
    place = measured(EXAMPLE, travel, rack, right=side == "right")
    found = {name: place.at(name) for name in NAMES[:4]}
    found["contact centre"], found["axis at ground"] = place.contact_centre, place.axis_at_ground
    for name in FRAME:
        found[name] = place.corner[name] + [0, rack if name == "tie rod inner" else 0, 0]
    return place, found


def on_the_road(roll, rack, side):
    place = on_road(EXAMPLE, side, roll, 0.0, rack)
    return place.measured, {name: seen(place, name) for name in (*NAMES, *FRAME)}


@pytest.mark.parametrize(
    ("travel", "rack", "roll"), [(0.0, 0.0, 0.0), (25.0, -18.0, 0.0), (0.0, 15.0, 3.0)]
)
def test_everything_drawn_is_where_scipy_has_it(travel, rack, roll):
    lines = drawn(Picture(Corner(EXAMPLE), travel, rack, roll, both=True))
    compared = 0
    for view, pair in SHOWN.items():
        for side in ("left", "right") if view != "side" else ("left",):
            if roll:
                place, at = on_the_road(roll, rack, side)
            else:
                place, at = at_pose(travel, rack, side)

            def line(part, view=view, side=side):
                return lines["%s-%s-%s" % (view, side, part)]

            def flat(*names, at=at, pair=pair):
                return pytest.approx(np.array([at[name][list(pair)] for name in names]), abs=1e-7)

            for name in (*NAMES, *FRAME):
                assert line(name.replace(" ", "-")) == flat(name)
            for arm in ("lower", "upper"):
                ends = [arm + " front pickup", arm + " ball joint", arm + " rear pickup"]
                assert line(arm + "-arm") == flat(*ends)
            assert line("tie-rod") == flat("tie rod inner", "tie rod outer")
            assert line("steering-axis")[0] == pytest.approx(at["axis at ground"][list(pair)])
            rim = np.array([rim_by_rotation(place, 3.0 * i) for i in range(121)])
            assert line("rim") == pytest.approx(rim[:, list(pair)], abs=1e-7)
            compared += 1
        if view != "side":
            both = [lines["%s-%s-tie-rod-inner" % (view, s)][0] for s in ("left", "right")]
            assert lines[view + "-rack"] == pytest.approx(np.array(both))
    assert compared == 5


def test_trail_and_scrub_are_drawn_to_length_and_named():
    """In plan they are seen at full length, whatever the steer."""
    picture = Picture(Corner(EXAMPLE), 10.0, 20.0, both=True)
    lines = drawn(picture, "plan")
    words = [text.get_text() for text in figure_of(picture, "plan").axes[0].texts]
    for side in ("left", "right"):
        place = measured(EXAMPLE, 10.0, 20.0, right=side == "right")
        sign = 1.0 if side == "left" else -1.0
        for part, value in (("trail", place.trail), ("scrub", sign * place.scrub)):
            a, b = lines["plan-%s-%s" % (side, part)]
            assert np.linalg.norm(b - a) == pytest.approx(abs(value), abs=1e-7)
            assert "%s %.1f" % (part, value) in words
    # As drawn, the dimension lines of the other views too.
    lines = drawn(Picture(Corner(EXAMPLE)))
    place = measured(EXAMPLE, 0.0, 0.0)
    (a, v), (b, w) = lines["side-left-trail"]
    assert (abs(a - b), v) == (pytest.approx(place.trail, rel=1e-3), w)
    (a, v), (b, w) = lines["front-left-scrub"]
    assert (abs(a - b), v) == (pytest.approx(place.scrub, rel=1e-3), w)
    assert v < place.contact_centre[2]


def test_ground_and_lines_to_instant_centres():
    lines = drawn(Picture(Corner(EXAMPLE), 25.0, 0.0, both=True))
    contact = measured(EXAMPLE, 25.0, 0.0).contact_centre
    for view in ("front", "side"):
        assert lines[view + "-ground"][:, 1] == pytest.approx(contact[2], abs=1e-9)
    for view, pair in (("front", [1, 2]), ("side", [0, 2])):
        centre = moving(EXAMPLE, 25.0, 0.0).instant_centre(tuple(pair))
        want = [contact[pair], centre[pair]]
        assert lines[view + "-left-to-instant-centre"] == pytest.approx(np.array(want), rel=1e-7)
    # Both wheels alike: the lines cross in the car's middle plane.
    (y, z), *_ = lines["front-roll-centre"]
    first, far = lines["front-left-to-instant-centre"]
    assert y == pytest.approx(0.0, abs=1e-9)
    assert z == pytest.approx(first[1] + (far[1] - first[1]) * first[0] / (first[0] - far[0]))


def test_roll_centre_in_roll_is_scipys():
    from tests.authorities.road_by_scipy import roll_centre

    lines = drawn(Picture(Corner(EXAMPLE), roll=2.0, rack=10.0, both=True), "front")
    left, right = (on_road(EXAMPLE, side, 2.0, 0.0, 10.0) for side in ("left", "right"))
    lateral, height = roll_centre(left, right)
    assert lines["front-roll-centre"][0] == pytest.approx((lateral, left.ground + height), abs=1e-6)
    assert lines["front-ground"][:, 1] == pytest.approx(left.ground, abs=1e-9)


def test_a_steered_corner_alone_has_no_roll_centre():
    assert "front-roll-centre" in drawn(Picture(Corner(EXAMPLE)))
    assert "front-roll-centre" not in drawn(Picture(Corner(EXAMPLE), rack=10.0))


def test_views_are_to_one_scale_and_lined_up():
    for both in (False, True):
        figure = figure_of(Picture(Corner(EXAMPLE), both=both))
        wide, high = figure.get_size_inches()
        scales, at = [], {}
        for axes in figure.axes:
            box = at[axes.get_label()] = axes.get_position()
            (a, b), (c, d) = axes.get_xlim(), axes.get_ylim()
            scales += [box.width * wide / abs(b - a), box.height * high / abs(d - c)]
        assert scales == pytest.approx([scales[0]] * 6)
        assert (at["plan"].x0, at["plan"].x1) == (at["front"].x0, at["front"].x1)
        assert (at["side"].y0, at["side"].y1) == (at["front"].y0, at["front"].y1)
        front, side, plan = figure.axes
        assert front.get_xlim() == plan.get_xlim()
        assert front.get_ylim() == side.get_ylim()
        # Seen from ahead, the car's left is on the right; from its left, forward is left.
        assert front.get_xlim()[0] < front.get_xlim()[1]
        assert side.get_xlim()[0] > side.get_xlim()[1]
        assert plan.get_ylim()[0] > plan.get_ylim()[1]


@pytest.mark.parametrize("view", [*VIEWS, "all"])
def test_labels_keep_clear_of_each_other_and_of_the_edge(view):
    """On cars drawn at random: no two labels overlap, none leaves its axes."""
    corners = random_corners(1401, 8)
    covered, labels = 0, 0
    for i in range(8):
        figure = figure_of(Picture(Corner(corners.rows(i)), both=bool(i % 2)), view)
        renderer = figure.canvas.get_renderer()
        for axes in figure.axes:
            texts = [text for text in axes.texts if text.get_text()]
            for text in texts:
                if isinstance(text, Annotation):
                    text.update_positions(renderer)  # as drawing all of the figure does
            # Without the lines that lead from them.
            boxes = [Text.get_window_extent(text, renderer) for text in texts]
            frame = axes.get_window_extent(renderer)
            labels += len(boxes)
            for k, box in enumerate(boxes):
                assert frame.x0 - 1 < box.x0
                assert box.x1 < frame.x1 + 1
                covered += any(box.overlaps(other) for other in boxes[:k])
    assert labels > 60
    assert covered == 0


def test_the_caption_says_the_pose_and_what_it_is_not():
    for view in (*VIEWS, "all"):
        figure = figure_of(Picture(Corner(EXAMPLE), 25.0, -18.0, name="Front"), view)
        words = " ".join(text.get_text() for text in figure.texts)
        assert "Front: left-hand corner at travel 25, rack \u221218" in words
        assert "Geometry only" in words
        assert "%.2f°" % measured(EXAMPLE, 25.0, -18.0).caster in words


def test_decimals_suit_the_unit():
    metres = tuple(
        tuple(cell / 1000.0 if isinstance(cell, float) and "tatic" not in row[0] else cell
              for cell in row)
        for row in EXAMPLE
    )  # fmt: skip
    trail = measured(EXAMPLE, 0.0, 0.0).trail
    for block, want in ((EXAMPLE, "trail %.1f" % trail), (metres, "trail %.4f" % (trail / 1000))):
        texts = figure_of(Picture(Corner(block)), "side").axes[0].texts
        assert want in [text.get_text() for text in texts]


def test_svg_has_the_lines_and_is_the_same_each_time():
    picture = Picture(Corner(EXAMPLE), both=True)
    first = draw(picture, "front", "svg")
    assert draw(picture, "front", "svg") == first
    assert b"<dc:date>" not in first
    root = Tree.fromstring(first)
    space = "{http://www.w3.org/2000/svg}"
    words = {"".join(text.itertext()) for text in root.iter(space + "text")}
    assert {"lower ball joint", "rack", "roll centre"} <= words
    # The rack's line, read back from the page's points by the axes' own scale.
    axes = figure_of(picture, "front").axes[0]
    box = axes.get_position()
    wide = 72.0 * axes.figure.get_size_inches()[0]
    left, right = axes.get_xlim()
    (path,) = root.find(".//*[@id='front-rack']").iter(space + "path")
    xs = [float(x) for x, _ in re.findall(r"([-\d.]+) ([-\d.]+)", path.get("d"))]
    inner = [(x / wide - box.x0) / box.width * (right - left) + left for x in xs]
    assert sorted(inner) == pytest.approx([-215.0, 215.0], abs=1e-3)


def test_png_is_the_same_each_time():
    picture = Picture(Corner(EXAMPLE))
    first = draw(picture, "side", "png")
    assert first.startswith(b"\x89PNG")
    assert draw(picture, "side", "png") == first


def test_random_cars_can_be_drawn():
    corners = random_corners(1402, 12)
    for i in range(12):
        lines = drawn(Picture(Corner(corners.rows(i)), both=True))
        assert all(np.isfinite(at).all() for at in lines.values())


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"travel": 900.0}, "travel 900 cannot be reached"),
        ({"rack": 300.0}, "past lock"),
        ({"rack": -300.0, "both": True}, "past lock"),
        ({"roll": 4.0, "travel": 3.0}, "give roll or travel, not both"),
        ({"roll": 45.0}, "less than 45"),
        ({"roll": 40.0, "both": True}, "the left wheel"),
        ({"travel": float("nan")}, "travel: nan given"),
    ],
)
def test_a_pose_that_cannot_be_is_said(changes, words):
    with pytest.raises(Trouble, match=words):
        Picture(Corner(EXAMPLE), **changes)


def test_a_missing_row_is_said():
    with pytest.raises(Trouble, match='Front: the row "tie rod inner" is missing'):
        Picture(Corner(tuple(row for row in EXAMPLE if row[0] != "Tie rod inner")))


@pytest.fixture(scope="module")
def book(once):
    return once.workbook(chapters=("front-corner",))


def test_the_block_is_read_with_its_formulas(book, tmp_path):
    """A cell of the block that is a formula without a stored value is worked out."""
    other = openpyxl.load_workbook(book)
    sheet = other["Front corner"]
    row = next(r for r in range(1, 40) if sheet.cell(r, 1).value == "Tyre radius")
    radius = sheet.cell(row, 2).value
    sheet.cell(row, 2).value = "=%r+3*2" % radius
    other.save(tmp_path / "edited.xlsx")
    assert read_corner(book, "front").drawn.radius == radius
    assert read_corner(tmp_path / "edited.xlsx").drawn.radius == radius + 6.0
    with pytest.raises(Trouble, match=r"no block named Rear; its blocks are: .*Front"):
        read_corner(book, "Rear")


def test_the_command(book, tmp_path):
    before = book.read_bytes()
    for arguments in (["a.png"], ["b.svg", "--axle", "--roll", "-2", "--view", "front"]):
        done = run("draw", str(book), *arguments, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        assert done.stdout.strip() == arguments[0] + " is drawn."
    assert (tmp_path / "a.png").read_bytes().startswith(b"\x89PNG")
    assert b"<svg" in (tmp_path / "b.svg").read_bytes()
    assert book.read_bytes() == before
    again = run("draw", str(book), "a.png", cwd=tmp_path)
    assert again.returncode == 1
    assert "exists and was left" in again.stderr
    assert run("draw", str(book), "a.png", "--force", "--travel", "9", cwd=tmp_path).returncode == 0


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["c.jpg"], ".png, .svg or .pdf was expected"),
        (["no/c.png"], "no such folder"),
        (["c.png", "--block", "Rear"], "no block named Rear"),
        (["c.png", "--travel", "900"], "cannot be reached"),
        (["c.png", "--roll", "3", "--travel", "2"], "not both"),
    ],
)
def test_mistakes_are_one_sentence(book, tmp_path, arguments, words):
    done = run("draw", str(book), *arguments, cwd=tmp_path)
    assert done.returncode == 1
    assert words in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_no_workbook(tmp_path):
    (tmp_path / "notes.xlsx").write_text("no workbook")
    done = run("draw", "notes.xlsx", "c.png", cwd=tmp_path)
    assert done.returncode == 1
    assert "notes.xlsx" in done.stderr
    assert run("draw", "notes.xlsx", "c.png", "--view", "rear", cwd=tmp_path).returncode == 2


def test_matplotlib_is_loaded_only_to_draw():
    code = (
        "import sys, cornerbook.cli, cornerbook.book.picture.drawing as d; "
        "assert 'matplotlib' not in sys.modules; sys.modules['matplotlib'] = None\n"
        "try: d._matplotlib()\n"
        "except d.Trouble as t: print(t)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True,
        env={"PYTHONPATH": ":".join(sys.path)},
    )  # fmt: skip
    assert "pip install matplotlib" in done.stdout, done.stderr


def test_points_in_the_copy_without_an_add_in(tmp_path):
    """Rim and road points in plain formulas, their arguments in cells."""
    book = openpyxl.Workbook()
    sheet = book.active
    block = book.create_sheet("Points")
    for row in EXAMPLE:
        block.append([None if cell == "" else cell for cell in row])
    book.defined_names["Front"] = DefinedName("Front", attr_text="Points!$A$1:$D$%d" % len(EXAMPLE))
    sheet["A1"], sheet["A2"], sheet["A3"], sheet["A4"] = 25.0, 10.0, 2.0, 40.0
    want = {}

    def put(formula, value):
        address = "B%d" % (len(want) + 1)
        sheet[address] = formula
        want[address] = value

    for side in ("left", "right"):
        for coordinate in "xyz":
            put('=CORNER.RIM_POINT(Front,A4,"%s",A1,A2,"%s")' % (coordinate, side),
                call("RIM_POINT", EXAMPLE, 40.0, coordinate, 25.0, 10.0, side))  # fmt: skip
            for name in ("contact centre", "upper rear pickup", "instant centre"):
                formula = '=CORNER.VIEW_POINT(Front,"%s","%s",A3,,A2,"%s")'
                value = call("VIEW_POINT", EXAMPLE, name, coordinate, 2.0, 0.0, 10.0, side)
                put(formula % (name, coordinate, side), value)
    put('=CORNER.RIM_POINT(Front,0,"x")', call("RIM_POINT", EXAMPLE, 0.0, "x"))
    put('=CORNER.RIM_POINT(Front,0,"y",,,"right")',
        call("RIM_POINT", EXAMPLE, 0.0, "y", 0.0, 0.0, "right"))  # fmt: skip
    put('=CORNER.VIEW_POINT(Front,"axis at ground","y",,,,"right")',
        call("VIEW_POINT", EXAMPLE, "axis at ground", "y", 0.0, 0.0, 0.0, "right"))  # fmt: skip
    path = tmp_path / "car.xlsx"
    book.save(path)
    (tmp_path / "copy.xlsx").write_bytes(share(path)[0])
    cells = Package.read(tmp_path / "copy.xlsx").cells("Sheet")
    for address, value in want.items():
        assert "CORNER" not in cells[address].formula
        assert cells[address].value == pytest.approx(value, rel=1e-9), address
