"""xlwings Lite as it is: the user's `main.py` run by the real xlwings in the real Pyodide.

The wheel of xlwings is the one that its makers publish for Pyodide. What runs it inside
Excel is not here; registration and calls go through xlwings' server part, which is the same
code. That part is under a non-commercial licence, and is used by tests alone.
"""

import pytest

from tests.excel.asked import payloads
from tests.excel.metadata import metadata, user_module
from tests.excel.node import or_skip
from tests.excel.pyodide import lite_told
from tests.excel.test_pyodide import assert_same
from tests.excel.xlwings_parts import now, server, xlwings


@pytest.fixture(scope="module")
def ran(once):
    """What `run_lite.py` told from inside Pyodide."""
    return or_skip(lambda: lite_told(once))


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
    """In calls, which no busy machine changes: 116 000 for `main.py`, without what is loaded of the
    standard library before, and 1983 for a cell were counted."""
    assert 1_000 < ran["main_calls"] < 300_000
    assert 100 < min(ran["camber_calls"]) <= max(ran["camber_calls"]) < 10_000
