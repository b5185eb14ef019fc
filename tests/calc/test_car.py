"""The starter workbook in a real Calc: opened, edited, saved and opened again.

A user's way: the extension installed in a fresh profile, the file made by the generator,
a yellow cell changed, the five measures watched.
"""

import io
import random
import zipfile

import cornerbook
import openpyxl
import pytest
from cornerbook.catalogue import FORMULAS
from openpyxl.utils.cell import coordinate_from_string, coordinate_to_tuple

from tests.calc.calc import Fault
from tests.support.looking import looked_into

NOT_AVAILABLE = Fault(32767, "#N/A")

# The measures that must follow an edit: name of the cell, quantity, and whether it is
# taken at the rack for full lock.
MEASURES = {
    "Trail": ("trail", False),
    "Scrub": ("scrub", False),
    "CamberGain": ("camber gain", False),
    "BumpSteer": ("bump steer", False),
    "Ackermann": ("ackermann", True),
}


@pytest.fixture(scope="module")
def names(starter):
    """{name: (sheet, cells)} of the workbook's named cells."""
    workbook = looked_into(starter)
    found = {}
    for name in workbook.defined_names:
        sheet, cells = next(workbook.defined_names[name].destinations)
        found[name] = (sheet, cells.replace("$", ""))
    return found


@pytest.fixture(scope="module")
def formula_cells(starter):
    """[(sheet, cell, stored value)] of every formula of the workbook."""
    formulas = looked_into(starter)
    values = looked_into(starter, data_only=True)
    return [
        (sheet.title, cell.coordinate, values[sheet.title][cell.coordinate].value)
        for sheet in formulas
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    ]


@pytest.fixture(scope="module")
def table_cells(starter):
    """The same of the tables that one formula fills: (sheet, cell, stored value) of every cell."""
    values = looked_into(starter, data_only=True)
    return [
        (sheet.title, cell.coordinate, values[sheet.title][cell.coordinate].value)
        for sheet in looked_into(starter)
        for row in sheet.iter_rows()
        for first in row
        if getattr(first.value, "ref", first.coordinate) != first.coordinate
        for line in sheet[first.value.ref]
        for cell in line
    ]


def cell_of(names, corner, row, axis):
    """The sheet and cell of a coordinate of a row of the block Front."""
    sheet, cells = names["Front"]
    column, first = coordinate_from_string(cells.split(":")[0])
    place = list(corner.block.rows).index(row)
    return sheet, "%s%d" % (chr(ord(column) + 1 + "xyz".index(axis)), int(first) + place)


def read(book, names):
    return {name: book.value(*names[name]) for name in MEASURES}


def front_gives(corner, lock=-45.0, wheelbase=1580.0):
    return {
        name: corner.at(quantity, rack=lock if on_lock else 0.0, wheelbase=wheelbase)
        for name, (quantity, on_lock) in MEASURES.items()
    }


class Shown:
    """What the cells of a book show, a sheet read at a time: `shown[sheet, "B7"]`."""

    AREA = "A1:AZ400"

    def __init__(self, book):
        self.book = book
        self.sheets = {}

    def __getitem__(self, place):
        sheet, cell = place
        if sheet not in self.sheets:
            self.sheets[sheet] = self.book.get(sheet, self.AREA)
        row, column = coordinate_to_tuple(cell)
        return self.sheets[sheet][row - 1][column - 1]


def same(value, stored):
    if isinstance(stored, bool) or not isinstance(stored, (int, float)):
        return (value or None) == stored or (stored == "#N/A" and value == NOT_AVAILABLE)
    return value == pytest.approx(stored, rel=1e-9, abs=1e-9)


def test_every_cell_computes_what_is_stored(opened, formula_cells, table_cells):
    """Also holds the generator's own evaluation to Calc's; straight ahead alone is an error."""
    opened.recalculate()
    shown = Shown(opened)
    for sheet, cell, stored in formula_cells:
        value = shown[sheet, cell]
        assert same(value, stored), (sheet, cell, value, stored)
        if isinstance(value, Fault) or (isinstance(value, str) and value.startswith("#")):
            assert value == NOT_AVAILABLE
            assert shown[sheet, "A%d" % coordinate_from_string(cell)[1]] == 0.0
    assert len(formula_cells) > 400
    for sheet, cell, stored in table_cells:
        assert same(shown[sheet, cell], stored), (sheet, cell)
    assert sum(isinstance(stored, float) for *_, stored in table_cells) > 100


def test_self_check_sums_up(opened, names):
    opened.recalculate()
    said = opened.value(*names["SelfCheck"])
    assert said == "all %d formulas agree with their check values" % len(FORMULAS)


@pytest.fixture(scope="module")
def few(once):
    """A workbook with the measures that follow an edit, in the same cells as in the whole one."""
    return once.workbook(chapters=("measures", "steer-angles"))


def test_editing_a_pickup_moves_the_measures(calc, few, names, tmp_path):
    corner = cornerbook.read(few)
    moves = {
        ("upperfrontpickup", "z"): 351.0,
        ("upperballjoint", "x"): -24.0,
        ("tierodinner", "z"): 204.0,
        ("tierodouter", "y"): 470.0,
        ("lowerballjoint", "y"): 518.0,
    }
    with calc.open(few) as book:
        before = read(book, names)
        for (row, axis), value in moves.items():
            book.set(*cell_of(names, corner, row, axis), value)
        after = read(book, names)
        saved = [book.save(tmp_path / "saved.xlsx"), book.save(tmp_path / "saved.ods")]
    edited = edited_corner(corner, moves)
    want = front_gives(edited)
    for name in MEASURES:
        assert after[name] != pytest.approx(before[name], rel=1e-3), name
        assert after[name] == pytest.approx(want[name], rel=1e-9), name

    for path in saved:
        with calc.open(path) as book:
            book.recalculate()
            assert read(book, names) == pytest.approx(after, rel=1e-12), path.name

    stored = cornerbook.read(saved[0])
    assert front_gives(stored) == pytest.approx(want, rel=1e-12)


def edited_corner(corner, moves):
    rows = {key: [name, *cells] for key, (name, cells) in corner.block.rows.items()}
    for (row, axis), value in moves.items():
        rows[row][1 + "xyz".index(axis)] = value
    return cornerbook.Corner(rows.values())


def test_many_random_edits_agree_with_python(opened, starter, names):
    """Fifty cars, each with every coordinate moved by up to 4 mm."""
    corner = cornerbook.read(starter)
    chance = random.Random(7)
    drawn = {
        (row, axis): cells["xyz".index(axis)]
        for row, (_, cells) in corner.block.rows.items()
        for axis in "xyz"
        if all(isinstance(cell, (int, float)) for cell in cells)
    }
    places = [cell_of(names, corner, row, axis) for row, axis in drawn]
    as_drawn = [(*place, value) for place, value in zip(places, drawn.values(), strict=True)]
    with opened.with_edits(*as_drawn) as book:
        for _ in range(50):
            moves = {key: value + chance.uniform(-4, 4) for key, value in drawn.items()}
            values = zip(places, moves.values(), strict=True)
            book.set_many([(*place, value) for place, value in values])
            want = front_gives(edited_corner(corner, moves))
            assert read(book, names) == pytest.approx(want, rel=1e-9, abs=1e-12)


MISTAKES = [
    ("a letter in a number", ("lowerballjoint", "y"), "52l", "Lower ball joint: y"),
    ("an empty cell", ("upperballjoint", "z"), None, "Upper ball joint: z is empty"),
    ("inches in one row", ("tierodinner", "y"), 7.95, "ok"),
    ("a link too short to reach", ("tierodinner", "y"), -900.0, "tie rod inner is"),
    ("a minus left out", ("tierodouter", "x"), 96.0, "ok, but look: tie rod: seen from above"),
    ("a wheel off the ground", ("wheelcentre", "z"), 280.0, "lowest point is at z 18, where"),
    ("a decimal comma in a text", ("lowerballjoint", "y"), "521,5x", "its decimal point"),
    ("a word misspelt", ("rodmount", "x"), "lower arn", "lower arm, upper arm, upright"),
]


@pytest.mark.parametrize(
    ("row", "value", "words"), [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES]
)
def test_a_mistake_in_a_point_is_said(opened, starter, names, row, value, words):
    corner = cornerbook.read(starter)
    with opened.with_edits((*cell_of(names, corner, *row), value)) as book:
        sheet, _ = names["Front"]
        assert words in book.value(sheet, "B4")


def test_a_misspelt_row_is_said_beside_the_measures(calc, few, names, tmp_path):
    """Names of rows are locked in the sheet; who takes the lock off may still mistype one."""
    path = tmp_path / "car.xlsx"
    edited = openpyxl.load_workbook(few)
    (cell,) = [c for c in edited["Front corner"]["A"] if c.value == "Upper ball joint"]
    cell.value = "Uper ball joint"
    edited.save(path)
    said = '# the row "upper ball joint" is missing; is it the row named "Uper ball joint"?'
    with calc.open(path) as book:
        book.recalculate()
        assert book.value(*names["Caster"]) == said
        (row,) = [r for r in book.get("Measures", "A1:H30") if r[0] == "Caster"]
        assert row[6] == "not known"
        assert row[7] == said
        assert '"Uper ball joint" is not known' in book.value(names["Front"][0], "B4")


def test_wheelbase_below_zero_and_rack_past_lock(opened, names):
    with opened.with_edits((*names["Wheelbase"], -1580.0)) as book:
        assert book.value(*names["Ackermann"]) == (
            "# wheelbase: -1580 given, a number above 0 was expected"
        )
    with opened.with_edits((*names["RackLock"], 90.0)) as book:
        assert "is past lock" in book.value(*names["Ackermann"])
        table = book.get("Lock to lock", "A8:D28")
        assert table[0][1] == NOT_AVAILABLE  # past lock: a gap in the chart
        assert isinstance(table[10][1], float)


def test_inches_typed_into_millimetres(opened, starter, names):
    corner = cornerbook.read(starter)
    inches = []
    for row, (_, cells) in corner.block.rows.items():
        if row in ("staticcamber", "statictoe"):
            continue
        for axis, cell in zip("xyz", cells, strict=False):
            if isinstance(cell, (int, float)):
                inches.append((*cell_of(names, corner, row, axis), cell / 25.4))
    with opened.with_edits(*inches) as book:
        sheet, _ = names["Front"]
        assert "were inches typed into a sheet in millimetres?" in book.value(sheet, "B4")


def state_of(book):
    """{label: text} of what the first page says about how things stand."""
    return dict(book.get("Overview", "A4:B5"))


@pytest.fixture(scope="module")
def without(bare_calc, starter, formula_cells):
    """What the Calc without the extension shows of the workbook, on opening it, and of two sheets
    once edited: two `Shown`."""
    with bare_calc.open(starter) as book:
        opened, edited = Shown(book), Shown(book)
        for sheet in {sheet for sheet, *_ in formula_cells}:
            opened[sheet, "A1"]
        book.set("Car", "B5", 1500.0)
        for sheet in ("Overview", "Self-check"):
            edited[sheet, "A1"]
        return opened, edited


def test_a_missing_extension_is_noticed_on_opening_and_after_an_edit(without, opened):
    """Elsewhere the stored values are kept, and would say that all is well."""
    missing = "this program does not know the CORNER formulas"
    for shown in without:
        for place in (("Overview", "B4"), ("Overview", "B5"), ("Self-check", "B4")):
            assert missing in shown[place], place
    assert state_of(opened)["Points of the front corner"] == "ok"
    assert state_of(opened)["The formulas"].startswith("all ")


ONE_MEAN = {
    "lowerballjoint": (5, 521, 150), "lowerfrontpickup": (130, 216, 164),
    "lowerrearpickup": (-150, 216, 160), "upperballjoint": (-21, 484.5, 380),
    "upperfrontpickup": (95, 262, 363), "upperrearpickup": (-125, 262, 357),
    "tierodouter": (-96, 474, 192), "tierodinner": (-72, 80, 199.18),
}  # fmt: skip
"""Points of a corner whose mean change of toe over 50 mm either way is nought."""


def test_the_worst_over_the_travel_is_judged(opened, starter, names):
    """A tie rod whose mean change of toe is nought, and whose toe is not."""
    corner = cornerbook.read(starter)
    points = [
        (*cell_of(names, corner, row, axis), float(value))
        for row, place in ONE_MEAN.items()
        for axis, value in zip("xyz", place, strict=True)
    ]
    with opened.with_edits((*names["TravelShown"], 50.0), *points) as book:
        assert abs(book.value(*names["BumpSteerMean"])) < 0.0002
        sheet, cell = names["ToeChange"]
        worst, row = book.value(sheet, cell), coordinate_from_string(cell)[1]
        assert abs(worst) == pytest.approx(0.76, abs=0.01)
        (line,) = book.get(sheet, f"A{row}:H{row}")
        assert line[6] == "look here"
        assert line[7].startswith("At travel")
        # The table on the sheet Bump is what was judged.
        shown = [r for r in book.get("Bump", "A1:C40") if isinstance(r[0], float)][:21]
        toe = {travel: toe for travel, _, toe in shown}
        changes = [value - toe[0.0] for value in toe.values()]
        assert worst == pytest.approx(max(changes, key=abs), rel=1e-9)


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        (15.0, 30.0, "pass"), (None, 30.0, "pass"), (15.0, None, "pass"), (23.0, None, "look here"),
        (None, 20.0, "look here"), (None, None, ""), (30.0, 15.0, "from is above to"),
        ("5 deg", 20.0, "not known"),
    ],
)  # fmt: skip
def test_a_blank_end_is_no_limit_and_a_swapped_band_is_told(opened, names, low, high, says):
    sheet, cell = names["Trail"]
    row = coordinate_from_string(cell)[1]
    assert opened.value(sheet, cell) == pytest.approx(21.952, abs=1e-3)
    wish = next(r for r, c in enumerate(opened.get("Wanted", "A1:A40"), 1)
                if c[0] == "Mechanical trail")  # fmt: skip
    with opened.with_edits(("Wanted", f"B{wish}", low), ("Wanted", f"D{wish}", high)) as book:
        assert (book.value(sheet, f"G{row}") or "") == says
        # The one wish is all others': beside the result, and on the first page.
        shown = f"# Wanted!B{wish}: a number was expected" if isinstance(low, str) else low
        assert (book.value(sheet, f"E{row}") or None) == shown
        listed = [r for r in book.get("Overview", "A1:F70") if r[0] == "Mechanical trail"]
        assert (listed[-1][5] or "") == says


def test_the_track_is_held_to_the_one_that_is_wanted(opened, names):
    sheet, cell = names["TrackOff"]
    row = coordinate_from_string(cell)[1]
    assert opened.value(sheet, f"G{row}") == "pass"
    off, wide = opened.value(sheet, cell), opened.value(*names["FrontTrack"])
    with opened.with_edits((*names["FrontTrack"], 1000.0)) as book:
        assert book.value(sheet, cell) == pytest.approx(off + wide - 1000.0, abs=1e-9)
        assert book.value(sheet, f"G{row}") == "look here"


def test_without_the_extension_stored_values_are_readable(without, formula_cells, table_cells):
    shown, _ = without
    tables = {(sheet, cell) for sheet, cell, _ in table_cells}
    assert 0 < sum((sheet, cell) in tables for sheet, cell, _ in formula_cells) < 6
    # How things stand is worked out at every opening.
    told = [
        (sheet, cell)
        for sheet, cell, stored in formula_cells
        if (sheet, cell) == ("Overview", "B4") or str(stored).startswith(("all ", "the original;"))
    ]
    assert len(told) == 4
    for sheet, cell, stored in formula_cells:
        value = shown[sheet, cell]
        if stored == "#N/A" or (sheet, cell) in tables:
            # Calc works out anew a cell whose stored value is an error, and a table that one
            # formula fills.
            assert isinstance(value, Fault)
        elif (sheet, cell) in told:
            assert "does not know the CORNER formulas" in value
        else:
            assert same(value, stored), (sheet, cell, value, stored)


def test_charts_reach_the_program(saved_by_calc, starter):
    """Calc's own copy of the file still has every chart."""

    def charts(content):
        return sum("charts/chart" in n for n in zipfile.ZipFile(content).namelist())

    made = charts(io.BytesIO(starter.read_bytes()))
    assert charts(saved_by_calc) == made
    assert made >= 8


def test_an_inch_workbook_is_the_same_car(opened_in_inches, opened, names):
    metric, inch = read(opened, names), read(opened_in_inches, names)
    for name, factor in (("Trail", 25.4), ("Scrub", 25.4), ("CamberGain", 1 / 25.4),
                         ("BumpSteer", 1 / 25.4), ("Ackermann", 1.0)):  # fmt: skip
        assert inch[name] * factor == pytest.approx(metric[name], rel=1e-9, abs=1e-12)
