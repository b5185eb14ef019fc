"""cornerbook: what the wheels of a small home-built car do when it steers and bumps.

The spreadsheet formulas are declared in `cornerbook.catalogue`. From Python:

>>> import cornerbook
>>> front = cornerbook.read("lapwing.xlsx")            # the block named Front
>>> front.at("camber", travel=25.0)                    # degrees
>>> front.sweep(travel=range(-50, 51, 5), quantities=["camber", "toe"])   # a DataFrame

Names load what they need when they are first used, so the import itself is quick.
"""

__version__ = "0.1.0"

_FRONT = ("Corner", "read", "read_csv", "read_frame", "read_workbook")
_CATALOGUE = ("FORMULAS", "call")

__all__ = ["FORMULAS", "Corner", "call", "read", "read_csv", "read_frame", "read_workbook"]


def __getattr__(name):
    if name in _FRONT:
        from . import front

        return getattr(front, name)
    if name in _CATALOGUE:
        from . import catalogue

        return getattr(catalogue, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__():
    return sorted([*globals(), *__all__])
