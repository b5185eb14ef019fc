"""xlwings' part for classic Excel on Windows, loaded on any system.

What it imports of Windows is replaced by stand-ins that do nothing, so only what xlwings does
in Python itself is real: reading the decorators, writing the VBA, taking arguments apart,
and making the result. Excel, COM and VBA are not there.
"""

import contextlib
import ctypes
import datetime
import importlib
import sys
import types
from types import SimpleNamespace
from unittest.mock import MagicMock

import pytest

from tests.excel.xlwings_parts import xlwings

_OF_WINDOWS = (
    "pythoncom", "pywintypes", "win32api", "win32con", "win32gui", "win32process",
    "win32timezone", "win32event", "win32com", "win32com.client", "win32com.server",
    "win32com.server.dispatcher", "win32com.server.policy", "win32com.server.util",
)  # fmt: skip

MISSING = -2147352572
"""How an argument that is left out reaches Python: VBA's mark for it."""

ERRORS = {"#DIV/0!": -2146826281, "#N/A": -2146826246, "#REF!": -2146826265}
"""How errors in cells reach Python."""


@contextlib.contextmanager
def classic_xlwings():
    """(xlwings.udfs, the class of a range of cells) for the time of the `with`."""
    with pytest.MonkeyPatch.context() as patch:
        for name in _OF_WINDOWS:
            patch.setitem(sys.modules, name, MagicMock(name=name))
        sys.modules["pywintypes"].TimeType = datetime.datetime
        sys.modules["pywintypes"].com_error = type("com_error", (Exception,), {})
        sys.modules["pythoncom"].__file__ = "pythoncom"
        for name in ("windll", "oledll", "PyDLL"):
            patch.setattr(ctypes, name, MagicMock(name=name), raising=False)
        for name in ("_win32patch", "_xlwindows", "udfs", "com_server"):
            patch.delitem(sys.modules, "xlwings." + name, raising=False)
            patch.delattr(xlwings, name, raising=False)
        patch.setitem(sys.modules, "xlwings._win32patch", MagicMock())
        windows = importlib.import_module("xlwings._xlwindows")
        server = types.ModuleType("xlwings.com_server")
        server.loop = None
        patch.setitem(sys.modules, "xlwings.com_server", server)
        excel = xlwings.Engine(impl=windows.engine)
        patch.setitem(xlwings.engines.engines_by_name, "excel", excel)
        patch.setattr(windows, "is_range_instance", lambda value: isinstance(value, Cells))
        udfs = importlib.import_module("xlwings.udfs")
        try:
            yield udfs
        finally:
            for name in ("_xlwindows", "udfs"):
                sys.modules.pop("xlwings." + name, None)
                vars(xlwings).pop(name, None)


class Cells:
    """A range of cells as Excel hands it over: its `Value` is a value or a tuple of rows."""

    def __init__(self, value):
        self.Value = value
        rows = value if isinstance(value, tuple) else ((value,),)
        self.Row = self.Column = 1
        self.Rows = SimpleNamespace(Count=len(rows))
        self.Columns = SimpleNamespace(Count=len(rows[0]))
        self.Worksheet = MagicMock(name="Worksheet")
