"""xlwings for the tests, with its server part, which registers and calls as Excel would.

The server part is under a non-commercial licence and asks for a key; the one set here is what
xlwings documents for non-commercial use. It is used by tests alone and never shipped.
"""

import os

import pytest

os.environ.setdefault("XLWINGS_LICENSE_KEY", "noncommercial")  # before the first import

xlwings = pytest.importorskip("xlwings", reason="xlwings is not installed")
server = pytest.importorskip("xlwings.server", reason="xlwings has no server part here")
