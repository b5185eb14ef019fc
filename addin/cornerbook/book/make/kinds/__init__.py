"""The kinds of block that a template may hold, one file each or for a few that belong together.

Every file here is found and imported by itself: a new kind is one function with its
declaration (`..sheet.declare.block_kind`) in one file, and needs no edit elsewhere.
"""

import importlib
import pkgutil

from ..sheet.declare import KINDS  # noqa: F401

for found in pkgutil.iter_modules(__path__):
    importlib.import_module(f"{__name__}.{found.name}")
