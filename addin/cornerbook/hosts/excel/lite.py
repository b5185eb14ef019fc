"""The formulas for xlwings Lite, the free add-in that runs Python inside Excel.

Lite looks for decorated functions in the workbook's own `main.py`, so that file needs one
line, which brings all of them (`texts.main_py` has it):

    from cornerbook.hosts.excel.lite import *

Excel then knows them as CORNER.TRAIL and so on, each with its help. Nothing is listed here:
all of it follows from the catalogue.
"""

from .functions import load_xlwings, registered
from .names import NAMESPACE
from .texts import main_py, requirements_txt  # noqa: F401


def functions(xlwings):
    """{name: registered function}; xlwings: what has the decorators `func` and `arg`."""
    return registered(xlwings, _options)


def _options(formula):
    return {"name": formula.name, "namespace": NAMESPACE}


_FUNCTIONS = functions(load_xlwings())
globals().update(_FUNCTIONS)

__all__ = list(_FUNCTIONS)
