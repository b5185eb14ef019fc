"""The catalogue registered as xlwings Lite registers it, and called as Excel calls it."""

import functools
import types

from cornerbook.hosts.excel.names import function_name

from tests.excel.xlwings_parts import now, server, xlwings

NA = {"type": "Error", "errorType": "NotAvailable"}
"""What Excel shows as #N/A."""


def error_cell(text, kind):
    """A cell that holds an error, as Excel hands it over: error_cell("#DIV/0!", "Div0")."""
    return {"type": "Error", "errorType": kind, "basicType": "Error", "basicValue": text}


@functools.lru_cache(maxsize=1)
def user_module():
    """A stand-in for the user's `main.py`, with every function registered."""
    from cornerbook.hosts.excel import lite  # imports xlwings, which needs its key by then

    module = types.ModuleType("main")
    vars(module).update(lite.functions(server))
    return module


def metadata():
    """What Excel is told of the functions: the JSON metadata of custom functions, as a dict."""
    return server.custom_functions_meta(user_module())


def excel_call(name, *arguments, runtime="1.4", module=None):
    """What Excel gets for CORNER.name(arguments).

    arguments: as Excel hands them over, each a list of rows, or None where it is left out; a
    plain value stands for one cell. runtime: the version of Excel's own part for custom
    functions. Returns a list of rows.
    """
    payload = {
        "func_name": function_name(name),
        "args": [a if a is None or isinstance(a, list) else [[a]] for a in arguments],
        "caller_address": "Sheet1!A1",
        "client": "Office.js",
        "version": xlwings.__version__,
        "date_format": "dd/mm/yyyy",
        "culture_info_name": "en-GB",
        "runtime": runtime,
    }
    return now(server.custom_functions_call(payload, module or user_module()))
