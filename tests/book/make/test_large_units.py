"""Results shown in a larger unit than formulas take: m for mm, ft for in, N m for N mm."""

import io

import openpyxl
import pytest
from cornerbook.book.make.new import make
from cornerbook.book.study.typed.run import scenario_of

from tests.support.looking import looked_into

LARGE = {"mm": ("m", 1000.0, 1.0), "in": ("ft", 12.0, 25.4)}
"""The larger unit of length, how many of ours make one, and millimetres in one of ours."""


@pytest.fixture(scope="module", params=list(LARGE))
def made(request):
    content = make("car", "lapwing", request.param, chapters=["bump", "steer-angles"])
    return request.param, content, looked_into(io.BytesIO(content), data_only=True)


def rows(sheet, label):
    """The rows of a sheet that begin with a label, as values."""
    return [values for values in sheet.iter_rows(values_only=True) if values[0] == label]


def test_a_radius_and_its_band_stand_in_the_larger_unit(made):
    system, _, book = made
    unit, many, mm = LARGE[system]
    shown, whole = rows(book["Steer angles"], "Turning radius")
    assert shown[3] == unit and whole[3] == system
    assert shown[1:3] == pytest.approx([value / many for value in whole[1:3]])
    assert shown[5] == pytest.approx(4200 / mm / many)
    assert shown[6] == "pass"
    sheet, cell = next(book.defined_names["TurningRadius"].destinations)
    assert book[sheet][cell.replace("$", "")].value == whole[1]


def test_a_sentence_is_passed_on_as_it_is(made):
    _, content, _ = made
    book = looked_into(io.BytesIO(content))
    named = rows(book["Steer angles"], "Turning radius")[0][1]
    assert named == "=IF(ISNUMBER(TurningRadius),(TurningRadius)/%s,TurningRadius)" % (
        "1000" if made[0] == "mm" else "12"
    )


def test_a_wish_in_the_larger_unit_is_a_length_in_a_scenario(made, tmp_path):
    """And one of an older workbook, in whose row the smaller unit stands, too."""
    system, content, _ = made
    unit, many, mm = LARGE[system]
    for older in (False, True):
        book = openpyxl.load_workbook(io.BytesIO(content))
        row = next(row for row in book["Wanted"].iter_rows() if row[0].value == "Turning radius")
        assert row[4].value == unit
        if older:
            row[3].value, row[4].value = row[3].value * many, system
        path = tmp_path / f"{older}.xlsx"
        book.save(path)
        wish = scenario_of(path, "mine").taken.values["wanted", "turning_radius"]
        assert wish["to"] * mm == pytest.approx(4200)


def test_the_band_of_a_change_is_drawn_about_the_value_at_rest(made):
    """The wheel's toe in bump, whose wish is for the change: -0.1 to 0.1 degrees."""
    sheet = looked_into(io.BytesIO(made[1]))["Bump"]
    cells = {cell.coordinate: cell.value for row in sheet.iter_rows() for cell in row}
    behind = [text for text in cells.values() if isinstance(text, str) and "INDEX" in text]
    rest = "-TravelShown+((TravelShown)-(-TravelShown))*0/20"
    first = next(int(at[1:]) for at, text in cells.items() if rest in str(text))
    about = f"+INDEX('Bump'!$C${first}:$C${first + 20},11),NA())"
    assert [text[-len(about) :] for text in behind] == [about] * 4


@pytest.mark.parametrize("system", list(LARGE))
def test_a_frame_is_typed_in_the_larger_unit_and_formulas_take_the_smaller(system, tmp_path):
    """1,500 N m a degree, 1,500,000 N mm; 0.7376 lbf ft is one newton metre (from memory)."""
    content = make("car", "lapwing", system, chapters=["cornering"])
    book = looked_into(io.BytesIO(content), data_only=True)
    typed = rows(book["Cornering"], "Torsional stiffness of the frame")[0]
    assert typed[1] == pytest.approx(1500 * (1 if system == "mm" else 0.737562), rel=1e-6)
    assert typed[2] == ("N m/deg" if system == "mm" else "lbf ft/deg")
    (sheet, cell), *_ = book.defined_names["FrameUsed"].destinations
    used = book[sheet][cell.replace("$", "")].value
    assert used == pytest.approx(typed[1] * LARGE[system][1])
    (tmp_path / "car.xlsx").write_bytes(content)
    given = scenario_of(tmp_path / "car.xlsx", "mine").taken.values
    newton_mm = given["frame", "torsional_stiffness"] * (1 if system == "mm" else 112.9848290)
    assert newton_mm == pytest.approx(1.5e6, rel=1e-6)


@pytest.mark.parametrize("system", list(LARGE))
def test_a_chart_of_the_users_choice_keeps_to_the_least_span_of_that_choice(system):
    content = make("car", "lapwing", system, chapters=["two-way"])
    book = looked_into(io.BytesIO(content), data_only=True)
    (_, cells), *_ = book.defined_names["QuantityWords"].destinations
    first = book["Words"][cells.replace("$", "").split(":")[0]]
    beside = {}
    for row in book["Words"].iter_rows(min_row=first.row, min_col=first.column, values_only=True):
        if row[0]:
            beside[row[0]] = row[1:3]
    per_mm = 1.0 if system == "mm" else 25.4
    assert beside["camber"] == ("deg", 0.5)
    assert beside["bump steer"] == (f"deg/{system}", pytest.approx(0.005 * per_mm))
    assert beside["roll centre"] == (system, pytest.approx(10 / per_mm))
    formulas = looked_into(io.BytesIO(content))["Two-way"]
    behind = [
        cell.coordinate
        for row in formulas.iter_rows()
        for cell in row
        if isinstance(cell.value, str) and "INDEX(QuantitySpans,MATCH(TwoWayResult," in cell.value
    ]
    low, high = (book["Two-way"][at].value for at in behind)
    assert high - low == pytest.approx(beside["bump steer"][1])
    said = rows(book["Two-way"], "The table shows")[0][1]
    assert said == f"bump steer in deg/{system}"
