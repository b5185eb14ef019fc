"""Runs inside Pyodide: the user's `main.py` of xlwings Lite, registered and called as there.

Finds `given`, the JSON of {"main": text, "payloads": [...]}; leaves `answer`, the JSON of what
the test asks about. Sent as text, so it must stand alone.
"""

import json
import os
import sys
import types

# The second one makes `xlwings.func` register, as it does inside Excel.
os.environ.update(XLWINGS_LICENSE_KEY="noncommercial", XLWINGS_ON_SERVER="true")

# What a program before this one has loaded of the package is loaded anew.
for loaded in [name for name in sys.modules if name.split(".")[0] == "cornerbook"]:
    del sys.modules[loaded]


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


def now(coroutine):
    """The result of a coroutine that never waits for anything, as those here do not."""
    try:
        coroutine.send(None)
    except StopIteration as end:
        return end.value
    raise RuntimeError("it waits for something")


told = json.loads(given)  # noqa: F821

import xlwings.server  # noqa: E402

before = set(sys.modules)
main = types.ModuleType("main")
main_calls = counted(exec, told["main"], vars(main))
loaded = sorted(set(sys.modules) - before)

results = [now(xlwings.server.custom_functions_call(one, main)) for one in told["payloads"]]

payload = next(one for one in told["payloads"] if one["func_name"].endswith("_CAMBER"))


def camber(travel):
    """One cell, as Lite works it out."""
    arguments = [payload["args"][0], [[travel]], [[0.0]]]
    now(xlwings.server.custom_functions_call({**payload, "args": arguments}, main))


camber_calls = [counted(camber, travel) for travel in (-5.0, 0.1, 4.9)]

answer = json.dumps(
    {
        "xlwings": xlwings.__version__,
        "standard": sorted(sys.stdlib_module_names),
        "loaded": loaded,
        "main_calls": main_calls,
        "metadata": xlwings.server.custom_functions_meta(main),
        "results": results,
        "camber_calls": camber_calls,
    }
)
