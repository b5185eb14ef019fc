"""What Pyodide tells of our wheel, asked of one in a run: to start takes most of its time."""

import json

from cornerbook.hosts.excel.texts import main_py

from tests.excel import wheels
from tests.excel.asked import calls, payloads
from tests.excel.node import HERE, NodeMissing, found, run


def lock():
    """What the installed Pyodide says of itself and of the packages built for it."""
    found()
    text = (HERE / "node_modules" / "pyodide" / "pyodide-lock.json").read_text(encoding="utf-8")
    return json.loads(text)


def catalogue_told(once):
    """What `run_catalogue.py` told, with our wheel alone."""
    return _told(once)["catalogue"]


def lite_told(once):
    """What `run_lite.py` told, with the wheel of xlwings besides."""
    told = _told(once)
    if "missing" in told:
        raise NodeMissing(told["missing"])
    return told["lite"]


def _told(once):
    return json.loads(once.file("pyodide.json", lambda: _asked(once)).read_text(encoding="utf-8"))


def _asked(once):
    programs = {"catalogue": _program("run_catalogue.py", wheels.ours(once), calls())}
    told = {}
    info = lock()["info"]
    try:
        theirs = wheels.xlwings(info["python"], info["abi_version"])
    except NodeMissing as problem:
        told["missing"] = str(problem)
    else:
        given = {"main": main_py(), "payloads": payloads()}
        programs["lite"] = _program("run_lite.py", theirs, given)
    answers = run("pyodide_run.mjs", {"programs": list(programs.values())})["answers"]
    told.update(zip(programs, map(json.loads, answers), strict=True))
    return json.dumps(told).encode()


def _program(name, wheel, given):
    text = (HERE / name).read_text(encoding="utf-8")
    return {"wheel": str(wheel), "text": text, "given": json.dumps(given)}
