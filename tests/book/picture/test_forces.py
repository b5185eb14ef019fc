"""A load case in a picture: where each member is, in which colour and how thick."""

import numpy as np
import pytest
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.load_cases import Case
from cornerbook.book.picture.drawing import figure_of
from cornerbook.book.picture.forces import LEAST, MOST, Forces
from cornerbook.book.picture.looks import PULL, PUSH
from cornerbook.book.picture.scene import Picture
from cornerbook.book.picture.view import VIEWS
from cornerbook.cells.corner import Corner
from cornerbook.cells.example import EXAMPLE

from tests.catalogue.independent_loads import bodies
from tests.support.command import run

SHOWN = {"front": (1, 2), "side": (0, 2), "plan": (1, 0)}
LOAD = (-900.0, -300.0, 1100.0, 25.0, 10.0, "brake")
ENDS = {
    "tie-rod": ("tie rod", "tie rod inner", "tie rod outer"),
    "rod": ("rod", "rod outer", "rod inner"),
    "spring": ("spring", "spring rocker", "spring frame"),
    **{
        f"{arm}-{end}": (f"{arm} {end}", f"{arm} {end} pickup", f"{arm} ball joint")
        for arm in ("lower", "upper") for end in ("front", "rear")
    },
}  # fmt: skip


def loaded(rows=EXAMPLE, load=LOAD):
    corner = Corner(rows)
    picture = Picture(corner, load[3], load[4])
    picture.forces = Forces(corner, Case("Hard braking", load))
    return picture


@pytest.mark.parametrize("view", VIEWS)
def test_members_are_where_and_as_thick_as_free_bodies_have_them(view):
    theirs = bodies(EXAMPLE, *LOAD[3:5])
    forces = theirs.solve(theirs.load(LOAD[5], *LOAD[:3]))
    most = max(abs(forces[name]) for name, *_ in ENDS.values())
    (axes,) = figure_of(loaded(), view).axes
    lines = {line.get_gid(): line for line in axes.lines if line.get_gid()}
    seen = set()
    for part, (name, *ends) in ENDS.items():
        line = lines[f"{view}-left-force-{part}"]
        flat = np.column_stack(line.get_data()).astype(float)
        assert flat == pytest.approx(np.array([theirs.at[e][[*SHOWN[view]]] for e in ends]))
        assert line.get_color() == (PULL if forces[name] > 0.0 else PUSH)
        seen.add(line.get_color())
        wide = LEAST + (MOST - LEAST) * abs(forces[name]) / most
        assert line.get_linewidth() == pytest.approx(wide)
    assert seen == {PULL, PUSH}


def test_each_force_is_written_beside_its_member():
    theirs = bodies(EXAMPLE, *LOAD[3:5])
    forces = theirs.solve(theirs.load(LOAD[5], *LOAD[:3]))
    (axes,) = figure_of(loaded(), "front").axes
    words = [text.get_text() for text in axes.texts]
    for name, *_ in ENDS.values():
        said = "%.0f %s" % (abs(forces[name]), "pull" if forces[name] > 0.0 else "push")
        assert said in words


def test_the_caption_says_the_case_and_what_it_is_not():
    for view in (*VIEWS, "all"):
        words = " ".join(text.get_text() for text in figure_of(loaded(), view).texts)
        assert "Front: case Hard braking, at travel 25, rack 10" in words
        assert "Forces under stated assumptions: no check of strength." in words
        assert "Geometry only" not in words


def test_without_a_load_nothing_is_thick_and_without_a_rocker_there_is_none():
    nothing = loaded(load=(0.0, 0.0, 0.0, 0.0, 0.0, "brake"))
    rocker = ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker")
    direct = loaded(tuple(row for row in EXAMPLE if row[0] not in rocker))
    for picture, parts in ((nothing, {*ENDS}), (direct, {*ENDS} - {"rod"})):
        (axes,) = figure_of(picture, "front").axes
        lines = {line.get_gid(): line for line in axes.lines if line.get_gid()}
        shown = {gid.partition("-force-")[2] for gid in lines if "-force-" in gid}
        assert shown == parts
        assert ("front-left-rocker" in lines) == ("rod" in parts)
        if picture is nothing:
            assert {lines[f"front-left-force-{p}"].get_linewidth() for p in parts} == {LEAST}


def test_what_gives_no_forces_is_said():
    corner = Corner(EXAMPLE)
    with pytest.raises(Trouble, match="Far: no solution was found"):
        Forces(corner, Case("Far", (0.0, 0.0, 1.0, 900.0, 0.0, "brake")))
    with pytest.raises(Trouble, match=r"Bare: the row .*rod outer.* is missing"):
        Forces(Corner(EXAMPLE[:12]), Case("Bare", LOAD))


def test_the_command(once, tmp_path):
    book = str(once.workbook(chapters=("loads",)))
    done = run("draw", book, "a.svg", "--case", "kerb from the side", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert b"case Kerb from the side" in (tmp_path / "a.svg").read_bytes()
    for arguments, words in (
        (["--case", "Kerb"], "there is no case"),
        (["--case", "Bump", "--axle"], "leave out --axle"),
        (["--case", "Bump", "--travel", "3"], "leave out --axle, --travel"),
    ):
        done = run("draw", book, "b.svg", *arguments, cwd=tmp_path)
        assert done.returncode == 1 and words in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["a.svg"]
