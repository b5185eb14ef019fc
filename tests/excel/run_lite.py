"""Runs inside Pyodide: the user's `main.py` of xlwings Lite, registered and called as there.

Finds `given`, the JSON of {"main": text, "payloads": [...]}; leaves `answer`, the JSON of what
the test asks about. Sent as text, so it must stand alone.
"""

import json
import sys
import time
import types


def now(coroutine):
    """The result of a coroutine that never waits for anything, as those here do not."""
    try:
        coroutine.send(None)
    except StopIteration as end:
        return end.value
    raise RuntimeError("it waits for something")


told = json.loads(given)  # noqa: F821

import xlwings.server  # noqa: E402

before, started = set(sys.modules), time.perf_counter()
main = types.ModuleType("main")
exec(told["main"], vars(main))
seconds = time.perf_counter() - started
loaded = sorted(set(sys.modules) - before)

results = [now(xlwings.server.custom_functions_call(one, main)) for one in told["payloads"]]

payload = next(one for one in told["payloads"] if one["func_name"].endswith("_CAMBER"))
times = 100
started = time.perf_counter()
for i in range(times):
    arguments = [payload["args"][0], [[0.1 * i - 5.0]], [[0.0]]]
    now(xlwings.server.custom_functions_call({**payload, "args": arguments}, main))
camber_seconds = (time.perf_counter() - started) / times

answer = json.dumps(
    {
        "xlwings": xlwings.__version__,
        "standard": sorted(sys.stdlib_module_names),
        "loaded": loaded,
        "seconds": seconds,
        "metadata": xlwings.server.custom_functions_meta(main),
        "results": results,
        "camber_seconds": camber_seconds,
    }
)
