"""The formulas in xlwings Lite, through xlwings' own registration and call.

There is no Excel here. What Excel would be told, and what it would get back, is what xlwings'
server part gives, which is the code that runs inside Excel too.
"""

import os
import subprocess
import sys

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE
from cornerbook.hosts.excel import cells, functions, names, texts

from tests.calc.examples import raw_arguments, rows_of
from tests.catalogue.test_bad_input import WITH_CORNER, said
from tests.catalogue.test_check_values import assert_same
from tests.excel.asked import as_cells
from tests.excel.metadata import NA, error_cell, excel_call, metadata
from tests.support.each import each
from tests.support.patience import HANGING

BLOCK = as_cells(EXAMPLE)


def one(rows):
    """The value of a result that is one cell."""
    assert len(rows) == len(rows[0]) == 1
    return rows[0][0]


def as_excel_gets(result):
    """A result of the catalogue as rows, #N/A as Excel has it."""
    return [[NA if value is None else value for value in row] for row in rows_of(result)]


def example(name):
    """The example's arguments as Excel hands them over."""
    return [as_cells(value) for value in raw_arguments(FORMULAS[name])]


@pytest.fixture(scope="module")
def told():
    """{name: what Excel is told of the formula}"""
    return {entry["name"]: entry for entry in metadata()["functions"]}


# What Excel is told


def test_every_formula_and_nothing_else(told):
    assert set(told) == {f"CORNER.{name}" for name in FORMULAS}
    assert len(metadata()["functions"]) == len(FORMULAS)


def test_identifiers_differ(told):
    assert len({entry["id"] for entry in told.values()}) == len(FORMULAS)


@each("name", FORMULAS)
def test_help_is_that_of_the_catalogue(told, name):
    entry, formula = told[f"CORNER.{name}"], FORMULAS[name]
    assert entry["description"] == formula.sentence
    assert [p["description"] for p in entry["parameters"]] == [a.help for a in formula.arguments]


@each("name", FORMULAS)
def test_arguments_are_those_of_the_catalogue(told, name):
    found, formula = told[f"CORNER.{name}"]["parameters"], FORMULAS[name]
    kept = {"from": "from_value", "to": "to_value"}
    assert [p["name"] for p in found] == [kept.get(a.name, a.name) for a in formula.arguments]
    assert [p.get("optional", False) for p in found] == [not a.required for a in formula.arguments]
    # Any value and any range: what is wrong with one is for the formula to say.
    assert all(p["type"] == "any" and p["dimensionality"] == "matrix" for p in found)
    assert not any(p.get("repeating") for p in found)


def test_optional_arguments_come_last(told):
    for entry in told.values():
        optional = [p.get("optional", False) for p in entry["parameters"]]
        assert optional == sorted(optional), entry["name"]


def test_results_may_be_tables_and_errors_reach_the_formula(told):
    assert metadata()["allowErrorForDataTypeAny"] is True
    for entry in told.values():
        assert entry["result"] == {"dimensionality": "matrix", "type": "any"}
        assert "volatile" not in entry["options"] and "stream" not in entry["options"]


# What Excel gets


@each("name", FORMULAS)
def test_examples_give_what_python_gives(name):
    expected = call(name, *raw_arguments(FORMULAS[name]))
    assert excel_call(name, *example(name)) == as_excel_gets(expected)


@each("name", FORMULAS)
def test_examples_give_their_check_values(name):
    rows = tuple(map(tuple, excel_call(name, *example(name))))
    assert_same(rows, tuple(map(tuple, rows_of(FORMULAS[name].check))))


@each("name", FORMULAS)
def test_whole_numbers_are_numbers(name):
    """JavaScript does not tell 25 from 25.0, so Python may get either."""

    def whole(value):
        if isinstance(value, list):
            return [list(map(whole, row)) for row in value]
        return int(value) if isinstance(value, float) and value.is_integer() else value

    assert excel_call(name, *map(whole, example(name))) == excel_call(name, *example(name))


@each("name", FORMULAS)
def test_empty_cells_may_come_in_either_form(name):
    nulls = [
        [[None if cell == "" else cell for cell in row] for row in value]
        if isinstance(value, list) else value
        for value in example(name)
    ]  # fmt: skip
    assert excel_call(name, *nulls) == excel_call(name, *example(name))


@pytest.mark.parametrize("empty", [None, [[None]], [[""]]], ids=["left out", "null", "empty"])
@each("name", FORMULAS)
def test_optional_arguments_left_out_or_empty(name, empty):
    formula = FORMULAS[name]
    given = example(name)[: sum(a.required for a in formula.arguments)]
    expected = as_excel_gets(call(name, *raw_arguments(formula)[: len(given)]))
    left_out = [empty] * (len(formula.arguments) - len(given))
    assert excel_call(name, *given, *left_out) == expected


@each("name", FORMULAS)
def test_fewer_arguments_than_there_are(name):
    formula = FORMULAS[name]
    given = example(name)[: sum(a.required for a in formula.arguments)]
    expected = call(name, *raw_arguments(formula)[: len(given)])
    assert excel_call(name, *given) == as_excel_gets(expected)


def test_one_argument_left_out_in_the_middle():
    expected = call("POINT", EXAMPLE, "wheel centre", None, 12.0, "y")
    assert one(excel_call("POINT", BLOCK, "wheel centre", None, 12.0, "y")) == expected
    assert expected != call("POINT", EXAMPLE, "wheel centre", 12.0, 0.0, "y")


@each("name", FORMULAS)
@pytest.mark.parametrize("empty", [None, [[None]], [[""]]], ids=["left out", "null", "empty"])
def test_a_required_argument_that_is_empty(name, empty):
    for i, argument in enumerate(FORMULAS[name].arguments):
        if argument.required and not (argument.kind == "any" and argument.blank):
            given = example(name)
            given[i] = empty
            said(one(excel_call(name, *given)), argument.name)


@each("name", WITH_CORNER)
def test_an_error_in_a_block_is_named_with_its_row(name):
    block = [list(row) for row in BLOCK]
    for row in block:
        row[1] = error_cell("#REF!", "Ref")
    given = [block if value == BLOCK else value for value in example(name)]
    said(one(excel_call(name, *given)), "#REF!")


@each("name", FORMULAS)
def test_an_error_for_a_number_is_named(name):
    for i, argument in enumerate(FORMULAS[name].arguments):
        if argument.kind in ("number", "whole"):
            given = [as_cells(value) for value in raw_arguments(FORMULAS[name])]
            given += [None] * (i + 1 - len(given))
            given[i] = error_cell("#DIV/0!", "Div0")
            said(one(excel_call(name, *given)), argument.name, "#DIV/0!")


def test_a_number_with_a_format_is_its_number():
    euros = {"type": "FormattedNumber", "basicType": "Double", "basicValue": 25.0,
             "numberFormat": "€0.00"}  # fmt: skip
    assert one(excel_call("CAMBER", BLOCK, euros)) == call("CAMBER", EXAMPLE, 25.0)


@pytest.mark.parametrize("value", [True, "far", [[1.0, 2.0]], [[1.0], [2.0]]])
def test_what_is_no_number(value):
    said(one(excel_call("CAMBER", BLOCK, value)), "travel", "number")


def test_true_in_a_block_is_no_number():
    """Also where the same block with 1 in that place was used before."""
    ones = [[cell if cell != 6.0 else 1.0 for cell in row] for row in BLOCK]
    assert isinstance(one(excel_call("TRAIL", ones)), float)
    trues = [[cell if cell != 6.0 else True for cell in row] for row in BLOCK]
    said(one(excel_call("TRAIL", trues)), "Lower ball joint", "TRUE")


def test_one_cell_where_a_block_belongs():
    for value in (12.0, "Front", None):
        said(one(excel_call("TRAIL", value)), "corner", "block of cells")


def test_a_block_of_one_row_or_one_column_keeps_its_shape():
    row, column = BLOCK[:1], [line[:1] for line in BLOCK]
    for given in (row, column):
        expected = call("TRAIL", tuple(map(tuple, given)))
        assert one(excel_call("TRAIL", given)) == expected
    assert one(excel_call("TRAIL", row)) != one(excel_call("TRAIL", column))


def test_a_row_and_a_column_of_names():
    expected = as_excel_gets(call("SWEEP", EXAMPLE, "camber, toe", "travel", -20.0, 20.0, 3.0))
    rest = ("travel", -20, 20, 3)
    for quantities in ("camber, toe", [["camber", "toe"]], [["camber"], ["toe"]]):
        assert excel_call("SWEEP", BLOCK, quantities, *rest) == expected


def test_a_table_spills():
    rows = excel_call("SWEEP", BLOCK, "camber, toe", "travel", -20, 20, 5)
    assert [len(row) for row in rows] == [3] * 5
    assert [row[0] for row in rows] == [-20.0, -10.0, 0.0, 10.0, 20.0]


def test_out_of_reach_is_excels_own_not_available():
    assert excel_call("AT", BLOCK, "camber", 300) == [[NA]]
    rows = excel_call("SWEEP", BLOCK, "camber", "travel", -300, 300, 5)
    assert [row[1] == NA for row in rows] == [True, False, False, False, True]
    assert [row[0] for row in rows] == [-300.0, -150.0, 0.0, 150.0, 300.0]


def test_an_older_excel_gets_the_text():
    assert excel_call("AT", BLOCK, "camber", 300, runtime="1.3") == [["#N/A"]]


def test_a_sentence_is_text_and_no_error():
    sentence = one(excel_call("CAMBER", BLOCK, 300))
    assert sentence == call("CAMBER", EXAMPLE, 300.0)
    said(sentence, "travel")
    said(one(excel_call("SWEEP", BLOCK, "colour", "travel", -20, 20, 3)), "colour")


def test_a_mistake_of_ours_is_a_sentence_too(monkeypatch):
    def broken(*_):
        raise LookupError("within")

    monkeypatch.setattr(functions, "call", broken)
    result = one(excel_call("TRAIL", BLOCK))
    assert result.startswith("# CORNER.TRAIL met a fault of its own") and "within" in result


def test_numbers_that_are_none_never_reach_excel():
    for value in (float("nan"), float("inf"), None):
        assert cells.shown_value(value) == "#N/A"
        assert cells.shown_value(((1.0, value),)) == [[1.0, "#N/A"]]
    assert cells.shown_value(()) == cells.shown_value(((),)) == [["#N/A"]]


# What the user does


def in_lite(text, then):
    """Run a user's main.py where xlwings works as it does in Lite; returns what `then` prints."""
    program = (
        "import types\n"
        "main = types.ModuleType('main')\n"
        f"exec(compile({text!r}, 'main.py', 'exec'), vars(main))\n"
        f"{then}\n"
    )
    environment = {
        **os.environ, "XLWINGS_ON_SERVER": "true", "PYTHONPATH": os.pathsep.join(sys.path),
    }  # fmt: skip
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, env=environment,
        timeout=HANGING,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout.split()


META = (
    "from xlwings import server\n"
    "print(*(f['name'] for f in server.custom_functions_meta(main)['functions']))"
)


@pytest.mark.parametrize("text", [texts.main_py(), "from cornerbook.hosts.excel.lite import *\n"])
def test_the_text_for_main_py_registers_all(text):
    assert set(in_lite(text, META)) == {f"CORNER.{name}" for name in FORMULAS}


def test_an_empty_main_py_registers_nothing():
    """The test above could otherwise be looking at something else."""
    assert in_lite("import cornerbook.hosts.excel.lite\n", META) == []


def test_the_formulas_need_no_numpy_and_no_pandas_of_ours():
    told = in_lite(
        "from cornerbook.hosts.excel.lite import *\n",
        "import sys; print(*(m for m in sys.modules if m.startswith('cornerbook.')))",
    )
    assert "cornerbook.hosts.excel.lite" in told
    assert not [
        m for m in told if m.split(".")[1] not in ("catalogue", "cells", "geometry", "hosts")
    ]


def test_requirements():
    assert texts.requirements_txt().split() == ["xlwings", "cornerbook"]
    address = "https://example.org/cornerbook-1-py3-none-any.whl"
    assert address in texts.requirements_txt(address).split()


def test_without_xlwings_it_says_what_to_install(tmp_path):
    (tmp_path / "xlwings.py").write_text("raise ImportError('none here')\n")
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(tmp_path), *sys.path])}
    for module in ("lite", "classic"):
        done = subprocess.run(
            [sys.executable, "-c", f"import cornerbook.hosts.excel.{module}"],
            capture_output=True, text=True, env=environment, timeout=HANGING,
        )  # fmt: skip
        assert done.returncode != 0
        assert 'pip install "cornerbook[excel]"' in done.stderr.strip().splitlines()[-1]


def test_reserved_words_are_not_used_for_arguments():
    assert names.parameter_name("from") == "from_value"
    assert names.parameter_name("To") == "To_value"
    assert names.parameter_name("caller") == "caller_value"
    assert names.parameter_name("travel") == "travel"
