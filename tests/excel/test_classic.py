"""The formulas as classic xlwings functions: the VBA that xlwings writes, and its calls.

xlwings' own generator and call run here with stand-ins for Windows; VBA, COM and Excel do not.
"""

import functools
import io
import re
import types
from decimal import Decimal
from unittest.mock import MagicMock

import pytest
from cornerbook.catalogue import FORMULAS, call
from cornerbook.cells.example import EXAMPLE
from cornerbook.hosts.excel.functions import LONGEST, fitting
from cornerbook.hosts.excel.install import MODULES

from tests.calc.examples import raw_arguments, rows_of
from tests.catalogue.test_bad_input import said
from tests.excel.windows_stand_in import ERRORS, MISSING, Cells, classic_xlwings
from tests.support.each import each

RESERVED = set(
    "and as boolean byref byte byval call case const currency date declare dim do double each "
    "else empty end enum eqv erase error event exit false for friend function get global gosub "
    "goto if imp implements in input integer is let like lock long loop lset me mod new next not "
    "nothing null object on open option optional or paramarray preserve print private property "
    "public put raiseevent redim rem resume return rset seek select set single static step stop "
    "string sub then to true type typeof unlock until variant wend while with write xor".split()
)
"""Reserved words of VBA, from memory of its reference; a declaration with one does not compile."""


@pytest.fixture(scope="module")
def classic():
    """xlwings.udfs, with the functions registered in its module `classic`."""
    with classic_xlwings() as udfs:
        from cornerbook.hosts.excel import classic

        module = types.ModuleType("classic")
        decorators = types.SimpleNamespace(func=udfs.xlfunc, arg=udfs.xlarg)
        vars(module).update(classic.functions(decorators))
        udfs.udf_modules["classic"] = {"module": module, "filetime": None}
        yield types.SimpleNamespace(udfs=udfs, module=module)


@pytest.fixture(scope="module")
def vba(classic):
    """The VBA that Import functions would put into the workbook."""
    return vba_of(classic.udfs, MODULES[0], classic.module)


def vba_of(udfs, name, module):
    """What xlwings' generator writes for a module."""
    text = io.StringIO()
    udfs.generate_vba_wrapper(name, module, text, types.SimpleNamespace(Name="car.xlsm"))
    return text.getvalue()


CALLER = MagicMock()
"""The cell that calls, which xlwings asks for nothing here."""


def cell(classic, name, *arguments):
    """What Excel gets for CORNER_name(arguments): a list of rows."""
    given = [Cells(a) if isinstance(a, tuple) else a for a in arguments]
    return classic.udfs.call_udf("classic", "CORNER_" + name, given, caller=CALLER)


def one(rows):
    assert len(rows) == len(rows[0]) == 1
    return rows[0][0]


def example(name):
    """The example's arguments, empty cells as Excel for Windows has them."""
    return [
        tuple(tuple(None if c == "" else c for c in row) for row in value)
        if isinstance(value, tuple) else value
        for value in raw_arguments(FORMULAS[name])
    ]  # fmt: skip


# The VBA


@functools.cache
def declarations(vba):
    """{function: [(argument, whether optional), ...]}"""
    found = {}
    for name, inside in re.findall(r"^Function (\w+)\((.*)\)$", vba, re.MULTILINE):
        words = [argument.split() for argument in inside.split(", ")]
        assert all(w[:-1] in ([], ["Optional"]) for w in words), inside
        found[name] = [(w[-1], len(w) == 2) for w in words]
    return found


def test_every_formula_and_nothing_else(vba):
    assert set(declarations(vba)) == {f"CORNER_{name}" for name in FORMULAS}
    assert not re.search(r"^Sub ", vba, re.MULTILINE)


@each("name", FORMULAS)
def test_arguments_are_those_of_the_catalogue(vba, name):
    kept = {"from": "from_value", "to": "to_value"}
    expected = [(kept.get(a.name, a.name), not a.required) for a in FORMULAS[name].arguments]
    assert declarations(vba)["CORNER_" + name] == expected


def test_no_argument_is_a_word_of_vba(vba):
    for name, arguments in declarations(vba).items():
        for argument, _ in arguments:
            assert argument.lower() not in RESERVED, name
            assert argument.lower() != name.lower()
            assert re.fullmatch("[A-Za-z][A-Za-z0-9_]*", argument)


def test_optional_arguments_come_last(vba):
    for name, arguments in declarations(vba).items():
        assert [o for _, o in arguments] == sorted(o for _, o in arguments), name


@each("name", FORMULAS)
def test_each_calls_its_python_function_with_all_arguments(vba, name):
    body = vba.split(f"Function CORNER_{name}(")[1].split("End Function")[0]
    arguments = ", ".join(argument for argument, _ in declarations(vba)["CORNER_" + name])
    wanted = f'XLPy.CallUDF("{MODULES[0]}", "CORNER_{name}", Array({arguments}), ThisWorkbook'
    assert body.count(wanted) == 1
    assert f"CORNER_{name} = {wanted}" in body


def test_lines_are_short_enough_for_vba(vba):
    assert max(map(len, vba.splitlines())) <= 1023


@each("name", FORMULAS)
def test_help_reaches_the_function_wizard_whole(classic, name):
    told, formula = getattr(classic.module, "CORNER_" + name).__xlfunc__, FORMULAS[name]
    # xlwings cuts here, at 255.
    assert told["ret"]["doc"] == told["ret"]["doc"][:255] == fitting(formula.sentence)
    assert told["category"] == "cornerbook"
    assert [a["doc"] for a in told["args"]] == [fitting(a.help) for a in formula.arguments]
    assert all(len(a["doc"]) <= 255 for a in told["args"])


def test_help_that_is_too_long_ends_with_a_sentence():
    assert fitting("Short.") == "Short."
    long = "One thing. " + "And another thing. " * 30
    assert len(fitting(long)) <= LONGEST
    assert fitting(long).endswith("another thing.")
    assert fitting("word " * 100).endswith("word...")
    assert len(fitting("word " * 100)) <= LONGEST


# The calls


@each("name", FORMULAS)
def test_examples_give_what_python_gives(classic, name):
    expected = rows_of(call(name, *raw_arguments(FORMULAS[name])))
    assert cell(classic, name, *example(name)) == expected


@each("name", FORMULAS)
def test_optional_arguments_left_out(classic, name):
    arguments = FORMULAS[name].arguments
    given = example(name)[: sum(a.required for a in arguments)]
    expected = rows_of(call(name, *raw_arguments(FORMULAS[name])[: len(given)]))
    left_out = [MISSING] * (len(arguments) - len(given))
    shown = [["#N/A" if v is None else v for v in row] for row in expected]
    assert cell(classic, name, *given, *left_out) == shown


@each("name", FORMULAS)
def test_a_required_argument_that_is_empty(classic, name):
    for i, argument in enumerate(FORMULAS[name].arguments):
        if argument.required and not (argument.kind == "any" and argument.blank):
            given = example(name)
            given[i] = Cells(None)
            said(one(cell(classic, name, *given)), argument.name)


@pytest.mark.parametrize("text", ERRORS)
def test_errors_in_cells_are_named(classic, text):
    block = tuple((row[0], ERRORS[text], *row[2:]) for row in example("TRAIL")[0])
    said(one(cell(classic, "TRAIL", block)), text)
    said(one(cell(classic, "CAMBER", example("TRAIL")[0], Cells(ERRORS[text]))), "travel", text)
    said(one(cell(classic, "CAMBER", example("TRAIL")[0], ERRORS[text])), "travel", text)


def test_single_cells_rows_and_columns(classic):
    block, rest = example("TRAIL")[0], ("travel", -20.0, 20.0, 3.0)
    assert one(cell(classic, "CAMBER", block, Cells(25.0))) == call("CAMBER", EXAMPLE, 25.0)
    expected = rows_of(call("SWEEP", EXAMPLE, "camber, toe", *rest))
    names = ("camber, toe", Cells("camber, toe"), (("camber", "toe"),), (("camber",), ("toe",)))
    for quantities in names:
        assert cell(classic, "SWEEP", block, quantities, *rest) == expected


def test_an_array_of_values_is_a_block_too(classic):
    """As VBA hands over a calculated array in place of a range."""
    given = [[*row] for row in example("TRAIL")[0]]
    assert one(cell(classic, "TRAIL", given)) == call("TRAIL", EXAMPLE)


def test_currency_is_a_number(classic):
    block = example("TRAIL")[0]
    assert one(cell(classic, "CAMBER", block, Decimal("25"))) == call("CAMBER", EXAMPLE, 25.0)
    money = tuple(tuple(Decimal(str(c)) if isinstance(c, float) else c for c in r) for r in block)
    assert one(cell(classic, "CAMBER", money)) == call("CAMBER", EXAMPLE)


def test_what_is_no_number(classic):
    block = example("TRAIL")[0]
    for value in (True, "far", ((1.0, 2.0),)):
        said(one(cell(classic, "CAMBER", block, value)), "travel", "number")


def test_out_of_reach_is_the_text(classic):
    """A classic function cannot return an error; see the note in `cells.py`."""
    assert cell(classic, "AT", example("TRAIL")[0], "camber", 300.0) == [["#N/A"]]
    table = cell(classic, "SWEEP", example("TRAIL")[0], "camber", "travel", -300.0, 300.0, 5.0)
    assert [row[1] == "#N/A" for row in table] == [True, False, False, False, True]


def test_a_table_is_a_block_of_equal_rows(classic):
    """So that Excel can fill it into a range, or let it spill."""
    table = cell(classic, "SWEEP", example("TRAIL")[0], "camber, toe", "travel", -20.0, 20.0, 4.0)
    assert [len(row) for row in table] == [3] * 4


def test_the_module_is_the_one_that_the_workbook_names():
    import importlib

    for name in MODULES:
        importlib.import_module(name)
    module = importlib.import_module(MODULES[0])
    assert set(module.__all__) == {f"CORNER_{name}" for name in FORMULAS}
    assert all(callable(getattr(module, name)) for name in module.__all__)
