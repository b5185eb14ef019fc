"""Runs inside Pyodide: imports the package, calls formulas, says what was loaded at what cost.

Finds `given`, the JSON of [[formula, argument, ...], ...]; leaves `answer`, the JSON of what
the test asks about. Sent as text, so it must stand alone.
"""

import json
import sys


def counted(work, *arguments):
    """How many functions, of Python and of C, are called while `work` is done.

    It tells what work costs without a clock, which a busy machine would falsify.
    """
    count = 0

    def note(frame, event, argument):
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(note)
    try:
        work(*arguments)
    finally:
        sys.setprofile(None)
    return count


def counted_import(name):
    """The calls that an import makes, and the names of the modules that it brings in."""
    before = set(sys.modules)
    count = counted(__import__, name)
    return count, sorted(set(sys.modules) - before)


def as_cells(value):
    """Arguments as a host gives them: blocks are tuples of rows, which JSON makes lists."""
    return tuple(map(as_cells, value)) if isinstance(value, list) else value


package_calls, package_modules = counted_import("cornerbook")
catalogue_calls, catalogue_modules = counted_import("cornerbook.catalogue")

from cornerbook.catalogue import call  # noqa: E402

calls = [[name, *map(as_cells, raw)] for name, *raw in json.loads(given)]  # noqa: F821
results = [call(*one) for one in calls]

# The cost of one cell, at different poses so that nothing remembered helps.
corner = next(one for one in calls if one[0] == "CAMBER")[1]
call("CAMBER", corner, 1.0, 0.0)
camber_calls = [counted(call, "CAMBER", corner, travel, 0.0) for travel in (-15.0, 0.1, 14.9)]

answer = json.dumps(
    {
        "python": sys.version,
        "platform": sys.platform,
        "standard": sorted(sys.stdlib_module_names),
        "package": [package_calls, package_modules],
        "catalogue": [catalogue_calls, catalogue_modules],
        "camber_calls": camber_calls,
        "results": results,
    }
)
