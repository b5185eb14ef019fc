"""xlwings Lite as it is: the user's `main.py` run by the real xlwings in the real Pyodide.

The wheel of xlwings is the one that its makers publish for Pyodide. What runs it inside
Excel is not here; registration and calls go through xlwings' server part, which is the same
code. That part is under a non-commercial licence, and is used by tests alone.
"""

import json

import pytest
from cornerbook.catalogue import FORMULAS
from cornerbook.cells.example import EXAMPLE
from cornerbook.hosts.excel.names import function_name
from cornerbook.hosts.excel.texts import main_py

from tests.calc.examples import raw_arguments
from tests.excel import wheels
from tests.excel.metadata import as_cells, metadata, user_module
from tests.excel.node import HERE, found, or_skip, run
from tests.excel.test_pyodide import assert_same
from tests.excel.xlwings_parts import now, server, xlwings


def payload(name, *raw):
    """What Excel's side of xlwings sends for a call."""
    given = [as_cells(value) for value in raw]
    return {
        "func_name": function_name(name),
        "args": [one if one is None or isinstance(one, list) else [[one]] for one in given],
        "caller_address": "Sheet1!A1",
        "client": "Office.js",
        "version": xlwings.__version__,
        "date_format": "dd/mm/yyyy",
        "culture_info_name": "en-GB",
        "runtime": "1.4",
    }


def payloads():
    """Every example; a pose out of reach, an empty cell and an argument left out."""
    asked = [payload(name, *raw_arguments(formula)) for name, formula in FORMULAS.items()]
    return [
        *asked,
        payload("CAMBER", EXAMPLE, 1e6, 0.0),
        payload("CAMBER", EXAMPLE, None, None),
        payload("CAMBER", EXAMPLE, "", 5.0),
        payload("CAMBER", ""),
    ]


@pytest.fixture(scope="module")
def ran(once):
    """What `run_lite.py` told from inside Pyodide."""
    or_skip(found)
    text = (HERE / "node_modules" / "pyodide" / "pyodide-lock.json").read_text(encoding="utf-8")
    info = json.loads(text)["info"]
    theirs = or_skip(lambda: wheels.xlwings(info["python"], info["abi_version"]))
    ours = wheels.ours(once)
    given = json.dumps({"main": main_py(), "payloads": payloads()})
    job = {
        "wheels": [str(ours), str(theirs)],
        # The second one makes `xlwings.func` register, as it does inside Excel.
        "environment": {"XLWINGS_LICENSE_KEY": "noncommercial", "XLWINGS_ON_SERVER": "true"},
        "programs": [{"text": (HERE / "run_lite.py").read_text(encoding="utf-8"), "given": given}],
    }
    return json.loads(run("pyodide_run.mjs", job)["answers"][0])


def test_it_is_the_same_xlwings(ran):
    assert ran["xlwings"] == xlwings.__version__


def test_main_py_loads_nothing_that_pyodide_may_lack(ran):
    """NumPy and its like are there when they are asked for; the formulas need none of them."""
    strangers = {name.split(".")[0] for name in ran["loaded"]} - set(ran["standard"])
    assert strangers == {"cornerbook"}


def test_excel_is_told_the_same(ran):
    assert ran["metadata"] == metadata()


def test_every_call_gives_the_same(ran):
    asked = payloads()
    assert len(ran["results"]) == len(asked)
    for one, value in zip(asked, ran["results"], strict=True):
        expected = now(server.custom_functions_call(one, user_module()))
        assert_same(value, expected, one["func_name"])


def test_it_is_quick_enough_for_a_sheet(ran):
    """In calls, which no busy machine changes: 63 000 for `main.py`, done in 90 ms, and 1983 for
    a cell, done in 0.3 ms, were measured."""
    assert 1_000 < ran["main_calls"] < 300_000
    assert 100 < min(ran["camber_calls"]) <= max(ran["camber_calls"]) < 10_000
