"""The workbook that `make` gives, read back by openpyxl and pandas with no program present."""

import io
import re
import zipfile
from pathlib import Path

import pandas as pd
import pytest
from cornerbook.book.file.appearance import DOUBT, GOOD, LOOK
from cornerbook.book.make.new import make
from cornerbook.catalogue import FORMULAS

from tests.support.looking import looked_into, read_whole

EXAMPLE = Path(__file__).parents[3] / "workbooks" / "lapwing.xlsx"

# A cell error, or a sentence on what to mend, in a workbook without a mistake: only these
# cells, which are straight ahead and have no inner wheel.
ALLOWED = {"#N/A"}


@pytest.fixture(scope="module")
def content(starter):
    return starter.read_bytes()


@pytest.fixture(scope="module")
def formulas_view(starter):
    return read_whole(starter)


@pytest.fixture(scope="module")
def values_view(starter):
    return looked_into(starter, data_only=True)


def formula_cells(workbook):
    for sheet in workbook:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    yield cell


def test_every_formula_cell_holds_a_value(formulas_view, values_view):
    count = 0
    for cell in formula_cells(formulas_view):
        stored = values_view[cell.parent.title][cell.coordinate].value
        # An empty note is a formula whose value is an empty text, and so is what a table that
        # nobody has begun says of its first row.
        if stored is None and hasattr(cell.value, "text"):
            assert cell.parent.title in ("Survey", "Set-up log"), cell.coordinate
        elif stored is None:
            there = re.fullmatch(r"='?([^'!]+)'?!\$([A-Z]+)\$(\d+)", cell.value)
            said = formulas_view[there[1]][there[2] + there[3]] if there else cell
            assert '""' in said.value, cell.coordinate
        count += 1
    assert count > 400


def test_no_cell_is_an_error(values_view):
    for sheet in values_view:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and cell.value.startswith("#"):
                    assert cell.value in ALLOWED, (sheet.title, cell.coordinate, cell.value)
                    assert sheet["A%d" % cell.row].value == 0


def test_self_check_agrees(values_view):
    sheet, cell = next(values_view.defined_names["SelfCheck"].destinations)
    said = values_view[sheet][cell.replace("$", "")].value
    assert said == "all %d formulas agree with their check values" % len(FORMULAS)


def test_every_formula_is_listed_with_its_help(values_view):
    texts = {
        cell.value for row in values_view["Formulas"].iter_rows() for cell in row if cell.value
    }
    for formula in FORMULAS.values():
        assert any(str(t).startswith(formula.signature) for t in texts), formula.name
        assert formula.sentence in texts


def test_pandas_reads_numbers(content):
    frame = pd.read_excel(io.BytesIO(content), sheet_name="Measures", header=None)
    trail = frame[frame[0] == "Mechanical trail"][1].item()
    assert isinstance(trail, float)
    assert 15 < trail < 30


def test_only_inputs_are_unlocked(formulas_view):
    yellow = 0
    for sheet in formulas_view:
        assert sheet.protection.sheet
        assert not sheet.protection.password
        for row in sheet.iter_rows():
            for cell in row:
                if not cell.protection.locked:
                    # What was measured, and what is wanted of it, begin with what is drawn.
                    # So do the forces on what gives, and the ranges of the two inputs.
                    begun = sheet.title in (
                        "Adjusters",
                        "Set-up",
                        "What gives",
                        "Two-way",
                        "Build sheet",
                        "Understeer",
                        "Ride",
                    )
                    # A rule is measured by another cell.
                    begun = begun or (sheet.title, cell.column) == ("Rules", 2)
                    # Cases begin with travel, friction and loads of other sheets.
                    begun = begun or (sheet.title == "Loads" and 2 <= cell.column <= 7)
                    # The share of the braking follows the brakes' parts.
                    begun = begun or cell.value == "=BrakeShareMade"
                    # A part follows the person of the sheet Driver, a body's dimension the car.
                    begun = begun or str(cell.value).startswith("=Driver")
                    begun = begun or (sheet.title, cell.column) == ("Body", 3)
                    # What measures a rule is the user's own formula.
                    begun = begun or (sheet.title == "Rules" and cell.column_letter == "B")
                    assert cell.data_type != "f" or begun, (sheet.title, cell.coordinate)
                    assert cell.fill.start_color.rgb == "FFFFF6BF"
                    yellow += 1
    assert yellow > 40


def test_every_number_input_is_validated(formulas_view):
    for sheet in formulas_view:
        ruled = {
            cell
            for rule in sheet.data_validations.dataValidation
            for area in rule.sqref.ranges
            for cells in area.cells
            for cell in [cells]
        }
        for row in sheet.iter_rows():
            for cell in row:
                if not cell.protection.locked and isinstance(cell.value, (int, float)):
                    assert (cell.row, cell.column) in ruled, (sheet.title, cell.coordinate)


def test_prints_to_the_width_of_a_page(formulas_view):
    for sheet in formulas_view:
        if not sheet.print_area:
            assert sheet.sheet_properties.pageSetUpPr.fitToPage
            assert sheet.page_setup.fitToWidth in (None, 1)  # one page is the default
            assert sheet.page_setup.fitToHeight == 0
        assert "no check of strength" in sheet.oddFooter.left.text


def test_cautions_are_on_the_first_pages(values_view):
    first, second = (
        " ".join(str(cell.value) for row in sheet.iter_rows() for cell in row)
        for sheet in values_view.worksheets[:2]
    )
    assert "nothing here checks strength" in first
    assert "qualified person" in first
    assert "no strength" in second
    assert "qualified person" in second


def test_charts_show_the_tables(formulas_view):
    for name, heads in (("Bump", "travel"), ("Lock to lock", "rack")):
        sheet = formulas_view[name]
        assert len(sheet._charts) == 3
        head = next(c for c in sheet["A"] if c.value == heads)
        for chart in sheet._charts:
            for series in chart.series:
                if series.tx.v in ("axis", "wanted"):
                    continue  # the ends of what is shown and wanted have cells of their own
                assert series.xVal.numRef.f.replace("'", "").startswith(
                    "%s!$A$%d:" % (name, head.row + 2)
                )


def test_same_input_gives_the_same_bytes(content):
    assert make() == content


STORED = re.compile(r"(?<=<v>)[^<]*(?=</v>)|(?<=<c:v>)[^<]*(?=</c:v>)")
"""What cells and charts hold."""


def same(kept, made):
    """Whether two stored values are one, numbers to a part in 1e9.

    A sine may round another way in another system's library, which moves the last digits of
    what is made of it, and of small differences some more: with every sine and arc tangent an
    ulp off either way, a part in 1e10 was the most.
    """
    try:
        return kept == made or float(made) == pytest.approx(float(kept), rel=1e-9, abs=1e-12)
    except ValueError:
        return False


def test_example_is_what_the_generator_makes(content):
    kept = zipfile.ZipFile(EXAMPLE)
    made = zipfile.ZipFile(io.BytesIO(content))
    assert kept.namelist() == made.namelist()
    for part in made.namelist():
        one, other = (archive.read(part) for archive in (kept, made))
        if one == other:
            continue
        stale = "%s differs; make it anew: cornerbook new workbooks/lapwing.xlsx --force" % part
        assert part.endswith(".xml"), stale
        one, other = one.decode("utf-8"), other.decode("utf-8")
        assert STORED.sub("", one) == STORED.sub("", other), stale
        values = list(zip(STORED.findall(one), STORED.findall(other), strict=True))
        assert all(same(*pair) for pair in values), stale


def test_a_stale_example_would_be_seen():
    assert same("342455.959924613", "342455.95992461266") and same("0", "1e-17")
    assert not same("342455.9599", "342455.9699") and not same("ok", "no") and not same("3", "ok")


@pytest.fixture(scope="module")
def inches(once):
    return looked_into(once.workbook(system="in"), data_only=True)


def test_inches_give_the_same_car(values_view, inches):
    factor = {"mm": 25.4, "deg": 1.0, "%": 1.0, None: 1.0, "": 1.0, "deg/mm": 1 / 25.4,
              "m": 0.3048}  # fmt: skip
    compared = 0
    for name in ("Measures", "Steer angles", "First layout"):
        metric, inch = values_view[name], inches[name]
        units = {
            row: next((metric.cell(row, c).value for c in (3, 4) if metric.cell(row, c).value
                       in ("mm", "deg", "%", "deg/mm", "m")), None)
            for row in range(1, metric.max_row + 1)
        }  # fmt: skip
        for row in range(1, metric.max_row + 1):
            a, b = metric.cell(row, 2).value, inch.cell(row, 2).value
            if isinstance(a, (int, float)) and isinstance(b, (int, float)):
                # Lengths typed in inches keep twelve digits: a difference of two of 1000 mm and
                # more is off by some 1e-9 mm.
                assert b * factor[units[row]] == pytest.approx(a, rel=1e-9, abs=1e-8)
                compared += 1
    assert compared > 25


def test_inch_block_is_ok(inches):
    assert inches["Front corner"]["B4"].value == "ok"
    assert inches["Front corner"]["E6"].value == "in"


@pytest.mark.parametrize(
    "said, fill",
    [
        ("ok", GOOD[0]),
        ("ok, but look: caster is -3 degrees", DOUBT[0]),
        ("# the row is missing", LOOK[0]),
        ("pass", GOOD[0]),
        ("not known", DOUBT[0]),
        ("no word of ours", None),
    ],
)
def test_a_verdict_is_coloured_by_how_it_begins(formulas_view, said, fill):
    """As a spreadsheet does it: the first rule that fits, in the order of priority."""
    rules = [
        rule
        for block in formulas_view["Front corner"].conditional_formatting
        if "B4" in block.cells
        for rule in block.rules
    ]
    fits = [r for r in sorted(rules, key=lambda r: r.priority) if said.startswith(r.text)]
    shown = fits[0].dxf.fill.bgColor.rgb[-6:] if fits else None
    assert shown == (fill and fill.lstrip("#"))
