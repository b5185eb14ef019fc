"""The calls of formulas that Pyodide is asked for."""

import importlib.metadata

from cornerbook.catalogue import FORMULAS
from cornerbook.cells.example import EXAMPLE
from cornerbook.hosts.excel.names import function_name

from tests.calc.examples import raw_arguments

POSES = [(travel, rack) for travel in (-50.0, -7.5, 0.0, 25.0, 60.0) for rack in (-30.0, 0.0, 4.0)]


def calls():
    """[[formula, argument, ...], ...]: every example, many poses, and some inputs to mend."""
    asked = [[name, *raw_arguments(formula)] for name, formula in FORMULAS.items()]
    for name, formula in FORMULAS.items():
        if [a.name for a in formula.arguments] == ["corner", "travel", "rack"]:
            asked += [[name, EXAMPLE, *pose] for pose in POSES]
    for name in FORMULAS:
        asked += [[name], [name, ""], [name, (("Wheel centre", "x", 1.0, 2.0),)]]
    return asked


def payloads():
    """Every example as Excel's side of xlwings sends its call; a pose out of reach, an empty cell
    and an argument left out."""
    asked = [payload(name, *raw_arguments(formula)) for name, formula in FORMULAS.items()]
    return [
        *asked,
        payload("CAMBER", EXAMPLE, 1e6, 0.0),
        payload("CAMBER", EXAMPLE, None, None),
        payload("CAMBER", EXAMPLE, "", 5.0),
        payload("CAMBER", ""),
    ]


def payload(name, *raw):
    """What Excel's side of xlwings sends for a call."""
    given = [as_cells(value) for value in raw]
    return {
        "func_name": function_name(name),
        "args": [one if one is None or isinstance(one, list) else [[one]] for one in given],
        "caller_address": "Sheet1!A1",
        "client": "Office.js",
        "version": importlib.metadata.version("xlwings"),
        "date_format": "dd/mm/yyyy",
        "culture_info_name": "en-GB",
        "runtime": "1.4",
    }


def as_cells(value):
    """An argument as Excel hands it over: rows as lists, empty cells as texts without a letter."""
    return [list(row) for row in value] if isinstance(value, tuple) else value
