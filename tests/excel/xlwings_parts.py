"""xlwings for the tests, with its server part, which registers and calls as Excel would.

The server part is under a non-commercial licence and asks for a key; the one set here is what
xlwings documents for non-commercial use. It is used by tests alone and never shipped.
"""

import os
import sys

import pytest

os.environ.setdefault("XLWINGS_LICENSE_KEY", "noncommercial")  # before the first import

xlwings = pytest.importorskip("xlwings", reason="xlwings is not installed")
server = pytest.importorskip("xlwings.server", reason="xlwings has no server part here")

# xlwings asks for this package with every value of a cell, and Python would look for it through
# all folders each time: it is not there outside Pyodide, and said so once.
for package in ("pyodide", "pyodide.ffi"):
    sys.modules.setdefault(package, None)  # type: ignore[arg-type]


def now(call):
    """The result of a call of a formula, which waits for nothing and so needs no loop of its own.

    To make one takes longer than most calls.
    """
    try:
        call.send(None)
    except StopIteration as end:
        return end.value
    raise AssertionError("it waits for something")
