"""The extension in a real Calc: every formula of the catalogue, typed and opened from a file."""

import math

import openpyxl
import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE
from openpyxl.utils.cell import absolute_coordinate, get_column_letter
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.formula import ArrayFormula

from tests.calc.calc import Fault, array, typed
from tests.calc.examples import (
    area,
    block_at,
    blocks_at,
    expected,
    in_calc_grammar,
    part,
    places,
    rows_of,
)
from tests.support.each import each

NOT_AVAILABLE = Fault(32767, "#N/A")


def agree(got, want, within):
    """Whether rows of cells hold the wanted values; None is #N/A."""
    assert len(got) == len(want)
    for got_row, want_row in zip(got, want, strict=True):
        for value, wanted in zip(got_row, want_row, strict=True):
            if wanted is None:
                assert value == NOT_AVAILABLE
            elif isinstance(wanted, str):
                assert (value or "") == wanted
            else:
                assert value == pytest.approx(wanted, rel=within, abs=within)


@pytest.fixture(scope="module")
def typed_examples(calc):
    """{name: rows} of every example, typed in one book beside the example corner."""
    with calc.new() as book:
        for name, (rows, range) in blocks_at(30).items():
            book.fill("Sheet1", range, rows)
            book.name_range(name, "Sheet1", range)
        book.set_many(
            [("Sheet1", place, example_for_calc(FORMULAS[name]))
             for name, place in places().items()]
        )  # fmt: skip
        rows = book.get("Sheet1", area())
        return {name: part(rows, place) for name, place in places().items()}


def example_for_calc(formula):
    """What to put in: typed as it stands, or entered over a range if it gives a table."""
    if formula.shape == "table":
        return array(in_calc_grammar(formula))
    return typed(formula.example)


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """An .xlsx as openpyxl writes it, with every example and no stored values."""
    workbook = openpyxl.Workbook()
    workbook.active.title = "Formulas"
    block = workbook.create_sheet("Block")
    for name, (rows, range) in blocks_at(1).items():
        for cells, row in zip(block[range], rows, strict=True):
            for cell, value in zip(cells, row, strict=True):
                cell.value = None if value == "" else value
        range = absolute_coordinate(range)
        workbook.defined_names[name] = DefinedName(name, attr_text=f"Block!{range}")
    for name, place in places().items():
        formula = FORMULAS[name]
        table = formula.shape == "table"
        workbook.active[place.split(":")[0]] = (
            ArrayFormula(place, formula.example) if table else formula.example
        )
    path = tmp_path_factory.mktemp("written") / "examples.xlsx"
    workbook.save(path)
    return path


@each("name", FORMULAS)
def test_a_typed_example_gives_what_python_gives(typed_examples, name):
    agree(typed_examples[name], expected(FORMULAS[name]), 1e-12)


@each("name", FORMULAS)
def test_a_typed_example_gives_its_check_value(typed_examples, name):
    agree(typed_examples[name], rows_of(FORMULAS[name].check), 1e-6)


def test_a_written_file_computes_as_it_opens_and_survives_saving(calc, written, tmp_path):
    files = [written]
    with calc.open(written) as book:
        files.append(book.save(tmp_path / "again.xlsx"))
        files.append(book.save(tmp_path / "again.ods"))
    for file in files:
        with calc.open(file) as book:
            rows, formulas = book.get("Formulas", area()), book.formulas("Formulas", area())
            for name, place in places().items():
                agree(part(rows, place), expected(FORMULAS[name]), 1e-12)
                formula = part(formulas, place)[0][0].strip("{}")
                assert formula.startswith(f"=CORNER.{name}("), file


def test_a_saved_file_has_the_formulas_and_their_values(calc, written, tmp_path):
    with calc.open(written) as book:
        saved = book.save(tmp_path / "saved.xlsx")
    formulas = openpyxl.load_workbook(saved)["Formulas"]
    values = openpyxl.load_workbook(saved, data_only=True)["Formulas"]
    for name, place in places().items():
        first = place.split(":")[0]
        text = formulas[first].value
        assert getattr(text, "text", text).lstrip("=").startswith(f"CORNER.{name}(")
        want = expected(FORMULAS[name])[0][0]
        assert values[first].value == (pytest.approx(want) if isinstance(want, float) else want)


def test_an_edit_recalculates(calc):
    with calc.new() as book:
        book.set("Sheet1", "B1", "=CORNER.TRAIL_FROM_CASTER(A1;262)")
        reads = book.steps([[("Sheet1", "A1", a)] for a in (3.0, 4.0)], "Sheet1", "B1")
        assert reads[0][0][0] == pytest.approx(262 * math.tan(math.radians(3)))
        assert reads[1][0][0] == pytest.approx(262 * math.tan(math.radians(4)))


def test_a_block_of_cells_is_an_argument_named_or_not(calc):
    with calc.new() as book:
        place = block_at(3)
        book.fill("Sheet1", place, EXAMPLE)
        book.name_range("Front_left", "Sheet1", place)
        book.set("Sheet1", "A1", f"=CORNER.TRAIL({place})")
        book.set("Sheet1", "A2", "=CORNER.TRAIL(Front_left)")
        (cells,), (named,) = book.get("Sheet1", "A1:A2")
        assert cells == named == pytest.approx(call("TRAIL", EXAMPLE), rel=1e-12)


def test_arguments_may_be_left_out(calc):
    words = ("6;262", "6;262;", "6;262;0", "", ";262")
    with calc.new() as book:
        book.fill("Sheet1", "A1:A5", [[f"=CORNER.TRAIL_FROM_CASTER({w})"] for w in words])
        (one,), (two,), (three,), (none,), (first,) = book.get("Sheet1", "A1:A5")
    assert one == two == three == pytest.approx(27.5373096)
    assert none.startswith("# caster") and first.startswith("# caster")


# Y1 and Z3 hold a text, Z1 a number.
NONSENSE = ['"x"', '""', "-1", "1E308", "TRUE()", "Z1:Z3", "Y1:Z1", "{1;2|3;4}", "Z9", ""]


@pytest.fixture(scope="module")
def of_nonsense(calc):
    """{name: what each formula shows of `NONSENSE`}, all on one sheet, a row a formula."""
    counts = {name: len(formula.arguments) for name, formula in FORMULAS.items()}
    rows = [
        [f"=CORNER.{name}({';'.join([word] * count)})" for word in NONSENSE]
        for name, count in counts.items()
    ]
    cells = f"A1:{get_column_letter(len(NONSENSE))}{len(rows)}"
    with calc.new() as book:
        book.set_many([("Sheet1", "Y1", "x"), ("Sheet1", "Z1", 5.0), ("Sheet1", "Z3", "y")])
        book.fill("Sheet1", cells, rows)
        return dict(zip(FORMULAS, book.get("Sheet1", cells), strict=True))


@each("name", FORMULAS)
def test_nonsense_is_answered_in_words_or_not_at_all(of_nonsense, name):
    """Whatever is handed over, no formula shows a bare #VALUE!."""
    for word, value in zip(NONSENSE, of_nonsense[name], strict=True):
        # An empty text of a table reads as nothing.
        assert isinstance(value, (float, str, type(None))) or value == NOT_AVAILABLE, word


def test_the_function_wizard_shows_the_catalogue(calc):
    shown = calc.function_descriptions("CORNER.")
    assert set(shown) == {"CORNER." + name for name in FORMULAS}
    for name, formula in FORMULAS.items():
        entry = shown["CORNER." + name]
        assert entry["description"] == formula.sentence
        assert [(a["name"], a["description"]) for a in entry["arguments"]] == [
            (a.name, a.help) for a in formula.arguments
        ]
        assert entry["category"] == 11  # Add-In
