"""Headings for recorded steps, taken from the names that the geometry itself uses.

While the geometry runs on steps, each function that returns shows its local variables; a
step found there is called as the variable is, under the first sentence of the function's
docstring. The geometry needs no edit for it, and floats pay nothing.
"""

import contextlib
import os
import sys

from .... import geometry
from ....geometry.vec import Vec
from .steps import Step

_FOLDER = os.path.dirname(geometry.__file__)

# Names within a vector's product or a square root say nothing about the car.
_PRIMITIVE = tuple(os.path.join(_FOLDER, name) for name in ("numbers.py", "vec.py"))


@contextlib.contextmanager
def named_steps():
    """Within it, steps made by the geometry get labels: (group, name)."""
    before = sys.getprofile()
    sys.setprofile(_look)
    try:
        yield
    finally:
        sys.setprofile(before)


def _look(frame, event, given_back):
    file = frame.f_code.co_filename
    if event not in ("call", "return") or not file.startswith(_FOLDER) or file in _PRIMITIVE:
        return
    code = frame.f_code
    documented = code.co_consts and isinstance(code.co_consts[0], str)
    local = frame.f_locals
    owner = local.get("self")
    about = code.co_consts[0] if documented else (type(owner).__doc__ or "")
    if not documented and code.co_name != "__init__":
        return
    group = about.strip().split("\n")[0].rstrip(".:").replace("`", "")
    for name, value in local.items():
        if name != "self":
            _label(value, group, name)
    if event == "return":
        _label(given_back, group, code.co_name)
    if event == "return" and code.co_name == "__init__" and hasattr(owner, "__dict__"):
        for name, value in vars(owner).items():
            _label(value, group, name)


def _label(value, group, name):
    name = name.strip("_").replace("_", " ")
    if isinstance(value, Step):
        if value.label is None and value.parts:
            value.label = (group, name)
    elif isinstance(value, Vec):
        for axis in "xyz":
            _label(getattr(value, axis), group, f"{name} {axis}")
    elif isinstance(value, tuple):
        for number, part in enumerate(value, 1):
            _label(part, group, f"{name} {number}")
    elif hasattr(value, "__slots__") and not isinstance(value, type):
        for slot in value.__slots__:
            if hasattr(value, slot) and not slot.startswith("_"):
                inner = getattr(value, slot)
                if isinstance(inner, (Step, Vec)):
                    _label(inner, group, f"{name} {slot}")
