"""A formula added to the catalogue in one file appears in Calc, with nothing else edited."""

import os
import shutil
import subprocess
import sys

import pytest
from cornerbook.hosts.calc.extension import PACKAGE

from tests.calc.calc import Calc, CalcMissing, Fault, array

NOT_AVAILABLE = Fault(32767, "#N/A")

NEW_FILE = """
from ..cells.declare import Argument, formula

FIRST = Argument("first", "text", "The first.", default="left out")
SECOND = Argument("second", "text", "The second.", default="left out")


def declare(name, shape, function):
    formula(
        name=name, group="New", arguments=(FIRST, SECOND), help="New.", source="None.",
        example="=CORNER.%s()" % name, check=0.0, shape=shape,
    )(function)


declare("NEW_TABLE", "table", lambda a, b: ((1.5, "text", 3), (None, float("nan"), -0.5)))
declare("NEW_ZERO", "table", lambda a, b: 0.0)
declare("NEW_EMPTY", "table", lambda a, b: ())
declare("NEW_NONE", "number", lambda a, b: None)
declare("NEW_INFINITE", "number", lambda a, b: float("inf"))
declare("NEW_INTEGER", "number", lambda a, b: 7)
declare("NEW_FAULT", "number", lambda a, b: {}["nothing"])
declare("NEW_FAULTY_TABLE", "table", lambda a, b: {}["nothing"])
declare("NEW_ECHO", "text", lambda a, b: a)
"""


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """A new book in a Calc whose catalogue has one file more."""
    folder = tmp_path_factory.mktemp("package")
    shutil.copytree(PACKAGE, folder / "cornerbook")
    catalogue = folder / "cornerbook" / "catalogue"
    (catalogue / "new.py").write_text(NEW_FILE)
    with (catalogue / "__init__.py").open("a") as file:
        file.write("from . import new\n")
    build = (
        "from cornerbook.hosts.calc.extension import build_extension;"
        "open('new.oxt', 'wb').write(build_extension())"
    )
    subprocess.run(
        [sys.executable, "-c", build], cwd=folder, check=True,
        env={**os.environ, "PYTHONPATH": str(folder)},
    )  # fmt: skip
    try:
        with Calc(extension=folder / "new.oxt") as calc, calc.new() as book:
            yield book
    except CalcMissing as problem:
        if os.environ.get("CORNERBOOK_NEEDS_CALC"):
            raise
        pytest.skip(str(problem))


def value(book, formula):
    book.set("Sheet1", "A1", formula)
    return book.value("Sheet1", "A1")


def test_a_table_fills_its_range_and_more(book):
    book.set("Sheet1", "C1:F3", array("=CORNER.NEW_TABLE()"))
    assert book.get("Sheet1", "C1:F3") == [
        [1.5, "text", 3.0, NOT_AVAILABLE],
        [NOT_AVAILABLE, NOT_AVAILABLE, -0.5, NOT_AVAILABLE],
        [NOT_AVAILABLE] * 4,
    ]


def test_a_table_works_inside_a_formula(book):
    assert value(book, "=CORNER.NEW_TABLE()") == 1.5
    assert value(book, "=INDEX(CORNER.NEW_TABLE();2;3)") == -0.5
    assert value(book, "=ISNA(INDEX(CORNER.NEW_TABLE();2;1))") == 1.0
    assert value(book, "=IFNA(INDEX(CORNER.NEW_TABLE();2;2);9)") == 9.0
    assert value(book, "=COLUMNS(CORNER.NEW_TABLE())") == 3.0


def test_single_results(book):
    assert value(book, "=CORNER.NEW_ZERO()") == 0.0
    assert value(book, "=CORNER.NEW_INTEGER()") == 7.0
    assert value(book, "=CORNER.NEW_EMPTY()") == NOT_AVAILABLE
    assert value(book, "=CORNER.NEW_NONE()") == NOT_AVAILABLE
    assert value(book, "=CORNER.NEW_INFINITE()").startswith("# ")


def test_a_fault_is_told_in_words(book):
    assert value(book, "=CORNER.NEW_FAULT()").startswith("# ")
    assert value(book, "=CORNER.NEW_FAULTY_TABLE()").startswith("# ")


def test_texts_pass_unchanged(book):
    assert value(book, '=CORNER.NEW_ECHO("Grüße, ∠ 5°")') == "Grüße, ∠ 5°"
