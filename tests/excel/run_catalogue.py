"""Runs inside Pyodide: imports the package, calls formulas, says what was loaded and how long.

Finds `given`, the JSON of [[formula, argument, ...], ...]; leaves `answer`, the JSON of what
the test asks about. Sent as text, so it must stand alone.
"""

import json
import sys
import time


def timed_import(name):
    """Seconds that an import takes, and the names of the modules that it brought in."""
    before, started = set(sys.modules), time.perf_counter()
    __import__(name)
    return time.perf_counter() - started, sorted(set(sys.modules) - before)


def as_cells(value):
    """Arguments as a host gives them: blocks are tuples of rows, which JSON makes lists."""
    return tuple(map(as_cells, value)) if isinstance(value, list) else value


package_seconds, package_modules = timed_import("cornerbook")
catalogue_seconds, catalogue_modules = timed_import("cornerbook.catalogue")

from cornerbook.catalogue import call  # noqa: E402

calls = [[name, *map(as_cells, raw)] for name, *raw in json.loads(given)]  # noqa: F821
results = [call(*one) for one in calls]

# The cost of one cell, at different poses so that nothing remembered helps.
corner = next(one for one in calls if one[0] == "CAMBER")[1]
times = 300
call("CAMBER", corner, 1.0, 0.0)
started = time.perf_counter()
for i in range(times):
    call("CAMBER", corner, 0.1 * i - 15.0, 0.0)
camber_seconds = (time.perf_counter() - started) / times

answer = json.dumps(
    {
        "python": sys.version,
        "platform": sys.platform,
        "standard": sorted(sys.stdlib_module_names),
        "package": [package_seconds, package_modules],
        "catalogue": [catalogue_seconds, catalogue_modules],
        "camber_seconds": camber_seconds,
        "results": results,
    }
)
