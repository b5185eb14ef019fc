"""The formulas as classic xlwings functions: Excel for Windows, by way of VBA.

This is the module that *Import functions* in a macro workbook reads (see `install.py`). It
makes a VBA function of each function here, and a VBA name has no dot: CORNER_TRAIL.

A table is filled into the block over which it is entered as an array formula, and spills
where Excel spills. On other systems xlwings leaves the functions as they are, so this module
can be imported anywhere.
"""

from .functions import load_xlwings, registered

CATEGORY = "cornerbook"
"""Where the function wizard lists the formulas."""


def functions(xlwings):
    """{name: registered function}; xlwings: what has the decorators `func` and `arg`."""
    return registered(xlwings, _options, classic=True)


def _options(formula):
    return {"category": CATEGORY}


_FUNCTIONS = functions(load_xlwings())
globals().update(_FUNCTIONS)

__all__ = list(_FUNCTIONS)
