"""Drawing sheets: the PDF's own coordinates read back, against points and scale."""

import re
import zlib

import numpy as np
import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.points.row import MM
from cornerbook.cells.corner import Corner
from cornerbook.cells.example import EXAMPLE

from tests.support.command import run
from tests.support.corners import random_corners

pytest.importorskip("matplotlib")

from cornerbook.book.picture.drawing import draw_sheet
from cornerbook.book.picture.running import _pushed_apart
from cornerbook.book.picture.scene import Picture
from cornerbook.book.picture.sheet import PAPERS, Sheet, figure_of_sheet

POINT = 25.4 / 72.0
"""A point of PDF in mm: the default unit of its pages (ISO 32000-1, 8.3.2.3)."""

CORNERS = random_corners(1771, 2)
SHOWN = {"front": (1, 2), "side": (0, 2), "plan": (1, 0)}
WAYS = {"front": (1, 1), "side": (-1, 1), "plan": (1, -1)}
"""Which way the page has the coordinates: forward is to the left beside, and down in plan."""


def paths_of(content):
    """(the page's size in mm, [(n, 2) array in mm of each path]) of a PDF."""
    box = re.search(rb"/MediaBox\s*\[\s*([\d. ]+)\]", content)
    size = [float(x) * POINT for x in box[1].split()[2:]]
    streams = [
        zlib.decompress(found[1])
        for found in re.finditer(rb"/FlateDecode[^>]*>>\s*stream\r?\n(.*?)\r?\nendstream", content,
                                 re.DOTALL)
    ]  # fmt: skip
    (page,) = (text.decode() for text in streams if b" m\n" in text)
    # Nothing scales what is drawn: matrices shift, or turn words.
    for a, b, c, d in re.findall(r"(\S+) (\S+) (\S+) (\S+) \S+ \S+ cm", page):
        assert float(a) * float(d) - float(b) * float(c) == pytest.approx(1.0)
    paths, now = [], []
    for x, y, what in re.findall(r"^(-?[\d.]+) (-?[\d.]+) ([ml])$", page, re.MULTILINE):
        if what == "m" and now:
            paths.append(np.array(now))
            now = []
        now.append((float(x) * POINT, float(y) * POINT))
    return size, [*paths, np.array(now)]


def drawn(corner, names, view, scale):
    """A line through points of a corner as the paper should have it, from its first point."""
    at = np.array([corner[name] for name in names])[:, SHOWN[view]] * WAYS[view] / scale
    return at - at[0]


def holds(paths, want, part):
    """Whether a path is alike within a part of the size of what is wanted."""
    size = np.abs(want).max()
    return any(
        len(path) == len(want) and np.abs(path - path[0] - want).max() < part * size
        for path in paths
    )


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("i", range(CORNERS.count))
def test_the_paper_is_true_to_the_scale_that_it_names(paper, i):
    picture = Picture(Corner(CORNERS.rows(i)), both=bool(i % 2))
    sheet = Sheet(picture, paper)
    size, paths = paths_of(draw_sheet(picture, paper))
    assert size == pytest.approx(PAPERS[paper], abs=0.01)
    corner = CORNERS.one(i)
    for view in SHOWN:
        for arm in ("lower", "upper"):
            names = [arm + end for end in (" front pickup", " ball joint", " rear pickup")]
            assert holds(paths, drawn(corner, names, view, sheet.scale), 0.0005)
            assert not holds(paths, drawn(corner, names, view, sheet.scale * 1.005), 0.0005)
    words = [text.get_text() for text in figure_of_sheet(sheet).texts]
    assert f"Scale 1 : {sheet.scale:g} on {paper}, printed at 100 %" in words
    bar = next(re.search(r"[\d.]+", text)[0] for text in words if text.startswith("This line"))
    assert holds(paths, np.array([[0.0, 0.0], [float(bar), 0.0]]), 0.0001)
    # All views on the paper.
    for left, low, wide, high in sheet.places()[0].values():
        assert min(left, low) > 0.0
        assert left + wide < PAPERS[paper][0] and low + high < PAPERS[paper][1]


def test_dimensions_run_from_the_datum():
    datum = (100.0, 5.0, 50.0)
    sheet = Sheet(Picture(Corner(EXAMPLE)), "A3", datum=datum)
    figure = figure_of_sheet(sheet)
    rows = {row[0].lower(): row[1:] for row in EXAMPLE}
    said = [text.get_text() for text in figure.texts]
    assert "100, 5, 50 of the workbook" in " ".join(said)
    for axes in figure.axes:
        numbers = {text.get_text() for text in axes.texts}
        for name in ("lower ball joint", "tie rod inner", "rod outer"):
            for axis in SHOWN[axes.get_label()]:
                value = f"{rows[name][axis] - datum[axis]:.1f}".replace("-", "\N{MINUS SIGN}")
                assert value in numbers
                assert value in said
        # From each number a line leads to where that is in the view.
        for line in axes.lines:
            found = re.fullmatch(r"(\w+)-running-(across|up)-(.+)", line.get_gid() or "")
            if found:
                which = 0 if found[2] == "across" else 1
                value = float(found[3].replace("\N{MINUS SIGN}", "-"))
                at = line.get_data()[which][0] - datum[SHOWN[found[1]][which]]
                assert at == pytest.approx(value, abs=0.0501)


def test_numbers_that_would_touch_are_pushed_apart():
    found = _pushed_apart([0.0, 1.0, 1.5, 20.0, 21.0, 40.0], 2.6)
    assert min(np.diff(found)) >= 2.6 - 1e-9
    assert np.mean(found[:3]) == pytest.approx(np.mean([0.0, 1.0, 1.5]))
    assert found[-1] == 40.0


@pytest.mark.parametrize("unit", ["in", "m"])
def test_another_unit_is_the_same_drawing(unit):
    def cell(row, value):
        angle = "tatic" in row[0] or isinstance(value, str)
        return value if angle else value / MM[unit]

    block = tuple((row[0], *(cell(row, value) for value in row[1:])) for row in EXAMPLE)
    sheets = [Sheet(Picture(Corner(EXAMPLE)), "A4"), Sheet(Picture(Corner(block)), "A4", MM[unit])]
    assert sheets[0].scale == sheets[1].scale
    for one, other in zip(*(sheet.places()[0].values() for sheet in sheets), strict=True):
        assert one == pytest.approx(other)


def test_what_fits_on_no_paper_is_said():
    with pytest.raises(Trouble, match="too large"):
        draw_sheet(Picture(Corner(EXAMPLE)), "A4", mm=1000.0)


def test_the_command_makes_a_sheet(once, tmp_path):
    book = str(once.workbook(chapters=("front-corner",)))
    done = run("draw", book, "a.pdf", "--sheet", "A4", "--datum", "0", "0", "-50", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "100 %" in done.stdout
    first = (tmp_path / "a.pdf").read_bytes()
    assert paths_of(first)[0] == pytest.approx(PAPERS["A4"], abs=0.01)
    done = run("draw", book, "b.pdf", "--sheet", "A4", "--rack", "5", cwd=tmp_path)
    assert done.returncode == 1 and "as drawn" in done.stderr
