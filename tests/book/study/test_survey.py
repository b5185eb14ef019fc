"""`cornerbook survey`: a workbook filled with tapes of a car that is known, and what it finds."""

import io
from itertools import combinations

import numpy as np
import pytest
from cornerbook.book.file.package import Package
from cornerbook.book.file.trouble import Trouble
from cornerbook.book.formula.values import Values
from cornerbook.book.study.survey.built import BUILT, READINGS
from cornerbook.book.study.survey.run import survey
from cornerbook.catalogue import call

from tests.support.looking import looked_into

PICKUPS = ("Lower front pickup", "Lower rear pickup", "Upper front pickup", "Upper rear pickup",
           "Tie rod inner")  # fmt: skip
OUTER = ("Lower ball joint", "Upper ball joint", "Tie rod outer", "Wheel centre")


@pytest.fixture(scope="module")
def example(once):
    """The demonstration with the survey and the sheets whose results are judged of each corner."""
    return once.workbook(chapters=("survey", "measures", "steer-angles", "springs"))


def drawn_points(path):
    sheet = looked_into(path)["Front corner"]
    rows = {row[0].value: [cell.value for cell in row[1:4]] for row in sheet.iter_rows()}
    left = {name: np.array(rows[name], dtype=float) for name in (*PICKUPS, *OUTER)}
    found = {f"left {name}": place for name, place in left.items()}
    found.update((f"right {name}", place * [1, -1, 1]) for name, place in left.items())
    return found


def filled(example, tmp_path, rows):
    """A workbook with rows of (what, from, to, measured, how sure) in its table."""
    package = Package.read(example)
    sheet, top, left, _, _ = package.resolve("Survey", package.sheets[0])
    assert left == 0
    for number, row in enumerate(rows, top + 1):
        for column, value in zip("ABCDE", row, strict=True):
            package.set_value(sheet, f"{column}{number}", value)
    path = tmp_path / "car.xlsx"
    path.write_bytes(package.to_bytes())
    return path


def tapes(places, names, sure=0.5, noise=None):
    rows = []
    for one, other in combinations(names, 2):
        length = float(np.linalg.norm(places[one] - places[other]))
        rows.append(["distance", one, other, length + (noise() if noise else 0.0), sure])
    return rows


def built_car(example, seed=1741):
    draw = np.random.default_rng(seed)
    return draw, {name: at + draw.normal(0.0, 3.0, 3) for name, at in drawn_points(example).items()}


def plumbed(places, names):
    return [
        [what, name, None, float(places[name][axis]), 0.3]
        for name in names for axis, what in enumerate(("x", "y", "height"))
    ]  # fmt: skip


LEFT = [f"left {name}" for name in (*PICKUPS, *OUTER)]


@pytest.fixture(scope="module")
def left_side(example, tmp_path_factory):
    """(where the points truly are, what the survey of the left side makes and says)."""
    _, true = built_car(example)
    rows = tapes(true, LEFT) + plumbed(true, LEFT[:4])
    return true, *survey(filled(example, tmp_path_factory.mktemp("left"), rows))


def test_the_corner_as_built_is_found_and_its_results_with_it(left_side):
    true, content, said = left_side
    sheet = looked_into(io.BytesIO(content), data_only=True)[BUILT]
    block = [[cell.value for cell in row] for row in sheet.iter_rows(max_col=8)]
    start = next(i for i, row in enumerate(block) if row[0] == "Left corner") + 2
    stop = next(i for i, row in enumerate(block) if row[0] == "Right corner") - 1
    as_built = {row[0]: row[1:4] for row in block[start:stop]}
    for name in (*PICKUPS, *OUTER):
        assert as_built[name] == pytest.approx(true[f"left {name}"].tolist(), abs=1e-3)
    # What was not measured is as drawn, and says so.
    right = {row[0]: row for row in block[stop + 3 :] if row[0]}
    assert right["Upper ball joint"][7] == "as drawn" or right["Upper ball joint"][7] is None
    results = {str(row[0].value): [cell.value for cell in row] for row in sheet.iter_rows()}
    caster = next(row for name, row in results.items() if name.startswith("Caster (Measures)"))
    corner = tuple(
        (row[0], *("" if cell is None else cell for cell in row[1:4])) for row in block[start:stop]
    )
    assert caster[2] == pytest.approx(call("CASTER", corner), abs=1e-9)
    axis = true["left Upper ball joint"] - true["left Lower ball joint"]
    assert caster[2] == pytest.approx(np.degrees(np.arctan2(-axis[0], axis[2])), abs=1e-4)
    # Of a side that nobody measured nothing is said, and of two wheels at once neither.
    both = next(row for name, row in results.items() if name.startswith("Ackermann (Steer"))
    assert both[2] == both[9] == "not measured"
    assert caster[3] == caster[10] == "not measured"
    assert caster[9] in ("pass", "look here")
    assert caster[4] == pytest.approx(caster[2] - caster[1])
    assert not any("misread" in text for text in said)


def test_formulas_stay_alive(left_side):
    _, content, _ = left_side
    sheet = looked_into(io.BytesIO(content))[BUILT]
    formulas = [
        row[2].value for row in sheet.iter_rows()
        if row[0].value and str(row[0].value).startswith("Caster (Measures)")
    ]  # fmt: skip
    assert formulas and formulas[0].startswith("=CORNER.CASTER($A$")


def test_the_corners_as_built_have_names(left_side, tmp_path):
    """Formulas of the user's own ask of them by name; a second survey gives others."""
    true, content, said = left_side
    assert any("FrontLeft and FrontRight" in text for text in said)
    once = tmp_path / "once.xlsx"
    once.write_bytes(content)
    package = Package.read(once)
    sheet, top, left, bottom, right = package.resolve("FrontLeft", package.sheets[0])
    assert (sheet, left, right) == (BUILT, 0, 3)
    rows = Values(package).block(sheet, top, left, bottom, right)
    axis = true["left Upper ball joint"] - true["left Lower ball joint"]
    caster = call("CASTER", tuple(tuple("" if cell is None else cell for cell in r) for r in rows))
    assert caster == pytest.approx(np.degrees(np.arctan2(-axis[0], axis[2])), abs=1e-4)
    _, again = survey(once)
    assert any("FrontLeft2 and FrontRight2" in text for text in again)


def test_every_result_is_told_from_all_others_by_its_label(starter, tmp_path):
    """Of the whole workbook, where sheets have results of one name."""
    row = ["distance", "upper ball joint", "lower ball joint", 240.0, 1.0]
    content, _ = survey(filled(starter, tmp_path, [row]))
    labels = [row[0].value for row in looked_into(io.BytesIO(content))[BUILT].iter_rows()]
    results = [label for label in labels[labels.index("Result") :] if label]
    assert len(results) > 40
    assert len(set(results)) == len(results)


def test_a_misread_hundred_is_left_out_and_named(example, tmp_path):
    draw, true = built_car(example)
    rows = tapes(true, LEFT, noise=lambda: draw.normal(0.0, 0.5)) + plumbed(true, LEFT[:4])
    rows[7][3] += 100.0
    content, said = survey(filled(example, tmp_path, rows))
    (words,) = (text for text in said if "misread" in text)
    assert "left out" in words
    assert rows[7][1].lower() in words and rows[7][2].lower() in words
    sheet = looked_into(io.BytesIO(content), data_only=True)[READINGS]
    blamed = [row for row in sheet.iter_rows(values_only=True) if "left out" in str(row[0])]
    assert blamed[-1][3] == pytest.approx(100.0, abs=3.0)


def test_left_and_right_hang_together_by_diagonals(example, tmp_path):
    _, true = built_car(example)
    names = [f"{side} {name}" for side in ("left", "right") for name in PICKUPS]
    rows = tapes(true, names) + plumbed(true, names[:3])
    assert len(rows) <= 60
    content, _ = survey(filled(example, tmp_path, rows))
    sheet = looked_into(io.BytesIO(content), data_only=True)[BUILT]
    block = [[cell.value for cell in row] for row in sheet.iter_rows(max_col=8)]
    start = next(i for i, row in enumerate(block) if row[0] == "Right corner") + 2
    found = {row[0]: row[1:4] for row in block[start:] if row[0]}
    for name in PICKUPS:
        mirrored = (true[f"right {name}"] * [1, -1, 1]).tolist()
        assert found[name] == pytest.approx(mirrored, abs=1e-3)
    # What both wheels do goes by both corners, and each lock by itself.
    corners = [
        tuple((row[0], *("" if cell is None else cell for cell in row[1:4])) for row in part)
        for part in (block[5 : start - 3], block[start : start + start - 8])
    ]
    assert corners[0][0][0] == corners[1][0][0] and len(corners[0]) == len(corners[1])
    (tmp_path / "built.xlsx").write_bytes(content)
    values = Values(Package.read(tmp_path / "built.xlsx"))
    base, lock = (values.of(name, "Car", "A1") for name in ("Wheelbase", "LeftLock"))
    rows = {str(row[0].value): [cell.value for cell in row] for row in sheet.iter_rows()}
    for side, rack in (("", lock), ("-", -lock)):
        row = rows[f"Ackermann (Steer angles), rack {side}LeftLock, %"]
        wanted = call("AXLE_AS_BUILT", *corners, "ackermann", base, rack)
        assert row[2] == pytest.approx(wanted, rel=1e-9)
        assert row[4] == pytest.approx(row[2] - row[1])
        assert row[9] == ("pass" if row[7] <= row[2] <= row[8] else "look here")


def test_what_nothing_fixes_is_said_with_what_would(example, tmp_path):
    _, true = built_car(example)
    rows = tapes(true, LEFT[:5]) + plumbed(true, LEFT[:3])
    rows += tapes(true, [LEFT[5], LEFT[0]]) + tapes(true, [LEFT[5], LEFT[1]])
    content, said = survey(filled(example, tmp_path, rows))
    (words,) = (text for text in said if text.startswith("not fixed"))
    assert "left lower ball joint" in words and "what would: the distance" in words
    sheet = looked_into(io.BytesIO(content), data_only=True)[BUILT]
    (row, *_) = (row for row in sheet.iter_rows(values_only=True) if row[0] == "Lower ball joint")
    assert row[4:7] == ("not fixed",) * 3
    verdicts = {
        row[9] for row in sheet.iter_rows(values_only=True) if "(Measures)" in str(row[0])
    }  # fmt: skip
    assert "not fixed" in verdicts and not verdicts & {"pass", "look here"}


@pytest.mark.parametrize(
    "row, words",
    [
        (["distance", "left uper ball joint", "left tie rod inner", 400.0, 1.0],
         ("uper ball joint", "did you mean Upper ball joint")),
        (["distanse", "upper ball joint", "tie rod inner", 400.0, 1.0], ("distanse", "height")),
        (["distance", "upper ball joint", None, 400.0, 1.0], ("to is empty",)),
        (["distance", "upper ball joint", "left upper ball joint", 400.0, 1.0], ("same point",)),
        (["height", "upper ball joint", "tie rod inner", 400.0, 1.0], ("leave the cell to empty",)),
        (["height", "upper ball joint", None, "38o", 1.0], ("38o", "a number")),
        (["height", "upper ball joint", None, None, None], ("measured", "empty")),
        (["distance", "upper ball joint", "tie rod inner", -4.0, 1.0], ("above 0",)),
        (["height", "upper ball joint", None, 380.0, 0.0], ("how sure",)),
    ],
)  # fmt: skip
def test_a_wrong_row_is_said(example, tmp_path, row, words):
    with pytest.raises(Trouble) as trouble:
        survey(filled(example, tmp_path, [row]))
    for word in ("Survey, row", *words):
        assert word in str(trouble.value)


def test_an_empty_table_is_said(example):
    with pytest.raises(Trouble, match="nothing is measured yet"):
        survey(example)


def test_one_tape_alone_is_no_crash(example, tmp_path):
    row = ["", "upper ball joint", "lower ball joint", 240.0, None]
    _, said = survey(filled(example, tmp_path, [row]))
    assert any("nothing checks anything" in text for text in said)


@pytest.mark.parametrize("share", [0.1, 1.0 / 25.4, 2.54])
def test_tapes_in_another_unit_are_said(example, tmp_path, share):
    """Adjusted, they would make a corner of another size, in which all of them agree."""
    _, car = built_car(example)
    rows = [[*row[:3], row[3] * share, row[4]] for row in tapes(car, sorted(car)[:7])]
    with pytest.raises(Trouble, match="of those drawn: type them in the unit that stands beside"):
        survey(filled(example, tmp_path, rows))


def test_one_tape_in_another_unit_is_a_misreading(example, tmp_path):
    _, car = built_car(example)
    rows = tapes(car, sorted(car)[:7])
    rows[4][3] *= 0.1
    _, said = survey(filled(example, tmp_path, rows))
    assert any(one.startswith("most likely misread, and left out: row") for one in said)
