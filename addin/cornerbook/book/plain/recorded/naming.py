"""Headings for recorded steps, taken from the names that the geometry itself uses.

While the geometry runs on steps, the recorder notes which function made each of them. Once it is
done, these functions' local variables are looked at: a step found there is called as the
variable is, under the first sentence of the function's docstring. The geometry needs no edit for
it, and floats pay nothing.
"""

import contextlib
import os
import sys

from .... import geometry
from ....geometry.vec import Vec
from . import steps
from .steps import Step

_FOLDER = os.path.dirname(geometry.__file__) + os.sep

# Names within a product of vectors or duals, or a square root, say nothing about the car.
_PRIMITIVE = tuple(
    _FOLDER + name for name in ("numbers.py", "vec.py", os.path.join("corner", "dual.py"))
)


@contextlib.contextmanager
def named_steps():
    """Within it, steps made by the geometry get labels: (group, name)."""
    before, steps.made = steps.made, _Functions()
    try:
        yield
    finally:
        functions, steps.made = steps.made, before
        functions.label()


class _Functions:
    """The calls of the geometry's functions in which steps were made. Called for each new step."""

    def __init__(self):
        self._frames = {}  # {the frame of a call: how deep it lies}
        self._last = None

    def __call__(self):
        # From the one that asked for the step, out through what it is written in. Between it and
        # this stand the sign or function, the recorder's own, and how that makes a step.
        frame = sys._getframe(5)
        if frame is self._last:
            return  # a product of vectors makes many
        self._last = frame
        while frame is not None:
            file = frame.f_code.co_filename
            says_something = _OF_THE_CAR.get(file)
            if says_something is None:
                says_something = _OF_THE_CAR[file] = _is_of_the_car(file)
            if says_something:
                if frame not in self._frames:
                    self._frames[frame] = _depth(frame)
                return
            frame = frame.f_back

    def label(self):
        """Label the steps that these calls have left in their variables, inner calls first."""
        for frame in sorted(self._frames, key=self._frames.__getitem__, reverse=True):
            _look(frame)


_OF_THE_CAR: dict = {}
"""{a file: what `_is_of_the_car` says of it}."""


def _is_of_the_car(file):
    """Whether names in a file say something about the car."""
    return file.startswith(_FOLDER) and file not in _PRIMITIVE


def _depth(frame):
    depth = 0
    while frame is not None:
        depth, frame = depth + 1, frame.f_back
    return depth


def _look(frame):
    code, local = frame.f_code, frame.f_locals
    documented = code.co_consts and isinstance(code.co_consts[0], str)
    if not documented and code.co_name != "__init__":
        return
    owner = local.get("self")
    about = code.co_consts[0] if documented else (type(owner).__doc__ or "")
    group = about.strip().split("\n")[0].rstrip(".:").replace("`", "")
    for name, value in local.items():
        if name != "self":
            _label(value, group, name)
    if code.co_name == "__init__":
        for name in getattr(owner, "__dict__", None) or type(owner).__slots__:
            _label(getattr(owner, name, None), group, name)


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
