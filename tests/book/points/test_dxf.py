"""Drawings out of a workbook and back, held to ezdxf's own auditor, NumPy and SciPy."""

import io

import ezdxf
import numpy as np
import pytest
from cornerbook import cli
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.points.dxf.marks import APPLICATION, RIGHT
from cornerbook.book.points.dxf.read import rows_of_dxf
from cornerbook.book.points.dxf.write import dxf_of
from cornerbook.book.points.exchange import export, take_in
from cornerbook.book.points.row import Row
from cornerbook.cells.example import EXAMPLE
from scipy.spatial.transform import Rotation

from tests.support.corners import POINTS, VALUES, random_corners
from tests.support.looking import looked_into

CORNERS = random_corners(2, 12)
ANGLES = ("static camber", "static toe")


@pytest.fixture
def lapwing(tmp_path_factory, once):
    """A copy of the demonstration car's workbook, of the sheets that have points."""
    path = tmp_path_factory.mktemp("made") / "car.xlsx"
    path.write_bytes(once.workbook(chapters=("measures",)).read_bytes())
    return path


def given(rows, unit="mm"):
    """`Row`s of a block of cells."""
    return [
        Row(name, tuple(c for c in cells if c != ""), "deg" if name.lower() in ANGLES else
            "" if isinstance(cells[0], str) else unit)
        for name, *cells in rows
    ]  # fmt: skip


def drawn(tmp_path, rows, unit="mm", axle=False):
    path = tmp_path / "out.dxf"
    content, messages = dxf_of(given(rows, unit), unit, axle)
    path.write_bytes(content)
    return path, messages


def edited(path, change):
    """The drawing after `change` was done to its modelspace, saved as a program would."""
    doc = ezdxf.readfile(path)
    change(doc.modelspace())
    doc.saveas(path)
    return path


def of(doc, kind, layer):
    return [e for e in doc.modelspace().query(kind) if e.dxf.layer == layer]


def refused(path):
    with pytest.raises(Trouble) as problem:
        rows_of_dxf(path)
    assert path.name in str(problem.value)
    return str(problem.value)


def spindle(camber, toe):
    """Outboard direction of the wheel's axle: a level one, leaned, then turned.

    Positive camber leans the top outboard: about the forward axis by minus the angle the
    axle's outboard end goes down. Positive toe turns the leading edge inward: clockwise
    from above for a wheel on the left.
    """
    lean = Rotation.from_rotvec([-np.radians(camber), 0, 0])
    turn = Rotation.from_rotvec([0, 0, -np.radians(toe)])
    return (turn * lean).apply([0.0, 1.0, 0.0])


# ---------------------------------------------------------------- out


@pytest.mark.parametrize("axle", [False, True])
@pytest.mark.parametrize("rows", [EXAMPLE, CORNERS.rows(0), EXAMPLE[:1], EXAMPLE[19:]])
def test_the_auditor_has_no_complaint(tmp_path, rows, axle):
    path, messages = drawn(tmp_path, rows, axle=axle)
    doc = ezdxf.readfile(path)
    auditor = doc.audit()
    assert (auditor.errors, auditor.fixes, messages) == ([], [], [])
    assert doc.dxfversion == "AC1024"  # R2010
    assert doc.modelspace().query("POINT").first is not None


@pytest.mark.parametrize(
    ("unit", "number", "metric"),
    [("mm", 4, 1), ("in", 1, 0), ("cm", 5, 1), ("m", 6, 1), ("", 0, 1)],
)
def test_units_of_the_drawing(tmp_path, unit, number, metric):
    """Numbers as the DXF reference has them for $INSUNITS; quoted from memory, and from
    ezdxf.units below."""
    path, _ = drawn(tmp_path, EXAMPLE, unit)
    doc = ezdxf.readfile(path)
    assert doc.header["$INSUNITS"] == number == doc.units
    assert doc.header["$MEASUREMENT"] == metric
    names = {"mm": ezdxf.units.MM, "in": ezdxf.units.IN, "cm": ezdxf.units.CM, "m": ezdxf.units.M}
    assert number == names.get(unit, 0)


@pytest.mark.parametrize("i", range(CORNERS.count))
def test_points_and_lines_stand_where_the_geometry_does(tmp_path, i):
    path, _ = drawn(tmp_path, CORNERS.rows(i), axle=True)
    doc, one = ezdxf.readfile(path), CORNERS.one(i)
    mirror = np.array([1.0, -1.0, 1.0])
    for suffix, side in (("", np.ones(3)), (RIGHT, mirror)):
        places = [tuple(e.dxf.location) for e in of(doc, "POINT", "POINTS" + suffix)]
        assert sorted(places) == sorted(tuple(one[name] * side) for name in POINTS)
        legs = {
            frozenset((tuple(one["%s %s pickup" % (arm, end)] * side),
                       tuple(one[arm + " ball joint"] * side)))
            for arm in ("lower", "upper") for end in ("front", "rear")
        }  # fmt: skip
        lines = of(doc, "LINE", "ARMS" + suffix)
        assert {frozenset((tuple(e.dxf.start), tuple(e.dxf.end))) for e in lines} == legs
        (rod,) = of(doc, "LINE", "TIE ROD" + suffix)
        assert tuple(rod.dxf.start) == tuple(one["tie rod inner"] * side)
        assert tuple(rod.dxf.end) == tuple(one["tie rod outer"] * side)


@pytest.mark.parametrize("i", range(CORNERS.count))
def test_the_wheel_lies_in_its_plane_and_stands_on_the_ground(tmp_path, i):
    path, _ = drawn(tmp_path, CORNERS.rows(i), axle=True)
    doc, one = ezdxf.readfile(path), CORNERS.one(i)
    for suffix, side in (("", np.ones(3)), (RIGHT, np.array([1.0, -1.0, 1.0]))):
        axle = spindle(one["static camber"], one["static toe"]) * side
        centre, radius = one["wheel centre"] * side, one["tyre radius"]
        (circle,) = of(doc, "CIRCLE", "WHEEL" + suffix)
        rim = np.array([tuple(v) for v in circle.vertices(np.arange(0.0, 360.0, 5.0))])
        assert np.abs((rim - centre) @ axle).max() < 1e-9 * radius
        assert np.linalg.norm(rim - centre, axis=1) == pytest.approx(radius, rel=1e-12)
        # Down, less its part along the axle: to the lowest point of the disc.
        down = np.array([0.0, 0.0, -1.0])
        down -= (down @ axle) * axle
        contact = centre + radius * down / np.linalg.norm(down)
        assert rim[:, 2].min() >= contact[2] - 1e-9
        (ground,) = of(doc, "POLYLINE", "GROUND" + suffix)
        corners = np.array([tuple(v.dxf.location) for v in ground.vertices])
        assert corners[:, 2] == pytest.approx(contact[2], rel=1e-12, abs=1e-9)
        assert corners.mean(axis=0) == pytest.approx(contact, rel=1e-12, abs=1e-9)
        # The steering axis ends where the line of the two ball joints meets the ground.
        lower, upper = one["lower ball joint"] * side, one["upper ball joint"] * side
        end = np.array(tuple(of(doc, "LINE", "AXIS" + suffix)[-1].dxf.end))
        assert end[2] == pytest.approx(contact[2], abs=1e-9)
        assert np.linalg.norm(np.cross(end - lower, upper - lower)) < 1e-8 * radius**2


def test_labels_stand_beside_their_points(tmp_path):
    path, _ = drawn(tmp_path, EXAMPLE)
    doc = ezdxf.readfile(path)
    labels = {e.dxf.text: np.array(tuple(e.dxf.insert)) for e in of(doc, "TEXT", "LABELS")}
    for name, *cells in EXAMPLE:
        if cells[1] != "":
            away = np.linalg.norm(labels.pop(name) - np.array(cells))
            assert 0.0 < away < 0.05 * 260.0
    assert sorted(labels) == [
        "Rod mount = lower arm", "Static camber = -1.0 deg", "Static toe = 0.25 deg",
        "Tyre radius = 260.0 mm",
    ]  # fmt: skip


def test_spring_with_and_without_a_rocker(tmp_path):
    cells = {name: tuple(rest) for name, *rest in EXAMPLE}
    path, _ = drawn(tmp_path, EXAMPLE)
    lines = of(ezdxf.readfile(path), "LINE", "SPRING")
    assert (cells["Spring rocker"], cells["Spring frame"]) in {
        (tuple(e.dxf.start), tuple(e.dxf.end)) for e in lines
    }
    assert len(lines) == 5
    rocker = ("Rod inner", "Rocker pivot", "Rocker axis", "Spring rocker")
    without = [row for row in EXAMPLE if row[0] not in rocker]
    path, _ = drawn(tmp_path, without)
    (line,) = of(ezdxf.readfile(path), "LINE", "SPRING")
    assert (tuple(line.dxf.start), tuple(line.dxf.end)) == (
        cells["Rod outer"], cells["Spring frame"],
    )  # fmt: skip


def test_what_cannot_be_drawn_is_said(tmp_path):
    rows = [list(row) for row in EXAMPLE[:12]]
    rows[1][1] = -260.0
    rows[8][2] = "?"
    path, messages = drawn(tmp_path, rows)
    assert "Upper front pickup is not drawn: x, y and z are not all numbers." in messages
    assert any(m.startswith("WHEEL: not drawn, because tyre radius: -260 given") for m in messages)
    assert any(m.startswith("ARMS: not drawn, because Upper front pickup: y") for m in messages)
    assert of(ezdxf.readfile(path), "CIRCLE", "WHEEL") == []
    with pytest.raises(Trouble, match="no row with three numbers"):
        dxf_of(given(EXAMPLE[1:4]), "mm")


# ---------------------------------------------------------------- back


def drop_data(space):
    for entity in space:
        if entity.has_xdata(APPLICATION):
            entity.discard_xdata(APPLICATION)


@pytest.mark.parametrize("dropped", [False, True])
@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("i", range(CORNERS.count))
def test_round_trip_is_exact(tmp_path, i, unit, dropped):
    rows = CORNERS.rows(i)
    path, _ = drawn(tmp_path, rows, unit, axle=True)
    if dropped:
        edited(path, drop_data)
    found, messages = rows_of_dxf(path)
    assert messages == []
    assert len(found) == len(rows)
    found = {row.name.lower(): row for row in found}
    one = CORNERS.one(i)
    for name in POINTS:
        assert found[name].values == tuple(one[name])
        assert found[name].unit == unit
    for name in VALUES:
        assert found[name].values == (one[name],)
        assert found[name].unit == ("deg" if name in ANGLES else unit)


def test_round_trip_of_a_workbook_with_all_its_rows(tmp_path, lapwing):
    out = tmp_path / "out.dxf"
    content, messages = export(lapwing, out, axle=True)
    out.write_bytes(content)
    assert messages == []
    content, messages = take_in(lapwing, out)
    assert messages == []
    one, other = (
        [[c.value for c in row] for row in looked_into(f)["Front corner"]["A6:D24"]]
        for f in (lapwing, io.BytesIO(content))
    )
    assert one == other


def test_a_point_moved_in_the_drawing_moves_in_the_workbook(tmp_path, lapwing):
    out = tmp_path / "out.dxf"
    out.write_bytes(export(lapwing, out)[0])

    def move(space):
        for entity in space.query("POINT"):
            if entity.get_xdata(APPLICATION)[0].value == "Upper ball joint":
                entity.dxf.location = (-30.0, 480.0, 381.0)

    content, _ = take_in(lapwing, edited(out, move))
    sheet = looked_into(io.BytesIO(content), data_only=True)
    rows = {row[0].value: [c.value for c in row[1:]] for row in sheet["Front corner"]["A6:D24"]}
    assert rows["Upper ball joint"] == [-30, 480, 381]
    (where, cell), *_ = sheet.defined_names["Caster"].destinations
    lower = rows["Lower ball joint"]
    caster = np.degrees(np.arctan2(lower[0] + 30.0, 381.0 - lower[2]))
    assert sheet[where][cell.replace("$", "")].value == pytest.approx(caster, rel=1e-12)


def test_a_drawing_in_inches_into_a_workbook_in_mm(tmp_path, lapwing):
    out = tmp_path / "out.dxf"
    rows = [("Wheel centre", 0.0, 22.0, 10.0), ("Tyre radius", 10.25)]
    out.write_bytes(dxf_of(given(rows, "in"), "in")[0])
    content, _ = take_in(lapwing, out)
    sheet = looked_into(io.BytesIO(content))["Front corner"]
    assert [c.value for c in sheet["A6:D6"][0]][1:] == pytest.approx([0, 558.8, 254.0])
    assert sheet["B7"].value == pytest.approx(260.35)


def test_a_value_edited_in_the_drawing_counts(tmp_path):
    def edit(space):
        for entity in space.query("TEXT"):
            if entity.dxf.text.startswith("Static camber"):
                entity.dxf.text = "Static camber = -2.5 deg"

    path, _ = drawn(tmp_path, EXAMPLE)
    found = {row.name: row for row in rows_of_dxf(edited(path, edit))[0]}
    assert found["Static camber"].values == (-2.5,)


def test_a_value_without_its_text_is_in_the_data(tmp_path):
    def spoil(space):
        for entity in space.query("TEXT"):
            if entity.dxf.text.startswith(("Static camber", "Rod mount")):
                entity.dxf.text = "?"

    path, _ = drawn(tmp_path, EXAMPLE)
    found = {row.name: row for row in rows_of_dxf(edited(path, spoil))[0]}
    assert (found["Static camber"].values, found["Static camber"].unit) == ((-1.0,), "deg")
    assert found["Rod mount"].values == ("lower arm",)


def test_labels_as_paragraph_text(tmp_path):
    """Some programs save text as MTEXT."""

    def replace(space):
        drop_data(space)
        for entity in list(space.query("TEXT")):
            size, place = entity.dxf.height, entity.dxf.insert
            placed = {"layer": "LABELS", "insert": place, "char_height": size}
            space.add_mtext(entity.dxf.text, dxfattribs=placed)
            space.delete_entity(entity)

    path, _ = drawn(tmp_path, EXAMPLE)
    found = {row.name: row.values for row in rows_of_dxf(edited(path, replace))[0]}
    assert found == {row.name: row.values for row in given(EXAMPLE)}


def test_points_of_ones_own_are_left_out(tmp_path):
    path, _ = drawn(tmp_path, EXAMPLE)
    edited(path, lambda space: [
        space.add_point((1, 2, 3), dxfattribs={"layer": "POINTS"}),
        space.add_point((1, 2, 3), dxfattribs={"layer": "FRAME"})])  # fmt: skip
    rows, messages = rows_of_dxf(path)
    assert messages == ["Points on the layer POINTS without a name, left out: 1."]
    assert len(rows) == len(EXAMPLE)


# ---------------------------------------------------------------- refused


def test_a_point_copied(tmp_path):
    path, _ = drawn(tmp_path, EXAMPLE)

    def copy(space):
        for entity in list(space.query("POINT"))[:1]:
            other = space.add_point((9, 9, 9), dxfattribs={"layer": "POINTS"})
            other.set_xdata(APPLICATION, entity.get_xdata(APPLICATION))

    message = refused(edited(path, copy))
    assert 'two points are named "Wheel centre"; delete one of them' in message


def test_two_values_of_one_name(tmp_path):
    path, _ = drawn(tmp_path, EXAMPLE)
    edited(path, lambda space: space.add_text("tyre radius = 250 mm", dxfattribs={
        "layer": "LABELS"}))  # fmt: skip
    assert 'two labels give "tyre radius"; delete one of them' in refused(path)


def test_a_point_whose_name_looks_like_a_value(tmp_path):
    rows = [Row("Wheel centre", (0.0, 550.0, 260.0), "mm"), Row("Static camber", (-1.0,), "deg"),
            Row("Static camber = 5", (1.0, 2.0, 3.0), "mm")]  # fmt: skip
    (tmp_path / "c.dxf").write_bytes(dxf_of(rows, "mm", False)[0])
    found, _ = rows_of_dxf(tmp_path / "c.dxf")
    assert {row.name: row.values for row in found} == {row.name: row.values for row in rows}


def test_a_label_too_far_from_its_point(tmp_path):
    def spoil(space):
        drop_data(space)
        points = list(space.query("POINT"))
        names = {tuple(p.dxf.location): p for p in points}
        cells = {name: tuple(rest) for name, *rest in EXAMPLE}
        x, y, z = cells["Lower front pickup"]
        names[cells["Wheel centre"]].dxf.location = (x + 1.0, y, z)

    path, _ = drawn(tmp_path, EXAMPLE)
    message = refused(edited(path, spoil))
    assert 'it cannot be told which point is "Wheel centre"; put the label beside' in message


def test_without_points(tmp_path):
    path = tmp_path / "empty.dxf"
    ezdxf.new("R2010").saveas(path)
    assert "has no POINT with a name: POINT entities with a label beside them were" in refused(path)
    drawn_path, _ = drawn(tmp_path, EXAMPLE)

    def strip(space):
        drop_data(space)
        for entity in list(space.query("TEXT")):
            space.delete_entity(entity)

    assert "has no POINT with a name" in refused(edited(drawn_path, strip))


def test_a_unit_that_is_not_known(tmp_path):
    path, _ = drawn(tmp_path, EXAMPLE)
    doc = ezdxf.readfile(path)
    doc.header["$INSUNITS"] = ezdxf.units.FT
    doc.saveas(path)
    assert "($INSUNITS is 2) is none of mm, cm, m, in; set the drawing's unit" in refused(path)


@pytest.mark.parametrize("content", [b"", b"no drawing", b"\x00\xff\x81" * 50, b"PK\x03\x04"])
def test_no_drawing(tmp_path, content):
    path = tmp_path / "in.dxf"
    path.write_bytes(content)
    assert "is no DXF drawing that can be read; save it anew as DXF" in refused(path)


def test_no_file(tmp_path):
    assert "there is no file" in refused(tmp_path / "none.dxf")
    (tmp_path / "folder.dxf").mkdir()
    assert "is no DXF drawing" in refused(tmp_path / "folder.dxf")


def test_the_rows_of_another_block(tmp_path, lapwing):
    out = tmp_path / "out.dxf"
    out.write_bytes(export(lapwing, out, "Column")[0])
    with pytest.raises(Trouble, match="has no row of the block Front"):
        take_in(lapwing, out)


# ---------------------------------------------------------------- the command


def test_the_command(tmp_path, lapwing, capsys):
    out, copy = str(tmp_path / "out.dxf"), str(tmp_path / "copy.xlsx")
    assert cli.main(["export", str(lapwing), out, "--axle"]) == 0
    assert "POINTS RIGHT" in [layer.dxf.name for layer in ezdxf.readfile(out).layers]
    assert cli.main(["export", str(lapwing), out]) == 1
    assert "exists and was left as it is" in capsys.readouterr().err
    assert cli.main(["import", str(lapwing), out, "--out", copy]) == 0
    assert "copy.xlsx is made, with the points of" in capsys.readouterr().out
    assert (
        cli.main(["import", str(lapwing), out, "--block", "Column", "--out", copy, "--force"]) == 1
    )
    assert "has no row of the block Column" in capsys.readouterr().err
